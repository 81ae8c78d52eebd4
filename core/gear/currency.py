"""Currencies by their three letters: the codes of ISO 4217, list one.

Source: ISO 4217:2015, list one ("current currency and funds codes") as amended to the
beginning of 2026, written from memory. It was compared with the table of the free iso-codes
collection (4.15.0 of 2023): XAD, XCG and ZWG are younger, and ANG, BGN, CUC, HRK, SLL and ZWL
have gone since. tests/core/gear/test_currency.py holds it against the currencies of the
Unicode locale data that Qt carries.

The standard lists metals and test codes too (XAU, XTS); they stay out, no shop takes them.
"""

from typing import Annotated

from pydantic import AfterValidator

from core.errors import BadValueError

__all__ = ["CODES", "Currency", "checked_currency"]

_LIST_ONE = """
    AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BOV BRL BSD BTN BWP
    BYN BZD CAD CDF CHE CHF CHW CLF CLP CNY COP COU CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN
    ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK
    JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD
    MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP
    PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP
    SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD USN UYI UYU UYW UZS VED VES VND VUV
    WST XAD XAF XCD XCG XOF XPF XSU XUA YER ZAR ZMW ZWG
"""
#: Every code in use; funds and units of account with them, as prices are set in some.
CODES = frozenset(_LIST_ONE.split())


def checked_currency(letters: str) -> str:
    """Hold a currency against the list, and give it back.

    Parameters
    ----------
    letters : str

    Raises
    ------
    BadValueError
        When it is not three capital letters, or no code of the list.

    Examples
    --------
    >>> checked_currency("EUR")
    'EUR'
    >>> checked_currency("EUX")
    Traceback (most recent call last):
    core.errors.BadValueError: currency "EUX": is no currency of ISO 4217, such as EUR or USD
    """
    if not (len(letters) == 3 and letters.isascii() and letters.isalpha() and letters.isupper()):
        raise BadValueError("currency", letters, "must be three capital letters (ISO 4217)")
    if letters not in CODES:
        raise BadValueError("currency", letters, "is no currency of ISO 4217, such as EUR or USD")
    return letters


#: A currency by its three letters (ISO 4217).
Currency = Annotated[str, AfterValidator(checked_currency)]
