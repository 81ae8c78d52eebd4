"""The rows of a rig's figures in plain words.

Lengths in mm, angles in degrees and arcseconds, masses in kg, each written with its unit.
"""

from core.gear.checks import Conditions
from core.gear.money.prices import money_words
from core.gear.optics.resolution import resolution_arcsec
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import slots_of
from core.sheets.rig_sheet.content import Figure, PartLine

__all__ = [
    "field_words",
    "figures_of",
    "load_words",
    "mass_words",
    "nights_words",
    "on_mount_words",
    "optics_words",
    "part_lines",
    "scale_words",
    "slot_words",
]

_GAP = "\N{NO-BREAK SPACE}"
_UNKNOWN = f"not{_GAP}known"
#: Slots of one part, in words; the others go by what the part is for.
_SLOTS = {"telescope": "telescope", "camera": "camera", "corrector": "corrector", "mount": "mount"}
#: The order of a list of parts: along the light, what guides, what carries, the rest.
_ORDER = (
    *("telescope", "corrector", "adapter", "spacer", "off-axis guider", "filter drawer"),
    *("filter wheel", "filter", "camera", "guide scope", "guide camera", "guiding", "focusing"),
    *("mount", "tripod", "power", "other"),
)


def part_lines(rig: Rig, currency: str) -> tuple[PartLine, ...]:
    """List every piece of a rig in the order of the light, then what carries and the rest.

    Parameters
    ----------
    rig : Rig
    currency : str
        Of its prices.
    """
    slots = sorted(slots_of(rig).items(), key=lambda held: _order(held[0].field, held[1]))
    return tuple(
        PartLine(
            slot_words(slot.field, getattr(part, "kind", "")),
            part.name,
            part.mass_kg,
            part.price,
            mass_words(part.mass_kg),
            _UNKNOWN if part.price is None else money_words(part.price, currency),
        )
        for slot, part in slots
    )


def _order(field: str, part: Part) -> int:
    """Give the place of a part in the list."""
    return _ORDER.index(slot_words(field, getattr(part, "kind", "")))


def slot_words(field: str, kind: str) -> str:
    """Say what a slot is for."""
    return _SLOTS.get(field) or kind or "other"


def optics_words(rig: Rig) -> str:
    """Give aperture, focal length and ratio: "80/384 f/4.8"."""
    return f"{rig.aperture_mm:.4g}/{rig.focal_length_mm:.5g} f/{rig.focal_ratio:.3g}"


def field_words(rig: Rig) -> str:
    """Give width and height of the field."""
    return f"{_angle(rig.width_deg)} × {_angle(rig.height_deg)}"


def scale_words(rig: Rig) -> str:
    """Give the image scale."""
    return f"{rig.scale_arcsec_px:.3g}″/px"


def mass_words(mass_kg: float | None) -> str:
    """Give a mass, or that it is not known."""
    return _UNKNOWN if mass_kg is None else f"{mass_kg:.3g}{_GAP}kg"


def on_mount_words(rig: Rig) -> str:
    """Give what the mount carries, or that its mass is not known."""
    known = rig.mass_kg is not None
    return f"{mass_words(rig.mass_kg)} on the mount" if known else "mass not known"


def load_words(rig: Rig) -> str:
    """Give what the mount carries of what it is rated for, or that it is not known."""
    part = rig.load_fraction
    return _UNKNOWN if part is None else f"{100.0 * part:.3g}{_GAP}%"


def nights_words(nights: Conditions) -> str:
    """Say for which nights the findings hold."""
    return (
        f"Judged for seeing of {nights.seeing_arcsec:g}″, guiding to "
        f"{nights.guide_rms_arcsec:g}″, exposures of {nights.exposure_s:g} s, latitude "
        f"{nights.latitude_deg:g}° and an axis {nights.polar_error_arcmin:g}′ off the pole."
    )


def figures_of(rig: Rig, nights: Conditions) -> tuple[Figure, ...]:
    """Derive the figures of a rig.

    Parameters
    ----------
    rig : Rig
    nights : Conditions
        Seeing and guiding blur the stars.
    """
    camera = rig.camera
    star = resolution_arcsec(
        rig, seeing_arcsec=nights.seeing_arcsec, guide_rms_arcsec=nights.guide_rms_arcsec
    )
    return (
        Figure(
            "optics",
            f"{rig.aperture_mm:.4g} mm, {rig.focal_length_mm:.5g} mm, f/{rig.focal_ratio:.3g}",
            "aperture, focal length with its corrector, and their ratio: the smaller, the "
            "sooner faint nebulae show",
        ),
        Figure("field", field_words(rig), "what one picture takes in; the Moon is 0.5° wide"),
        Figure("scale", scale_words(rig), "how much of the sky one pixel sees"),
        Figure(
            "sensor",
            f"{camera.width_mm:.3g} × {camera.height_mm:.3g} mm, "
            f"{camera.columns} × {camera.rows} px",
            f"each pixel {camera.pixel_um:.3g} µm wide",
        ),
        Figure(
            "star width",
            f"{star:.2g}″, {star / rig.scale_arcsec_px:.2g} px",
            "how wide air, guiding and aperture make a star",
        ),
        Figure("on the mount", mass_words(rig.mass_kg), _load(rig)),
        Figure("to carry", mass_words(rig.carried_kg), "all parts listed here"),
    )


def _load(rig: Rig) -> str:
    """Say what the mount is rated for, as it is used here."""
    if rig.mount is None:
        return "no mount is listed"
    way = "with" if rig.balanced else "without"
    if rig.rated_load_kg is None:
        return f"the mount's rating {way} counterweight is not known"
    rated = f"of {rig.rated_load_kg:.3g} kg that the mount is rated for {way} counterweight"
    return rated if rig.load_fraction is None else f"{load_words(rig)} {rated}"


def _angle(angle_deg: float) -> str:
    """Write an angle with the unit that suits its size."""
    if angle_deg >= 0.95:
        return f"{angle_deg:.3g}°"
    return f"{angle_deg * 60.0:.3g}′" if angle_deg >= 0.95 / 60.0 else f"{angle_deg * 3600:.3g}″"
