"""Bring a cutout of a survey: from the folder of pictures if it is there, else by network.

The question is put together by astroquery's hips2fits module (the cutout service of the
CDS, Strasbourg) from the frame's own FITS header, and sent by `transfer`; so the picture
that comes lies exactly on the frame that was asked. When the first server fails in
whatever way, the next is asked; when all fail, one sentence says what each did.

Conventions: the first row of a JPEG or PNG is the top of the picture, the largest y of
the FITS header (astroquery 0.4.11; tried with an asymmetric picture).
"""

import json
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from core.errors import BadValueError, PictureError
from core.pictures.address import TransferError, host_of
from core.pictures.cache import Asked, PictureCache
from core.pictures.decode import DecodeError, decode
from core.pictures.picture import Picture, PictureFrame
from core.pictures.surveys import Survey
from core.pictures.transfer import Answer, Limits, Progress, transfer

__all__ = ["MOST_PIXELS", "OFFICIAL", "Servers", "fetch_cutout", "kept_cutout"]

#: Most pixels that are asked for.
MOST_PIXELS = 16_000_000
_FORM = "jpg"


@dataclass(frozen=True)
class Servers:
    """Servers that speak the cutout protocol, the first asked first, and what they may cost."""

    addresses: tuple[str, ...]
    limits: Limits = field(default_factory=Limits)


#: The cutout service of the CDS and its mirror.
OFFICIAL = Servers(
    (
        "https://alasky.cds.unistra.fr/hips-image-services/hips2fits",
        "https://alaskybis.cds.unistra.fr/hips-image-services/hips2fits",
    )
)


def fetch_cutout(
    survey: Survey,
    frame: PictureFrame,
    *,
    servers: Servers = OFFICIAL,
    cache: PictureCache | None = None,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Picture:
    """Bring a picture.

    Parameters
    ----------
    survey : Survey
    frame : PictureFrame
        At most 16 million pixels; the picture has exactly this frame.
    servers : Servers
    cache : PictureCache, optional
        Looked into first, and given what comes.
    progress : callable, optional
        Called with the share brought (None while the size is not known) and the bytes; bytes
        never fall while one server answers.
    cancelled : callable, optional
        Asked twenty times a second while waiting; True gives up.

    Returns
    -------
    Picture
        Its note says when the survey shows nothing there.

    Raises
    ------
    PictureError
        When no server gave the picture, in one sentence.
    Cancelled
        When `cancelled` said so.
    BadValueError
        When the frame holds too many pixels.
    """
    kept = None if cache is None else kept_cutout(survey, frame, cache)
    if kept is not None:
        return kept
    if frame.width_px * frame.height_px > MOST_PIXELS:
        size = f"{frame.width_px} x {frame.height_px}"
        raise BadValueError("picture size", size, "must hold at most 16 million pixels")
    if survey.misses(frame):
        raise PictureError(f"{survey.name} shows nothing here: it covers {survey.coverage}.")
    question = _question(survey, frame)
    failures = []
    for address in servers.addresses:
        try:
            answer = transfer(
                address, question, limits=servers.limits, progress=progress, cancelled=cancelled
            )
            picture = _picture(survey, frame, _body(answer), survey.credit)
        except (TransferError, DecodeError) as error:
            failures.append(f"{host_of(address)} {error}")
            continue
        if cache is not None:
            cache.put(Asked(survey.id, frame, _FORM), answer.body, survey.credit)
        return picture
    raise PictureError(f"{survey.name} could not be brought: {'; '.join(failures)}.")


def kept_cutout(survey: Survey, frame: PictureFrame, cache: PictureCache) -> Picture | None:
    """Give a picture that was brought before, without a network; None when there is none."""
    asked = Asked(survey.id, frame, _FORM)
    kept = cache.get(asked)
    if kept is None:
        return None
    try:
        return _picture(survey, frame, kept.body, kept.credit)
    except DecodeError:
        cache.drop(asked)
        return None


def _question(survey: Survey, frame: PictureFrame) -> dict[str, str]:
    """Put the query together."""
    try:
        from astropy.wcs import WCS
        from astroquery.hips2fits import hips2fits
    except ImportError as error:
        raise PictureError(f"{survey.name} needs the package astroquery: {error}.") from error
    wcs = WCS(frame.wcs_header())
    wcs.pixel_shape = (frame.width_px, frame.height_px)
    payload = hips2fits.query_with_wcs(
        hips=survey.id, wcs=wcs, format=_FORM, get_query_payload=True
    )
    return {name: str(value) for name, value in payload.items()}


def _body(answer: Answer) -> bytes:
    """Give the body of an answer, or say what the server said instead."""
    if answer.status == 200:
        return answer.body
    try:
        told = json.loads(answer.body)
        parts = [str(told[name]) for name in ("title", "description") if told.get(name)]
    except (ValueError, TypeError, AttributeError, RecursionError):
        parts = []
    if not parts:
        raise TransferError(f"answered with HTTP status {answer.status}")
    words = " ".join(": ".join(parts).split()).rstrip(".")
    raise TransferError(f"refused ({words if len(words) <= 200 else words[:199] + '…'})")


def _picture(survey: Survey, frame: PictureFrame, body: bytes, credit: str) -> Picture:
    """Decode, and say so when there is nothing to see."""
    pixels = decode(body, frame.width_px, frame.height_px)
    empty = int(np.ptp(pixels)) <= 2
    note = f"{survey.name} shows nothing here: it covers {survey.coverage}." if empty else ""
    return Picture(pixels, frame, credit, survey.id, note)
