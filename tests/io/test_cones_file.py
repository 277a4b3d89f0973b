"""Witness cones as written by hand and by spreadsheets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.cones import (
    CONE_SCALE,
    ConeCell,
    ConeKind,
    ConeNumber,
    ConeTable,
    ShelfCone,
)
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln, Section, Shelf
from firing_review.io.cones_file import (
    cones_text,
    parse_cones_text,
    possible_lost_zero,
)

HEADER = "shelf,position,cone,kind,bend_deg\n"
KILN = Kiln(sections=(Section("bottom"), Section("middle"), Section("top")))
CHART = ConeTable(
    tuple(
        ConeCell(ConeNumber(number), "self_supporting", 60.0, celsius, 0.0, "read")
        for number, celsius in (("06", 998.0), ("6", 1222.0), ("04", 1063.0), ("4", 1162.0))
    ),
    "rounded for this test",
)


def refusal(row, header=HEADER, kiln=KILN):
    with pytest.raises(InputError) as caught:
        parse_cones_text(header + row + "\n", "cones.csv", kiln)
    return caught.value


def one(row):
    return parse_cones_text(HEADER + row + "\n", "cones.csv", KILN)[0]


def test_a_row_is_one_cone():
    assert one("bottom,left,cone 06,large,end_point") == ShelfCone(
        "bottom", "left", ConeNumber("06"), ConeKind.LARGE, 90.0
    )


@pytest.mark.parametrize("written", ["06", "c06", "cone 06"])
def test_a_cone_number_is_read_as_people_write_it(written):
    assert one(f"top,,{written},large,90").cone.text == "06"


@pytest.mark.parametrize(
    ("word", "degrees"),
    [
        ("upright", 0.0),
        ("starting", 15.0),
        ("half", 45.0),
        ("three_quarters", 68.0),
        ("end point", 90.0),
        ("flat", 110.0),
        ("Melted", 130.0),
        ("37.5", 37.5),
    ],
)
def test_a_bend_is_degrees_or_one_of_seven_words(word, degrees):
    assert one(f"top,,6,large,{word}").bend_deg == degrees


def test_shelves_may_be_counted_from_the_floor_up():
    assert [one(f"{n},,6,large,90").shelf for n in (1, 2, 3)] == ["bottom", "middle", "top"]


def test_a_shelf_of_the_kiln_sheet_goes_before_its_section():
    kiln = Kiln(sections=KILN.sections, shelves=(Shelf("low"), Shelf("high")))
    assert parse_cones_text(HEADER + "2,,6,large,90\n", "c", kiln)[0].shelf == "high"
    assert "low, high" in refusal("top,,6,large,90", kiln=kiln).expected


def test_without_a_kiln_any_shelf_is_taken_at_its_word():
    assert parse_cones_text(HEADER + "attic,,6,large,90\n", "c", None)[0].shelf == "attic"


def test_a_shelf_that_does_not_exist_is_answered_with_those_that_do():
    assert str(refusal("4,,6,large,90")) == (
        "cones.csv, line 2, column 1: expected a shelf of the kiln, from the floor up bottom, "
        "middle, top, found '4'. Write one of these, or a number 1 to 3."
    )
    assert refusal("botom,,6,large,90").remedy == "Did you mean bottom?"


def test_a_letter_o_in_place_of_a_zero_is_named():
    error = refusal("top,,O4,large,90")
    assert (error.line, error.column) == (2, 3)
    assert "letter O" in error.remedy


@pytest.mark.parametrize(
    ("row", "column"),
    [("top,,6,big,90", 4), ("top,,6,large,270", 5), ("top,,6,large,", 5), (",,6,large,90", 1)],
)
def test_what_cannot_be_read_is_refused_at_its_cell(row, column):
    error = refusal(row)
    assert (error.line, error.column) == (2, column)


def test_an_unknown_column_and_a_missing_one_are_named():
    assert "bend_deg" in refusal("", header="shelf,cone,kind\n").expected
    assert refusal("", header="shelf,position,cone,knd,bend_deg").remedy == "Did you mean kind?"


def test_a_file_keeps_zero_and_reading_error():
    cones = (
        ShelfCone("top", "back, left", ConeNumber("06"), ConeKind.SMALL, 47.5, 9.0),
        ShelfCone("bottom", "", ConeNumber("6"), ConeKind.SELF_SUPPORTING, 0.0),
    )
    assert "cone 06" in cones_text(cones)
    assert parse_cones_text(cones_text(cones), "cones.csv", KILN) == cones


words = st.text(st.characters(categories=["L", "N"]) | st.just("#"), min_size=1, max_size=12)
witness = st.builds(
    ShelfCone,
    words,
    st.text(st.sampled_from("ab ,;\"'é"), max_size=9).map(lambda t: " ".join(t.split())),
    st.sampled_from(CONE_SCALE).map(ConeNumber),
    st.sampled_from(ConeKind),
    st.floats(0.0, 180.0),
    st.floats(0.5, 40.0),
)


@given(st.lists(witness, max_size=6))
def test_any_cones_written_read_back_the_same(cones):
    assert parse_cones_text(cones_text(cones), "cones.csv", None) == tuple(cones)


def lost_zero(number, goal, peak_c):
    goal_cone = ConeNumber(goal) if goal else None
    found = possible_lost_zero(ConeNumber(number), goal_cone, peak_c, CHART)
    return found.text if found else None


def test_a_bare_number_whose_zero_number_fits_the_goal_is_a_possible_lost_zero():
    assert lost_zero("6", "06", None) == "06"
    assert lost_zero("4", "06", None) == "04"


def test_without_a_goal_the_peak_of_the_log_decides():
    assert lost_zero("6", None, 1005.0) == "06"
    assert lost_zero("6", None, 1225.0) is None
    assert lost_zero("6", None, None) is None


def test_a_bare_number_that_fits_the_goal_itself_is_left_alone():
    assert lost_zero("6", "6", 1005.0) is None
    assert lost_zero("1", "01", 1130.0) is None
    assert lost_zero("06", "06", 1005.0) is None
