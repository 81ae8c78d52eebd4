"""Brings what a frame says together with what the user chose, into one set of figures.

Focal length: what is typed into a header is often the telescope's nominal one, without its
reducer; the scale on the sky is measured. Where the two agree within 3 % the typed one
stands, else the measured one, and both are offered. f = p / tan(1 px): exact in the plane
of projection, and f = 206264.806 p / s within 1e-9 for pixels of arcseconds.

Sources: reference of scale, focal ratio: textbook geometry; the 3 % is common practice.
"""

from collections.abc import Iterable

from core.gear.from_frame.evidence import Evidence, Wanted
from core.gear.from_frame.figure import FIELDS, Choice, Figure, Option
from core.gear.from_frame.told import RULES
from core.gear.rig import ARCSEC_PER_RAD

__all__ = ["AGREE", "differs", "measured_mm", "resolved"]

#: Two figures for the same thing that differ by no more than this agree.
AGREE = 0.03
Resolved = tuple[tuple[Figure, ...], tuple[Choice, ...], tuple[str, ...]]


def differs(one: float, other: float, *, by: float = AGREE) -> bool:
    """Tell whether two figures differ by more than a fraction of the second."""
    return abs(one / other - 1.0) > by


def measured_mm(pixel_um: float, binning: int, scale_arcsec_px: float) -> float:
    """Give the focal length that a scale on the sky comes from.

    Parameters
    ----------
    pixel_um : float
        Pitch of the sensor.
    binning : int
        How many of its pixels make one of the picture.
    scale_arcsec_px : float
        Of the picture.

    Examples
    --------
    >>> round(measured_mm(3.76, 1, 1.938889), 3)
    400.0
    """
    return pixel_um * binning / 1000.0 * ARCSEC_PER_RAD / scale_arcsec_px


def resolved(evidence: Evidence, wanted: Wanted) -> Resolved:
    """Give figures in their order, the choices left, and remarks.

    Parameters
    ----------
    evidence : Evidence
    wanted : Wanted
        A figure given stands in place of what the frame says.
    """
    remarks = list(evidence.remarks)
    given = {field: Figure(field, value, "given") for field, value in wanted.given.items()}
    pixel, pixel_choice = given.get("pixel_um"), None
    if pixel is None:
        pixel, pixel_choice = _pixel(evidence, wanted)
    focal, focal_choice = given.get("focal_length_mm"), None
    if focal is None:
        focal, focal_choice = _focal(evidence, wanted, pixel)
    aperture = given.get("aperture_mm") or _aperture(evidence, focal, remarks)
    found = {figure.field: figure for figure in (*evidence.others, evidence.optics.ratio) if figure}
    found |= {figure.field: figure for figure in (focal, aperture, pixel) if figure} | given
    choices = tuple(choice for choice in (pixel_choice, focal_choice) if choice)
    return _in_order(found.values()), choices, tuple(remarks)


def _in_order(figures: Iterable[Figure]) -> tuple[Figure, ...]:
    """Sort figures as they are shown."""
    return tuple(sorted(figures, key=lambda figure: list(FIELDS).index(figure.field)))


def _pixel(evidence: Evidence, wanted: Wanted) -> tuple[Figure | None, Choice | None]:
    """Take a reading of the pixel pitch: the chosen one, else the best."""
    pixels = evidence.pixels
    if not pixels.options:
        return None, None
    chosen = wanted.chosen.get("pixel_um")
    option = next((one for one in pixels.options if one.key == chosen), pixels.options[0])
    sure = pixels.sure or chosen is not None
    why = "as you chose" if chosen is not None else pixels.why
    figure = Figure("pixel_um", option.value, option.source, why, sure)
    if len(pixels.options) < 2:
        return figure, None
    return figure, Choice("pixel_um", pixels.options, option.key)


def _focal(
    evidence: Evidence, wanted: Wanted, pixel: Figure | None
) -> tuple[Figure | None, Choice | None]:
    """Take the focal length that is told, or the one that the sky shows."""
    told, sky = evidence.optics.focal, _from_sky(evidence, pixel)
    if told is None or sky is None:
        return told or sky, None
    one, other = float(told.value), float(sky.value)
    if not differs(other, one):
        return told.with_remark(_off(other, one)), None
    chosen = wanted.chosen.get("focal_length_mm")
    options = (
        Option("sky", other, f"{other:.5g} mm, by the sky"),
        Option("told", one, f"{one:.5g} mm, by {told.source}"),
    )
    if chosen == "told":
        told = told.with_remark(f"as you chose; {_off(other, one)}", sure=True)
        return told, Choice("focal_length_mm", options, "told")
    words = f"{told.source} says {one:.5g} mm; {_off(other, one)}"
    words += ", as with a reducer or extender that it does not count" if chosen is None else ""
    return sky.with_remark(words, sure=chosen == "sky"), Choice("focal_length_mm", options, "sky")


def _from_sky(evidence: Evidence, pixel: Figure | None) -> Figure | None:
    """Work the focal length out from the scale on the sky and the pixel pitch."""
    scale = evidence.optics.scale
    if scale is None or pixel is None:
        return None
    binning = evidence.pixels.binning[0]
    focal_mm = measured_mm(float(pixel.value), binning, scale.x_arcsec_px)
    rule = RULES["focal_length_mm"]
    if not rule.low <= focal_mm <= rule.high:
        return None
    source = f"{scale.source} and the pixel pitch"
    return Figure("focal_length_mm", focal_mm, source, sure=pixel.sure)


def _off(measured: float, told: float) -> str:
    """Say by how much a measured focal length differs from the one told."""
    share = (measured / told - 1.0) * 100.0
    if abs(share) < 0.05:
        return "the sky shows the same"
    return f"the sky shows {measured:.5g} mm, {abs(share):.1f} % {'more' if share > 0 else 'less'}"


def _aperture(evidence: Evidence, focal: Figure | None, remarks: list[str]) -> Figure | None:
    """Take the aperture that is told, or work it out from focal ratio or area."""
    optics = evidence.optics
    told_focal = optics.focal or focal
    if optics.aperture is not None:
        aperture = optics.aperture
        if optics.ratio is not None and told_focal is not None:
            ratio = float(told_focal.value) / float(aperture.value)
            if differs(ratio, float(optics.ratio.value)):
                remarks.append(
                    f"{told_focal.source} and {aperture.source} make f/{ratio:.3g}, "
                    f"{optics.ratio.source} says f/{float(optics.ratio.value):.3g}"
                )
        return aperture
    if optics.ratio is not None and told_focal is not None:
        value, rule = float(told_focal.value) / float(optics.ratio.value), RULES["aperture_mm"]
        if rule.low <= value <= rule.high:
            source = f"{told_focal.source} / {optics.ratio.source}"
            return Figure("aperture_mm", value, source, sure=told_focal.sure)
        remarks.append(f"{optics.ratio.source} gives an aperture of {value:.4g} mm; left out")
    return optics.area_aperture
