"""Every change a person can make gives a new review and leaves the old one as it was."""

from dataclasses import replace

import pytest
from firings import GOOD, TO_1000, cooling, log_of, schedule

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.sheet import Answers, Given, Readings, TimeNote
from firing_review.io.tables import load_tables
from firing_review.report.review_json import review_json
from firing_review.review.edits import (
    add_note,
    change_note,
    remove_note,
    set_answers,
    set_cones,
    set_earlier,
    set_goal_cone,
    set_kiln,
    set_log,
    set_readings,
    set_schedule,
    set_title,
    set_tolerance,
)
from firing_review.review.pipeline import review_firing

TABLES = load_tables()
CONES = (ShelfCone("top", "", ConeNumber("06"), ConeKind.SELF_SUPPORTING, 45.0),)
STOPPED = log_of([(0, 20), (1, 120), (1.5, 120), (4.0, 620), *cooling(4.0, 620)])


@pytest.fixture(scope="module")
def before():
    return review_firing(Given(log_of(GOOD)), TABLES)


@pytest.mark.parametrize(
    ("edit", "field", "value"),
    [
        (set_schedule(TO_1000), "intended", TO_1000),
        (set_kiln(Kiln(sections=(Section("top"),))), "kiln", Kiln(sections=(Section("top"),))),
        (set_goal_cone(ConeNumber("06")), "goal_cone", ConeNumber("06")),
        (set_title("March bisque"), "title", "March bisque"),
        (set_cones(list(CONES)), "cones", CONES),
        (set_answers(Answers(load="heavy")), "answers", Answers(load="heavy")),
        (set_readings(Readings(volts_no_load=240.0)), "readings", Readings(240.0)),
        (set_tolerance(1.0), "tolerance_cones", 1.0),
        (set_log(STOPPED), "log", STOPPED),
    ],
)
def test_an_edit_changes_its_one_thing_and_not_the_review_it_began_from(
    before, edit, field, value
):
    old = getattr(before.given, field)
    after = edit(before, TABLES)
    assert getattr(after.given, field) == value
    assert getattr(before.given, field) is old
    assert old != value
    assert edit.label.text


def test_a_schedule_typed_later_is_compared_at_once(before):
    after = set_schedule(schedule((100.0, 400.0, 0.0), (100.0, 1200.0, 0.0)))(before, TABLES)
    kinds = {finding.kind.value for finding in after.findings}
    assert {"short_of_target", "ended_early"} & kinds
    assert not {"short_of_target", "ended_early"} & {f.kind.value for f in before.findings}


def test_a_schedule_taken_away_leaves_the_review_of_the_log_alone(before):
    with_plan = set_schedule(TO_1000)(before, TABLES)
    after = set_schedule(None)(with_plan, TABLES)
    assert [f.kind for f in after.findings] == [f.kind for f in before.findings]


def test_earlier_firings_are_kept_in_their_order(before):
    earlier = [Given(STOPPED), before.given]
    assert set_earlier(earlier)(before, TABLES).given.earlier == tuple(earlier)


def test_a_goal_cone_set_later_withdraws_the_doubt_about_a_lost_zero(before):
    bare = (ShelfCone("top", "", ConeNumber("6"), ConeKind.SELF_SUPPORTING, 45.0),)
    doubted = set_goal_cone(ConeNumber("06"))(set_cones(bare)(before, TABLES), TABLES)
    assert "possible_lost_zero" in [note.kind for note in doubted.given.log.notes]
    settled = set_goal_cone(ConeNumber("6"))(doubted, TABLES)
    assert "possible_lost_zero" not in [note.kind for note in settled.given.log.notes]


LATE, EARLY = TimeNote(6.0, "plug in"), TimeNote(2.0, "damp smell")


def test_notes_are_added_moved_changed_and_removed_each_under_its_name(before):
    review, labels = before, []
    for edit in (
        add_note(LATE),
        add_note(EARLY),
        change_note(EARLY, TimeNote(7.0, "damp smell")),
        change_note(LATE, TimeNote(6.0, "plug in, lid closed")),
        remove_note(TimeNote(7.0, "damp smell")),
    ):
        review = edit(review, TABLES)
        labels.append(edit.label.text)
    assert labels == ["note added", "note added", "note moved", "note changed", "note removed"]
    assert review.given.notes == (TimeNote(6.0, "plug in, lid closed"),)
    assert before.given.notes == ()


def test_a_note_is_in_its_place_by_time_and_changes_nothing_else(before):
    review = add_note(EARLY)(add_note(LATE)(before, TABLES), TABLES)
    assert review.given.notes == (EARLY, LATE)
    assert review.findings is before.findings
    assert review.firing is before.firing


def whole(**changed: object) -> Given:
    """Return all a review may start from, with a log nobody has looked at yet."""
    log, good = log_of(GOOD), Given(log_of(GOOD), intended=TO_1000)
    return replace(Given(log, intended=TO_1000, cones=CONES, earlier=(good,)), **changed)


def test_what_an_edit_leaves_as_it_was_is_not_worked_out_again() -> None:
    before = review_firing(whole(), TABLES)
    after = set_title("March bisque")(before, TABLES)
    assert after.firing is before.firing
    assert after.findings is before.findings
    slower = set_schedule(schedule((80.0, 900.0, 30.0)))(before, TABLES)
    assert slower.firing is not before.firing
    assert slower.heat_work is before.heat_work
    assert slower.shelves is before.shelves


def test_edits_one_after_another_give_what_a_review_from_the_start_gives() -> None:
    slower = schedule((80.0, 900.0, 30.0), (60.0, 1040.0, 10.0))
    cone = ConeNumber("06")
    review = review_firing(whole(), TABLES)
    for edit in (set_schedule(slower), set_goal_cone(cone), set_tolerance(1.0), set_cones(())):
        review = edit(review, TABLES)
    fresh = whole(intended=slower, goal_cone=cone, tolerance_cones=1.0, cones=())
    assert review_json(review) == review_json(review_firing(fresh, TABLES))
    for edit in (set_schedule(TO_1000), set_goal_cone(None), set_tolerance(0.5), set_cones(CONES)):
        review = edit(review, TABLES)
    assert review_json(review) == review_json(review_firing(whole(), TABLES))
