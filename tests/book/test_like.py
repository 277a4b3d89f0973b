"""Like is compared with like, and the cones of a history speak for the probe."""

from dataclasses import replace
from datetime import date

from book_histories import kept, shelf

from firing_review.book.like import base_of, cone_checks, like_firings
from firing_review.book.nouns import Change, ChangeKind
from firing_review.firing.results import Light, Lights

ALIKE = [kept(n) for n in range(1, 6)]


def changed(number, **figures):
    return [kept(n, **figures) if n == number else one for n, one in enumerate(ALIKE, 1)]


def likes(firings, changes=()):
    return like_firings(firings[-1], firings, changes)


def base_number(firings, changes=()):
    base = base_of(likes(firings, changes))
    return base.firing.id if base else None


def test_the_newest_good_firing_is_the_base():
    assert [like.firing.id for like in likes(ALIKE)] == [4, 3, 2, 1]
    assert base_number(ALIKE) == 4


def test_a_firing_to_another_cone_is_not_alike():
    assert [one.firing.id for one in likes(changed(4, goal_cone="04"))] == [3, 2, 1]


def test_a_bad_firing_is_alike_but_no_base():
    for bad in (
        {"lights": Lights(Light.WATCH, Light.FINE)},
        {"lights": Lights(Light.FINE, Light.WATCH)},
        {"lights": Lights(Light.FINE, Light.FINE, Light.STOP)},
        {"faults": 1},
        {"power_ratio": 0.85},
        {"power_over_heat": ()},
    ):
        firings = changed(4, **bad)
        assert likes(firings)[0].firing.id == 4
        assert base_number(firings) == 3


def test_an_older_firing_that_is_alike_goes_before_a_newer_one_that_differs():
    longer = ((150.0, 1000.0, 0.0), (60.0, 1222.0, 40.0))
    assert base_number(changed(4, planned=longer)) == 3
    assert base_number(changed(4, load="heavy")) == 3
    assert base_number(changed(4, load="usual")) == 4


def test_what_differs_is_said_with_its_figures():
    other = ((150.0, 1000.0, 0.0), (100.0, 1240.0, 40.0))
    (top, hold, rate) = likes(changed(4, planned=other))[0].differs
    assert top.figures == {"apart_delta_c": 18.0}
    assert hold.figures == {"apart_min": 30.0}
    assert rate.figures == {"rate_c_per_h": 100.0, "asked_c_per_h": 60.0}


def test_a_firing_with_the_same_heating_elements_goes_before_a_newer_one_without():
    new_set = Change(ChangeKind.ELEMENTS, ALIKE[3].when.date())
    firings = changed(4, load="heavy")
    assert "changed between" in likes(firings, (new_set,))[1].differs[0].text
    assert base_number(firings, (new_set,)) == 4


def test_without_goals_the_peak_says_what_is_alike():
    firings = [replace(f, summary=replace(f.summary, goal_cone=None)) for f in ALIKE]
    firings[3] = replace(firings[3], summary=replace(firings[3].summary, peak_c=1060.0))
    assert [one.firing.id for one in likes(firings)] == [3, 2, 1]


def test_a_log_without_a_firing_is_like_nothing():
    assert [one.firing.id for one in likes(changed(4, firing=False))] == [3, 2, 1]


def test_cones_of_the_history_count_since_the_probe_was_changed():
    firings = [kept(n, shelves=(shelf(float(n)),)) for n in range(1, 6)]
    probe = Change(ChangeKind.PROBE, firings[2].when.date())
    elements = Change(ChangeKind.ELEMENTS, date(2025, 1, 14))
    checks = cone_checks(firings[4], firings, (probe, elements))
    assert [(c.top_c, c.shelves[0].offset_c) for c in checks] == [(1222.0, 3.0), (1222.0, 4.0)]


def test_a_shelf_known_by_a_bound_keeps_its_bound():
    bound = replace(shelf(0.0), offset_c=None, low_c=None, high_c=None, at_least_delta_c=12.0)
    firings = [kept(1, shelves=(bound,)), kept(2)]
    (check,) = cone_checks(firings[1], firings, ())
    assert check.shelves[0].figures == {"at_least_delta_c": 12.0}
