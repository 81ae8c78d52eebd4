"""A small shelf and a rig from it, and ways to make others, for the tests of swaps."""

from collections.abc import Sequence
from typing import Literal

from core.gear.parts import Camera, Mount, OtherPart, Telescope
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf

__all__ = [
    "Guider",
    "Named",
    "NamedGuider",
    "camera",
    "mount",
    "other",
    "rig_of",
    "shelf_of",
    "telescope",
]


class Named(Telescope):
    """A telescope that names its alternatives."""

    alternatives: tuple[str, ...] = ()


class Guider(OtherPart):
    """A part for guiding that says which it is, and its pixel pitch."""

    kind: Literal["guide scope", "guide camera", "off-axis guider"]
    pixel_um: float | None = None


class NamedGuider(Guider):
    """A guider that names its alternatives."""

    alternatives: tuple[str, ...] = ()


def telescope(name: str, focal_length_mm: float, price: float | None, **more: object) -> Telescope:
    figures = {"aperture_mm": focal_length_mm / 5, "mass_kg": focal_length_mm / 150, **more}
    return Telescope(name=name, focal_length_mm=focal_length_mm, price=price, **figures)


def camera(name: str, columns: int, price: float | None, **more: object) -> Camera:
    figures = {"rows": columns * 2 // 3, "pixel_um": 3.76, "mass_kg": 0.6, **more}
    return Camera(name=name, columns=columns, price=price, **figures)


def mount(name: str, load_kg: float, price: float | None) -> Mount:
    return Mount(name=name, load_balanced_kg=load_kg, mass_kg=load_kg / 2, price=price)


def other(name: str, price: float | None, **more: object) -> OtherPart:
    return OtherPart(name=name, price=price, mass_kg=0.4, **more)


def shelf_of(currency: str = "EUR", **parts: Sequence[object]) -> Shelf:
    return Shelf(currency=currency, **{kind: tuple(row) for kind, row in parts.items()})


def rig_of(shelf: Shelf, telescope: int = 0, camera: int = 0, mount: int = 0) -> Rig:
    """Build a rig of the shelf's parts by their places, with all its other parts."""
    return Rig(
        name="rig",
        telescope=shelf.telescopes[telescope],
        camera=shelf.cameras[camera],
        mount=shelf.mounts[mount],
        others=shelf.others,
    )
