"""Where hypothesis looks: the whole sphere, its poles and its seam."""

from hypothesis import strategies as st

from tests.core.skies import AWKWARD_SKIES

__all__ = ["centres", "position_angles", "spots"]

_ANY_RA = st.floats(0.0, 360.0, exclude_max=True)
_NEAR_POLE = st.floats(-9.0, 0.0).map(lambda power: 90.0 - 10.0**power)
_ANY_DEC = st.one_of(
    st.floats(-90.0, 90.0), _NEAR_POLE, _NEAR_POLE.map(lambda dec: -dec), st.sampled_from([90, -90])
)

#: (ra_deg, dec_deg), the awkward ones among them.
centres = st.one_of(
    st.tuples(_ANY_RA, _ANY_DEC),
    st.sampled_from([(sky.ra_deg, sky.dec_deg) for sky in AWKWARD_SKIES]),
)
#: Degrees.
position_angles = st.one_of(st.sampled_from([0.0, 90.0, 180.0, 270.0, 45.0]), _ANY_RA)
#: (distance from the centre to 80 degrees, position angle), degrees.
spots = st.tuples(
    st.one_of(st.floats(0.0, 80.0), st.floats(-6.0, 0.0).map(lambda power: 10.0**power)),
    position_angles,
)
