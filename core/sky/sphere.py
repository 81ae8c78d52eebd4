"""Directions on the sphere: unit vectors, separations, position angles, offsets.

Conventions: ICRS right ascension and declination in radians; position angles run from
north through east, 0 to 2 pi.

Domain: the whole sphere. No right ascensions are compared, so neither the poles nor
the seam at RA 0 is a special case.

Sources: Meeus 1998, Astronomical Algorithms, chapter 17 and p. 116; the routines
``seps`` and ``pas`` of SOFA/ERFA.
"""

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["directions", "offset_by", "position_angle_rad", "separation_rad", "unit_vectors"]

Floats = NDArray[np.float64]


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
    return _turned(np.arctan2(east, north))


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
    return _turned(np.add(ra_rad, np.arctan2(across, forward))), np.asarray(dec)


def _turned(angle_rad: ArrayLike) -> Floats:
    """Bring angles into 0 <= angle < 2 pi, the end excluded in floating point too."""
    angle = np.mod(angle_rad, 2.0 * math.pi)
    return np.asarray(np.where(angle >= 2.0 * math.pi, 0.0, angle))
