"""The tangent (gnomonic, FITS "TAN") projection of the sky.

Conventions: ICRS right ascension and declination in radians; on the plane xi grows
to the east and eta to the north, both as tangents of angles (dimensionless, called
radians).

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
from core.sky.sphere import (
    directions,
    offset_by,
    position_angle_rad,
    separation_rad,
    unit_vectors,
)

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
#: A point this close to a pole (0.2 milliarcseconds) has no right ascension of its own.
_POLE_COSINE = 1e-9


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

    @classmethod
    def placing(
        cls,
        ra_rad: float,
        dec_rad: float,
        xi: float,
        eta: float,
        *,
        near: "TangentPlane | None" = None,
    ) -> "TangentPlane":
        """Find the plane on which a sky point stands at given plane coordinates.

        Parameters
        ----------
        ra_rad, dec_rad : float
            The sky point, radians, ICRS.
        xi, eta : float
            Where it shall stand, radians on the plane sought.
        near : TangentPlane, optional
            Close to a pole two planes may do: one with the point on the near side of
            the pole, one with it beyond. The one closer to this plane is taken;
            without it, the near side. A point that is the pole itself has no right
            ascension; the centre then keeps this plane's.

        Returns
        -------
        TangentPlane
            `forward` of the point gives (xi, eta) back. Where no plane can do that (a
            pole never stands aside of xi = 0; a centre cannot lie beyond a pole) the
            centre stops at the nearest declination that can be.

        Notes
        -----
        Green 1985, chapter 13, solved for the centre: with ``eta = tan(phi)``,
        ``sin(dec0 + phi) = sin(dec) sqrt(1 + xi^2 + eta^2) / sqrt(1 + eta^2)``. The
        cosine beside it is a difference of squares, taken as a product so that no digit
        is lost near a pole.

        Examples
        --------
        >>> TangentPlane.placing(0.0, 0.0, 0.0, math.tan(math.radians(30.0))).dec_deg
        -29.999999999999996
        """
        aside = abs(xi) / math.hypot(1.0, eta)
        sin, cos = math.sin(dec_rad), math.cos(dec_rad)
        room = max((cos - abs(sin) * aside) * (cos + abs(sin) * aside), 0.0)
        raised = math.atan2(sin * math.hypot(1.0, aside), math.sqrt(room))
        first = cls._centred(ra_rad, raised - math.atan(eta), xi, eta)
        if near is None:
            return first
        if cos < _POLE_COSINE:
            return cls(near.ra_deg, first.dec_deg)
        beyond = math.copysign(math.pi, dec_rad) - raised - math.atan(eta)
        if abs(beyond) > math.pi / 2.0:
            return first
        second = cls._centred(ra_rad, beyond, xi, eta)
        return max(first, second, key=lambda plane: float(plane.basis[2] @ near.basis[2]))

    @classmethod
    def _centred(cls, ra_rad: float, dec0_rad: float, xi: float, eta: float) -> "TangentPlane":
        """Build the plane of a known centre declination, held between the poles."""
        dec0 = min(max(dec0_rad, -math.pi / 2.0), math.pi / 2.0)
        ra0 = ra_rad - math.atan2(xi, math.cos(dec0) - eta * math.sin(dec0))
        return cls(math.degrees(ra0), min(max(math.degrees(dec0), -90.0), 90.0))

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
            if not depth.min() > _LIMB_COSINE:  # also where one of them is not a number
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


def _sin_cos_deg(angle_deg: float) -> tuple[float, float]:
    """Sine and cosine that are exact at the quarter turns."""
    quarter = round(angle_deg / 90.0)
    rest = math.radians(angle_deg - 90.0 * quarter)
    sin, cos = math.sin(rest), math.cos(rest)
    return ((sin, cos), (cos, -sin), (-sin, -cos), (-cos, sin))[quarter % 4]
