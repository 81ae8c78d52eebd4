"""Every usual spelling of a position is read, and every wrong one gets its sentence.

The position behind the good table is RA 20h58m47s = 314.695833 degrees, Dec +44 19 48 =
44.33 degrees unless a line says otherwise; worked by hand.
"""

import pytest
from astropy import units as u
from astropy.coordinates import Angle

from core.errors import BadValueError
from core.sky.angles import looks_like_position, parse_angle, parse_dec, parse_position, parse_ra

HERE = (314.0 + 0.7 - 1.0 / 240.0, 44.33)
DEGREES = (314.7, 44.33)
SOUTH = (HERE[0], -44.33)
ORION = (83.75 + 17.3 / 240.0, -(5.0 + 23.0 / 60.0 + 28.0 / 3600.0))

SPELLINGS = {
    "20 58 47 +44 19 48": HERE,
    "20 58 47 44 19 48": HERE,
    "20 58 47 -44 19 48": SOUTH,
    "20 58 47 - 44 19 48": SOUTH,
    "20:58:47 +44:19:48": HERE,
    "20:58:47,+44:19:48": HERE,
    "20:58:47,44:19:48": HERE,
    "20:58:47; 44:19:48": HERE,
    "20h58m47s +44d19m48s": HERE,
    "20h58m47s+44d19m48s": HERE,
    "20h58m47s-44d19m48s": SOUTH,
    "20H58M47S +44D19M48S": HERE,
    "20 h 58 m 47 s +44 d 19 m 48 s": HERE,
    "20h 58m 47s, +44d 19m 48s": HERE,
    "20h58m47s / +44d19m48s": HERE,
    "20h58m47s 44d19m48s": HERE,
    "20h58m47s 44.33": HERE,
    "20h 58m 47s 44d 19m 48s": HERE,
    "20h 58m 47s 44 19 48": HERE,
    "20h 58m 47s 44 30": (HERE[0], 44.5),
    "20h 58m 44 20": (314.5, 44.0 + 1.0 / 3.0),
    "20h58m47s +44:19:48": HERE,
    "20:58:47 +44.33": HERE,
    "20h58m47s +44°19'48\"": HERE,
    "20h58m47s +44°19'48''": HERE,
    "20ʰ58ᵐ47ˢ +44°19′48″": HERE,
    "20ʰ58ᵐ47ˢ −44°19′48″": SOUTH,
    "20h58m47s –44°19’48”": SOUTH,
    "20h58m47s +44º19′48″": HERE,
    "20\u00a058\u00a047\u2009+44\u202f19\u00a048": HERE,
    "\t20 58 47\t+44 19 48\n": HERE,
    "  20   58  47    +44  19   48 ": HERE,
    "RA 20 58 47 Dec +44 19 48": HERE,
    "ra 20 58 47, dec 44 19 48": HERE,
    "RA: 20h58m47s, DEC: 44d19m48s": HERE,
    "R.A. 20 58 47 Decl. +44 19 48": HERE,
    "right ascension 20h58m47s declination +44d19m48s": HERE,
    "α 20 58 47 δ +44 19 48": HERE,
    "α=20h58m47s, δ=−44°19′48″": SOUTH,
    "20 58 47 +44 19 48 J2000": HERE,
    "J2000 20 58 47 +44 19 48": HERE,
    "20 58 47 +44 19 48 (J2000.0)": HERE,
    "20h58m47s+44d19m48s ICRS": HERE,
    "J205847+441948": HERE,
    "J205847-441948": SOUTH,
    "205847+441948": HERE,
    "J205847.0+441948.0": HERE,
    "20 hours 58 min 47 sec +44 deg 19 arcmin 48 arcsec": HERE,
    "314.7 44.33": DEGREES,
    "314.7 +44.33": DEGREES,
    "314.7+44.33": DEGREES,
    "314.7,44.33": DEGREES,
    "314.7, 44.33": DEGREES,
    "314.7;44.33": DEGREES,
    "(314.7, 44.33)": DEGREES,
    "[314.7 44.33]": DEGREES,
    "314.7° 44.33°": DEGREES,
    "314.7deg 44.33deg": DEGREES,
    "314.7 deg, +44.33 degrees": DEGREES,
    "ra=314.7 dec=44.33": DEGREES,
    "314,7 44,33": DEGREES,
    "314,7; 44,33": DEGREES,
    "314,7, 44,33": DEGREES,
    "314,7 +44,33": DEGREES,
    "5 35 17.3 -5 23 28": ORION,
    "5 35 17,3 -5 23 28": ORION,
    "5:35:17,3 -5:23:28,0": ORION,
    "05h35m17.3s, -05°23'28\"": ORION,
    "83°49'19.5\" -5°23'28\"": ORION,
    "20 58 +44 20": (314.5, 44.0 + 1.0 / 3.0),
    "20 58 44 20": (314.5, 44.0 + 1.0 / 3.0),
    "20h58m +44°20′": (314.5, 44.0 + 1.0 / 3.0),
    "J2058+4420": (314.5, 44.0 + 1.0 / 3.0),
    "J2058.5+4420.5": (314.625, 44.0 + 20.5 / 60.0),
    "20 58.5 +44 20.5": (314.625, 44.0 + 20.5 / 60.0),
    "20 58 +4 20 0": (314.5, 4.0 + 1.0 / 3.0),
    "12h +45": (180.0, 45.0),
    "12 45": (12.0, 45.0),
    "10,20": (10.0, 20.0),
    "10,5 20": (10.5, 20.0),
    "10 30,20 15": (157.5, 20.25),
    "0 0 0 -0 30 0": (0.0, -0.5),
    "0h -0°30′": (0.0, -0.5),
    "24h 0": (0.0, 0.0),
    "360 -90": (0.0, -90.0),
    ".5 -.5": (0.5, -0.5),
}

HOW = 'write it as "20 58 47 +44 19 48", "20h58m47s +44d19m48s" or in degrees "314.7 44.33"'
NO_PAIR = "is not a right ascension and a declination; " + HOW
HOW_RA = 'write it as "20 58 47", "20h58m47s" or in degrees "314.7"'
HOW_DEC = 'write it as "+44 19 48", "+44d19m48s" or in degrees "+44.33"'

WRONG = {
    "": f'position "": is empty; {HOW}',
    " \t ": f'position " \t ": is empty; {HOW}',
    "M 31": f'position "M 31": {NO_PAIR}',
    "nowhere": f'position "nowhere": {NO_PAIR}',
    "nan nan": f'position "nan nan": {NO_PAIR}',
    "inf 0": f'position "inf 0": {NO_PAIR}',
    "20": f'position "20": {NO_PAIR}',
    "20 58 47": f'position "20 58 47": {NO_PAIR}',
    "RA 5h35m": f'position "RA 5h35m": {NO_PAIR}',
    "1,2,3": f'position "1,2,3": {NO_PAIR}',
    "20 58 47 44 19": f'position "20 58 47 44 19": {NO_PAIR}',
    "1 2 3 4 5 6 7": f'position "1 2 3 4 5 6 7": {NO_PAIR}',
    "25h +10": 'right ascension "25h": must lie between 0h and 24h',
    "25 0 0 +10 0 0": 'right ascension "25 0 0": must lie between 0h and 24h',
    "361 10": 'right ascension "361": must lie between 0 and 360 degrees',
    "-10 +20": 'right ascension "-10": must lie between 0 and 360 degrees',
    "20 58 +91 0": 'declination "+91 0": must lie between -90 and +90 degrees',
    "10 -91": 'declination "-91": must lie between -90 and +90 degrees',
    "20 58 +90 0 1": 'declination "+90 0 1": must lie between -90 and +90 degrees',
    "20 60 +10 10": 'right ascension "20 60": has minutes or seconds of 60 or more',
    "20 58 +10 9 60": 'declination "+10 9 60": has minutes or seconds of 60 or more',
    "10.5 30 +10": 'right ascension "10.5 30": may have decimals in its last part only',
    "10h 20h": 'declination "20h": is in degrees, not hours',
    "20h58h +10": f'right ascension "20h58h": has its units out of order; {HOW_RA}',
    "20s +10": f'right ascension "20s": has its units out of order; {HOW_RA}',
    "1e5 10": f'right ascension "1e5": is not an angle; {HOW_RA}',
    "++10 20": f'right ascension "++10": is not an angle; {HOW_RA}',
    "10 +-20": f'declination "+-20": is not an angle; {HOW_DEC}',
    "20 58 47.1.2 +4": f'right ascension "20 58 47.1.2": is not an angle; {HOW_RA}',
    "10.1.2 +4": 'right ascension "10.1.2": may have decimals in its last part only',
    "20 58 47 +44 19 48 5": f'declination "+44 19 48 5": is not an angle; {HOW_DEC}',
    "20h58m N44°": f'declination "N44d": is not an angle; {HOW_DEC}',
    "9" * 400 + " 10": f'position "{"9" * 57}...": {NO_PAIR}',
}

NAMES = ("M 31", "NGC 7000", "IC 1396", "61 Cyg", "30 Dor", "Sh2-155", "PK 164+31.1", "B 33", "")


@pytest.mark.parametrize("text", SPELLINGS)
def test_a_usual_spelling_is_read(text: str) -> None:
    assert parse_position(text) == pytest.approx(SPELLINGS[text], abs=1e-12)
    assert looks_like_position(text)


@pytest.mark.parametrize("text", WRONG)
def test_a_wrong_spelling_gets_its_sentence(text: str) -> None:
    with pytest.raises(BadValueError) as caught:
        parse_position(text)
    assert str(caught.value) == WRONG[text]


@pytest.mark.parametrize("text", NAMES)
def test_a_name_is_not_taken_for_a_position(text: str) -> None:
    assert not looks_like_position(text)


@pytest.mark.parametrize(
    "text", ["20 58 47.5 +44 19 48.25", "00:42:44.3 -41:16:09", "5h35m17.3s -5d23m28s"]
)
def test_sexagesimal_is_read_as_astropy_reads_it(text: str) -> None:
    ra, dec = text.rsplit(" ", 1) if "h" in text or ":" in text else (text[:10], text[11:])
    theirs = Angle(ra, unit=u.hourangle).deg, Angle(dec, unit=u.deg).deg
    assert parse_position(text) == pytest.approx(theirs, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "deg"),
    [("20h58m", 314.5), ("20 58", 314.5), ("314.5", 314.5), ("12,5h", 187.5), ("24h", 0.0)],
)
def test_one_right_ascension(text: str, deg: float) -> None:
    assert parse_ra(text) == pytest.approx(deg, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "deg"),
    [("-0 30 00", -0.5), ("−0°30′", -0.5), ("-00:00:36", -0.01), ("+ 5", 5.0), ("90", 90.0)],
)
def test_one_declination_keeps_the_sign_of_minus_zero(text: str, deg: float) -> None:
    assert parse_dec(text) == pytest.approx(deg, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "deg"),
    [("-30", 330.0), ("305.5°", 305.5), ("720", 0.0), ("30′", 0.5), ("90'", 1.5), ("30 deg", 30.0),
     ("45 30", 45.5), ('36"', 0.01), ("−0,5", 359.5)],
)  # fmt: skip
def test_an_angle_is_read_and_wrapped(text: str, deg: float) -> None:
    assert parse_angle(text) == pytest.approx(deg, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", 'camera angle "": is not an angle; write it in degrees, as "35.5" or "35 30"'),
        ("up", 'camera angle "up": is not an angle; write it in degrees, as "35.5" or "35 30"'),
        ("3601", 'camera angle "3601": must lie between -3600 and 3600 degrees'),
        ("10h", 'camera angle "10h": is in degrees, not hours'),
        ("nan", 'camera angle "nan": is not an angle; write it in degrees, as "35.5" or "35 30"'),
    ],
)
def test_an_angle_that_cannot_be_gets_its_sentence(text: str, words: str) -> None:
    with pytest.raises(BadValueError) as caught:
        parse_angle(text, name="camera angle")
    assert str(caught.value) == words
