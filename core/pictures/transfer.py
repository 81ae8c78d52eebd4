"""Bring bytes from a server: counted, limited, told about, and given up at once when asked.

The request runs in a thread of its own, so that a server that says nothing or sends one
byte a second can neither outlast the deadline nor hold up a cancel. Only HTTPS addresses
are asked, or plain HTTP on this very machine; a redirect must keep to the same rule.
"""

import contextlib
import queue
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import urljoin

from core.errors import Cancelled
from core.pictures.address import TransferError, check_address, is_here

if TYPE_CHECKING:
    import requests

__all__ = ["Answer", "Limits", "Progress", "transfer"]

#: Called with the share brought (None when the size is not known) and the bytes brought.
Progress = Callable[[float | None, int], None]

_CHUNK = 4096
_REDIRECTS = 5
_POLL_S = 0.05
#: What is read of an answer that is a refusal.
_REFUSAL_BYTES = 65536


@dataclass(frozen=True)
class Limits:
    """What a transfer may cost.

    Parameters
    ----------
    most_bytes : int
        Longest body.
    connect_s, silence_s, total_s : float
        Seconds to connect, between two signs of life, and in all.
    """

    most_bytes: int = 64 * 2**20
    connect_s: float = 10.0
    silence_s: float = 45.0
    total_s: float = 180.0


@dataclass(frozen=True)
class Answer:
    """What a server said: HTTP status, content type in lower case, body."""

    status: int
    content_type: str
    body: bytes


@dataclass(frozen=True)
class _Head:
    """The first part of an answer: status, content type, length of the body if told."""

    status: int
    content_type: str
    length: int | None


def transfer(
    address: str,
    question: Mapping[str, str],
    *,
    limits: Limits,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Answer:
    """Ask a server.

    Parameters
    ----------
    address : str
        HTTPS, or HTTP on this machine.
    question : mapping of str
        The query of the address.
    limits : Limits
    progress : callable, optional
        Told after every piece; bytes never fall.
    cancelled : callable, optional
        Asked twenty times a second.

    Returns
    -------
    Answer
        Whatever the status; the body of one other than 200 is cut after 64 kB.

    Raises
    ------
    TransferError
        When nothing came, or too little, too much or too late.
    Cancelled
        When `cancelled` said so.
    """
    check_address(address)
    job = _Job(address, question, limits)
    job.start()
    try:
        return _collect(job, limits, progress, cancelled)
    finally:
        job.stop()


def _collect(
    job: "_Job",
    limits: Limits,
    progress: Progress | None,
    cancelled: Callable[[], bool] | None,
) -> Answer:
    """Put the pieces together while watching the clock and the caller."""
    head: _Head | None = None
    body = bytearray()
    for piece in _pieces(job, limits, cancelled):
        if isinstance(piece, _Head):
            head = piece
            _check_head(head, limits)
            continue
        body += piece
        if head is None or head.status != 200:
            continue
        if len(body) > limits.most_bytes:
            raise TransferError(f"sent more than {_megabytes(limits.most_bytes)}")
        if progress is not None:
            progress(min(len(body) / head.length, 1.0) if head.length else None, len(body))
    if head is None:
        raise TransferError("gave no answer")
    if head.status == 200 and head.length is not None and len(body) != head.length:
        raise TransferError("broke off before the end")
    return Answer(head.status, head.content_type, bytes(body))


def _pieces(
    job: "_Job", limits: Limits, cancelled: Callable[[], bool] | None
) -> Iterator[_Head | bytes]:
    """Yield what the thread brings until it is done."""
    deadline = time.monotonic() + limits.total_s
    while True:
        if cancelled is not None and cancelled():
            raise Cancelled("the picture is not wanted any more")
        if time.monotonic() > deadline:
            raise TransferError(f"was not done after {limits.total_s:g} seconds")
        with contextlib.suppress(queue.Empty):
            piece = job.pieces.get(timeout=_POLL_S)
            if piece is None:
                return
            if isinstance(piece, TransferError):
                raise piece
            yield piece


def _check_head(head: _Head, limits: Limits) -> None:
    """Refuse a body that is announced as too long or as no picture."""
    if head.status != 200:
        return
    if head.length is not None and head.length > limits.most_bytes:
        raise TransferError(
            f"wants to send {_megabytes(head.length)}, more than {_megabytes(limits.most_bytes)}"
        )
    if head.content_type.startswith("text/") or head.content_type.endswith("json"):
        raise TransferError(f"sent {head.content_type} instead of a picture")


class _Job(threading.Thread):
    """The request itself, in a thread that nobody waits for."""

    def __init__(self, address: str, question: Mapping[str, str], limits: Limits) -> None:
        super().__init__(name="picture transfer", daemon=True)
        self.pieces: queue.Queue[_Head | bytes | TransferError | None] = queue.Queue(maxsize=64)
        self._asked = (address, dict(question), limits)
        self._stopped = threading.Event()
        self._raw: Any = None

    def stop(self) -> None:
        """Give up: what still arrives is thrown away, a waiting read is woken."""
        self._stopped.set()
        wake = getattr(self._raw, "shutdown", None)
        if wake is not None:
            with contextlib.suppress(Exception):
                wake()

    def run(self) -> None:
        """Ask, and put every piece in the queue; the last is None or what went wrong."""
        import requests

        try:
            with requests.Session() as session:
                self._read(session)
            self._put(None)
        except TransferError as error:
            self._put(error)
        except requests.exceptions.RequestException as error:
            self._put(TransferError(_words(error)))
        except Exception as error:
            self._put(TransferError(f"failed in an unforeseen way ({type(error).__name__})"))

    def _read(self, session: "requests.Session") -> None:
        """Follow the redirects, then read the body in pieces."""
        with self._answer(session) as answer:
            self._raw = answer.raw
            if answer.headers.get("Content-Encoding", "identity").lower() != "identity":
                raise TransferError("packed its answer although it was asked not to")
            told = answer.headers.get("Content-Length", "")
            kind = answer.headers.get("Content-Type", "").split(";")[0].strip().lower()
            self._put(_Head(answer.status_code, kind, int(told) if told.isdecimal() else None))
            read = 0
            for piece in answer.iter_content(_CHUNK):
                self._put(piece)
                read += len(piece)
                if self._stopped.is_set() or (answer.status_code != 200 and read > _REFUSAL_BYTES):
                    return

    def _answer(self, session: "requests.Session") -> "requests.Response":
        """Ask, and ask again where a redirect leads."""
        address, question, limits = self._asked
        for _ in range(_REDIRECTS):
            session.trust_env = not is_here(address)
            answer = session.get(
                address,
                params=question,
                stream=True,
                timeout=(limits.connect_s, limits.silence_s),
                allow_redirects=False,
                headers={"Accept-Encoding": "identity", "User-Agent": "skysill"},
            )
            if not answer.is_redirect:
                return answer
            address, question = urljoin(address, answer.headers["Location"]), {}
            answer.close()
            check_address(address)
        raise TransferError("sent us round in circles")

    def _put(self, piece: _Head | bytes | TransferError | None) -> None:
        """Hand a piece over unless nobody listens any more."""
        while not self._stopped.is_set():
            with contextlib.suppress(queue.Full):
                self.pieces.put(piece, timeout=_POLL_S)
                return


def _words(error: "requests.exceptions.RequestException") -> str:
    """Say what a failed request means."""
    from requests import exceptions

    for kind, words in (
        (exceptions.ConnectTimeout, "does not answer"),
        (exceptions.ReadTimeout, "fell silent"),
        (exceptions.SSLError, "has no valid certificate"),
        (exceptions.ChunkedEncodingError, "broke off before the end"),
        (exceptions.ConnectionError, "cannot be reached"),
    ):
        if isinstance(error, kind):
            return "fell silent" if "timed out" in str(error).lower() else words
    return f"could not be asked ({type(error).__name__})"


def _megabytes(count: int) -> str:
    """Write a number of bytes for people."""
    return f"{count / 2**20:.3g} MB"
