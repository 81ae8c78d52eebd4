"""A frame that is dropped: one file of this computer, and nothing else."""

from pathlib import Path

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.frame_reading.drop import FrameDrop
from tests.app.frame_reading.dragging import drag, mime
from tests.app.seeing import Host


def test_one_file_that_is_dropped_is_read_and_nothing_else(host: Host, tmp_path: Path) -> None:
    place, read = QWidget(), []
    FrameDrop(place, read.append)
    host(place)
    path = tmp_path / "light.fits"
    assert drag(place, mime(path.as_uri())) == (True, True)
    assert read == [str(path)]
    for data in (mime(), mime(path.as_uri(), path.as_uri()), mime("https://example.org/a.fits")):
        drag(place, data)
    assert read == [str(path)]


def test_what_is_dropped_on_a_part_of_it_counts_too(host: Host, tmp_path: Path) -> None:
    """As Qt does it: to the next above that takes drops."""
    place, part, read = QWidget(), QLabel("part"), []
    QVBoxLayout(place).addWidget(part)
    FrameDrop(place, read.append)
    host(place)
    drag(part, mime((tmp_path / "light.fits").as_uri()))
    assert read == [str(tmp_path / "light.fits")]
