"""A row that goes on in the next line."""

import pytest
from PySide6.QtWidgets import QWidget

from app.shared.flow import Flow

pytestmark = pytest.mark.gui


def boxes(qtbot, width: int, sizes: list[int]) -> tuple[QWidget, list[QWidget]]:
    """Lay out blocks of 20 pixels' height and of some widths, 10 apart."""
    row = QWidget()
    qtbot.addWidget(row)
    flow, blocks = Flow(row, gap=10), []
    for size in sizes:
        block = QWidget()
        block.setFixedSize(size, 20)
        flow.addWidget(block)
        blocks.append(block)
    row.resize(width, flow.heightForWidth(width))
    row.show()
    qtbot.waitExposed(row)
    return row, blocks


def test_what_has_no_room_comes_into_the_next_line(qtbot) -> None:
    """100 + 10 + 80 = 190 fit into 200; 60 more do not."""
    row, blocks = boxes(qtbot, 200, [100, 80, 60])
    assert [(block.x(), block.y()) for block in blocks] == [(0, 0), (110, 0), (0, 30)]
    assert row.height() == 50


def test_all_stands_in_one_line_where_there_is_room(qtbot) -> None:
    row, blocks = boxes(qtbot, 300, [100, 80, 60])
    assert [block.y() for block in blocks] == [0, 0, 0]
    assert row.height() == 20
    assert row.layout().sizeHint().width() == 260
    assert row.layout().minimumSize().width() == 100


def test_what_is_hidden_takes_no_room(qtbot) -> None:
    row, blocks = boxes(qtbot, 300, [100, 80, 60])
    blocks[0].hide()
    row.layout().activate()
    assert [block.x() for block in blocks[1:]] == [0, 90]
