"""The tangent (gnomonic, FITS "TAN") projection and the spherical angles beside it.

Conventions: ICRS right ascension and declination in radians; on the plane xi grows
to the east and eta to the north, both as tangents of angles (dimensionless, called
radians). Position angles run from north through east, 0 to 2 pi.

Domain: less than 90 degrees from the tangent point. A direction on or behind the
limb has no image: it comes back as NaN, never as a mirrored point.

Sources: Calabretta & Greisen 2002, A&A 395, 1077 (FITS Paper II), section 5.1.3;
Green 1985, Spherical Astronomy, chapter 13. The working form is the product of a
rotation matrix with unit vectors, which needs no case for poles or the RA seam.
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.errors import BadValueError

__all__ = [
    "TangentPlane",
    "directions",
    "offset_by",
    "position_angle_rad",
    "separation_rad",
    "unit_vectors",
]

Floats = NDArray[np.float64]

#: Vectors are projected in blocks that stay in the processor's cache.
_BLOCK = 16384
#: A direction whose cosine to the tangent point is this small lies on the limb.
_LIMB_COSINE = 1e-9


def unit_vectors(ra_rad: ArrayLike, dec_rad: ArrayLike) -> Floats:
    """Turn directions into unit vectors.

    Parameters
    ----------
    ra_rad, dec_rad : (N,) array_like
        Radians, ICRS.

    Returns
    -------
    (3, N) float array
        Rows x (RA 0, Dec 0), y (RA 90), z (Dec 90), C-contiguous.

    Examples
    --------
    >>> unit_vectors([0.0], [0.0]).tolist()
    [[1.0], [0.0], [0.0]]
    """
    ra, dec = np.broadcast_arrays(np.atleast_1d(ra_rad), np.atleast_1d(dec_rad))
    cos_dec = np.cos(dec)
    out = np.empty((3, ra.size))
    np.multiply(cos_dec, np.cos(ra), out=out[0])
    np.multiply(cos_dec, np.sin(ra), out=out[1])
    np.sin(dec, out=out[2])
    return out


def directions(vectors: Floats) -> tuple[Floats, Floats]:
    """Turn vectors of any length into RA (0 to 2 pi) and Dec, radians.

    Parameters
    ----------
    vectors : (3, N) float array
        Rows x, y, z as `unit_vectors` gives them.
    """
    ra = np.arctan2(vectors[1], vectors[0])
    ra = np.where(ra < 0.0, ra + 2.0 * math.pi, ra)
    ra = np.where(ra >= 2.0 * math.pi, 0.0, ra)
    return ra, np.arctan2(vectors[2], np.hypot(vectors[0], vectors[1]))


@dataclass(frozen=True)
class TangentPlane:
    """The plane that touches the sky at one point.

    Parameters
    ----------
    ra_deg, dec_deg : float
        The tangent point, ICRS degrees; the right ascension is wrapped to 0..360.

    Raises
    ------
    BadValueError
        When a coordinate is not finite or the declination is beyond a pole.
    """

    ra_deg: float
    dec_deg: float

    def __post_init__(self) -> None:
        if not math.isfinite(self.ra_deg):
            raise BadValueError("right ascension", self.ra_deg, "must be a number in degrees")
        if not -90.0 <= self.dec_deg <= 90.0:
            raise BadValueError("declination", self.dec_deg, "must lie between -90 and +90 degrees")
        object.__setattr__(self, "ra_deg", self.ra_deg % 360.0 % 360.0)

    @cached_property
    def basis(self) -> Floats:
        """Unit vectors east, north and towards the tangent point, as rows (3, 3)."""
        sin_a, cos_a = _sin_cos_deg(self.ra_deg)
        sin_d, cos_d = _sin_cos_deg(self.dec_deg)
        return np.array(
            [
                [-sin_a, cos_a, 0.0],
                [-sin_d * cos_a, -sin_d * sin_a, cos_d],
                [cos_d * cos_a, cos_d * sin_a, sin_d],
            ]
        )

    def forward(self, ra_rad: ArrayLike, dec_rad: ArrayLike) -> tuple[Floats, Floats]:
        """Project directions onto the plane.

        Parameters
        ----------
        ra_rad, dec_rad : array_like, any equal shape
            Radians, ICRS.

        Returns
        -------
        xi, eta : float arrays of that shape
            Radians; NaN at 90 degrees or more from the tangent point.

        Examples
        --------
        The SOFA test case of ``tpxes`` (1.3, 1.55, 2.3, 1.5):

        >>> plane = TangentPlane(math.degrees(2.3), math.degrees(1.5))
        >>> xi, eta = plane.forward(1.3, 1.55)
        >>> f"{float(xi):.9f} {float(eta):.9f}"
        '-0.017532010 0.059629400'
        """
        shape = np.broadcast_shapes(np.shape(ra_rad), np.shape(dec_rad))
        xi, eta = self.forward_vectors(unit_vectors(np.ravel(ra_rad), np.ravel(dec_rad)))
        return xi.reshape(shape), eta.reshape(shape)

    def forward_vectors(self, vectors: Floats) -> tuple[Floats, Floats]:
        """Project unit vectors, the fast way for a stored catalogue.

        Parameters
        ----------
        vectors : (3, N) float array
            As `unit_vectors` gives them.

        Returns
        -------
        xi, eta : (N,) float arrays
            Radians; NaN at 90 degrees or more from the tangent point.
        """
        count = vectors.shape[1]
        out = np.empty((2, count))
        basis = self.basis
        for start in range(0, count, _BLOCK):
            turned = basis @ vectors[:, start : start + _BLOCK]
            depth = turned[2]
            if depth.min() <= _LIMB_COSINE:
                depth = np.where(depth > _LIMB_COSINE, depth, np.nan)
            np.divide(turned[:2], depth, out=out[:, start : start + _BLOCK])
        return out[0], out[1]

    def inverse(self, xi: ArrayLike, eta: ArrayLike) -> tuple[Floats, Floats]:
        """Bring points of the plane back to the sky.

        Parameters
        ----------
        xi, eta : array_like, any equal shape
            Radians on the plane.

        Returns
        -------
        ra_rad, dec_rad : float arrays of that shape
            Right ascension in 0..2 pi.

        Notes
        -----
        The vector towards (xi, eta) is ``centre + xi east + eta north``, which is
        Paper II's inverse without its arctangent cases.
        """
        shape = np.broadcast_shapes(np.shape(xi), np.shape(eta))
        flat = np.stack(
            [np.ravel(np.broadcast_to(xi, shape)), np.ravel(np.broadcast_to(eta, shape))]
        )
        ra, dec = directions(self.vectors_at(flat[0], flat[1]))
        return ra.reshape(shape), dec.reshape(shape)

    def vectors_at(self, xi: Floats, eta: Floats) -> Floats:
        """Vectors (not of unit length) towards points of the plane, (3, N)."""
        east, north, centre = self.basis
        return np.asarray(
            centre[:, None] + east[:, None] * np.ravel(xi) + north[:, None] * np.ravel(eta)
        )

    def homography_to(self, other: "TangentPlane") -> Floats:
        """Give the matrix that carries this plane's points onto another plane.

        Parameters
        ----------
        other : TangentPlane

        Returns
        -------
        (3, 3) float array
            Maps ``(xi, eta, 1)`` to homogeneous coordinates on the other plane. The
            third is the cosine's sign: not positive means behind the other limb.

        Notes
        -----
        Two gnomonic projections of one sphere differ by a projective map exactly.
        """
        turned: Floats = other.basis @ self.basis.T
        return turned


def separation_rad(
    ra1_rad: ArrayLike, dec1_rad: ArrayLike, ra2_rad: ArrayLike, dec2_rad: ArrayLike
) -> Floats:
    """Measure the angle between directions, exact for near and far pairs alike.

    Parameters
    ----------
    ra1_rad, dec1_rad, ra2_rad, dec2_rad : array_like, shapes that broadcast
        Radians.

    Returns
    -------
    float array
        Radians, 0 to pi.

    Notes
    -----
    ``atan2(|a x b|, a.b)`` (Vincenty's special case on the sphere; ERFA ``seps``).
    """
    sin1, cos1 = np.sin(dec1_rad), np.cos(dec1_rad)
    sin2, cos2 = np.sin(dec2_rad), np.cos(dec2_rad)
    turn = np.subtract(ra2_rad, ra1_rad)
    across = np.hypot(cos2 * np.sin(turn), cos1 * sin2 - sin1 * cos2 * np.cos(turn))
    along = sin1 * sin2 + cos1 * cos2 * np.cos(turn)
    return np.asarray(np.arctan2(across, along))


def position_angle_rad(
    ra1_rad: ArrayLike, dec1_rad: ArrayLike, ra2_rad: ArrayLike, dec2_rad: ArrayLike
) -> Floats:
    """Give the position angle of the second direction seen from the first.

    Parameters
    ----------
    ra1_rad, dec1_rad, ra2_rad, dec2_rad : array_like, shapes that broadcast
        Radians.

    Returns
    -------
    float array
        Radians, north through east, 0 to 2 pi.

    Notes
    -----
    Meeus 1998, Astronomical Algorithms, p. 116; ERFA ``pas``.
    """
    turn = np.subtract(ra2_rad, ra1_rad)
    east = np.sin(turn) * np.cos(dec2_rad)
    north = np.sin(dec2_rad) * np.cos(dec1_rad)
    north = north - np.cos(dec2_rad) * np.sin(dec1_rad) * np.cos(turn)
    angle = np.arctan2(east, north) % (2.0 * math.pi)
    return np.asarray(np.where(angle >= 2.0 * math.pi, 0.0, angle))


def offset_by(
    ra_rad: ArrayLike, dec_rad: ArrayLike, pa_rad: ArrayLike, separation: ArrayLike
) -> tuple[Floats, Floats]:
    """Go from a direction along a great circle.

    Parameters
    ----------
    ra_rad, dec_rad : array_like
        Start, radians.
    pa_rad : array_like
        Direction of departure, radians, north through east.
    separation : array_like
        Length of the way, radians.

    Returns
    -------
    ra_rad, dec_rad : float arrays
        Right ascension in 0..2 pi.
    """
    sin_s, cos_s = np.sin(separation), np.cos(separation)
    sin_d, cos_d = np.sin(dec_rad), np.cos(dec_rad)
    forward = cos_s * cos_d - sin_s * np.cos(pa_rad) * sin_d
    across = sin_s * np.sin(pa_rad)
    dec = np.arctan2(sin_d * cos_s + cos_d * sin_s * np.cos(pa_rad), np.hypot(forward, across))
    ra = np.add(ra_rad, np.arctan2(across, forward)) % (2.0 * math.pi)
    return np.asarray(ra), np.asarray(dec)


def _sin_cos_deg(angle_deg: float) -> tuple[float, float]:
    """Sine and cosine that are exact at the quarter turns."""
    quarter = round(angle_deg / 90.0)
    rest = math.radians(angle_deg - 90.0 * quarter)
    sin, cos = math.sin(rest), math.cos(rest)
    return ((sin, cos), (cos, -sin), (-sin, -cos), (-cos, sin))[quarter % 4]
