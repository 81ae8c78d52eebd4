"""Reads the cards of a FITS header, of the first header in a file that stands for a picture.

Only headers are read; data units are jumped over. A picture is a primary array or an IMAGE
extension of two axes or more, or a table with ZIMAGE, which holds a tiled compressed one
with its size in ZNAXISn. An extension inherits from the primary header what it lacks,
unless it says INHERIT = F.

Sources: FITS Standard 4.0 (IAU FITS Working Group 2016, language-edited 2018): blocks of
2880 bytes (section 3), cards of 80 characters (4.1), size of a data unit (4.4.1, equations
1 and 2), tiled images (10.1). Section numbers beyond the contents page from memory. What a
card says is parsed by astropy. INHERIT is a registered convention (from memory).
"""

import itertools
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from core.gear.from_frame.frame_file import FrameError, FrameFile
from core.gear.from_frame.told import Told

__all__ = ["FitsHeader", "read_fits"]

_BLOCK, _CARD = 2880, 80
#: A header of more than this many blocks is none: 72 000 cards.
_MOST_BLOCKS = 2000
_MOST_UNITS = 256
#: So many of the cards that matter are looked at, at most.
_MOST_CARDS = 4000
_END = b"END".ljust(_CARD)
_LONGEST_VALUE = 40 * _CARD
#: Cards that matter here; all others are passed over unparsed.
_WANTED = re.compile(
    r"Z?NAXIS\d{0,3}|ZIMAGE|XTENSION|BITPIX|[PG]COUNT|GROUPS|INHERIT"
    r"|FOC(?:ALLEN|RATIO)|APT(?:DIA|AREA)|[XY]PIXSZ|[XY]ORGSUBF|PIXSIZE[12]|[XY]BINNING|CCDSUM"
    r"|INSTRUME|TELESCOP|BAYERPAT|FILTER|EGAIN|GAIN|EXPTIME|EXPOSURE|SET-TEMP|CCD-TEMP|SITELAT"
    r"|CTYPE[12]|CUNIT[12]|CDELT[12]|CD[12]_[12]|PC[12]_[12]"
)


@dataclass(frozen=True)
class FitsHeader:
    """Cards by keyword: the picture's own and those that it inherits; remarks on the file.

    `columns` and `rows` count the picture's pixels, `planes` its further axes.
    """

    cards: Mapping[str, Told]
    columns: int
    rows: int
    planes: tuple[int, ...]
    remarks: tuple[str, ...] = ()

    def first(self, *keywords: str) -> Told | None:
        """Give the first of some keywords that is there and has a value."""
        return next((self.cards[word] for word in keywords if word in self.cards), None)


@dataclass
class _Unit:
    """One header as it is read."""

    cards: dict[str, Told] = field(default_factory=dict)
    twice: list[str] = field(default_factory=list)

    def whole(self, keyword: str, otherwise: int = 0) -> int:
        """Give a whole number, or what stands for none."""
        told = self.cards.get(keyword)
        value = told.value if told is not None else otherwise
        return value if isinstance(value, int) and not isinstance(value, bool) else otherwise

    def axes(self) -> tuple[int, ...]:
        """Give the sizes of the picture's axes; empty when this is no picture."""
        kind = self.cards.get("XTENSION")
        tiled = "ZIMAGE" in self.cards and self.cards["ZIMAGE"].value is True
        if kind is not None and str(kind.value).strip() != "IMAGE" and not tiled:
            return ()
        letter = "Z" if tiled else ""
        count = min(self.whole(f"{letter}NAXIS"), 999)
        sizes = tuple(self.whole(f"{letter}NAXIS{axis}") for axis in range(1, count + 1))
        return sizes if len(sizes) >= 2 and all(size > 0 for size in sizes) else ()

    def data_bytes(self) -> int:
        """Give the size of the data unit, its padding counted."""
        count = min(self.whole("NAXIS"), 999)
        sizes = [max(self.whole(f"NAXIS{axis}"), 0) for axis in range(1, count + 1)]
        if not sizes:
            return 0
        groups = "GROUPS" in self.cards and self.cards["GROUPS"].value is True
        elements = self.whole("PCOUNT") + math.prod(sizes[1:] if groups else sizes)
        size = abs(self.whole("BITPIX", 8)) // 8 * max(self.whole("GCOUNT", 1), 1)
        return -(-max(elements, 0) * size // _BLOCK) * _BLOCK


def read_fits(file: FrameFile) -> FitsHeader:
    """Read the header of the first picture in a FITS file.

    Parameters
    ----------
    file : FrameFile
        At its beginning.

    Raises
    ------
    FrameError
        When the header is cut off, without end, or there is no picture.
    """
    primary: _Unit | None = None
    for number in range(_MOST_UNITS):
        unit = _unit(file, number)
        if unit is None:
            break
        primary = primary or unit
        if axes := unit.axes():
            return _header(file, unit, primary, axes)
        place, size = file.tell(), unit.data_bytes()
        if file.size_bytes is not None and place + size >= file.size_bytes:
            break
        file.seek(place + size)
    raise FrameError(f"{file.frame_name} is FITS, but there is no picture in it")


def _header(file: FrameFile, unit: _Unit, primary: _Unit, axes: tuple[int, ...]) -> FitsHeader:
    """Put together what a picture's header and the primary one say."""
    remarks = [f"{word} stands there twice with two values; the first counts"
               for word in unit.twice]  # fmt: skip
    inherit = unit.cards.get("INHERIT")
    cards = unit.cards
    if unit is not primary and (inherit is None or inherit.value is not False):
        above = {word: Told(f"{word} of the primary header", told.value, told.comment)
                 for word, told in primary.cards.items()}  # fmt: skip
        cards = {**above, **cards}
    missing = file.tell() + unit.data_bytes() - (file.size_bytes or math.inf)
    if missing >= _BLOCK:
        remarks.append("the file ends before the picture does; its header is whole")
    return FitsHeader(cards, axes[0], axes[1], axes[2:], tuple(remarks))


def _unit(file: FrameFile, number: int) -> _Unit | None:
    """Read one header; None at the end of the file, or at what is no extension."""
    found = _Unit()
    cards = _cards(file, b"SIMPLE  =" if number == 0 else b"XTENSION=")
    for image in itertools.islice(cards, _MOST_CARDS):
        told = _told(image)
        if told is None:
            continue
        known = found.cards.setdefault(told.name, told)
        if known is not told and known.value != told.value and told.name not in found.twice:
            found.twice.append(told.name)
    return found if found.cards else None


def _cards(file: FrameFile, start: bytes) -> Iterator[bytes]:
    """Give the cards of a header, each with the CONTINUE cards that belong to it."""
    held = b""
    for count in range(_MOST_BLOCKS):
        block = file.read(_BLOCK)
        if count == 0 and not block.startswith(start):
            return
        for place in range(0, len(block), _CARD):
            card = block[place : place + _CARD]
            if card.startswith(b"CONTINUE") and held and len(held) < _LONGEST_VALUE:
                held += card.ljust(_CARD)
                continue
            if held:
                yield held
            if card.ljust(_CARD) == _END:
                return
            held = card.ljust(_CARD) if _matters(card) else b""
        if len(block) < _BLOCK:
            raise FrameError(f"{file.frame_name} is cut off within its FITS header")
    raise FrameError(f"{file.frame_name} is FITS with a header that does not end")


def _matters(card: bytes) -> bool:
    """Tell whether a card is of those looked at."""
    keyword = card[:8].decode("ascii", "replace").rstrip()
    return card[8:10] == b"= " and _WANTED.fullmatch(keyword) is not None


def _told(image: bytes) -> Told | None:
    """Parse one card; None where it has no value."""
    from astropy.io import fits

    keyword = image[:8].decode("ascii").rstrip()
    text = "".join(chr(byte) if 32 <= byte < 127 else "?" for byte in image)
    try:
        card = fits.Card.fromstring(text)
        value, comment = card.value, str(card.comment)
    except Exception:  # whatever the damage leads the parser to
        return Told(keyword, text[10:].partition("/")[0].strip())
    if isinstance(value, fits.card.Undefined):
        return None
    return Told(keyword, value, comment)
