"""Readings typed in the place "Elements" go into the review; the bars say what is known."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import pyqtgraph as pg
import pytest
from closing import put_away
from firings import GOOD, TO_1000, log_of
from PySide6.QtCore import QCoreApplication, QPoint, Qt

from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.results import ClimbCurve, ElementsJudged
from firing_review.firing.sheet import OPEN_CIRCUIT, Given, Readings
from firing_review.firing.units import TemperatureUnit
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.ui.elements_place.panel import ElementsPlace
from firing_review.ui.elements_place.reading_rows import read_readings_typed, rows_of
from firing_review.ui.elements_place.share_bars import ShareBars, shares_of

KILN = Kiln(name="Wren", sections=(Section("bottom"), Section("top")))


@pytest.fixture
def place(qapp, appearance, showing, answers) -> Iterator[ElementsPlace]:
    made = ElementsPlace(appearance, showing, answers.questions())
    made.show()
    made.show_review(review_firing(Given(log_of(GOOD), "t", TO_1000, (), KILN), load_tables()))
    yield made
    put_away(made)


def test_a_reading_goes_into_the_review_as_it_is_typed(qtbot, place: ElementsPlace) -> None:
    with qtbot.waitSignal(place.readingsEdited) as sent:
        place.model.setData(place.model.index(0, 1), "10,4")
    assert sent.args[0] == Readings(cold_ohms={"bottom": 10.4})


def test_an_earlier_good_firing_is_compared_with_and_taken_away_again(
    qtbot, window, answers
) -> None:
    demo = demo_logs() / "2_worn_heating_elements"
    window.open_path(demo / "log.csv")
    window.work.go_to("elements")
    place = window.work.panel("elements")
    assert not place.view.alone.isVisible()
    answers.file = demo / "earlier.csv"
    qtbot.mouseClick(place.view.compare, Qt.MouseButton.LeftButton)
    assert window.sitting.review.elements.power_ratio == pytest.approx(0.81, abs=0.03)
    qtbot.mouseClick(place.view.alone, Qt.MouseButton.LeftButton)
    assert window.sitting.review.given.earlier == ()
    window.sitting.undo()
    assert len(window.sitting.review.given.earlier) == 1


def test_a_firing_is_not_compared_with_itself(qtbot, window, answers) -> None:
    log = demo_logs() / "2_worn_heating_elements" / "log.csv"
    window.open_path(log)
    window.work.go_to("elements")
    answers.file = log
    qtbot.mouseClick(window.work.panel("elements").view.compare, Qt.MouseButton.LeftButton)
    assert window.message.isVisible()
    assert window.sitting.review.given.earlier == ()


def test_open_is_a_reading(place: ElementsPlace) -> None:
    read = read_readings_typed([("top", "open", "")], "", "")
    assert read.readings == Readings(cold_ohms={"top": OPEN_CIRCUIT})
    assert rows_of(read.readings, KILN)[1] == ("top", "open", "")


def test_volts_that_are_no_number_are_told_and_nothing_is_taken() -> None:
    read = read_readings_typed([], "240 V", "")
    assert read.readings is None
    assert "238" in read.message


def test_what_is_not_known_is_said_so() -> None:
    assert [s.word for s in shares_of(ElementsJudged())] == ["cannot tell"] * 3


def test_power_is_given_with_its_range() -> None:
    judged = ElementsJudged(0.82, 0.78, 0.86, mass_ratio=1.0, loss_ratio=1.2)
    assert [s.word for s in shares_of(judged)] == [
        "about 82 % (78–86 %)",
        "as usual",
        "about 20 % more",
    ]


def test_without_a_climb_at_full_output_there_is_no_empty_chart(place) -> None:
    chart = place.view.charts[0]
    chart.show_curves(ElementsJudged(), TemperatureUnit.CELSIUS)
    assert chart.isHidden()


def test_with_room_words_stand_beside_the_charts_and_without_it_below(place) -> None:
    view, hot = place.view, np.linspace(300.0, 1100.0, 30)
    climb = ClimbCurve("now", hot, 400.0 - 0.25 * hot, 400.0 - 0.25 * hot)
    for chart in view.charts:
        chart.show_curves(ElementsJudged(curves=(climb,)), TemperatureUnit.CELSIUS)
    for width, beside in ((1240, True), (700, False)):
        place.resize(width, 560)
        QCoreApplication.processEvents()
        words = view.words.mapTo(view, QPoint(0, 0))
        charts = view.charts[0].mapTo(view, QPoint(0, 0))
        assert (words.x() > charts.x() + 200) is beside
        assert (words.y() > charts.y() + view.charts[0].height() - 1) is not beside


def test_no_name_lies_on_a_line_of_the_climb(place) -> None:
    hot, cool = np.linspace(300.0, 1100.0, 30), np.linspace(300.0, 1000.0, 25)
    now = ClimbCurve("now", cool, 300.0 - 0.25 * (cool - 300.0), cool)
    then = ClimbCurve("then", hot, 380.0 - 0.28 * (hot - 300.0), hot)
    chart = place.view.charts[0]
    place.resize(1240, 560)
    chart.show_curves(ElementsJudged(curves=(now, then)), TemperatureUnit.CELSIUS)
    QCoreApplication.processEvents()
    labels = [item for item in chart.plotItem.items if isinstance(item, pg.TextItem)]
    assert [label.toPlainText() for label in labels] == ["this firing", "earlier"]
    box = chart.plotItem.vb
    for label in labels:
        room = box.mapSceneToView(label.sceneBoundingRect()).boundingRect()
        for curve in (now, then):
            inside = (curve.temperature_c > room.left()) & (curve.temperature_c < room.right())
            y = curve.full_climb_c_per_h[inside]
            assert not ((y > room.top() + 6) & (y < room.bottom() - 6)).any()


def test_words_over_the_bars_never_lie_over_each_other(qtbot, appearance) -> None:
    bars = ShareBars(appearance)
    qtbot.addWidget(bars)
    bars.show_elements(ElementsJudged(0.82, 0.78, 0.86))
    told = {}
    for width in (900, 420):
        bars.resize(width, 160)
        told[width] = [words for words, _ in bars.scale_words()]
        rooms = [room for _, room in bars.scale_words()]
        assert all(a.right() < b.left() for a, b in pairwise(rooms))
    assert told == {900: ["none", "as usual", "twice"], 420: ["as usual"]}
