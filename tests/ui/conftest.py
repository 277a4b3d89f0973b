"""Fixtures of the window: a hand-made firing, a window with its own home, nothing left behind."""

import multiprocessing
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

import numpy as np
import pytest
from closing import put_away
from PySide6.QtCore import QCoreApplication, QEvent, QThreadPool
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QMenu, QWidget

from firing_review.firing import wording
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.results import (
    ChannelHeatWork,
    ElementsJudged,
    Light,
    Lights,
    NextFiring,
    Verdict,
)
from firing_review.firing.said import Said
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.sheet import Given
from firing_review.review.review import Review
from firing_review.ui.app import make_window
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.background import Background
from firing_review.ui.firing_chart.panel import FiringChart
from firing_review.ui.main_window import MainWindow
from firing_review.ui.on_clipboard import leave_to_qt
from firing_review.ui.preferences import Preferences
from firing_review.ui.qt_words import speak_with_qt
from firing_review.ui.showing import Showing


class RealDialogError(AssertionError):
    """A test came to a dialog that waits for a person."""


@pytest.fixture(autouse=True)
def _no_waiting_for_a_person(monkeypatch):
    """Make every dialog that would wait fail the test instead of stopping the run."""

    def refuse(*_args):
        raise RealDialogError("a dialog that waits for a person was opened")

    for kind in (QDialog, QMenu):
        monkeypatch.setattr(kind, "exec", refuse)


@pytest.fixture(autouse=True)
def _nothing_left_behind(qapp) -> Iterator[None]:
    """Fail a test that leaves a window, or work in another thread, behind."""
    before = set(threading.enumerate())
    yield
    leave_to_qt()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    # a plot keeps hidden menus of its own until Python collects it; a window is never a menu
    left = [one for one in QApplication.topLevelWidgets() if not isinstance(one, QMenu)]
    assert left == []
    assert not any(one.isVisible() for one in QApplication.topLevelWidgets())
    assert QThreadPool.globalInstance().activeThreadCount() == 0
    assert set(threading.enumerate()) <= before
    assert multiprocessing.active_children() == []


_RUN = Background.run


@pytest.fixture(autouse=True)
def _short_work_is_over_when_the_call_returns(monkeypatch):
    """Wait for short work where it begins, so that a test can look at what came of it."""

    def run(background, work):
        _RUN(background, work)
        while not work.is_long and background.is_doing(work):
            QTest.qWait(1)

    monkeypatch.setattr(Background, "run", run)


@pytest.fixture
def as_it_comes(monkeypatch) -> None:
    """Wait for nothing: for tests of what holds while something is on its way."""
    monkeypatch.setattr(Background, "run", _RUN)


@pytest.fixture(autouse=True)
def _english_after_each() -> Iterator[None]:
    """Leave no test the language of another."""
    yield
    wording.use(wording.AS_IN_THE_CODE)
    speak_with_qt()


@dataclass
class Answers:
    """What the replaced questions answer, and how often they were asked."""

    file: Path | None = None
    folder: Path | None = None
    save: Path | None = None
    book: Path | None = None
    asked: list[str] = field(default_factory=list)

    def file_to_open(self, _parent: QWidget, title: str, _folder: Path) -> Path | None:
        self.asked.append(title)
        return self.file

    def folder_to_open(self, _parent: QWidget, _folder: Path) -> Path | None:
        self.asked.append("folder")
        return self.folder

    def folder_to_save(self, _parent: QWidget, suggested: Path) -> Path | None:
        self.asked.append(suggested.name)
        return self.save

    def book_to_open(self, _parent: QWidget, _folder: Path) -> Path | None:
        self.asked.append("book")
        return self.book

    def book_to_make(self, _parent: QWidget, suggested: Path) -> Path | None:
        self.asked.append(suggested.name)
        return self.book

    def questions(self) -> Questions:
        return Questions(
            self.file_to_open,
            self.folder_to_open,
            self.folder_to_save,
            book_to_open=self.book_to_open,
            book_to_make=self.book_to_make,
            any_file_to_open=self.file_to_open,
            any_file_to_save=lambda _parent, suggested: (
                self.asked.append(suggested.name) or self.save
            ),
        )


@pytest.fixture
def answers() -> Answers:
    return Answers()


@pytest.fixture
def home(tmp_path) -> Path:
    folder = tmp_path / "home"
    folder.mkdir()
    return folder


@pytest.fixture
def preferences(home) -> Preferences:
    return Preferences(home)


@pytest.fixture
def appearance(qapp, preferences) -> Appearance:
    look = Appearance(preferences)
    look.apply()
    return look


@pytest.fixture
def showing(preferences) -> Showing:
    return Showing(preferences)


@pytest.fixture
def window(qtbot, home, answers) -> Iterator[MainWindow]:
    """Return the whole window, shown, with its questions answered by ``answers``."""
    made = make_window(home, answers.questions())
    made.show()
    qtbot.waitExposed(made)
    yield made
    put_away(made)


LOG_HOURS = 12.0
PEAK_C, START_C = 1200.0, 20.0


def hand_made_curve(hours: np.ndarray) -> np.ndarray:
    """Return 150 °C/h up to 1200 °C, then 300 °C/h down."""
    up = START_C + 150.0 * hours
    top_h = (PEAK_C - START_C) / 150.0
    down = PEAK_C - 300.0 * (hours - top_h)
    return np.where(hours <= top_h, up, np.maximum(down, START_C))


def hand_made_log(sections: int = 1, started: datetime | None = None) -> FiringLog:
    """Return a log of 12 h, one sample a minute, with a gap from 3 h to 3.5 h."""
    hours = np.arange(0, LOG_HOURS + 1e-9, 1 / 60)
    curve = hand_made_curve(hours)
    curve[(hours > 3.0) & (hours < 3.5)] = np.nan
    role = ChannelRole.CHAMBER if sections == 1 else ChannelRole.SECTION
    channels = [Channel(f"T{n + 1}", role, curve - 5.0 * n) for n in range(sections)]
    return FiringLog("night.csv", hours, tuple(channels), started_at=started)


SCHEDULE = Schedule((Segment(150.0, 1220.0, 10.0),), "glaze")


def hand_made_firing(log: FiringLog) -> AlignedFiring:
    """Return the log beside a schedule of one segment."""
    curve = hand_made_curve(log.elapsed_h)
    stretches = (
        Stretch(
            1, StretchKind.CLIMB, 150.0, 1220.0, None,
            start_h=0.0, end_h=7.87, start_c=20.0, reached_c=1200.0, rate_c_per_h=150.0,
            behind_min=12.0,
        ),
        Stretch(1, StretchKind.HOLD, None, 1220.0, 10.0),
    )  # fmt: skip
    return AlignedFiring(
        log=log,
        intended=SCHEDULE,
        reading_c=curve,
        rate_c_per_h=np.gradient(curve, log.elapsed_h),
        line_c=None,
        plan_h=np.array([0.0, 8.0, 8.17]),
        plan_c=np.array([20.0, 1220.0, 1220.0]),
        full_output=np.zeros(log.rows, dtype=bool),
        start_h=0.0,
        heating_end_h=7.87,
        peak_h=7.87,
        peak_c=1200.0,
        stretches=stretches,
    )


FINDINGS = (
    Finding(
        FindingKind.SHORT_OF_TARGET, Severity.FAULT, 7.0, 7.9,
        "Reading stopped at {reached_c}.", {"reached_c": 1200.0},
    ),
    Finding(
        FindingKind.SLOW_CLIMB, Severity.WATCH, 5.0, 7.8,
        "The kiln climbed slowly from {from_c}.", {"from_c": 770.0},
    ),
    Finding(
        FindingKind.PROBE_DROPOUT, Severity.NOTE, 3.0, 3.5,
        "No reading for {gap_min}.", {"gap_min": 30.0},
    ),
)  # fmt: skip


def hand_made_review(sections: int = 1, started: datetime | None = None) -> Review:
    """Return a review with three findings, made by hand."""
    log = hand_made_log(sections, started)
    word = Said("not asked yet")
    return Review(
        given=Given(log, title="Tuesday glaze", intended=SCHEDULE),
        firing=hand_made_firing(log),
        findings=FINDINGS,
        heat_work=(ChannelHeatWork("T1", 5.4, "5.4", 0.8),),
        shelves=(),
        elements=ElementsJudged(),
        causes=(),
        next_check=None,
        next_firing=NextFiring(),
        verdict=Verdict(
            (Said("Reading stopped at {reached_c}.", {"reached_c": 1200.0}),),
            Lights(Light.WATCH, Light.FINE, Light.NOT_ASKED),
            Said("underfired"),
            Said("nothing seen"),
            word,
        ),
    )


@pytest.fixture
def review() -> Review:
    return hand_made_review()


@pytest.fixture
def make_review():
    return hand_made_review


LOG_HEAD = "time_min,chamber_C"


def log_text(peak_c: float = 1200.0, minutes: int = 700) -> str:
    """Return a log as a logger writes it: one row a minute, up at 150 °C/h, then down."""
    hours = np.arange(minutes) / 60.0
    top_h = (peak_c - START_C) / 150.0
    up = START_C + 150.0 * hours
    down = START_C + (peak_c - START_C) * np.exp(-(hours - top_h) / 4.0)
    curve = np.where(hours <= top_h, up, down)
    rows = [f"{minute},{value:.1f}" for minute, value in enumerate(curve)]
    return "\n".join([LOG_HEAD, *rows]) + "\n"


@pytest.fixture
def log_file(tmp_path) -> Path:
    """Return a log on the disk."""
    path = tmp_path / "night.csv"
    path.write_text(log_text(), encoding="utf-8")
    return path


@pytest.fixture
def chart(qtbot, appearance, showing, review) -> FiringChart:
    panel = FiringChart(appearance, showing)
    qtbot.addWidget(panel)
    panel.resize(900, 600)
    panel.show_review(review)
    panel.show()
    qtbot.waitExposed(panel)
    return panel
