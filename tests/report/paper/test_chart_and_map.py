"""The drawings of a page: gaps stay gaps, hot and cold differ without color."""

import re
from dataclasses import replace

import numpy as np
import pytest
from firings import GOOD, TO_1000, log_of, with_values
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.results import ShelfHeat
from firing_review.firing.sheet import Given
from firing_review.firing.wording import Language
from firing_review.io.languages import speak
from firing_review.io.tables import load_tables
from firing_review.report.paper.chamber import chamber_map
from firing_review.report.paper.chart import LABEL_SIZE, SMALL_SIZE, WIDTH, chart
from firing_review.report.paper.svg import HOT, Svg, cut, width_of
from firing_review.report.wording import Show
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review

KILN = Kiln(sections=(Section("bottom"), Section("top")))
CONES = tuple(
    ShelfCone(shelf, "", ConeNumber("06"), ConeKind.LARGE, bend)
    for shelf, bend in (("bottom", 0.0), ("top", 120.0))
)


def reviewed(**changes: object) -> Review:
    given_ = replace(Given(log_of(GOOD), intended=TO_1000), **changes)
    return review_firing(given_, load_tables())


@pytest.fixture(scope="module")
def good() -> Review:
    return reviewed()


def numbers(svg: str) -> list[float]:
    return [float(n) for n in re.findall(r"(?<=[ \",])-?\d+\.?\d*(?=[ \",])", svg)]


def curves(svg: str) -> int:
    """Return how many pieces of the reading are drawn: the thickest curves."""
    return len(re.findall(r'<polyline [^>]*stroke-width="1\.9"', svg))


def test_a_gap_in_the_log_is_a_gap_on_paper(good):
    log = good.given.log
    values = log.channels[0].values.copy()
    values[150:210] = np.nan
    broken = reviewed(log=with_values(log, "chamber", values))
    assert curves(chart(good, Show.CELSIUS).svg) == 1
    assert curves(chart(broken, Show.CELSIUS).svg) == 2


def test_rows_that_are_missing_are_a_gap_too(good):
    log = good.given.log
    kept = (log.elapsed_h < 3.0) | (log.elapsed_h > 4.0)
    channels = tuple(replace(c, values=c.values[kept]) for c in log.channels)
    holed = replace(log, elapsed_h=log.elapsed_h[kept], channels=channels)
    assert curves(chart(reviewed(log=holed), Show.CELSIUS).svg) == 2


@pytest.mark.parametrize("show", list(Show))
def test_the_scale_has_round_numbers_in_the_unit_shown(good, show):
    svg = chart(good, show).svg
    marks = re.findall(r'text-anchor="end"[^>]*>(\d+)<', svg)
    step = 500 if show is Show.FAHRENHEIT else 200
    assert str(step) in marks
    assert str(2 * step) in marks
    assert ("°F" in svg) == (show is not Show.CELSIUS)


def test_the_peak_carries_its_temperature_and_its_cone(good):
    svg = chart(good, Show.CELSIUS).svg
    assert ">1000 °C<" in svg
    assert re.search(r">heat work of cone 0\d[^<]*\(about \d+ °C\)<", svg)


def test_the_output_has_a_lane_only_where_it_was_logged(good):
    logged = reviewed(
        log=log_of(GOOD, output=[(0.0, 40.0), (6.75, 90.0), (6.8, 0.0), (18.0, 0.0)])
    )
    assert "output %" not in chart(good, Show.CELSIUS).svg
    assert "output %" in chart(logged, Show.CELSIUS).svg
    assert "output %" not in chart(logged, Show.CELSIUS, output=False).svg


def test_each_finding_has_its_number_in_the_chart():
    slow = [(0.0, 20.0), (1.0, 120.0), (1.5, 120.0), (5.5, 920.0), (8.5, 950.0), (9.0, 940.0)]
    review = reviewed(log=log_of(slow))
    svg = chart(review, Show.CELSIUS).svg
    assert review.findings
    for number in range(1, len(review.findings) + 1):
        assert re.search(rf'text-anchor="middle" font-weight="bold">{number}<', svg)


def test_nothing_is_drawn_outside_the_paper_and_no_number_is_missing(good):
    picture = chart(good, Show.BOTH)
    assert "nan" not in picture.svg
    assert "inf" not in picture.svg
    for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", picture.svg):
        assert -0.1 <= float(x) <= WIDTH
        assert -0.1 <= float(y) <= picture.height


@pytest.mark.parametrize("language", list(Language))
def test_words_below_the_chart_do_not_run_into_each_other(good, language):
    speak(language)
    svg = chart(good, Show.CELSIUS).svg
    said = {Language.GERMAN: "die Aufzeichnung geht weiter"}.get(language, "record goes on")
    speak(Language.ENGLISH_US)
    assert said in svg
    begins = WIDTH - width_of(said, SMALL_SIZE)
    ends = [
        float(x) + width_of(text, LABEL_SIZE) / 2.0
        for x, text in re.findall(r'<text x="([\d.]+)"[^>]*>(\d+ h)</text>', svg)
    ]
    assert len(ends) >= 3
    assert max(ends) < begins


def test_long_logs_make_small_drawings(good):
    log = good.given.log
    fine_h = np.linspace(0.0, log.hours, 200_000)
    values = np.interp(fine_h, log.elapsed_h, log.channels[0].values)
    noisy = values + np.random.default_rng(3).normal(0.0, 2.0, len(values))
    long = replace(log, elapsed_h=fine_h, channels=(replace(log.channels[0], values=noisy),))
    review = replace(good, given=replace(good.given, log=long), firing=None)
    assert chart(review, Show.CELSIUS) is None
    review = reviewed(log=long)
    assert len(chart(review, Show.CELSIUS).svg) < 250_000


POINTS = st.lists(
    st.tuples(st.floats(0.0, 10.0), st.one_of(st.floats(-100.0, 100.0), st.just(float("nan")))),
    max_size=20,
)


@given(POINTS)
def test_a_cut_curve_stays_between_its_bounds(points):
    for piece in cut(points, -10.0, 10.0):
        assert len(piece) > 1
        assert all(-10.0 <= y <= 10.0 for _, y in piece)


def test_a_curve_is_cut_where_it_crosses_the_bound():
    assert cut([(0.0, 0.0), (2.0, 20.0), (4.0, 0.0)], -10.0, 10.0) == [
        [(0.0, 0.0), (1.0, 10.0)],
        [(3.0, 10.0), (4.0, 0.0)],
    ]


@given(st.floats(5.0, 300.0), st.floats(5.0, 100.0), st.booleans())
def test_hatching_stays_in_its_box(wide, high, rising):
    svg = Svg(400.0, 200.0)
    svg.hatch((3.0, 4.0), (wide, high), rising=rising, color=HOT)
    for part in svg.parts:
        x1, y1, x2, y2 = (float(n) for n in re.findall(r'[xy][12]="([\d.-]+)"', part))
        assert min(x1, x2) >= 2.9
        assert max(x1, x2) <= wide + 3.1
        assert min(y1, y2) >= 3.9
        assert max(y1, y2) <= high + 4.1
        assert abs(x2 - x1) < 0.3 or (x2 < x1) == rising


def shelf(name: str, word: str, offset_c: float | None) -> ShelfHeat:
    low, high = (None, None) if offset_c is None else (offset_c - 4.0, offset_c + 4.0)
    return ShelfHeat(name, offset_c, low, high, 17.0, "05", word)


@pytest.fixture(scope="module")
def uneven(good) -> Review:
    given_ = replace(good.given, kiln=KILN, cones=CONES)
    heats = (shelf("bottom", "cold", -12.0), shelf("top", "hot", 9.0))
    return replace(good, given=given_, shelves=heats)


def slopes(svg: str) -> set[bool]:
    """Return which ways the hatching rises: its lines are the thin ones."""
    lines = re.findall(r'x1="([\d.]+)" y1="[\d.]+" x2="([\d.]+)"[^>]*stroke-width="0\.7"', svg)
    return {
        float(x2) < float(x1) for x1, x2 in lines if x1 != x2 and abs(float(x1) - float(x2)) > 3
    }


def test_hot_and_cold_differ_by_sign_word_and_pattern(uneven):
    svg = chamber_map(uneven, Show.CELSIUS).svg
    assert ">+ hotter than meant<" in svg
    assert ">− cooler than meant<" in svg
    assert slopes(svg) >= {True, False}


def test_an_offset_stands_with_its_range(uneven):
    svg = chamber_map(uneven, Show.CELSIUS).svg
    assert ">12 °C colder than its log<" in svg
    assert ">(range −16 to −8 °C)<" in svg
    assert ">(range −16 to −8 °C; −29 to −14 °F)<" in chamber_map(uneven, Show.BOTH).svg


def test_every_cone_number_is_named_with_its_temperature(uneven):
    # 998 °C: the published chart at 60 °C an hour
    assert "06 = 998 °C" in chamber_map(uneven, Show.CELSIUS).svg


def test_a_shelf_that_cannot_be_told_says_so(uneven):
    bound = replace(uneven, shelves=(shelf("bottom", "", None),))
    svg = chamber_map(bound, Show.CELSIUS).svg
    assert "? cannot tell" in svg
    assert "only a bound" in svg
    assert ">no cones<" in svg


def test_without_cones_there_is_no_map(good):
    assert chamber_map(good, Show.CELSIUS) is None
