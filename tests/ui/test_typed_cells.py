"""Cells and fields in another language: its decimal sign and its words, and the other sign too."""

import pytest

from firing_review.firing import wording
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.schedule import Segment
from firing_review.firing.sheet import OPEN_CIRCUIT
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import AS_IN_THE_CODE, Language
from firing_review.io.languages import speak
from firing_review.ui.elements_place.reading_rows import read_readings_typed
from firing_review.ui.schedule_editor import rows as schedule_rows
from firing_review.ui.shelves_place import cone_rows

CELSIUS = TemperatureUnit.CELSIUS


@pytest.fixture(autouse=True)
def _german():
    speak(Language.GERMAN)
    yield
    wording.use(AS_IN_THE_CODE)


def test_a_schedule_is_shown_with_decimal_comma_and_read_back_exactly() -> None:
    segment = Segment(82.5, 600.0, 0.0)
    cells = schedule_rows.cells_of(segment, CELSIUS)
    assert cells == ("82,5", "600", "0")
    assert schedule_rows.read_row(cells, CELSIUS) == segment


@pytest.mark.parametrize("rate", ["82,5", "82.5"])
def test_both_decimal_signs_may_be_typed(rate) -> None:
    assert schedule_rows.read_row((rate, "600", ""), CELSIUS).rate_c_per_h == 82.5


@pytest.mark.parametrize("word", ["voll", "full", "Voll"])
def test_full_may_be_said_in_either_language(word) -> None:
    assert schedule_rows.read_row((word, "600", ""), CELSIUS).rate_c_per_h is None


def test_a_cone_is_read_by_the_words_of_the_screen() -> None:
    (cone,) = cone_rows.read_rows([("1", "06", "halb", "vorn", "groß")], None).cones
    assert (cone.bend_deg, cone.kind) == (45.0, ConeKind.LARGE)
    assert cone_rows.cells_of(cone) == ("1", "06", "45", "vorn", "groß")


def test_a_bend_has_the_decimal_comma() -> None:
    cone = ShelfCone("1", "", ConeNumber("06"), ConeKind.SELF_SUPPORTING, 22.5)
    assert cone_rows.cells_of(cone)[2] == "22,5"
    assert cone_rows.read_rows([cone_rows.cells_of(cone)], None).cones[0].bend_deg == 22.5


@pytest.mark.parametrize("word", ["offen", "open"])
def test_no_continuity_may_be_said_in_either_language(word) -> None:
    read = read_readings_typed([("unten", word, "")], "", "")
    assert read.readings.cold_ohms == {"unten": OPEN_CIRCUIT}


def test_ohms_may_be_typed_with_a_comma() -> None:
    read = read_readings_typed([("unten", "16,9", "14.2")], "238,5", "")
    assert read.readings.cold_ohms == {"unten": 16.9}
    assert read.readings.amps == {"unten": 14.2}
    assert read.readings.volts_no_load == 238.5
