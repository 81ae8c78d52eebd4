"""The HTML sheet read by html.parser: closed elements, nothing fetched, nothing run."""

import base64
import io
from html.parser import HTMLParser

import pytest
from PIL import Image

from core.sheets.rig_sheet.as_html import html_of
from core.sheets.rig_sheet.sky_drawing import SkyDrawing
from tests.core.gear.small_shelf import other
from tests.core.sheets.sheets import AWKWARD, plan_of, sheet_of, small_rig, whole_plan

#: Elements that are never closed (WHATWG HTML, void elements).
VOID = {"meta", "link", "img", "br", "hr", "input"}


class Reader(HTMLParser):
    """Keeps what a page holds; refuses elements that are closed out of order."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str, str | None]] = []
        self.words: list[tuple[str, str]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs) -> None:
        self.tags.append(tag)
        self.attributes += [(tag, name, value) for name, value in attrs]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs) -> None:
        self.tags.append(tag)
        self.attributes += [(tag, name, value) for name, value in attrs]

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1] == tag, f"{tag} closes {self.open[-1]}"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.words.append((self.open[-1] if self.open else "", data))

    def of(self, tag: str) -> list[str]:
        return [words for inside, words in self.words if inside == tag]


@pytest.fixture(scope="module")
def demo() -> Reader:
    return Reader(html_of(whole_plan()).decode())


def test_the_page_says_its_language_width_and_title_and_closes_all(demo: Reader) -> None:
    assert demo.open == []
    assert ("html", "lang", "en") in demo.attributes
    assert ("meta", "charset", "utf-8") in demo.attributes
    assert ("meta", "content", "width=device-width, initial-scale=1") in demo.attributes
    assert demo.of("title")[0] == "Rig sheet: The loan shelf: autumn evenings"


def test_nothing_is_fetched_and_nothing_is_run(demo: Reader) -> None:
    assert not {"script", "link", "iframe", "object", "img", "form"} & set(demo.tags)
    for _, name, value in demo.attributes:
        assert not name.startswith("on")
        if name in ("href", "src"):
            assert str(value).startswith("data:image/png;base64,")
    assert "url(" not in "".join(demo.of("style"))
    assert "@import" not in "".join(demo.of("style"))


def test_there_is_one_section_a_rig_with_its_parts_prices_and_totals(demo: Reader) -> None:
    sheet = whole_plan()
    assert demo.tags.count("section") == len(sheet.pages) + 2, "the set and the cautions too"
    said = "\n".join(words for _, words in demo.words)
    for page in sheet.pages:
        assert page.total.words in said
        assert all(part.name in said for part in page.parts)
        assert all(finding.message in said for finding in page.findings)
    assert all(caution in said for caution in sheet.cautions)


def test_every_severity_stands_as_a_word_beside_its_mark(demo: Reader) -> None:
    badges = [words for words in demo.of("b") if words[0] in "✕▲?·✓"]
    assert {badge.split()[1] for badge in badges} >= {"caution", "note", "good"}
    assert all(len(badge.split()) == 2 for badge in badges)


def test_every_chart_has_words_for_those_who_do_not_see_it(demo: Reader) -> None:
    sheet = whole_plan()
    labels = [value for tag, name, value in demo.attributes if (tag, name) == ("svg", "aria-label")]
    charts = [sheet.set_page.drawing, *(page.drawing for page in sheet.pages)]
    assert labels == [chart.alt for chart in charts]
    assert all("North" not in label and "north up" in label for label in labels)
    assert sheet.pages[0].drawing.credit in "\n".join(demo.of("figcaption"))


def test_the_chart_inside_is_the_picture_that_was_drawn(demo: Reader) -> None:
    drawing = whole_plan().pages[0].drawing
    assert isinstance(drawing, SkyDrawing)
    hrefs = [value for tag, name, value in demo.attributes if (tag, name) == ("image", "href")]
    data = base64.b64decode(str(hrefs[1]).removeprefix("data:image/png;base64,"))
    picture = Image.open(io.BytesIO(data))
    assert picture.size == (drawing.pixels.shape[1], drawing.pixels.shape[0])
    assert picture.tobytes() == drawing.pixels.tobytes()


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_names_come_back_as_they_are_and_run_nothing(name: str) -> None:
    rig = small_rig(name, others=[other(name, 5.0)])
    page = Reader(html_of(sheet_of(plan_of(rig).but(title=name))).decode())
    assert page.open == []
    assert "script" not in page.tags
    wanted = name.strip()
    assert page.of("bdi").count(wanted) == 3, "title, rig and part"
    assert page.of("title") == [f"Rig sheet: {wanted}"]
