"""Trends tell what drifts from what scatters, like beside like, anew after each change."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from book_histories import (
    NEW_SET,
    falling,
    heat_curve,
    kept,
    planted_life,
    power_firings,
    shelf,
)

from firing_review.book.drift import Group, find_drift
from firing_review.book.life import life_of, wear_left
from firing_review.book.nouns import Change, ChangeKind
from firing_review.book.trends import TrendKind, groups_of, trends_of


def power(firings, changes=(NEW_SET,)):
    return trends_of(firings, changes).of(TrendKind.POWER)


def tells_a_drift(series) -> bool:
    return "it fell" in series.said.text or "it rose" in series.said.text


def test_power_that_falls_by_a_third_of_a_percent_a_firing_is_found_within_36_firings():
    found = []
    for seed in range(20):
        firings = falling(np.random.default_rng(seed), 40, 0.003)
        counts = (n for n in range(10, 41) if tells_a_drift(power(firings[:n])))
        found.append(next(counts, 99))
    assert max(found) <= 36
    assert np.median(found) <= 28


def test_steady_power_never_counts_as_falling_however_often_one_looks():
    for seed in range(12):
        firings = falling(np.random.default_rng(seed), 60, 0.0)
        assert not any(tells_a_drift(power(firings[:n])) for n in range(10, 61, 4))


def test_slope_and_scatter_come_out_as_planted():
    x = np.arange(10.0)
    drift = find_drift([Group(x, 5.0 - 2.0 * x)])
    assert (drift.slope, drift.low, drift.high) == (-2.0, -2.0, -2.0)
    assert (drift.span, drift.change, drift.firings, drift.sure) == (9.0, -18.0, 10, True)


def test_one_odd_firing_makes_no_drift():
    levels = [1.0, 1.01, 0.99, 1.0, 1.01, 0.99, 1.0, 1.01, 0.99, 1.0, 1.01, 0.3]
    assert not tells_a_drift(power(power_firings(levels)))


def test_too_few_firings_say_how_many_it_takes():
    said = power(power_firings([1.0, 0.9, 0.8])).said
    assert said.figures == {"firings": 3, "needed": 10}


def test_bisque_between_glazes_makes_no_trend_of_its_own():
    """Bisque loads are lighter: compared with glazes they would look like more power."""
    levels = [1.0] * 12 + [1.3] * 12
    firings = [
        kept(n, goal_cone="6" if n <= 12 else "04", power_over_heat=heat_curve(level))
        for n, level in enumerate(levels, 1)
    ]
    assert not tells_a_drift(power(tuple(firings)))


def test_a_change_of_heating_elements_begins_the_trend_anew():
    levels = [*np.linspace(1.0, 0.87, 15), *([1.0] * 10)]
    firings = power_firings(levels)
    changed = Change(ChangeKind.ELEMENTS, firings[15].when.date())
    trends = trends_of(firings, (changed,))
    series = trends.of(TrendKind.POWER)
    assert [mark.number for mark in trends.marks] == [16]
    assert tells_a_drift(power(firings[:15], ()))
    assert series.drift.firings == 10
    assert not tells_a_drift(series)
    assert series.points[14].value == pytest.approx(0.87 / np.median(levels[:3]))
    assert series.points[15].value == 1.0
    assert series.points[15].wear_h == pytest.approx(1.8)


def test_a_change_without_a_day_is_no_mark():
    assert trends_of(power_firings([1.0] * 3), (Change(ChangeKind.PROBE, None),)).marks == ()


def test_an_offset_that_grows_is_told_in_degrees():
    firings = tuple(kept(n, shelves=(shelf(-1.0 * n),)) for n in range(1, 21))
    series = trends_of(firings, ()).of(TrendKind.SHELF, "middle")
    assert series.said.figures == {"firings": 20, "change_delta_c": 19.0}
    assert [p.low for p in series.points][:2] == [-5.0, -6.0]


def test_figures_no_firing_has_make_no_series():
    kinds = {s.kind for s in trends_of(power_firings([1.0] * 3), ()).series}
    assert kinds == {TrendKind.POWER, TrendKind.POWER_OVER_HEAT}


def test_firings_that_tell_different_temperatures_are_compared_where_both_do():
    hot = tuple(v if i > 10 else None for i, v in enumerate(heat_curve(1.0)))
    firings = (*power_firings([1.0, 1.0, 1.0]), kept(4, power_over_heat=hot))
    assert power(firings, ()).points[3].value == pytest.approx(1.0)


def covered(lives) -> list[bool]:
    inside = []
    for life in lives:
        points = power(life.firings).points
        groups = [g for g in groups_of(points, shares=True, by_wear=True) if len(g.x) > 1]
        drift = find_drift(groups)
        rest = wear_left(groups, drift, points[-1].wear_h) if drift else None
        if rest is not None and rest.about is not None:
            inside.append(rest.low <= life.left_h <= (rest.high or np.inf))
    return inside


def test_the_range_of_the_life_left_holds_the_truth_about_nine_times_in_ten():
    inside = covered([planted_life(seed) for seed in range(60)])
    assert len(inside) > 40
    assert 0.8 <= np.mean(inside) <= 1.0


def test_life_is_told_in_firings_to_each_cone_that_is_fired():
    life = planted_life(3, scatter=0.005)
    told = life_of(life.firings, trends_of(life.firings, (NEW_SET,)))
    wear = {f.goal_cone: [] for f in told.left}
    for firing in life.firings:
        wear[firing.summary.goal_cone].append(firing.summary.wear_h)
    assert [f.goal_cone for f in told.left] == ["6", "04"]
    for one in told.left:
        truth = life.left_h / float(np.median(wear[one.goal_cone][-20:]))
        assert one.low <= truth <= one.high
        assert one.low <= one.about <= one.high
    assert told.until[0] < told.until[1]


def test_without_a_day_of_change_no_life_is_told_but_what_it_takes():
    firings = power_firings(np.linspace(1.0, 0.9, 20))
    told = life_of(firings, trends_of(firings, ()))
    assert told.left == ()
    assert "Enter the day" in told.said[0].text


def test_with_few_firings_no_life_is_told_but_how_many_it_takes():
    firings = power_firings([1.0, 0.99, 0.98])
    told = life_of(firings, trends_of(firings, (NEW_SET,)))
    assert told.left == ()
    assert told.said[0].figures == {"firings": 3, "needed": 10}


def test_a_steady_set_is_given_a_least_life_only():
    firings = falling(np.random.default_rng(4), 40, 0.0)
    (left,) = life_of(firings, trends_of(firings, (NEW_SET,))).left
    assert (left.about, left.high) == (None, None)
    assert left.low > 20


def test_a_set_below_the_limit_is_said_to_be_worn():
    firings = power_firings(np.linspace(1.0, 0.83, 40))
    told = life_of(firings, trends_of(firings, (NEW_SET,)))
    assert "Replace them" in told.said[0].text
    assert told.left[0].about == 0


def test_wear_of_a_firing_never_reviewed_counts_as_the_usual():
    firings = list(power_firings([1.0, 1.0, 1.0]))
    firings[1] = replace(
        firings[1], summary=replace(firings[1].summary, reviewed=False, wear_h=None)
    )
    points = power(tuple(firings), ()).points
    assert [round(p.wear_h, 2) for p in points] == [1.8, 3.6, 5.4]


def test_a_change_on_the_day_of_a_firing_counts_before_it():
    firings = power_firings([1.0] * 4)
    (mark,) = trends_of(firings, (Change(ChangeKind.PROBE, date(2025, 1, 9)),)).marks
    assert firings[2].when.date() == date(2025, 1, 9)
    assert mark.number == 3
