"""The list of currencies, held against the Unicode locale data that Qt carries."""

import pytest
from PySide6.QtCore import QLocale

from core.errors import BadValueError
from core.gear.currency import CODES, checked_currency
from core.gear.money.prices import minor_digits

#: Retired from list one since 2015, with the year of the amendment (ISO 4217 amendments, from
#: memory): an older Qt may still carry them.
RETIRED = {"ANG", "BGN", "BYR", "CUC", "HRK", "MRO", "SLL", "STD", "VEF", "ZWL"}


def used_by_locales() -> set[str]:
    every = QLocale.matchingLocales(
        QLocale.Language.AnyLanguage, QLocale.Script.AnyScript, QLocale.Country.AnyCountry
    )
    form = QLocale.CurrencySymbolFormat.CurrencyIsoCode
    return {locale.currencySymbol(form) for locale in every} - {""}


def test_every_country_that_qt_knows_has_its_currency_in_the_list() -> None:
    used = used_by_locales()
    assert len(used) > 140
    assert used - RETIRED <= CODES


def test_what_no_country_uses_is_a_fund_a_unit_of_account_or_a_second_currency() -> None:
    """Funds and units: ISO 4217 list one. LSL, SVC and VED stand beside ZAR, USD and VES."""
    funds = {"BOV", "CHE", "CHW", "CLF", "COU", "MXV", "USN", "UYI", "UYW", "XAD", "XSU", "XUA"}
    assert CODES - used_by_locales() - funds <= {"LSL", "SVC", "VED", "XCG", "ZWG"}


def test_retired_codes_metals_and_test_codes_are_out() -> None:
    assert not CODES & (RETIRED | {"XAU", "XAG", "XTS", "XXX", "DEM", "FRF"})


def test_every_code_has_its_decimals() -> None:
    assert {minor_digits(code) for code in CODES} == {0, 2, 3, 4}


@pytest.mark.parametrize("letters", ["", "eur", "Euro", "E", "EURO", "ÄÖÜ", "€", "12E", "EU "])
def test_what_has_not_the_form_of_a_code_is_told_the_form(letters: str) -> None:
    with pytest.raises(BadValueError, match=r"must be three capital letters \(ISO 4217\)$"):
        checked_currency(letters)


@pytest.mark.parametrize("letters", ["EUX", "AAA", "XXX", "DEM", "BGN"])
def test_three_capitals_that_are_no_currency_are_refused(letters: str) -> None:
    with pytest.raises(BadValueError, match=f'^currency "{letters}": is no currency of ISO 4217'):
        checked_currency(letters)
