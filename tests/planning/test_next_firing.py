from dataclasses import replace

import numpy as np
import pytest
from cone_packs import (
    SIX,
    TABLE,
    TO_CONE_6,
    bend_of,
    cone_6_corners,
    cone_6_firing,
    pack,
    witness,
)
from firings import cooling, firing_of, log_of, schedule
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.analysis.shelf_cones import weigh_cones
from firing_review.firing.cones import ConeNumber
from firing_review.firing.results import ElementsJudged, ShelfHeat
from firing_review.firing.sheet import Answers, Given
from firing_review.physics.cones import cone_equivalent, fit_laws
from firing_review.planning.next_firing import Change, plan_base, plan_next, preview_plan

FIRING = cone_6_firing()
LAWS = fit_laws(TABLE)
WIDE_PACK = ("2", "3", "4", "5", "5.5", "6", "7", "8")


def plan(firing, cones=(), goal=SIX, elements=None, earlier=(), **answers):
    given_ = Given(
        firing.log,
        intended=firing.intended,
        cones=tuple(cones),
        goal_cone=goal,
        answers=Answers(**answers),
    )
    shelves = weigh_cones(firing, cones, None, goal, 0.5, TABLE)
    return plan_next(given_, firing, shelves, elements or ElementsJudged(), TABLE, earlier)


def shelves_of(firing, **shifts):
    return [c for name, shift in shifts.items() for c in pack(firing, name, shift, WIDE_PACK)]


def option(planned, name):
    return next(o for o in planned.options if o.id == name)


def texts(said) -> str:
    return " ".join(s.text for s in said)


def true_rank(firing, shift: float) -> float:
    rank, _ = cone_equivalent(firing.log.elapsed_h, firing.reading_c + shift, LAWS)
    return rank


@settings(max_examples=12, deadline=None)
@given(st.floats(-38.0, -17.0), st.floats(-8.0, 6.0))
def test_round_trip_the_cold_shelf_comes_to_its_goal(cold, warm) -> None:
    """Shelf temperatures → bends → offsets → extra hold → fired again → cone at its end point."""
    cones = shelves_of(FIRING, bottom=cold, top=warm)
    extra_min = option(plan(FIRING, cones), "longer_hold").extra_hold_min
    again = cone_6_firing(hold_min=10.0 + extra_min)
    assert true_rank(again, cold) == pytest.approx(SIX.rank, abs=0.25)
    assert bend_of(again, "6", cold) == pytest.approx(90.0, abs=25.0)


@pytest.mark.parametrize("way", ["longer_hold", "slower_last", "higher_top"])
def test_each_way_fired_as_its_schedule_says_brings_the_cold_shelf_home(way) -> None:
    chosen = option(plan(FIRING, shelves_of(FIRING, bottom=-18.0, top=-14.0)), way)
    again = cone_6_firing(
        top_c=chosen.schedule.top_c,
        rate=chosen.last_rate_c_per_h or 60.0,
        hold_min=10.0 + (chosen.extra_hold_min or 0.0),
    )
    assert true_rank(again, -18.0) == pytest.approx(SIX.rank, abs=0.25)
    assert chosen.shelf_cones["bottom"] == pytest.approx(SIX.rank, abs=0.1)
    low, high = chosen.shelf_ranges["bottom"]
    assert low < chosen.shelf_cones["bottom"] < high


def test_the_schedule_changes_as_the_option_says() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-18.0, top=-14.0))
    hold, slow, top = (option(planned, i) for i in ("longer_hold", "slower_last", "higher_top"))
    assert hold.schedule.segments[-1].hold_min == 10.0 + hold.extra_hold_min
    assert slow.schedule.segments[-1].rate_c_per_h == slow.last_rate_c_per_h < 60.0
    assert top.schedule.top_c == top.top_c > 1215.0


def test_an_even_kiln_keeps_its_schedule() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-6.0, top=-7.0))
    assert planned.options == ()
    assert "keep the schedule" in texts(planned.said)


def test_shelves_too_far_apart_are_no_matter_of_the_schedule() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-35.0, top=5.0))
    said = next(s for s in planned.said if "No setting" in s.text)
    assert (said.figures["cold"], said.figures["hot"]) == ("bottom", "top")
    assert float(said.figures["apart"]) > 1.0
    assert "hotter than meant" in texts(option(planned, "longer_hold").notes)


def test_a_way_that_spoils_another_shelf_says_so() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-35.0, top=5.0))
    hold = option(planned, "longer_hold")
    assert hold.far_over == ("top",)
    assert "far hotter than meant" in texts(hold.notes)
    assert "glazes may run" in texts(hold.notes)
    near = plan(FIRING, shelves_of(FIRING, bottom=-18.0, top=-14.0))
    assert [way.far_over for way in near.options] == [()] * len(near.options)


def test_a_shelf_known_to_be_hot_by_a_bound_only_is_told_of_as_well() -> None:
    hot = [witness("top", n, 130.0) for n in ("5", "6", "7", "8")]
    planned = plan(FIRING, [*shelves_of(FIRING, bottom=-25.0), *hot])
    for way in planned.options:
        assert way.shelf_cones["top"] is None
        assert way.far_over == ("top",)
        assert "or more, far hotter than meant" in texts(way.notes)


def test_ways_go_from_the_one_that_spoils_nothing_to_the_one_that_spoils_most() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-32.0, top=-10.0))
    spoiled = [len(way.far_over) for way in planned.options]
    assert spoiled == sorted(spoiled)
    assert len(set(spoiled)) > 1


def test_shelves_a_little_apart_are_all_brought_inside_by_one_hold() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-19.0, top=-8.0))
    cones = option(planned, "all_inside").shelf_cones
    assert all(abs(rank - SIX.rank) <= 0.5 for rank in cones.values())


def test_an_overfired_load_gets_less() -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=10.0, top=12.0))
    assert option(planned, "higher_top").schedule.top_c < 1215.0
    assert planned.refire is None


def test_a_top_beyond_the_kilns_ceiling_is_not_offered() -> None:
    cones = shelves_of(FIRING, bottom=-25.0, top=-22.0)
    ways = [o.id for o in plan(FIRING, cones, elements=ElementsJudged(ceiling_c=1225.0)).options]
    assert "higher_top" not in ways
    assert "longer_hold" in ways
    assert "higher_top" in [o.id for o in plan(FIRING, cones).options]
    near = plan(FIRING, cones, elements=ElementsJudged(ceiling_c=1240.0))
    assert "near its limit" in texts(option(near, "longer_hold").notes)


def test_long_holds_are_told_with_their_doubt() -> None:
    chosen = option(plan(FIRING, shelves_of(FIRING, bottom=-46.0, top=-44.0)), "longer_hold")
    assert chosen.said.figures["high_min"] > 1.5 * chosen.said.figures["extra_min"]
    assert "factor of about two" in texts(chosen.notes)


def test_a_shelf_known_by_a_bound_gets_the_least_that_is_needed() -> None:
    cones = [
        *shelves_of(FIRING, top=-8.0),
        *(witness("bottom", n, 0.0) for n in ("5.5", "6", "7")),
    ]
    planned = plan(FIRING, cones)
    assert "only a bound" in texts(planned.said)
    assert planned.options[0].shelf_cones["bottom"] is None
    low, high = planned.options[0].shelf_ranges["bottom"]
    assert low is None
    assert high is not None


def test_without_cones_the_plan_goes_by_the_log_and_says_so() -> None:
    short = cone_6_firing(top_c=1195.0)
    planned = plan(short)
    assert "by the log alone" in texts(planned.said)
    again = cone_6_firing(
        top_c=1195.0, hold_min=10.0 + option(planned, "longer_hold").extra_hold_min
    )
    assert true_rank(again, 0.0) == pytest.approx(SIX.rank, abs=0.25)


def test_a_log_that_leaves_its_top_open_plans_by_cones_or_not_at_all() -> None:
    by_hand = firing_of(log_of(cone_6_corners(), 60.0), TO_CONE_6)
    bare = plan(by_hand)
    assert bare.options == ()
    assert "leaves open how hot the top was" in texts(bare.said)
    with_cones = plan(by_hand, pack(FIRING, "a", 0.0) + pack(FIRING, "b", 0.0))
    assert "cones cannot judge the probe" in texts(with_cones.said)
    assert with_cones.restart is None


def test_no_goal_or_one_that_cannot_be_computed_makes_no_plan() -> None:
    assert "Choose the goal" in texts(plan(FIRING, goal=None).said)
    assert "outside the range" in texts(plan(FIRING, goal=ConeNumber("021")).said)


@pytest.mark.parametrize(
    "sign", ["burning_smell", "hot_plug", "tripped_breaker", "heats_when_off"]
)
def test_a_danger_sign_comes_before_any_word_of_firing_again(sign) -> None:
    planned = plan(FIRING, shelves_of(FIRING, bottom=-30.0), safety=(sign,))
    assert planned.options == ()
    assert planned.refire is planned.restart is None
    assert "breaker" in texts(planned.said)
    assert "electrician" in texts(planned.said)


def test_an_offset_of_the_probe_is_suggested_only_where_firings_agree() -> None:
    cones = shelves_of(FIRING, bottom=-24.0, top=-26.0)
    before = ShelfHeat("top", -24.0, -28.0, -20.0, None, None, "")
    earlier = (ConeCheck(1215.0, (before, before)),)
    assert "no ground for an offset" in texts(plan(FIRING, cones).said)
    assert "One offset of the probe" in texts(plan(FIRING, cones, earlier=earlier).said)


def test_a_slider_is_answered_for_every_shelf_of_a_long_log(benchmark) -> None:
    firing = cone_6_firing(every_min=0.5)
    assert firing.log.hours > 12.0
    cones = shelves_of(firing, bottom=-20.0, middle=-5.0, top=3.0)
    shelves = weigh_cones(firing, cones, None, SIX, 0.5, TABLE)
    given_ = Given(firing.log, intended=TO_CONE_6, goal_cone=SIX)
    base = plan_base(given_, firing, shelves, ElementsJudged(), TABLE)
    outcome = benchmark(preview_plan, base, Change(3.0, 50.0, 3.0))
    assert [o.shelf for o in outcome] == ["bottom", "middle", "top"]


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.floats(20.0, 1300.0), min_size=3, max_size=10),
    st.sampled_from(["06", "6", "019", "14"]),
    st.booleans(),
)
def test_any_log_gets_a_plan_or_a_reason(temperatures, goal, planned) -> None:
    corners = [(0.0, 20.0), *((1.0 + i, t) for i, t in enumerate(temperatures))]
    corners.append((corners[-1][0] + 1.0, 1250.0 if planned else 150.0))
    firing = firing_of(log_of(corners, 5.0), TO_CONE_6 if planned else None)
    cones = [witness("top", "6", 40.0), witness("top", "7", 5.0), witness("bottom", "06", 130.0)]
    made = plan(firing, cones, goal=ConeNumber(goal))
    assert made.options or made.said
    for one in made.options:
        assert all(np.isfinite(s.target_c) for s in one.schedule.segments)


STOPPED = firing_of(
    log_of([*cone_6_corners()[:3], (8.0, 1160.0), *cooling(8.0, 1160.0)]), TO_CONE_6
)


def test_a_stopped_firing_is_told_what_a_restart_must_still_do() -> None:
    planned = plan(STOPPED)
    share = planned.restart.said[0].figures["share_pct"]
    assert 3.0 < share < 20.0
    assert planned.restart.schedule.top_c == pytest.approx(1218.0, abs=3.0)
    assert "put in new ones" in texts(planned.restart.said)
    assert planned.refire is None


def test_the_restart_does_the_rest_of_the_work() -> None:
    restart = plan(STOPPED).restart
    share = restart.said[0].figures["share_pct"] / 100.0
    end_c, rate = restart.schedule.top_c, restart.schedule.segments[-1].rate_c_per_h
    hours = np.linspace(0.0, 300.0 / rate, 2000)
    law = next(one for one in LAWS if one.cone == SIX)
    more = np.trapezoid(np.exp(law.log_share_per_h(end_c - 300.0 + rate * hours)), hours)
    assert share + more == pytest.approx(1.0, abs=0.05)


def test_a_firing_stopped_at_red_heat_is_begun_again() -> None:
    cold = firing_of(log_of([(0, 20), (3.0, 450.0), *cooling(3.0, 450.0)]), TO_CONE_6)
    restart = plan(cold).restart
    assert "next to none" in restart.said[0].text
    assert "as for a new firing" in texts(restart.said)


def test_an_underfired_load_is_refired_so_that_both_firings_stay_near_the_goal() -> None:
    refire = plan(FIRING, shelves_of(FIRING, bottom=-24.0, top=-6.0)).refire
    assert "bottom" in refire.said[0].figures["shelves"]
    assert refire.said[1].figures["place"] == "top"
    assert 1205.0 < refire.schedule.top_c < 1235.0
    assert "Tap each piece" in texts(refire.said)


def test_ware_rated_below_the_goal_is_not_refired() -> None:
    cones = shelves_of(FIRING, bottom=-24.0)
    refire = plan(FIRING, cones, ware_rated_cone=ConeNumber("04")).refire
    assert refire.schedule is None
    assert "do not refire" in texts(refire.said)


def test_bisque_a_few_cones_low_is_kept() -> None:
    refire = plan(FIRING, shelves_of(FIRING, bottom=-24.0), ware="bisque").refire
    assert refire.schedule is None
    assert "Common practice" in texts(refire.said)


def test_glass_is_not_judged_by_cones() -> None:
    refire = plan(FIRING, shelves_of(FIRING, bottom=-24.0), ware="fused glass").refire
    assert refire.schedule is None
    assert "glass" in texts(refire.said)


def test_a_refire_beyond_the_kilns_ceiling_says_to_repair_first() -> None:
    weak = ElementsJudged(ceiling_c=1200.0)
    refire = plan(FIRING, shelves_of(FIRING, bottom=-24.0), elements=weak).refire
    assert "put its power right" in texts(refire.said)


HELD_LONG = cone_6_firing(hold_min=100.0)
"""Ten minutes were asked."""


def hot_shelves(**shifts):
    numbers = ("5", "6", "7", "8", "9", "10")
    return [c for name, shift in shifts.items() for c in pack(HELD_LONG, name, shift, numbers)]


def test_a_hold_fired_too_long_is_no_reason_to_change_the_schedule_that_was_meant() -> None:
    planned = plan(HELD_LONG, hot_shelves(bottom=-8.0, top=-6.0))
    assert planned.options == ()
    assert "lasted" in texts(planned.said)
    assert planned.said[0].figures["asked_min"] == 10.0
    assert planned.said[0].figures["got_min"] == pytest.approx(100.0, abs=10.0)
    assert "may stay as it is" in texts(planned.said)


def test_a_shelf_that_is_colder_is_brought_home_from_the_hold_that_was_asked() -> None:
    cold = plan(FIRING, shelves_of(FIRING, bottom=-24.0, top=-6.0))
    held = plan(HELD_LONG, hot_shelves(bottom=-24.0, top=-6.0))
    for name in ("longer_hold", "higher_top"):
        alike, asked = (option(one, name).schedule.segments[-1] for one in (held, cold))
        assert alike.target_c == pytest.approx(asked.target_c, abs=4.0)
        assert alike.hold_min == pytest.approx(asked.hold_min, rel=0.3, abs=4.0)


def test_a_load_is_judged_by_the_hold_it_got_and_the_plan_by_the_hold_that_was_asked() -> None:
    asked = schedule((150.0, 600.0, 0.0), (180.0, 1115.0, 0.0), (60.0, 1205.0, 60.0))
    short = firing_of(log_of(cone_6_corners(1205.0, hold_min=5.0), 1.0), asked)
    planned = plan(short, shelves_of(short, bottom=-12.0, top=-10.0))
    assert planned.refire is not None
    assert "may stay as it is" in texts(planned.said)


def test_a_firing_that_ran_on_past_its_top_is_planned_from_the_schedule_as_meant() -> None:
    over = firing_of(log_of(cone_6_corners(top_c=1255.0), 1.0), TO_CONE_6)
    planned = plan(over, shelves_of(over, bottom=0.0, top=2.0))
    assert planned.options == ()
    assert "well above the top of its schedule" in texts(planned.said)
    assert "may stay as it is" in texts(planned.said)


def test_a_top_missed_by_little_is_planned_from_what_was_reached() -> None:
    corners = [*cone_6_corners()[:3], (8.1, 1200.0), *cooling(8.1, 1200.0)]
    missed = firing_of(log_of(corners, 1.0), TO_CONE_6)
    planned = plan(missed, shelves_of(missed, bottom=-6.0, top=-5.0))
    higher = option(planned, "higher_top")
    assert "reached" in texts(planned.said)
    assert planned.said[0].figures["top_c"] == pytest.approx(1200.0, abs=2.0)
    assert 1210.0 < higher.schedule.top_c < 1226.0
    assert planned.refire is not None


@pytest.mark.parametrize(
    ("words", "said"),
    [(("even", "even"), "Every shelf is within"), (("even", ""), "No shelf lies surely")],
)
def test_shelves_as_meant_keep_the_schedule_though_one_lies_near_the_edge(words, said) -> None:
    cones = shelves_of(FIRING, bottom=-6.0, top=-6.0)
    shelves = weigh_cones(FIRING, cones, None, SIX, 0.5, TABLE)
    near = [replace(s, offset_c=-17.0, word=w) for s, w in zip(shelves, words, strict=True)]
    given_ = Given(FIRING.log, intended=FIRING.intended, goal_cone=SIX)
    planned = plan_next(given_, FIRING, near, ElementsJudged(), TABLE)
    assert planned.options == ()
    assert said in texts(planned.said)
    assert "keep the schedule" in texts(planned.said)
