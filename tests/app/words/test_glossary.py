"""The glossary: every hard word of a finding is explained, and none twice."""

import re

import pytest

from app.words.glossary import GLOSSARY, explained, terms_in
from core.gear.checks import findings
from core.plan.store import demo_plan
from tests.core.gear.test_six_classes import six

#: Words of the trade that a beginner cannot be expected to know (common practice).
JARGON = (
    "back focus", "image circle", "image scale", "focal length", "focal ratio", "seeing",
    "off-axis guider", "dither", "bin the pixels", "flat frames", "counterweight",
    "polar alignment", "magnitude", "alt-azimuth", "arcsec", "aperture",
)  # fmt: skip


@pytest.mark.parametrize("word", JARGON)
def test_a_word_of_the_trade_is_explained(word: str) -> None:
    assert terms_in(f"Mind the {word}, please."), word


def test_words_inside_other_words_are_no_terms() -> None:
    assert terms_in("The cabin is overseeing robins, at 4 kg.") == ()
    assert explained("It is firm.") == ""


def test_a_sentence_with_two_terms_explains_both_in_paragraphs() -> None:
    words = explained("The image circle is fine; dither.")
    assert re.findall(r"<p>([^:]+):", words) == ["image circle", "dithering"]


def test_no_term_stands_twice_and_no_meaning_is_missing() -> None:
    names = [term.name for term in GLOSSARY]
    assert len(set(names)) == len(names)
    assert all(len(term.meaning) > 20 for term in GLOSSARY)


def test_every_term_is_used_by_a_finding_or_named_by_the_rules_advice() -> None:
    """A term that nothing can show would be dead weight."""
    rigs = [*(planned.rig for planned in demo_plan().rigs), *six().values()]
    said = "\n".join(f.message for rig in rigs for f in findings(rig))
    shown = {term.name for term in terms_in(said)}
    assert len(shown) >= 14
