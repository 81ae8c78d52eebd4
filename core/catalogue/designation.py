"""Catalogue designations and names, however they are spelled, brought to one spelling.

`canonical` reads a designation ("ngc0224", "SH 2 155", "Caldwell 9") and writes it
in the one form of the table ("NGC 224", "Sh2-155", "C 9"). `key` reduces any text
to the letters and digits that searching compares.

Sources: the acronyms are those of the catalogues themselves, as kept by the IAU's
rules of designation: NGC and IC (Dreyer 1888, 1895, 1908), M (Messier), C (Moore's
Caldwell list), Sh2 (Sharpless 1959), B (Barnard 1919, 1927), LBN and LDN (Lynds 1965,
1962), vdB (van den Bergh 1966), vdBH (van den Bergh & Herbst 1975), RCW (Rodgers,
Campbell & Whiteoak 1960), Ced (Cederblad 1946), Cr (Collinder 1931), Mel (Melotte
1915), ACO (Abell, Corwin & Olowin 1989), Abell (his planetary nebulae, 1966), PK
(Perek & Kohoutek 1967), PN G (Acker et al. 1992), SNR G (Green), PGC (= LEDA), UGC,
UGCA, ESO, MCG, HCG, HIP.
"""

import re
import unicodedata

__all__ = ["canonical", "family", "key", "number_alone"]

#: Longest text that is read at all; no name is longer.
LONGEST = 80
_SHARPLESS_LAST = 313

_FAMILIES = {
    "M": r"m|messier",
    "NGC": r"ngc|n\.?g\.?c\.?",
    "IC": r"ic|i\.c\.|index catalogue",
    "C": r"c|caldwell",
    "B": r"b|barnard|bar",
    "LBN": r"lbn",
    "LDN": r"ldn|lynds",
    "vdB": r"vdb|van den bergh",
    "vdBH": r"vdbh|bran|van den bergh (?:and|&) herbst",
    "RCW": r"rcw",
    "Ced": r"ced|cederblad",
    "Cr": r"cr|col|coll|collinder|cl",
    "Mel": r"mel|melotte",
    "ACO": r"aco",
    "Abell": r"abell|a",
    "PGC": r"pgc|leda",
    "UGC": r"ugc",
    "UGCA": r"ugca",
    "HCG": r"hcg|hickson",
    "HIP": r"hip|hipparcos",
    "Arp": r"arp",
    "VV": r"vv",
    "H": r"h|harvard",
    "Simeis": r"simeis|sim",
    "MWSC": r"mwsc",
}
_SPLIT = r"[\s._\-]*"
_NUMBERED = [
    (name, re.compile(rf"(?:{words}){_SPLIT}(s?)\s*0*(\d{{1,8}})\s*(.*)"))
    for name, words in _FAMILIES.items()
]
#: What may follow the first number of a pair: "NGC 650/1", "NGC 869 & 884", "M 8 (Lagoon)".
_PAIRED = re.compile(r"\s*(?:[/&]\s*\d+|\(.*\))$")
_SUFFIX = re.compile(r"[a-z]{1,2}\d?|ned\s*0*\d+|-\d{1,3}|")
_SHARPLESS = re.compile(r"(?:sh|sharpless)(\s*2(?=[\s._\-]+\d))?[\s._\-]*0*(\d{1,4})([a-z]?)")
_GALACTIC = re.compile(r"(pn|snr|pk)?\s*(g)?\s*(\d{1,3}(?:\.\d+)?)\s*([+-])\s*(\d{1,2}(?:\.\d+)?)")
_ESO = re.compile(r"eso\s*(\d{1,3})\s*-\s*(?:g\s*|ig\s*)?0*(\d{1,3})([a-z]?)")
_MCG = re.compile(r"mcg\s*([+-]?)\s*(\d{1,2})\s*-\s*(\d{1,2})\s*-\s*0*(\d{1,3})([a-z]?)")

_SAME = str.maketrans(
    {
        "\u2212": "-", "\u2013": "-", "\u2010": "-", "\u2011": "-", "\u2014": "-",
        "\u2018": "'", "\u2019": "'", "\u00b4": "'", "`": "'", "\u00a0": " ", "\u202f": " ",
    }
)  # fmt: skip
_GREEK = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "epsilon", "ζ": "zeta",
    "η": "eta", "θ": "theta", "ι": "iota", "κ": "kappa", "λ": "lambda", "μ": "mu", "ν": "nu",
    "ξ": "xi", "ο": "omicron", "π": "pi", "ρ": "rho", "σ": "sigma", "τ": "tau", "υ": "upsilon",
    "φ": "phi", "χ": "chi", "ψ": "psi", "ω": "omega",
}  # fmt: skip
_PLAIN = {
    "ς": "sigma", "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ł": "l", "ı": "i",
    "&": " and ", "+": " plus ", "★": "", "²": "2", "¹": "1", "³": "3",
}  # fmt: skip
_FOLD = str.maketrans({**{letter: f" {word} " for letter, word in _GREEK.items()}, **_PLAIN})
_DROP = re.compile(r"[\W_]+")


def canonical(text: str) -> str | None:
    """Read a catalogue designation in any spelling.

    Parameters
    ----------
    text : str
        Such as "m31", "NGC 0224", "sh 2 155", "Caldwell 9", "PK 64+5.1".

    Returns
    -------
    str or None
        The designation as the table spells it; None when the text has not the form
        of one. Whether such an object exists is not asked.

    Examples
    --------
    >>> canonical("ngc0224"), canonical("SH 2 155"), canonical("Andromeda")
    ('NGC 224', 'Sh2-155', None)
    """
    clean = " ".join(text.translate(_SAME).lower().split())
    if not clean or len(clean) > LONGEST:
        return None
    return _numbered(clean) or _sharpless(clean) or _by_coordinates(clean) or _by_field(clean)


def family(designation: str) -> str:
    """Give the catalogue of a canonical designation: "Sh2" of "Sh2-155".

    Examples
    --------
    >>> family("NGC 224"), family("Sh2-155"), family("PN G063.1+13.9")
    ('NGC', 'Sh2', 'PN G')
    """
    match = re.match(r"Sh2|PN G|SNR G|[A-Za-z]+(?= )", designation)
    return match.group() if match else ""


def key(text: str) -> str:
    """Reduce a text to what searching compares: plain lower-case letters and digits.

    Greek letters become their names, accents and marks fall away.

    Examples
    --------
    >>> key("Thor's Helmet"), key("γ Cyg"), key("Nébuleuse")
    ('thorshelmet', 'gammacyg', 'nebuleuse')
    """
    if not text.isascii():
        text = unicodedata.normalize("NFKD", text.casefold())
    return _DROP.sub("", text.lower().translate(_FOLD))


def number_alone(text: str) -> int | None:
    """Read a bare whole number ("31"), which names no catalogue; else None."""
    clean = text.strip().lstrip("#")
    return int(clean) if clean.isascii() and clean.isdigit() and len(clean) <= 8 else None


def _numbered(clean: str) -> str | None:
    """Read an acronym, a number and perhaps a component."""
    for name, pattern in _NUMBERED:
        match = pattern.fullmatch(clean)
        if match is None:
            continue
        south, number, rest = match.groups()
        rest = _PAIRED.sub("", rest)
        if (south and name not in ("ACO", "Abell")) or not _SUFFIX.fullmatch(rest):
            continue
        if rest.startswith("ned"):
            return f"{name} {int(number)} NED{int(rest[3:]):02d}"
        if south:
            return f"ACO S{int(number)}"
        return f"{name} {int(number)}{_component(name, rest)}"
    return None


def _component(name: str, rest: str) -> str:
    """Spell a component: capitals for NGC and IC, small letters for nebula lists."""
    return rest.upper() if name in ("NGC", "IC", "UGC", "ESO", "MCG", "PGC") else rest


def _sharpless(clean: str) -> str | None:
    """Read a Sharpless number; the 2 of "Sh2" may stand apart, together or be absent."""
    match = _SHARPLESS.fullmatch(clean)
    if match is None:
        return None
    second, digits, component = match.groups()
    if second is None and digits.startswith("2") and int(digits) > _SHARPLESS_LAST:
        digits = digits[1:]
    return f"Sh2-{int(digits)}{component}" if digits and int(digits) else None


def _by_coordinates(clean: str) -> str | None:
    """Read a designation by galactic coordinates (PN G, SNR G, PK)."""
    match = _GALACTIC.fullmatch(clean)
    if match is None:
        return None
    name, galactic, longitude, sign, latitude = match.groups()
    if name == "pk":
        whole = latitude if "." in latitude else f"{latitude}.1"
        return f"PK {int(float(longitude)):03d}{sign}{float(whole):04.1f}"
    if name not in ("pn", "snr") or galactic is None:
        return None
    return f"{name.upper()} G{float(longitude):05.1f}{sign}{float(latitude):04.1f}"


def _by_field(clean: str) -> str | None:
    """Read a designation by plate or zone (ESO, MCG)."""
    if match := _ESO.fullmatch(clean):
        return f"ESO {int(match[1]):03d}-{int(match[2]):03d}{match[3].upper()}"
    if match := _MCG.fullmatch(clean):
        sign, zone, column, number, component = match.groups()
        place = f"{sign or '+'}{int(zone):02d}-{int(column):02d}-{int(number):03d}"
        return f"MCG {place}{component.upper()}"
    return None
