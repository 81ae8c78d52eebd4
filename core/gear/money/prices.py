"""Adds up what parts cost, and writes money in plain words.

All prices are in one currency, that of the plan or shelf which holds the parts (ISO 4217).
Amounts are exact decimals: a price counts as its digits say (to the sixth decimal), so
sums do not depend on their order. A price that is not known is never counted as 0: the
total then says "at least", and how many are missing.

A part is the same in two rigs when it is of one class and one name. In a set of rigs that
are used one at a time, a part is bought as often as the rig that needs most of it has it.

Source of the minor units: ISO 4217:2015, list one, written from memory and compared with
the table that a browser's source makes of that list (version of 2026-01-01).
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from decimal import ROUND_HALF_EVEN, Decimal

from core.errors import BadValueError
from core.gear.currency import Currency
from core.gear.parts import Part, identity
from core.gear.rig import Rig
from core.record.validation import Record

__all__ = [
    "Total",
    "difference",
    "exact",
    "minor_digits",
    "money_words",
    "rig_total",
    "set_total",
    "total_of",
]

#: Decimals of the currencies that do not have two.
_MINOR = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
_DIGITS = {code: digits for digits, codes in _MINOR.items() for code in codes.split()}
#: Signs that stand for one currency where a plan has only one; the rest go by their code.
_SIGNS = {"EUR": "€", "GBP": "£", "JPY": "¥", "USD": "$"}
#: A price counts to here, finer than any currency's unit; sums of such prices are exact.
_FINEST = Decimal("0.000001")
_GAP, _MINUS = "\N{NO-BREAK SPACE}", "\N{MINUS SIGN}"


class Total(Record):
    """A sum of prices.

    `known` is the sum of the prices that are known, `unpriced` names the parts whose
    price is not, one name for each piece.
    """

    currency: Currency
    known: Decimal = Decimal(0)
    unpriced: tuple[str, ...] = ()

    @property
    def amount(self) -> Decimal | None:
        """The whole sum; None when one of the prices is not known."""
        return None if self.unpriced else self.known

    @property
    def words(self) -> str:
        """The sum for a person, with what is missing."""
        if not self.unpriced:
            return money_words(self.known, self.currency)
        missing = len(self.unpriced)
        said = f"{missing} price{'s' if missing > 1 else ''} not known"
        if not self.known:
            return said
        return f"at least {money_words(self.known, self.currency)}, {said}"

    def __add__(self, other: "Total") -> "Total":
        """Add another sum of the same currency."""
        _one_currency(self, other)
        return Total(
            currency=self.currency,
            known=self.known + other.known,
            unpriced=(*self.unpriced, *other.unpriced),
        )


def exact(price: float) -> Decimal:
    """Take a price by its digits.

    Examples
    --------
    >>> exact(0.1) + exact(0.2)
    Decimal('0.3')
    """
    digits = Decimal(repr(float(price)))
    whole = digits == digits.to_integral_value()
    return digits.quantize(Decimal(1) if whole else max(_FINEST, _last_digit(digits)))


def total_of(parts: Iterable[Part], currency: str) -> Total:
    """Add up the prices of parts, each as often as it comes.

    Parameters
    ----------
    parts : iterable of Part
    currency : str
        That of the plan which holds them, three letters (ISO 4217).

    Raises
    ------
    BadValueError
        When the currency is not three capital letters.
    """
    known, unpriced = Decimal(0), []
    for part in parts:
        if part.price is None:
            unpriced.append(part.name)
        else:
            known += exact(part.price)
    return Total(currency=currency, known=known, unpriced=tuple(unpriced))


def rig_total(rig: Rig, currency: str) -> Total:
    """Add up the prices of a rig's parts; errors as `total_of`."""
    return total_of(rig.parts, currency)


def set_total(rigs: Sequence[Rig], currency: str) -> Total:
    """Price rigs that are used one at a time, so that they share their parts.

    Parameters
    ----------
    rigs : sequence of Rig
    currency : str

    Raises
    ------
    BadValueError
        When one part has two prices in the set, or the currency is none.
    """
    needed: Counter[tuple[str, str]] = Counter()
    found: dict[tuple[str, str], Part] = {}
    for rig in rigs:
        needed |= Counter(identity(part) for part in rig.parts)
        for part in rig.parts:
            found[identity(part)] = _agreed(found.get(identity(part)), part)
    pieces = (found[key] for key, count in needed.items() for _ in range(count))
    return total_of(pieces, currency)


def difference(before: Total, after: Total) -> Decimal | None:
    """Tell by how much a total became less.

    Parameters
    ----------
    before, after : Total

    Returns
    -------
    Decimal or None
        Positive when `after` is cheaper. The unknown prices may be the same in both, they
        then fall out; when they are not, the difference is not known: None.

    Raises
    ------
    BadValueError
        When the two are in different currencies.
    """
    _one_currency(before, after)
    if Counter(before.unpriced) != Counter(after.unpriced):
        return None
    return before.known - after.known


def minor_digits(currency: str) -> int:
    """Give the decimals of a currency (ISO 4217); 2 for one that is not in the table."""
    return _DIGITS.get(currency, 2)


def money_words(amount: Decimal | float, currency: str) -> str:
    r"""Write money the same way in every country.

    The thousands stand apart by a no-break space, the decimals (only when there are any)
    behind a point, the sign or code of the currency behind the number.

    Parameters
    ----------
    amount : Decimal or float
        Rounded to the currency's minor unit, halves to the even digit.
    currency : str

    Examples
    --------
    >>> money_words(1940, "EUR").replace("\xa0", " ")
    '1 940 €'
    >>> money_words(-12.5, "SEK").replace("\xa0", " ")
    '−12.50 SEK'
    """
    value = amount if isinstance(amount, Decimal) else exact(amount)
    step = Decimal(1).scaleb(-minor_digits(currency))
    rounded = value.quantize(step, rounding=ROUND_HALF_EVEN)
    if rounded == rounded.to_integral_value():
        rounded = rounded.quantize(Decimal(1))
    sign = _MINUS if rounded < 0 else ""
    number = f"{abs(rounded):,f}".replace(",", _GAP)
    return f"{sign}{number}{_GAP}{_SIGNS.get(currency, currency)}"


def _one_currency(one: Total, other: Total) -> None:
    """Refuse to mix two currencies; no rate is known here."""
    if one.currency != other.currency:
        rule = f"must be {one.currency}, like the rest of the sum"
        raise BadValueError("currency", other.currency, rule)


def _agreed(known: Part | None, part: Part) -> Part:
    """Choose between two records of one part; refuse two prices."""
    if known is None or known.price is None:
        return part
    if part.price is not None and part.price != known.price:
        prices = f"{known.price:.10g} and {part.price:.10g}"
        raise BadValueError(f"price of {part.name}", prices, "must be the same in every rig")
    return known


def _last_digit(digits: Decimal) -> Decimal:
    """Give the place value of the last digit."""
    return Decimal(1).scaleb(int(digits.as_tuple().exponent))
