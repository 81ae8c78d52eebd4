"""The PDF read back by PDFium: pages, words, where they stand, fonts, size."""

import ctypes

import pypdfium2 as pdfium
import pytest
from pypdfium2 import raw

from core.errors import Cancelled
from core.sheets.lettering import MISSING
from core.sheets.paper import A4, LETTER, Paper
from core.sheets.rig_sheet.as_pdf import pdf_of
from core.sheets.rig_sheet.content import RigSheet
from tests.core.gear.small_shelf import other
from tests.core.sheets.sheets import (
    AWKWARD,
    SHELF,
    many_parts,
    pages_of,
    plan_of,
    sheet_of,
    small_rig,
    whole_plan,
)

Box = tuple[float, float, float, float]


@pytest.fixture(scope="module", params=[A4, LETTER], ids=lambda paper: paper.name)
def demo(request: pytest.FixtureRequest) -> tuple[Paper, bytes]:
    return request.param, pdf_of(whole_plan(), paper=request.param)


def words_on(page: pdfium.PdfPage) -> str:
    return " ".join(page.get_textpage().get_text_range().replace("\xa0", " ").split())


def boxes_on(page: pdfium.PdfPage) -> list[Box]:
    text = page.get_textpage()
    return [text.get_rect(number) for number in range(text.count_rects())]


def read(sheet: RigSheet) -> list[str]:
    return [words_on(page) for page in pages_of(pdf_of(sheet))]


def test_the_demo_is_a_page_for_the_set_and_one_a_rig(demo: tuple[Paper, bytes]) -> None:
    _, data = demo
    sheet = whole_plan()
    pages = list(pages_of(data))
    assert len(pages) == 1 + len(sheet.pages)


def test_every_page_has_the_paper_s_size_and_its_words_inside(demo: tuple[Paper, bytes]) -> None:
    paper, data = demo
    for page in pages_of(data):
        assert page.get_size() == pytest.approx((paper.width_pt, paper.height_pt), abs=0.01)
        for left, bottom, right, top in boxes_on(page):
            assert left >= paper.margin_pt - 1.0
            assert right <= paper.width_pt - paper.margin_pt + 1.0
            assert bottom >= paper.margin_pt - 10.0
            assert top <= paper.height_pt - paper.margin_pt + 15.0


def test_no_words_lie_over_others(demo: tuple[Paper, bytes]) -> None:
    for page in pages_of(demo[1]):
        boxes = boxes_on(page)
        assert len(boxes) > 100
        for number, one in enumerate(boxes):
            assert not [other for other in boxes[:number] if over(one, other)]


def test_each_page_names_its_rig_parts_prices_total_and_cautions(
    demo: tuple[Paper, bytes],
) -> None:
    sheet = whole_plan()
    for page, content in zip(list_words(demo[1])[1:], sheet.pages, strict=True):
        assert f"{content.letter} · {content.name}" in page
        assert plain(content.total.words) in page
        assert all(plain(part.price_words) in page for part in content.parts)
        assert all(part.name.split()[0] in page for part in content.parts)
        bad = [one for one in content.findings if one.severity != "good"]
        assert all(f"{one.severity} {one.message[:20]}" in page for one in bad)
        assert "residual-current device" in page


def test_the_set_says_its_price_and_every_rig(demo: tuple[Paper, bytes]) -> None:
    first = list_words(demo[1])[0]
    sheet = whole_plan()
    assert sheet.set_page is not None
    assert sheet.set_page.total is not None
    assert plain(sheet.set_page.total.words) in first
    assert all(page.name in first for page in sheet.pages)
    assert "1 of 8" in first


def test_every_font_is_in_the_file_with_truetype_outlines(demo: tuple[Paper, bytes]) -> None:
    """ISO 32000-1, 9.9: FontFile2 holds TrueType, whose version is 0x00010000 (OpenType)."""
    assert b"/FontFile2" in demo[1]
    assert b"/Type3" not in demo[1]
    for page in pages_of(demo[1]):
        found = {font_of_object(one) for one in page.get_objects() if one.type == 1}
        assert {name.split("+")[-1] for name, _ in found} >= {"B612Print-Regular"}
        assert {version for _, version in found} == {b"\0\1\0\0"}


def test_the_same_sheet_gives_the_same_file_with_its_title_and_no_date() -> None:
    sheet = sheet_of(plan_of(small_rig()))
    data = pdf_of(sheet)
    assert data == pdf_of(sheet)
    about = pdfium.PdfDocument(data).get_metadata_dict()
    assert about["Title"] == "Rig sheet: Club"
    assert about["CreationDate"] == about["ModDate"] == ""


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_names_are_set_letter_by_letter(name: str) -> None:
    rig = small_rig(name, others=[other(name, 5.0)])
    (page,) = read(sheet_of(plan_of(rig).but(title=name), SHELF))
    missing = {letter for letter in name if ord(letter) > 0x3000}
    for letter in set(name) - missing - {" ", "\u202e"}:
        assert letter in page or "\u0600" <= letter <= "\u06ff", letter
    assert (MISSING in page) == bool(missing)
    assert ("stands for a letter that the fonts of this page lack" in page) == bool(missing)


def test_a_long_name_is_broken_and_nothing_of_it_lost() -> None:
    (page,) = read(sheet_of(plan_of(small_rig("W" * 120))))
    assert page.count("W") >= 120


@pytest.mark.parametrize("count", [20, 60])
def test_a_long_list_of_parts_shrinks_or_runs_on_whole(count: int) -> None:
    sheet = sheet_of(plan_of(many_parts(count)))
    pages = read(sheet)
    every = " ".join(pages)
    assert all(f"part {number} of a long list" in every for number in range(count - 4))
    assert plain(sheet.pages[0].total.words) in every
    assert "A · long, continued" in every or len(pages) == 1
    if count == 20:
        assert len(pages) == 1


def test_a_sheet_with_unknown_prices_says_so() -> None:
    (page,) = read(sheet_of(plan_of(small_rig(others=[other("riddle", None)]))))
    assert "at least 2 140 €, 1 price not known" in page


def test_writing_is_given_up_between_pages() -> None:
    asked = []

    def go_on() -> None:
        asked.append(True)
        if len(asked) > 4:
            raise Cancelled

    with pytest.raises(Cancelled):
        pdf_of(sheet_of(plan_of(small_rig("a"), small_rig("b"), small_rig("c"))), go_on=go_on)


def list_words(data: bytes) -> list[str]:
    return [words_on(page) for page in pages_of(data)]


def plain(words: str) -> str:
    return words.replace("\xa0", " ")


def over(one: Box, other: Box) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > 0.8 and down > 0.8


def font_of_object(one: pdfium.PdfObject) -> tuple[str, bytes]:
    """Give a font's name and the first bytes of its program in the file."""
    font = raw.FPDFTextObj_GetFont(one)
    name = ctypes.create_string_buffer(200)
    raw.FPDFFont_GetBaseFontName(font, name, 200)
    assert raw.FPDFFont_GetIsEmbedded(font) == 1
    size = ctypes.c_size_t()
    raw.FPDFFont_GetFontData(font, None, 0, ctypes.byref(size))
    program = (ctypes.c_uint8 * size.value)()
    raw.FPDFFont_GetFontData(font, program, size.value, ctypes.byref(size))
    return name.value.decode(), bytes(program[:4])
