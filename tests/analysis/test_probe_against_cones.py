import pytest

from firing_review.analysis.probe_against_cones import (
    ConeCheck,
    ProbeWord,
    probe_against_cones,
    probe_over_firings,
)
from firing_review.firing.results import ShelfHeat


def shelf(name: str, offset: float, half: float = 5.0) -> ShelfHeat:
    return ShelfHeat(name, offset, offset - half, offset + half, None, None, "")


def bound(name: str, **figures: float) -> ShelfHeat:
    return ShelfHeat(name, None, None, None, None, None, "", (), figures)


def check(top_c: float, *offsets: float) -> ConeCheck:
    return ConeCheck(top_c, tuple(shelf(str(i), o) for i, o in enumerate(offsets)))


def test_shelves_off_by_the_same_are_the_probe() -> None:
    found = probe_against_cones(
        [shelf("bottom", -22.0), shelf("middle", -24.0), shelf("top", -27.0)]
    )
    assert found.word is ProbeWord.SHARED
    assert found.offset_c == pytest.approx(-24.3, abs=1.0)
    assert found.low_c < -24.0 < found.high_c
    assert "reads high" in found.said.text


def test_shelves_off_by_different_amounts_are_the_kiln_or_the_load() -> None:
    found = probe_against_cones([shelf("bottom", -40.0), shelf("middle", 0.0), shelf("top", 12.0)])
    assert found.word is ProbeWord.DIFFERS
    assert found.said.figures == {"hot": "top", "cold": "bottom", "apart_delta_c": 52.0}
    assert found.offset_c is None


def test_small_offsets_agree() -> None:
    found = probe_against_cones([shelf("bottom", -3.0), shelf("middle", 1.0), shelf("top", 2.0)])
    assert found.word is ProbeWord.AGREES


def test_one_shelf_cannot_tell() -> None:
    assert probe_against_cones([shelf("top", -20.0)]).word is ProbeWord.CANNOT_TELL
    assert probe_against_cones([]).word is ProbeWord.CANNOT_TELL


def test_wide_ranges_cannot_tell() -> None:
    found = probe_against_cones([shelf("bottom", -14.0, 25.0), shelf("top", 4.0, 25.0)])
    assert found.word in {ProbeWord.CANNOT_TELL, ProbeWord.AGREES}


def test_bounds_all_on_one_side_share_it() -> None:
    found = probe_against_cones(
        [bound("a", at_least_delta_c=12.0), bound("b", at_least_delta_c=9.0)]
    )
    assert found.word is ProbeWord.SHARED
    assert (found.low_c, found.offset_c, found.high_c) == (9.0, None, None)
    found = probe_against_cones(
        [bound("a", at_most_delta_c=-12.0), bound("b", at_most_delta_c=-9.0)]
    )
    assert (found.word, found.high_c) == (ProbeWord.SHARED, -9.0)


def test_bounds_on_opposite_sides_differ() -> None:
    found = probe_against_cones(
        [bound("a", at_least_delta_c=12.0), bound("b", at_most_delta_c=-9.0)]
    )
    assert found.word is ProbeWord.DIFFERS


def test_a_bound_far_from_the_ranged_shelves_differs() -> None:
    near = [shelf("bottom", 0.0), shelf("middle", 2.0)]
    assert (
        probe_against_cones([*near, bound("top", at_least_delta_c=25.0)]).word is ProbeWord.DIFFERS
    )
    assert (
        probe_against_cones([*near, bound("top", at_least_delta_c=-5.0)]).word is ProbeWord.AGREES
    )


def test_bounds_around_zero_cannot_tell() -> None:
    found = probe_against_cones(
        [bound("a", at_least_delta_c=-9.0), bound("b", at_most_delta_c=12.0)]
    )
    assert found.word is ProbeWord.CANNOT_TELL


def test_one_firing_is_no_ground_for_an_offset() -> None:
    found = probe_over_firings([check(1220.0, -20.0, -22.0)])
    assert found.word is ProbeWord.CANNOT_TELL
    assert "One firing" in found.said.text


def test_two_firings_that_agree_suggest_one_offset() -> None:
    found = probe_over_firings([check(1220.0, -20.0, -22.0), check(1210.0, -18.0, -23.0)])
    assert found.word is ProbeWord.SHARED
    assert found.offset_c == pytest.approx(-21.0, abs=1.0)
    assert "colder than logged" in found.said.text


def test_an_error_that_grows_with_heat_is_no_single_offset() -> None:
    found = probe_over_firings([check(1000.0, -6.0, -7.0), check(1220.0, -28.0, -30.0)])
    assert found.word is ProbeWord.GROWS_WITH_HEAT
    assert found.offset_c is None


def test_firings_that_disagree_suggest_nothing() -> None:
    found = probe_over_firings([check(1220.0, -20.0, -22.0), check(1215.0, 18.0, 20.0)])
    assert found.word is ProbeWord.CANNOT_TELL


def test_firings_whose_shelves_differ_do_not_count() -> None:
    found = probe_over_firings([check(1220.0, -40.0, 20.0), check(1215.0, -20.0, -21.0)])
    assert found.word is ProbeWord.CANNOT_TELL


def test_firings_in_which_the_cones_agree_need_no_offset() -> None:
    found = probe_over_firings([check(1220.0, 1.0, -1.0), check(1215.0, 2.0, 0.0)])
    assert found.word is ProbeWord.AGREES
