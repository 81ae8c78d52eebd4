"""Read the object lists, names and stars carried as data by the package `d3-celestial`.

Only facts are taken: designations, positions, diameters, magnitudes and names. Its
right ascensions run from -180 to 180 degrees, its diameters are in arcminutes.
"""

import json
import re
import tarfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.catalogue.designation import canonical, family
from core.catalogue.target import TargetKind

__all__ = ["Listed", "read_lists", "read_names", "read_stars"]

_KINDS = {
    "gg": TargetKind.GALAXY_CLUSTER, "pn": TargetKind.PLANETARY_NEBULA,
    "dn": TargetKind.DARK_NEBULA, "bn": TargetKind.BRIGHT_NEBULA,
    "rn": TargetKind.BRIGHT_NEBULA, "en": TargetKind.BRIGHT_NEBULA,
    "sfr": TargetKind.BRIGHT_NEBULA, "snr": TargetKind.SUPERNOVA_REMNANT,
    "oc": TargetKind.OPEN_CLUSTER, "gc": TargetKind.GLOBULAR_CLUSTER,
}  # fmt: skip
#: The source mistypes about thirty rows; what a catalogue lists settles the kind.
_FORCED = {
    "LDN": TargetKind.DARK_NEBULA, "B": TargetKind.DARK_NEBULA,
    "SNR G": TargetKind.SUPERNOVA_REMNANT, "PK": TargetKind.PLANETARY_NEBULA,
    "PN G": TargetKind.PLANETARY_NEBULA, "vdB": TargetKind.BRIGHT_NEBULA,
    "vdBH": TargetKind.BRIGHT_NEBULA, "Ced": TargetKind.BRIGHT_NEBULA,
    "Cr": TargetKind.OPEN_CLUSTER, "ACO": TargetKind.GALAXY_CLUSTER,
}  # fmt: skip
_GALAXY_LISTS = {"PGC", "UGC", "ESO", "Arp", "VV"}
#: Magnitudes that are not those of the object: opacities, central and embedded stars.
_WITH_MAGNITUDE = {
    TargetKind.GALAXY, TargetKind.OPEN_CLUSTER, TargetKind.GLOBULAR_CLUSTER,
    TargetKind.GALAXY_CLUSTER,
}  # fmt: skip


@dataclass(frozen=True)
class Listed:
    """One entry of the lists."""

    designation: str
    shown: str
    family: str
    kind: TargetKind
    ra_deg: float
    dec_deg: float
    major_arcmin: float | None
    minor_arcmin: float | None
    magnitude: float | None


def _load(package: Path, name: str) -> Any:
    """Read one JSON file of the package."""
    with tarfile.open(package) as archive:
        member = archive.extractfile(f"package/data/{name}")
        if member is None:
            raise FileNotFoundError(name)
        return json.load(member)


def read_lists(package: Path) -> list[Listed]:
    """Read all listed objects; small galaxies (below 1') are left out unless they have a name."""
    named = {designation for designation, _ in read_names(package)}
    features = _load(package, "dsos.20.json")["features"]
    entries = [_listed(feature, named) for feature in features]
    return [entry for entry in entries if entry is not None]


def _listed(feature: dict[str, Any], named: set[str]) -> Listed | None:
    """Turn one feature into an entry."""
    facts = feature["properties"]
    ident = str(feature["id"])
    designation = canonical(ident)
    if designation is None:
        print("designation not understood:", ident)
        return None
    name = family(designation)
    sides = [float(side) for side in re.findall(r"[\d.]+", facts["dim"]) if float(side) > 0.0]
    kind = _FORCED.get(name) or _KINDS.get(facts["type"], TargetKind.GALAXY)
    if name in ("LBN", "Sh2", "RCW") and kind is TargetKind.OPEN_CLUSTER:
        kind = TargetKind.BRIGHT_NEBULA
    small = name in _GALAXY_LISTS and kind is TargetKind.GALAXY and max(sides, default=0.0) < 1.0
    if small and designation not in named:
        return None
    right, declination = feature["geometry"]["coordinates"]
    if abs(declination) > 90.0:
        print("no place on the sky:", ident, right, declination)
        return None
    magnitude = float(facts["mag"] or 999)
    return Listed(
        designation, canonical(facts["desig"]) or designation, name, kind,
        right % 360.0, declination, round(max(sides), 3) if sides else None,
        round(min(sides), 3) if sides else None,
        magnitude if magnitude < 50.0 and kind in _WITH_MAGNITUDE else None,
    )  # fmt: skip


def read_names(package: Path) -> list[tuple[str, str]]:
    """Read (designation, common name) pairs that belong to a designation of a catalogue."""
    names = _load(package, "dsonames.json")
    pairs = [(canonical(ident.replace("DWB", "")), entry["name"]) for ident, entry in names.items()]
    return [(ident, name.strip()) for ident, name in pairs if ident and name.strip()]


def read_stars(package: Path) -> list[dict[str, Any]]:
    """Read the stars to V 6 with a proper name, or to V 4 with a Greek letter or number."""
    names = _load(package, "starnames.json")
    genitives = {
        feature["id"]: feature["properties"].get("gen", "")
        for feature in _load(package, "constellations.json")["features"]
    }
    stars = []
    for feature in _load(package, "stars.6.json")["features"]:
        named = names.get(str(feature["id"]))
        magnitude = float(feature["properties"]["mag"])
        if named and (named.get("name") or (named.get("bayer") and magnitude < 4.0)):
            right, declination = feature["geometry"]["coordinates"]
            stars.append(
                {
                    "hip": int(feature["id"]), "name": named.get("name", "").strip(),
                    "bayer": named.get("bayer") or "", "flamsteed": named.get("flam") or "",
                    "constellation": named.get("c") or "", "ra_deg": right % 360.0,
                    "genitive": genitives.get(named.get("c"), ""),
                    "dec_deg": declination, "magnitude": magnitude,
                }
            )  # fmt: skip
    return stars
