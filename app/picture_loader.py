"""Brings pictures of the sky to the sheet: the chart at once, a survey when it comes.

The chart is drawn beside the window for the view as it is, a little larger than the
sheet. A survey cutout is asked for once the view rests; until it is there, and when it
does not come, the chart stays, with one line saying why.
"""

import logging
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject, QTimer, Signal

from app.session import Session
from app.shared.jobs import Answers, Job, Lane
from app.sky_sheet.transform import SheetTransform
from app.words.sentences import sentence
from core.catalogue.target import TargetKind
from core.errors import CoreError, WorldError
from core.pictures.chart import draw_chart
from core.pictures.marks import Marks, marks
from core.pictures.picture import Picture, PictureFrame

if TYPE_CHECKING:
    from core.pictures.cache import PictureCache
    from core.pictures.fetch import Servers

__all__ = ["PictureLoader", "SurveyService"]

_log = logging.getLogger(__name__)

#: The picture reaches this part of the sheet's side beyond each edge.
_MARGIN = 0.12
_CHART_REST_MS = 25
_SURVEY_REST_MS = 450
_MOST_PX = 4096
#: Width of a star's core in logical pixels.
_STAR_PX = 1.05


class SheetLike(Protocol):
    """What the loader asks of the sheet."""

    @property
    def transform(self) -> SheetTransform:
        """The view."""

    def devicePixelRatioF(self) -> float:
        """Device pixels in a logical one."""


@dataclass(frozen=True)
class SurveyService:
    """Where cutouts come from (tests put a loopback server here), and the disk cache.

    None for the servers means the official ones.
    """

    servers: "Servers | None" = None
    cache: "PictureCache | None" = None


def _key(picture: Picture | None) -> tuple[str, PictureFrame] | None:
    """What a picture was asked for by."""
    return (picture.source, picture.frame) if picture is not None else None


class PictureLoader(QObject):
    """Keeps the sheet's picture in step with the view.

    Parameters
    ----------
    session : Session
    sheet : SkySheet

    Attributes
    ----------
    service : SurveyService
        The cutout servers and the disk cache.
    """

    progressed = Signal(str)

    def __init__(self, session: Session, sheet: SheetLike) -> None:
        super().__init__()
        self.service = SurveyService()
        self._session = session
        self._sheet = sheet
        self._charts, self._surveys = Lane(self), Lane(self)
        self._charts.idle.connect(self._draw_again)
        self._stale = False
        self._refused: tuple[str, PictureFrame] | None = None
        self._asked: tuple[str, PictureFrame] | None = None
        self._chart_rest = self._timer(_CHART_REST_MS, self._draw)
        self._survey_rest = self._timer(_SURVEY_REST_MS, self._fetch)
        session.view_changed.connect(self.refresh)
        session.plan_changed.connect(self.refresh)
        session.sheet_resized.connect(self.refresh)

    @property
    def busy(self) -> bool:
        """Tell whether a picture is on its way."""
        waiting = self._chart_rest.isActive() or self._survey_rest.isActive()
        return waiting or self._stale or self._charts.busy or self._surveys.busy

    def refresh(self) -> None:
        """Bring the pictures for the view as it is now, unless they are there."""
        frame = self.wanted_frame()
        chart, survey = self._session.chart, self._session.survey
        if chart is None or chart.frame != frame or self._labels_changed():
            self._stale = True
            if chart is None:
                self._chart_rest.start(0)
            elif not self._charts.busy and not self._chart_rest.isActive():
                self._chart_rest.start(_CHART_REST_MS)
        source = self._session.plan.view.picture
        if source == "chart" or (survey is not None and survey.source != source):
            self._session.set_survey(None)
        if source == "chart":
            self.stop_fetching()
        elif (source, frame) in (self._refused, _key(survey)):
            self._drop_fetch()
        elif (source, frame) != self._asked:
            self._surveys.give_up()
            self._asked = (source, frame)
            self._survey_rest.start()

    def ask_again(self) -> None:
        """Ask once more for a cutout that did not come."""
        self._refused = None
        self.refresh()

    def stop_fetching(self) -> None:
        """Give the survey cutout up; the chart stays until the view changes."""
        self._refused = (self._session.plan.view.picture, self.wanted_frame())
        self._drop_fetch()

    def _drop_fetch(self) -> None:
        """Nobody waits for a cutout: one that still came would lie over a newer wish."""
        self._asked = None
        self._survey_rest.stop()
        self._surveys.give_up()
        self.progressed.emit("")

    def finish(self) -> None:
        """Give everything up at the end of the program."""
        self._stale = False
        self._chart_rest.stop()
        self._survey_rest.stop()
        self._charts.finish()
        self._surveys.finish()

    def wanted_frame(self) -> PictureFrame:
        """Give the geometry of the picture the sheet needs, with a margin round it."""
        ratio = self._sheet.devicePixelRatioF()
        frame = self._sheet.transform.frame
        grow = 1.0 + 2.0 * _MARGIN
        width, height = (
            min(_MOST_PX, round((side * grow - side) / 2.0) * 2 + side)
            for side in (round(frame.width_px * ratio), round(frame.height_px * ratio))
        )
        scale = frame.scale_rad_px / ratio
        return PictureFrame(frame.plane, width, height, scale, frame.up_pa_deg, frame.mirrored)

    # The chart -----------------------------------------------------------------

    def _draw(self) -> None:
        """Draw the sky of the view as it is now."""
        self._stale = False
        frame, ratio = self.wanted_frame(), self._sheet.devicePixelRatioF()
        kinds = [TargetKind(k) for k in self._labels()]
        stars, targets = self._session.stars, self._session.targets
        self._drawn_labels = self._labels()

        def work(job: Job) -> tuple[Picture, Marks]:
            placed = marks(frame, targets, kinds)
            return draw_chart(frame, stars, targets, sigma_px=_STAR_PX * ratio), placed

        self._charts.start(work, Answers(self._drawn, self._failed))

    def _drawn(self, result: tuple[Picture, Marks]) -> None:
        self._session.set_chart(*result)

    def _draw_again(self) -> None:
        """The view went on while the chart was drawn."""
        if self._stale:
            self._draw()

    _drawn_labels: tuple[str, ...] = ()

    def _labels(self) -> tuple[str, ...]:
        """Kinds of objects to be marked, in a steady order."""
        wanted = set(self._session.plan.view.labels)
        return tuple(kind.value for kind in TargetKind if kind.value in wanted)

    def _labels_changed(self) -> bool:
        return self._labels() != self._drawn_labels

    # The survey ----------------------------------------------------------------

    def _fetch(self) -> None:
        """Ask for the cutout of the view as it is now."""
        from core.pictures.fetch import OFFICIAL, fetch_cutout
        from core.pictures.surveys import survey_of

        frame, service = self.wanted_frame(), self.service
        survey = survey_of(self._session.plan.view.picture)

        def work(job: Job) -> Picture:
            return fetch_cutout(
                survey,
                frame,
                servers=service.servers or OFFICIAL,
                cache=service.cache,
                progress=job.progress,
                cancelled=job.cancelled,
            )

        def refused(error: Exception) -> None:
            self._refused, self._asked = (survey.id, frame), None
            self._failed(error)

        self.progressed.emit(f"Asking for {survey.name} ...")
        self._surveys.start(work, Answers(self._fetched, refused, self._fetching))

    def _fetching(self, fraction: float | None, count: int) -> None:
        size = f"{count / 1e6:.1f} MB"
        part = f"{fraction:.0%} of it, " if fraction is not None else ""
        self.progressed.emit(f"The sky picture is on its way: {part}{size}")

    def _fetched(self, picture: Picture) -> None:
        self._asked = None
        self.progressed.emit("")
        self._session.set_survey(picture)

    def _failed(self, error: Exception) -> None:
        """Say why in one line; whatever is not the world's or the user's is logged."""
        self.progressed.emit("")
        if isinstance(error, CoreError | WorldError):
            self._session.say(
                f"{sentence(error)} The sheet shows the drawn sky instead.", "caution"
            )
            return
        _log.error("a picture could not be made", exc_info=error)
        self._session.say("The picture could not be made; the log file says why.", "bad")

    def _timer(self, delay_ms: int, call: object) -> QTimer:
        timer = QTimer(self)
        timer.setSingleShot(True)
        timer.setInterval(delay_ms)
        timer.timeout.connect(call)
        return timer
