"""Which addresses may be asked for a picture: HTTPS anywhere, plain HTTP on this machine alone."""

import ipaddress
from urllib.parse import urlsplit

__all__ = ["TransferError", "check_address", "host_of", "is_here"]


class TransferError(Exception):
    """Nothing usable came from a server; the text completes "the server ..."."""


def check_address(address: str) -> None:
    """Refuse an address that is neither HTTPS nor HTTP on this machine.

    Raises
    ------
    TransferError
        When it is.
    """
    scheme = urlsplit(address).scheme
    if scheme != "https" and not (scheme == "http" and is_here(address)):
        raise TransferError("is not reached by HTTPS, and nothing else is allowed")


def is_here(address: str) -> bool:
    """Tell whether an address is this very machine."""
    host = urlsplit(address).hostname or ""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def host_of(address: str) -> str:
    """Name the server of an address."""
    return urlsplit(address).hostname or address
