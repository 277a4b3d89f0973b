import numpy as np
import pytest
from cone_packs import SIX, TABLE, cone_6_firing, pack, section_firing, witness
from firings import cooling, firing_of, log_of, with_values
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.analysis.shelf_cones import weigh_cones
from firing_review.firing.cones import BEND_DEG, Bend, ConeKind
from firing_review.firing.kiln import Kiln, Section, Shelf

FIRING = cone_6_firing()
KILN = Kiln(sections=(Section("bottom"), Section("middle"), Section("top")))


def weigh(*cones, firing=FIRING, kiln=None, goal=SIX, tolerance=0.5):
    return weigh_cones(firing, cones, kiln, goal, tolerance, TABLE)


def texts(shelf) -> str:
    return " ".join(said.text for said in shelf.notes)


@settings(max_examples=25, deadline=None)
@given(st.floats(-35.0, 20.0))
def test_the_shift_a_pack_was_made_with_is_found_again(shift) -> None:
    (shelf,) = weigh(*pack(FIRING, "top", shift))
    if shelf.offset_c is None:
        bounds = shelf.figures
        assert bounds.get("at_least_delta_c", -300.0) <= shift
        assert bounds.get("at_most_delta_c", 300.0) >= shift
    else:
        assert shelf.low_c <= shift <= shelf.high_c
        assert shelf.offset_c == pytest.approx(shift, abs=5.0)


def test_a_cone_half_down_gives_a_value_with_an_honest_range() -> None:
    (shelf,) = weigh(witness("top", "6", 45.0))
    assert 8.0 < shelf.high_c - shelf.low_c < 25.0
    assert shelf.low_c < shelf.offset_c < shelf.high_c


def test_a_bend_from_a_photo_makes_the_range_wider() -> None:
    by_eye = witness("top", "6", 45.0)
    photo = type(by_eye)("top", "", SIX, ConeKind.SELF_SUPPORTING, 45.0, 12.0)
    widths = [s.high_c - s.low_c for s in (*weigh(by_eye), *weigh(photo))]
    assert widths[1] > 1.2 * widths[0]


def test_upright_cones_only_bound_from_above() -> None:
    (shelf,) = weigh(*(witness("top", n, 0.0) for n in ("5.5", "6", "7")))
    assert (shelf.offset_c, shelf.low_c, shelf.high_c) == (None, None, None)
    assert set(shelf.figures) == {"at_most_delta_c", "at_most_cone", "at_most_rank"}
    assert shelf.word == "cold"
    assert "only bound" in texts(shelf)


def test_flat_cones_only_bound_from_below() -> None:
    (shelf,) = weigh(*(witness("top", n, 120.0) for n in ("5.5", "6", "7")))
    assert shelf.offset_c is None
    assert set(shelf.figures) == {"at_least_delta_c", "at_least_cone", "at_least_rank"}
    assert shelf.word == "hot"


def test_a_flat_and_an_upright_cone_together_give_a_range() -> None:
    (shelf,) = weigh(witness("top", "5", 120.0), witness("top", "7", 0.0))
    assert shelf.low_c < shelf.offset_c < shelf.high_c


@pytest.mark.parametrize("bend", [Bend.UPRIGHT, Bend.FLAT, Bend.MELTED])
def test_words_for_unmoved_and_flat_are_bounds(bend) -> None:
    assert weigh(witness("top", "6", BEND_DEG[bend]))[0].offset_c is None


@pytest.mark.parametrize(("shift", "word"), [(-30.0, "cold"), (0.0, "even"), (18.0, "hot")])
def test_the_word_judges_against_the_goal(shift, word) -> None:
    (shelf,) = weigh(*pack(FIRING, "top", shift, ("4", "5", "5.5", "6", "7")))
    assert shelf.word == word


def test_without_a_goal_there_is_no_word_but_a_cone() -> None:
    (shelf,) = weigh(*pack(FIRING, "top", 0.0), goal=None)
    assert shelf.word == ""
    assert shelf.cone_equivalent == pytest.approx(SIX.rank + 0.4, abs=0.2)


def test_shelves_come_from_the_floor_up_whatever_their_order_in_the_file() -> None:
    cones = (*pack(FIRING, "top", 0.0), *pack(FIRING, "bottom", -10.0))
    assert [s.shelf for s in weigh(*cones, kiln=KILN)] == ["bottom", "top"]


def test_more_bend_means_a_hotter_shelf() -> None:
    offsets = [weigh(witness("top", "6", bend))[0].offset_c for bend in (20.0, 45.0, 70.0, 90.0)]
    assert offsets == sorted(offsets)


def test_a_large_cone_bent_as_far_means_a_cooler_place_and_less_certain() -> None:
    upright, large = weigh(witness("a", "6", 45.0), witness("b", "6", 45.0, ConeKind.LARGE))
    assert large.offset_c - upright.offset_c == pytest.approx(-2.2, abs=0.4)
    assert large.high_c - large.low_c > upright.high_c - upright.low_c


def test_a_small_cone_is_read_with_a_wide_range_and_it_is_said() -> None:
    upright, small = weigh(witness("a", "6", 45.0), witness("b", "6", 45.0, ConeKind.SMALL))
    assert small.high_c - small.low_c > 2.0 * (upright.high_c - upright.low_c)
    assert "Small cones" in texts(small)


def test_a_cone_outside_the_fitted_range_is_named() -> None:
    (shelf,) = weigh(witness("top", "022", 45.0))
    assert shelf.offset_c is None
    assert "outside the range" in texts(shelf)


def test_a_hotter_cone_down_and_a_cooler_one_up_is_named() -> None:
    (shelf,) = weigh(witness("top", "5", 0.0), witness("top", "6", 85.0))
    assert "reversed" in texts(shelf)
    assert shelf.notes[0].figures == {"cooler_cone": "5", "hotter_cone": "6"}


def test_neighbours_of_which_only_the_cooler_fell_far_are_named() -> None:
    (shelf,) = weigh(
        witness("top", "1", 130.0),
        witness("top", "2", 0.0),
        goal=None,
        firing=cone_6_firing(top_c=1140.0),
    )
    assert "should have bent more" in texts(shelf)


def test_the_same_number_bent_two_ways_at_one_place_is_named() -> None:
    (shelf,) = weigh(witness("top", "6", 15.0), witness("top", "6", 90.0))
    assert "bent differently" in texts(shelf)


@settings(max_examples=20, deadline=None)
@given(st.floats(-30.0, 15.0))
def test_a_pack_by_the_law_never_contradicts_itself(shift) -> None:
    (shelf,) = weigh(*pack(FIRING, "top", shift, ("4", "5", "5.5", "6", "7")))
    assert not any(word in texts(shelf) for word in ("reversed", "should", "differently"))


def test_one_misread_cone_does_not_drag_the_others_along() -> None:
    right = pack(FIRING, "top", -16.0, ("5", "5.5", "6", "7"))
    wrong = (*right, witness("top", "8", 120.0))
    assert weigh(*wrong)[0].offset_c == pytest.approx(weigh(*right)[0].offset_c, abs=4.0)


def test_places_of_a_shelf_are_told_apart_and_the_shelf_lies_between() -> None:
    front = pack(FIRING, "top", 6.0, position="front")
    back = pack(FIRING, "top", -18.0, ("5", "5.5", "6"), position="back")
    (shelf,) = weigh(*front, *back)
    assert [p.position for p in shelf.places] == ["front", "back"]
    assert shelf.places[0].offset_c == pytest.approx(6.0, abs=4.0)
    assert shelf.places[1].offset_c == pytest.approx(-18.0, abs=4.0)
    assert -18.0 < shelf.offset_c < 6.0
    assert shelf.high_c - shelf.low_c > 10.0
    assert "hotter than {cool}" in texts(shelf)


def test_each_shelf_is_held_against_the_probe_of_its_section() -> None:
    firing = section_firing(bottom=-25.0, middle=0.0, top=12.0)
    cones = [
        c
        for n, s in (("bottom", -25.0), ("top", 12.0))
        for c in pack(cone_6_firing(), n, s, ("4", "5", "5.5", "6", "7", "8"))
    ]
    for shelf in weigh(*cones, firing=firing, kiln=KILN):
        assert shelf.offset_c == pytest.approx(0.0, abs=4.0)


def test_the_column_named_in_the_kiln_sheet_goes_before_the_name_of_a_section() -> None:
    firing = section_firing(top=-20.0, bottom=10.0)
    kiln = Kiln(sections=(Section("top", probe_column="bottom"), Section("bottom")))
    (shelf,) = weigh(*pack(cone_6_firing(), "top", 10.0), firing=firing, kiln=kiln)
    assert shelf.offset_c == pytest.approx(0.0, abs=4.0)


def test_a_numbered_shelf_goes_by_its_section() -> None:
    firing = section_firing(bottom=-25.0, top=10.0)
    kiln = Kiln(
        sections=(Section("bottom"), Section("top")), shelves=(Shelf("1", "bottom"), Shelf("2"))
    )
    cones = (
        *pack(cone_6_firing(), "1", -25.0, ("4", "5", "5.5")),
        *pack(cone_6_firing(), "2", 10.0),
    )
    for shelf in weigh(*cones, firing=firing, kiln=kiln):
        assert shelf.offset_c == pytest.approx(0.0, abs=4.0)


def test_a_spike_in_a_section_makes_no_heat() -> None:
    firing = section_firing(bottom=0.0, top=0.0)
    spiked = firing.log.channels[1].values.copy()
    spiked[500] = 1372.0
    log = with_values(firing.log, "top", spiked)
    (shelf,) = weigh(*pack(cone_6_firing(), "top", 0.0), firing=firing_of(log), kiln=KILN)
    assert shelf.offset_c == pytest.approx(0.0, abs=4.0)


def test_a_log_silent_near_its_top_is_not_held_against_cones() -> None:
    values = FIRING.log.channels[0].values.copy()
    top = int(np.argmax(values))
    values[top - 60 : top + 20] = np.nan
    firing = firing_of(with_values(FIRING.log, "chamber", values))
    (shelf,) = weigh(*pack(FIRING, "top", 0.0), firing=firing)
    assert shelf.offset_c is None
    assert "silent near its top" in texts(shelf)


STOPPED = firing_of(log_of([(0.0, 20.0), (6.0, 800.0), *cooling(6.0, 800.0)]), None)


def test_a_log_that_stops_before_the_cones_could_move_says_so() -> None:
    (shelf,) = weigh(witness("top", "6", 0.0), firing=STOPPED)
    assert shelf.offset_c is None
    assert "before these cones could move" in texts(shelf)


def test_cones_bent_beyond_what_the_log_can_explain_are_said_to_be_of_another_firing() -> None:
    (shelf,) = weigh(witness("top", "6", 60.0), firing=STOPPED)
    assert shelf.offset_c is None
    assert "another one" in texts(shelf)


def test_no_cones_make_no_shelves() -> None:
    assert weigh() == ()
