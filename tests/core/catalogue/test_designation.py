"""Designations in every spelling that people use, brought to one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.designation import canonical, family, key, number_alone

SPELLINGS = {
    "M 31": ["M31", "m 31", "Messier 31", "messier031", "M-31"],
    "NGC 224": ["NGC224", "ngc 0224", "N.G.C. 224", "NGC-224", " ngc   224 "],
    "NGC 650": ["NGC 650/1", "NGC 650 & 651"],
    "NGC 4565A": ["ngc4565a"],
    "IC 80 NED01": ["IC0080 NED01", "ic 80 ned 1"],
    "IC 1396": ["ic1396", "IC 1396", "Index Catalogue 1396"],
    "Sh2-155": ["Sh2-155", "SH 2 155", "sh2 155", "Sharpless 155", "sh2155", "Sh 2-155", "sh-155"],
    "Sh2-25": ["Sh 25", "sh2 25", "Sh2-25"],
    "C 9": ["C9", "Caldwell 9", "caldwell09"],
    "B 33": ["B33", "Barnard 33", "b 033"],
    "LBN 437": ["LBN437", "lbn 437"],
    "LDN 1251": ["LDN1251", "Lynds 1251"],
    "vdB 142": ["VDB142", "vdb 142", "van den Bergh 142"],
    "Cr 399": ["Cr399", "Collinder 399", "Cl 399"],
    "Mel 25": ["Melotte 25", "mel025"],
    "Abell 85": ["Abell 85", "A85", "abell85"],
    "ACO S373": ["ACO S373", "aco s 373"],
    "PN G063.1+13.9": ["PN G063.1+13.9", "PNG 63.1+13.9", "png63.1 +13.9"],
    "PK 64+05.1": [],
    "PK 064+05.1": ["PK 64+5.1", "pk 064+05.1"],
    "SNR G189.1+03.0": ["SNR G189.1+3.0", "SNRG 189.1+03.0", "snr g189.1 + 3.0"],
    "ESO 056-115": ["ESO056-115", "ESO 56-115", "eso 56-g115"],
    "MCG +07-02-016": ["MCG+07-02-016", "MCG 7-2-16"],
    "PGC 2557": ["PGC002557", "LEDA 2557"],
}


@pytest.mark.parametrize(
    ("spelling", "expected"), [(s, e) for e, many in SPELLINGS.items() for s in many]
)
def test_every_spelling_is_read_as_one_designation(spelling: str, expected: str) -> None:
    assert canonical(spelling) == expected


@pytest.mark.parametrize("expected", [name for name, many in SPELLINGS.items() if many])
def test_the_one_spelling_reads_as_itself(expected: str) -> None:
    assert canonical(expected) == expected


@pytest.mark.parametrize(
    "text",
    ["", " ", "31", "M", "Andromeda", "Sh2-", "Sh2-0", "NGC", "20 58 +44 20", "NGC 70 00",
     "M 31 and M 32", "10.68 41.27", "NGC 224" * 30, "NGC " + "0" * 100 + "224",
     "Ghost 1", "\u2603 12", "PN 63.1+13.9"],
)  # fmt: skip
def test_what_is_no_designation_is_none(text: str) -> None:
    assert canonical(text) is None


@pytest.mark.parametrize(
    ("designation", "catalogue"),
    [("NGC 224", "NGC"), ("Sh2-155", "Sh2"), ("PN G063.1+13.9", "PN G"), ("vdBH 3a", "vdBH"),
     ("SNR G189.1+03.0", "SNR G"), ("γ Cyg", ""), ("Scene Veil", "Scene")],
)  # fmt: skip
def test_the_family_is_the_catalogue(designation: str, catalogue: str) -> None:
    assert family(designation) == catalogue


@pytest.mark.parametrize(
    ("text", "plain"),
    [("Thor's Helmet", "thorshelmet"), ("Thor\u2019s  helmet", "thorshelmet"),
     ("γ Cygni", "gammacygni"), ("Boötis", "bootis"), ("ÉTOILE", "etoile"),
     ("h & chi Persei", "handchipersei"), ("μ1 Sco", "mu1sco"), ("-.-", "")],
)  # fmt: skip
def test_keys_keep_letters_and_digits_only(text: str, plain: str) -> None:
    assert key(text) == plain


@given(st.text(max_size=100))
def test_any_text_at_all_is_read_without_failing(text: str) -> None:
    spelled = canonical(text)
    assert spelled is None or canonical(spelled) == spelled
    assert key(key(text)) == key(text)


@pytest.mark.parametrize(
    ("text", "number"), [("31", 31), (" #31 ", 31), ("3.1", None), ("", None), ("³", None)]
)
def test_a_number_alone_is_told_apart(text: str, number: int | None) -> None:
    assert number_alone(text) == number
