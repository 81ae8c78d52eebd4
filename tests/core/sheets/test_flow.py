"""Blocks on pages: each once, in order, inside the limits, none over another."""

from dataclasses import dataclass

from hypothesis import given, settings
from hypothesis import strategies as st

from core.sheets.flow import Column, Placed, place
from core.sheets.leaf import Leaf
from core.sheets.paper import A4

TOP, BOTTOM = 40.0, 760.0


@dataclass(frozen=True, eq=False)
class Box:
    high_pt: float
    keeps_next: bool = False

    def height(self, width_pt: float) -> float:
        return self.high_pt

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        raise AssertionError


boxes = st.lists(st.builds(Box, st.floats(1.0, 150.0), st.booleans()), max_size=25)
sections = st.lists(st.lists(boxes, min_size=1, max_size=3), min_size=1, max_size=4)


@settings(max_examples=60)
@given(sections)
def test_every_block_is_placed_once_inside_the_page_and_none_over_another(rows) -> None:
    wanted = [tuple(Column(tuple(blocks)) for blocks in row) for row in rows]
    placed = place(wanted, A4, top_pt=TOP, bottom_pt=BOTTOM)
    assert [one.block for one in placed] == [b for row in rows for blocks in row for b in blocks]
    for one in placed:
        assert one.y_pt >= TOP
        assert one.y_pt + one.block.high_pt <= BOTTOM + 1e-9
        assert A4.margin_pt <= one.x_pt
        assert one.x_pt + one.width_pt <= A4.width_pt - A4.margin_pt + 1e-9
    for number, one in enumerate(placed):
        assert not any(_overlap(one, other) for other in placed[:number])


def test_a_heading_is_never_the_last_on_a_page() -> None:
    blocks = [Box(700.0), Box(10.0, keeps_next=True), Box(30.0)]
    placed = place([(Column(tuple(blocks)),)], A4, top_pt=TOP, bottom_pt=BOTTOM)
    assert [one.page for one in placed] == [0, 1, 1]


def test_what_goes_across_begins_below_the_longest_column() -> None:
    columns = (Column((Box(100.0),)), Column((Box(300.0),)))
    *_, last = place([columns, (Column((Box(10.0),)),)], A4, top_pt=TOP, bottom_pt=BOTTOM)
    assert last.y_pt >= TOP + 300.0
    assert last.x_pt == A4.margin_pt


def _overlap(one: Placed, other: Placed) -> bool:
    if one.page != other.page:
        return False
    across = min(one.x_pt + one.width_pt, other.x_pt + other.width_pt) - max(one.x_pt, other.x_pt)
    ends = one.y_pt + one.block.high_pt, other.y_pt + other.block.high_pt
    down = min(ends) - max(one.y_pt, other.y_pt)
    return across > 1e-9 and down > 1e-9
