"""Fields, scales and sums of rigs against published and derived values."""

import math

import astropy.units as u
import numpy as np
import pytest
from astropy.coordinates import SkyCoord
from astropy.wcs import WCS
from hypothesis import given
from hypothesis import strategies as st

from core.errors import InvalidRigError
from core.gear.parts import Camera, Mount, OtherPart, Telescope
from core.gear.rig import Rig, RigNumbers, angle_of_deg, rig_from_numbers
from core.sky.footprint import Footprint

APS_C: RigNumbers = {
    "focal_length_mm": 400.0,
    "aperture_mm": 80.0,
    "pixel_um": 3.76,
    "columns": 6248,
    "rows": 4176,
}


@pytest.mark.parametrize(
    ("focal_length_mm", "field_deg", "small_angle_deg"),
    [
        (400.0, 5.15314, 5.15662),
        (50.0, 39.5978, 41.2530),
        (24.0, 73.7398, 85.9437),
        (14.0, 104.2500, 147.3320),
    ],
)
def test_36_mm_spans_the_published_fields(
    focal_length_mm: float, field_deg: float, small_angle_deg: float
) -> None:
    """Angle of view 2 atan(d / 2f) of a 36 mm wide frame, textbook geometry.

    The values for 50, 24 and 14 mm are those of any lens table (39.6, 73.7, 104.3
    degrees, common practice); the small angle d / f stands beside them to tell the two
    formulae apart.
    """
    assert angle_of_deg(36.0, focal_length_mm) == pytest.approx(field_deg, rel=1.2e-6)
    assert math.degrees(36.0 / focal_length_mm) == pytest.approx(small_angle_deg, rel=1.2e-6)


def test_image_scale_is_206264_806_times_pitch_over_focal_length() -> None:
    """206.264806 x 3.76 / 400 = 1.938889 arcsec/px (1 rad = 206264.806247")."""
    assert rig_from_numbers("one", **APS_C).scale_arcsec_px == pytest.approx(1.938889, rel=1e-6)


def test_the_diagonal_comes_from_the_diagonal_of_the_sensor() -> None:
    """sqrt(36^2 + 24^2) = 43.2666 mm; 2 atan(43.2666 / 100) = 46.7930 degrees, by hand.

    46.8 degrees is what lens tables give for 50 mm on full frame (common practice).
    """
    rig = rig_from_numbers(
        "full frame", focal_length_mm=50, aperture_mm=25, pixel_um=6.0, columns=6000, rows=4000
    )
    assert rig.diagonal_deg == pytest.approx(46.7930, abs=5e-5)
    assert rig.diagonal_deg < math.hypot(rig.width_deg, rig.height_deg)


@pytest.mark.parametrize(
    ("factor", "focal_length_mm", "focal_ratio"),
    [(1.0, 608.0, 7.6), (0.76, 462.08, 5.776), (0.8, 486.4, 6.08), (1.5, 912.0, 11.4)],
)
def test_a_corrector_multiplies_focal_length_and_ratio_and_leaves_the_aperture(
    factor: float, focal_length_mm: float, focal_ratio: float
) -> None:
    """f_eff = m f and N_eff = m N with D unchanged (thin lens); products by hand."""
    numbers: RigNumbers = {**APS_C, "focal_length_mm": 608.0, "factor": factor}
    rig = rig_from_numbers("eighty", **numbers)
    assert rig.focal_length_mm == pytest.approx(focal_length_mm, rel=1e-12)
    assert rig.focal_ratio == pytest.approx(focal_ratio, rel=1e-12)
    assert rig.aperture_mm == 80.0
    assert (rig.corrector is None) == (factor == 1.0)


def test_the_field_is_what_a_fits_header_of_this_scale_spans() -> None:
    """The separation of the outer pixel edges in wcslib's TAN equals the field."""
    rig = rig_from_numbers("wide", **{**APS_C, "focal_length_mm": 50.0, "aperture_mm": 18.0})
    wcs = WCS(naxis=2)
    wcs.wcs.ctype = ["RA---TAN", "DEC--TAN"]
    wcs.wcs.crval = [0.0, 0.0]
    wcs.wcs.crpix = [6249 / 2, 4177 / 2]
    wcs.wcs.cdelt = [-rig.scale_arcsec_px / 3600, rig.scale_arcsec_px / 3600]
    ends = np.array([[0.5, 4177 / 2], [6248.5, 4177 / 2], [6249 / 2, 0.5], [6249 / 2, 4176.5]])
    sky = SkyCoord(wcs.wcs_pix2world(ends, 1), unit=u.deg)
    assert rig.width_deg == pytest.approx(sky[0].separation(sky[1]).deg, rel=1e-9)
    assert rig.height_deg == pytest.approx(sky[2].separation(sky[3]).deg, rel=1e-9)


def test_solid_angle_of_a_wide_field_is_not_width_times_height() -> None:
    """120 x 90 degrees cover 8654.239620 square degrees: 4 asin(sin(w/2) sin(h/2))."""
    frame = Footprint(0.0, 0.0, 120.0, 90.0)
    assert frame.solid_angle_deg2 == pytest.approx(8654.239620, rel=1e-9)


@pytest.mark.parametrize(
    "wrong",
    [
        ("focal_length_mm", -400.0, "focal length"),
        ("focal_length_mm", math.nan, "focal length"),
        ("focal_length_mm", math.inf, "focal length"),
        ("aperture_mm", 0.0, "aperture"),
        ("aperture_mm", 4000.0, "focal ratio"),
        ("columns", 0, "columns"),
        ("rows", 1_000_001, "rows"),
        ("pixel_um", 0.0, "pixel pitch"),
        ("factor", 0.0, "factor"),
        ("factor", math.nan, "factor"),
    ],
)
def test_a_rig_in_numbers_names_the_number_that_cannot_be(wrong: tuple[str, float, str]) -> None:
    field, value, words = wrong
    with pytest.raises(InvalidRigError, match=f"^{words} .*must") as caught:
        rig_from_numbers("one", **{**APS_C, field: value})  # type: ignore[typeddict-item]
    assert "\n" not in str(caught.value)


def test_a_corrector_may_not_bring_the_ratio_below_what_optics_can() -> None:
    numbers: RigNumbers = {**APS_C, "focal_length_mm": 100.0, "aperture_mm": 100.0}
    assert rig_from_numbers("fast", **numbers).focal_ratio == 1.0
    with pytest.raises(InvalidRigError, match=r"f/0\.4"):
        rig_from_numbers("faster", **numbers, factor=0.4)


def rig_with(mount: Mount | None = None, **changes: object) -> Rig:
    fields = {
        "name": "kit",
        "telescope": Telescope(
            name="tube", aperture_mm=80.0, focal_length_mm=480.0, mass_kg=3.2, price=980.0
        ),
        "camera": Camera(
            name="sensor", columns=100, rows=100, pixel_um=3.0, mass_kg=0.7, price=1500.0
        ),
        "mount": mount,
        **changes,
    }
    return Rig(**fields)  # type: ignore[arg-type]


def test_the_mount_carries_neither_itself_nor_what_stands_on_the_ground() -> None:
    mount = Mount(name="mount", mass_kg=9.8, price=1420.0, load_balanced_kg=15.0)
    guide = OtherPart(name="guide scope", kind="guiding", mass_kg=0.5, price=260.0)
    tripod = OtherPart(name="tripod", kind="tripod", mass_kg=5.8, price=240.0, on_mount=False)
    rig = rig_with(mount, others=(guide, tripod))
    assert rig.mass_kg == pytest.approx(3.2 + 0.7 + 0.5)
    assert rig.price == pytest.approx(980 + 1500 + 1420 + 260 + 240)
    assert rig.load_fraction == pytest.approx(4.4 / 15.0)


def test_nine_kg_on_a_mount_rated_15_is_60_percent() -> None:
    """The worked example of common practice: 9.0 kg on rated 15 kg is 60 %."""
    mount = Mount(name="mount", load_balanced_kg=15.0)
    load = OtherPart(name="load", mass_kg=9.0 - 3.9)
    assert rig_with(mount, others=(load,)).load_fraction == pytest.approx(0.60)


def test_one_unknown_figure_makes_a_sum_unknown() -> None:
    bare = OtherPart(name="cable")
    rig = rig_with(Mount(name="mount", load_balanced_kg=15.0), others=(bare,))
    assert rig.mass_kg is None
    assert rig.price is None
    assert rig.load_fraction is None


@pytest.mark.parametrize(
    ("kind", "counterweight", "rated"),
    [
        ("equatorial", None, 14.0),
        ("equatorial", False, 9.0),
        ("strain wave", None, 9.0),
        ("strain wave", True, 14.0),
        ("tracker", None, 9.0),
        ("alt-azimuth", None, 9.0),
    ],
)
def test_the_rating_that_applies_is_the_one_of_the_mount_as_it_is_used(
    kind: str, counterweight: bool | None, rated: float
) -> None:
    mount = Mount.from_json(
        f'{{"name": "m", "kind": "{kind}", "load_bare_kg": 9, "load_balanced_kg": 14}}'
    )
    rig = rig_with(mount, counterweight=counterweight)
    assert rig.rated_load_kg == rated
    assert rig.load_fraction == pytest.approx(3.9 / rated)


def test_without_a_mount_there_is_no_load() -> None:
    assert rig_with().rated_load_kg is None
    assert rig_with().load_fraction is None
    assert rig_with(Mount(name="unrated")).load_fraction is None


@given(
    focal=st.floats(10.0, 4000.0),
    pitch=st.floats(1.0, 20.0),
    columns=st.integers(10, 20_000),
    stretch=st.floats(0.2, 5.0),
)
def test_stretching_lengths_alike_changes_no_angle(
    focal: float, pitch: float, columns: int, stretch: float
) -> None:
    """The unit of length cancels in every angle and ratio."""
    one = rig_from_numbers(
        "a", focal_length_mm=focal, aperture_mm=focal / 5, pixel_um=pitch, columns=columns, rows=9
    )
    other = rig_from_numbers(
        "b",
        focal_length_mm=focal * stretch,
        aperture_mm=focal / 5 * stretch,
        pixel_um=pitch * stretch,
        columns=columns,
        rows=9,
    )
    for name in ("width_deg", "height_deg", "diagonal_deg", "scale_arcsec_px", "focal_ratio"):
        assert getattr(other, name) == pytest.approx(getattr(one, name), rel=1e-12)


@given(focal=st.floats(10.0, 4000.0), columns=st.integers(2, 20_000))
def test_a_longer_lens_sees_less_and_a_turned_sensor_sees_the_same(
    focal: float, columns: int
) -> None:
    numbers: RigNumbers = {**APS_C, "focal_length_mm": focal, "aperture_mm": focal / 5}
    rig = rig_from_numbers("a", **{**numbers, "columns": columns})
    longer = rig_from_numbers("b", **{**numbers, "columns": columns, "factor": 1.01})
    turned = rig_from_numbers("c", **{**numbers, "columns": numbers["rows"], "rows": columns})
    assert longer.width_deg < rig.width_deg < 180.0
    assert (turned.height_deg, turned.width_deg) == (rig.width_deg, rig.height_deg)
