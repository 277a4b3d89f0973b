"""Kiln sheets written by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln, Section, Shelf, Supply
from firing_review.io.kiln_sheet import kiln_text, parse_kiln_text

FULL = """\
name = "small studio"      # as on the door
volume_l = 74
wall_mm = 64.0
rated_kw = 7.0
rated_volts = 240
supply = "single_phase"
thermocouple = "k"

[[sections]]
name = "bottom"
rated_kw = 2.4
rated_cold_ohms = 24.2

[[sections]]
name = "top"

[[shelves]]
name = "floor"
section = "bottom"
height_mm = 0
"""


def refusal(text):
    with pytest.raises(InputError) as caught:
        parse_kiln_text(text, "kiln.toml")
    return caught.value


def test_a_kiln_sheet_gives_plate_sections_and_shelves():
    assert parse_kiln_text(FULL, "kiln.toml") == Kiln(
        name="small studio",
        volume_l=74.0,
        wall_mm=64.0,
        rated_kw=7.0,
        rated_volts=240.0,
        supply=Supply.SINGLE_PHASE,
        thermocouple="K",
        sections=(Section("bottom", 2.4, 24.2), Section("top")),
        shelves=(Shelf("floor", "bottom", 0.0),),
    )


def test_an_unknown_key_is_answered_with_file_line_and_nearest_key():
    assert str(refusal(FULL.replace("wall_mm", "wal_mm"))) == (
        "kiln.toml, line 3: expected a known key in the sheet, found 'wal_mm'. "
        "Did you mean wall_mm?"
    )


def test_an_unknown_key_in_the_second_section_is_found_there():
    text = '[[sections]]\nname = "a"\nrated_kw = 1\n[[sections]]\nname = "b"\nrated_kW = 2\n'
    assert refusal(text).line == 6


def test_a_key_of_the_plate_below_a_section_is_sent_to_the_top():
    error = refusal('[[sections]]\nname = "a"\ntariff_per_kwh = 0.3\n')
    assert (error.line, "top of the file" in error.remedy) == (3, True)


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ('volume_l = "74"', "without quotes"),
        ("volume_l = -3", "above 0"),
        ("volume_l = nan", "above 0"),
        ("volume_l = true", "above 0"),
        ("volume_l = 074", "volume_l = 74"),
        ("name = small studio", 'name = "small studio"'),
        ('name = "C:\\kiln"', "/ instead of"),
        ('supply = "delta"', "three_phase_delta"),
        ('thermocouple = "Q"', "type letter"),
        ('[sections]\nname = "a"', "double brackets"),
        ("volume_l = 74\nvolume_l = 75", "second time"),
    ],
)
def test_a_slip_is_answered_with_what_to_write(line, part):
    assert part in str(refusal(line))


def test_two_sections_of_one_name_are_refused_at_the_second():
    text = '[[sections]]\nname = "a"\n[[sections]]\nname = "a"\n'
    assert refusal(text).line == 4


def test_a_shelf_in_a_section_that_is_not_there_is_refused():
    error = refusal('[[sections]]\nname = "a"\n[[shelves]]\nname = "s"\nsection = "b"\n')
    assert (error.line, "from the floor up a" in error.expected) == (5, True)


positive = st.none() | st.floats(0.01, 1e4)
names = st.text(min_size=1, max_size=12).filter(lambda t: t == t.strip())
sections = st.builds(
    Section,
    names,
    positive,
    positive,
    st.none() | st.integers(0, 12),
    st.none() | st.text(max_size=9),
    st.none() | st.text(max_size=9),
    positive,
    st.none() | st.text(max_size=9),
)


@given(
    st.text(max_size=20),
    positive,
    st.none() | st.sampled_from(Supply),
    st.lists(sections, max_size=4, unique_by=lambda s: s.name),
)
def test_any_kiln_written_reads_back_the_same(name, volume_l, supply, parts):
    kiln = Kiln(name=name, volume_l=volume_l, supply=supply, sections=tuple(parts))
    assert parse_kiln_text(kiln_text(kiln), "kiln.toml") == kiln
