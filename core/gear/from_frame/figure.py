"""A figure that a frame tells, with where it comes from; and a choice between two readings."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

__all__ = ["FIELDS", "NEEDED", "Choice", "Figure", "Option"]

#: Every figure in the order in which it is shown: words, unit.
FIELDS: Mapping[str, tuple[str, str]] = {
    "focal_length_mm": ("focal length", "mm"),
    "aperture_mm": ("aperture", "mm"),
    "pixel_um": ("pixel pitch", "µm"),
    "columns": ("columns", "px"),
    "rows": ("rows", "px"),
    "sensor": ("sensor", ""),
    "cooled": ("cooling", ""),
    "telescope": ("telescope", ""),
    "camera": ("camera", ""),
    "binning": ("binning", ""),
    "scale_arcsec_px": ("scale of this picture", "″/px"),
    "focal_ratio": ("focal ratio", ""),
    "filter": ("filter", ""),
    "exposure_s": ("exposure", "s"),
    "gain": ("gain", ""),
    "conversion_e_adu": ("conversion", "e-/ADU"),
    "iso": ("sensitivity", "ISO"),
    "temperature_c": ("sensor temperature", "°C"),
    "latitude_deg": ("latitude", "°"),
}
#: Without these there is no rig.
NEEDED = ("focal_length_mm", "aperture_mm", "pixel_um", "columns", "rows")


@dataclass(frozen=True)
class Figure:
    """One figure.

    Parameters
    ----------
    field : str
        A name in `FIELDS`; the unit is in it.
    value : float, int or str
    source : str
        Keyword or tag, or how it was worked out.
    remark : str
        What a person should know of it; may be empty.
    sure : bool
        Whether it needs no second look.
    """

    field: str
    value: float | int | str
    source: str
    remark: str = ""
    sure: bool = True

    @property
    def words(self) -> str:
        """What the figure is."""
        return FIELDS[self.field][0]

    @property
    def unit(self) -> str:
        """Its unit; empty for none."""
        return FIELDS[self.field][1]

    @property
    def value_words(self) -> str:
        """The value with its unit, as a person reads it."""
        if isinstance(self.value, str):
            return self.value
        space = "" if self.unit[:1] in ("", "″", "°") else " "
        return f"{self.value:.6g}{space}{self.unit}"

    def with_remark(self, words: str, *, sure: bool | None = None) -> "Figure":
        """Give it with one more remark."""
        both = f"{self.remark}; {words}" if self.remark else words
        return replace(self, remark=both, sure=self.sure if sure is None else sure)


@dataclass(frozen=True)
class Option:
    """One reading of a figure that may be read in several ways, and where it comes from."""

    key: str
    value: float
    words: str
    source: str = ""


@dataclass(frozen=True)
class Choice:
    """A figure that may be read in several ways, and which way was taken."""

    field: str
    options: tuple[Option, ...]
    taken: str

    @property
    def others(self) -> tuple[Option, ...]:
        """The readings not taken."""
        return tuple(option for option in self.options if option.key != self.taken)
