"""Finding targets by what people type: common names, aliases, slips, beginnings."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue.designation import key
from core.catalogue.targets import TargetTable
from core.errors import UnknownTargetError

TABLE = TargetTable.load()

#: Names in common use among imagers and the object each means (common practice).
COMMON = {
    "Andromeda Galaxy": "M 31", "Andromeda": "M 31", "Veil": "Scene Veil",
    "Veil Nebula": "Scene Veil", "Eastern Veil": "NGC 6992", "Western Veil": "NGC 6960",
    "Witch's Broom": "NGC 6960", "Pickering's Triangle": "Simeis 3-188",
    "Cygnus Loop": "Sh2-103", "Heart": "IC 1805", "Soul": "IC 1848",
    "Heart and Soul": "Scene Heart and Soul", "Tulip": "Sh2-101", "Crescent": "NGC 6888",
    "Cocoon": "IC 5146", "Bubble": "NGC 7635", "Pacman": "NGC 281", "Pinwheel": "M 101",
    "Whirlpool": "M 51", "Horsehead": "B 33", "Flame": "NGC 2024", "Rosette": "Sh2-275",
    "Elephant's Trunk": "vdB 142", "Seagull": "Sh2-296", "Thor's Helmet": "NGC 2359",
    "Wizard": "NGC 7380", "Iris": "NGC 7023", "Cave": "Sh2-155", "Jellyfish": "IC 443",
    "Lagoon": "M 8", "Trifid": "M 20", "Eagle": "M 16", "Omega": "M 17", "Swan": "M 17",
    "Dumbbell": "M 27", "Ring": "M 57", "Helix": "NGC 7293", "Sculptor Galaxy": "NGC 253",
    "Double Cluster": "Scene Double Cluster", "Markarian's Chain": "Scene Markarian's Chain",
    "Leo Triplet": "Scene Leo Triplet", "Pleiades": "M 45", "Beehive": "M 44",
    "North America": "NGC 7000", "Pelican": "IC 5070", "California": "NGC 1499",
    "Orion": "M 42", "Great Orion Nebula": "M 42", "Running Man": "NGC 1977",
    "Cat's Eye": "NGC 6543", "Owl Nebula": "M 97", "Sombrero": "M 104", "Needle": "NGC 4565",
    "Whale": "NGC 4631", "Cigar": "M 82", "Bode's Galaxy": "M 81", "Triangulum": "M 33",
    "Sunflower": "M 63", "Black Eye": "M 64", "Fireworks": "NGC 6946", "Witch Head": "IC 2118",
    "Monkey Head": "NGC 2174", "Cone": "NGC 2264", "Christmas Tree": "NGC 2264",
    "Flaming Star": "IC 405", "Spaghetti": "Sh2-240", "Simeis 147": "Sh2-240",
    "Ghost Nebula": "Sh2-136", "Lion Nebula": "Sh2-132", "Dark Shark": "LDN 1235",
    "Barnard's Loop": "Sh2-276", "Angelfish": "Sh2-264", "Medusa": "Sh2-274",
    "CTB 1": "SNR G116.9+00.2", "Hyades": "Mel 25", "Coathanger": "Cr 399",
    "LMC": "ESO 056-115", "SMC": "NGC 292", "47 Tuc": "NGC 104",
    "Omega Centauri": "NGC 5139", "Carina Nebula": "NGC 3372", "Tarantula": "NGC 2070",
    "Coalsack": "C 99", "Snake Nebula": "B 72", "Cat's Paw": "NGC 6334",
    "War and Peace": "NGC 6357", "Lobster Claw": "Sh2-157", "Stephan's Quintet": "HCG 92",
    "Antennae": "NGC 4038", "Centaurus A": "NGC 5128", "Cas A": "SNR G111.7-02.1",
    "Perseus Cluster": "ACO 426", "Coma Cluster": "ACO 1656", "Hercules Cluster": "M 13",
    "Rho Ophiuchi": "Scene Rho Ophiuchi", "Orion's Sword": "Scene Orion's Sword",
    "Vega": "α Lyr", "Sadr": "γ Cyg", "gamma Cyg": "γ Cyg", "γ Cygni": "γ Cyg",
    "Polaris": "α UMi", "Dolphin Head": "Sh2-308", "Tadpoles": "IC 410",
}  # fmt: skip
#: Designations in many spellings and the object each means.
ALIASES = {
    "M31": "M 31", "m 31": "M 31", "NGC224": "M 31", "ngc 0224": "M 31", "UGC 454": "M 31",
    "PGC 2557": "M 31", "Sh2-155": "Sh2-155", "SH 2 155": "Sh2-155", "C9": "Sh2-155",
    "Caldwell 9": "Sh2-155", "LBN 529": "Sh2-155", "B33": "B 33", "Barnard 33": "B 33",
    "vdB 142": "vdB 142", "IC 1396A": "vdB 142", "LBN 437": "LBN 437", "LDN 1251": "LDN 1251",
    "Abell 85": "SNR G116.9+00.2", "Abell 39": "PK 047+42.1", "Abell 1656": "ACO 1656",
    "Sh2-190": "IC 1805", "Sharpless 199": "IC 1848", "NGC 2239": "NGC 2244",
    "NGC 2237": "Sh2-275", "IC 4703": "M 16", "NGC 6611": "NGC 6611", "NGC 1909": "IC 2118",
    "M 102": "M 101", "M 110": "M 110", "NGC 650/1": "M 76", "Mel 22": "M 45",
    "Collinder 399": "Cr 399", "C 14": "Scene Double Cluster", "HIP 91262": "α Lyr",
    "LMC": "ESO 056-115", "30 Doradus": "NGC 2070", "RCW 11": "Sh2-308", "Sh2-171": "NGC 7822",
}  # fmt: skip
#: One slip, two slips, accents, apostrophes, spaces.
FORGIVEN = {
    "androoomeda": "M 31", "Andromda": "M 31", "ANDROMEDA  GALAXY": "M 31",
    "Thors Helmet": "NGC 2359", "thor\u2019s helmet": "NGC 2359", "elephants trunk": "vdB 142",
    "Elefant's Trunk": "vdB 142", "rosete": "Sh2-275", "Rosette Nebulla": "Sh2-275",
    "horsehaed": "B 33", "Pleyades": "M 45", "Plejades": "M 45", "whirpool": "M 51",
    "whirlpol galaxy": "M 51", "North Amercia": "NGC 7000", "cresent": "NGC 6888",
    "Califronia": "NGC 1499", "the Pelican": "IC 5070", "the Pelican Nebula": "IC 5070",
    "Pac-Man": "NGC 281",
    "Markarians Chain": "Scene Markarian's Chain", "Markarjan's chain": "Scene Markarian's Chain",
    "Bételgeuse": "α Ori", "helixnebula": "NGC 7293", "Omega Centaury": "NGC 5139",
}  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "expected"), [*COMMON.items(), *ALIASES.items(), *FORGIVEN.items()]
)
def test_what_people_type_finds_what_they_mean(typed: str, expected: str) -> None:
    assert TABLE.find(typed).id == expected
    assert TABLE.find(f"  {typed.upper()} ").id == expected


@pytest.mark.parametrize(
    ("typed", "misses"),
    [
        ("31", ("M 31", "NGC 31", "IC 31")), ("NGC 7841", ("NGC 7840",)), ("M 111", ("M 110",)),
        ("Sh2-314", ("Sh2-313",)), ("Nébuleuse Rosette", ("Rosette Nebula",)),
        ("Andromeda Strain", ("Andromeda",)), ("vgea", ("Vega",)),
    ],
)  # fmt: skip
def test_an_unknown_name_offers_near_misses(typed: str, misses: tuple[str, ...]) -> None:
    with pytest.raises(UnknownTargetError) as caught:
        TABLE.find(typed)
    assert caught.value.near_misses[: len(misses)] == misses
    assert f'"{typed}"' in str(caught.value)
    assert "\n" not in str(caught.value)
    for name in caught.value.near_misses:
        TABLE.find(name)


@pytest.mark.parametrize("typed", ["", "   ", "?!", "xyzzy plugh", "q" * 500, "\u2603", "NGC", "'"])
def test_what_nothing_is_called_by_is_unknown(typed: str) -> None:
    with pytest.raises(UnknownTargetError):
        TABLE.find(typed)


@pytest.mark.parametrize(
    "typed", ["NGC 7O00", "NGC 70 00", "Sh2-1 55", "M 3 1", "IC 99999", "46 Tucanae"]
)
def test_numbers_are_never_guessed(typed: str) -> None:
    with pytest.raises(UnknownTargetError):
        TABLE.find(typed)


def test_a_slip_that_fits_two_names_is_not_settled_by_chance() -> None:
    with pytest.raises(UnknownTargetError) as caught:
        TABLE.find("Acrub")  # one letter from Acrux, one from Acrab
    assert {"Acrux", "Acrab"} <= set(caught.value.near_misses)


@pytest.mark.parametrize(
    ("typed", "first"),
    [("and", "M 31"), ("ring", "M 57"), ("m 3", "M 3"), ("ngc 7", "NGC 7"), ("veil", "Scene Veil"),
     ("horse", "B 33"), ("andorm", "M 31"), ("pelcan", "IC 5070"), ("nebula orion", "M 42"),
     ("31", "M 31"), ("rosete", "Sh2-275"), ("messier", "M 42"), ("nor", "NGC 7000"),
     ("ngc", "M 42"), ("trunk elephant", "vdB 142"), ("paw", "NGC 6334")],
)  # fmt: skip
def test_the_likeliest_target_is_offered_first(typed: str, first: str) -> None:
    offered = TABLE.suggest(typed)
    ids = [offer.target.id for offer in offered]
    if typed == "pelcan":  # "... and Pelican" is one whole slip away as well
        assert first in ids[:2]
    else:
        assert ids[0] == first
    assert [o.score for o in offered] == sorted((o.score for o in offered), reverse=True)
    assert len(set(ids)) == len(ids) <= 8


def test_every_designation_is_indexed_by_its_key() -> None:
    for row in range(0, len(TABLE), 7):
        for alias in TABLE.target(row).aliases:
            assert key(alias) in TABLE._names._row_of, alias


def test_an_exact_name_is_not_followed_by_names_a_slip_away() -> None:
    exact, unfinished = TABLE.suggest("bubble"), TABLE.suggest("bubbl")
    assert exact[0].score == 100.0
    assert all(offer.score >= 50.0 for offer in exact)
    assert "Hubble's Variable Nebula" in [offer.matched for offer in unfinished]


def test_words_inside_a_name_count_more_than_slips() -> None:
    assert [offer.score for offer in TABLE.suggest("trunk")] == [60.0, 60.0]


def test_suggestions_say_what_was_matched() -> None:
    assert TABLE.suggest("ngc 224")[0].matched == "NGC 224"
    assert TABLE.suggest("praesepe")[0].matched == "Praesepe"
    assert TABLE.suggest("caldw")[:1] == []
    assert TABLE.suggest("trunk")[0].matched == "Elephant's Trunk Nebula"


@pytest.mark.parametrize("typed", ["", "  ", "\u2603", "q" * 500, "\0"])
def test_nothing_is_suggested_for_nothing(typed: str) -> None:
    assert TABLE.suggest(typed) == []
    assert TABLE.suggest("m", limit=0) == []


@settings(max_examples=40)
@given(st.sampled_from(sorted(set(COMMON) - {"CTB 1"})), st.data())
def test_any_beginning_of_a_famous_name_offers_it(name: str, data: st.DataObject) -> None:
    end = data.draw(st.integers(min(5, len(name)), len(name)))
    ids = [offer.target.id for offer in TABLE.suggest(name[:end], limit=12)]
    assert COMMON[name] in ids


@settings(max_examples=60)
@given(st.integers(0, len(TABLE) - 1), st.data())
def test_any_designation_in_any_case_and_spacing_finds_a_row_that_carries_it(
    row: int, data: st.DataObject
) -> None:
    alias = data.draw(st.sampled_from(TABLE.target(row).aliases))
    swap = data.draw(st.sampled_from([str.upper, str.lower, str.title, str.swapcase]))
    space = data.draw(st.sampled_from([" ", "  ", "\u00a0"]))
    found = TABLE.find(swap(alias).replace(" ", space))
    assert alias in found.aliases


@settings(max_examples=60)
@given(st.text(max_size=40))
def test_no_text_breaks_the_search(text: str) -> None:
    offered = TABLE.suggest(text)
    assert len(offered) <= 8
    known = TABLE._names.exactly(text) is not None or TABLE._names.forgivingly(text) is not None
    if known:
        assert TABLE.find(text).aliases
    else:
        with pytest.raises(UnknownTargetError) as caught:
            TABLE.find(text)
        assert len(caught.value.near_misses) <= 3
