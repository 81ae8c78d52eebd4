"""Rows for stars that people name: proper names to V 6, Greek letters to V 4."""

from typing import Any

from assets.build.targets.rows import Book, Row
from core.catalogue.designation import key
from core.catalogue.target import TargetKind

__all__ = ["add_stars"]

_SUPERSCRIPTS = str.maketrans("¹²³⁴⁵⁶⁷⁸⁹", "123456789")


def add_stars(book: Book, stars: list[dict[str, Any]]) -> int:
    """Add stars, the brightest first so that it keeps a name that several share."""
    taken: set[str] = set()
    for star in sorted(stars, key=lambda s: float(s["magnitude"])):
        designations = _designations(star)
        if key(designations[0]) in taken:  # the fainter of a pair under one letter
            designations = [designations[-1], *designations[:-1]]
        taken.add(key(designations[0]))
        name = star["name"]
        names = [name] if name and key(name) not in taken else []
        taken.update(map(key, names))
        book.add(
            Row(
                ident=designations[0], kind=TargetKind.STAR,
                ra_deg=star["ra_deg"], dec_deg=star["dec_deg"],
                magnitude=star["magnitude"], band="V", angle_status="", fixed_ident=True,
                source="Hipparcos, open list", names=names, aliases=designations,
            )
        )  # fmt: skip
    return len(stars)


def _designations(star: dict[str, Any]) -> list[str]:
    """Greek letter, number and Hipparcos number, with the short and the full genitive."""
    where = [star["constellation"], star["genitive"]]
    marks = [star["bayer"].translate(_SUPERSCRIPTS), star["flamsteed"]]
    found = [f"{mark} {place}" for mark in marks for place in where if mark and place]
    letter = marks[0].rstrip("123456789")
    if letter != marks[0] and marks[0].endswith("1"):
        found += [f"{letter} {place}" for place in where if place]
    return [*found, f"HIP {star['hip']}"]
