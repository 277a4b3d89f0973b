"""The kiln form as typed becomes a kiln; a bad entry keeps what was there."""

from dataclasses import replace

from firing_review.firing.kiln import Kiln, Section, Shelf, Supply
from firing_review.ui.kiln_form.values import KilnTyped, read_kiln_typed, typed_of

BLANK = {"name": "", "volume_l": "", "wall_mm": "", "rated_kw": "", "rated_volts": ""}


def typed(**texts: str) -> KilnTyped:
    return KilnTyped({**BLANK, **texts}, None, None, [])


def test_an_empty_form_is_no_kiln():
    assert read_kiln_typed(typed(), None).kiln is None


def test_numbers_may_carry_their_unit_and_a_decimal_comma():
    read = read_kiln_typed(typed(rated_kw="7,2 kW", volume_l="74 L"), None)
    assert read.kiln == Kiln(rated_kw=7.2, volume_l=74.0)


def test_a_bad_number_is_marked_and_the_rest_is_taken():
    before = Kiln(rated_volts=230.0)
    read = read_kiln_typed(typed(rated_volts="2300000", rated_kw="7"), before)
    assert read.kiln == Kiln(rated_volts=230.0, rated_kw=7.0)
    assert read.wrong == {
        "rated_volts": "Rated voltage: expected a number from 90 to 1000 V, found '2300000'."
    }


def test_what_the_form_does_not_show_is_kept():
    before = Kiln(
        name="Marten",
        tariff_per_kwh=0.3,
        sections=(Section("low", 2.0, 24.0, alloy="A1"), Section("top", 2.0, 25.0)),
        shelves=(Shelf("floor"),),
    )
    form = typed_of(before)
    assert read_kiln_typed(form, before).kiln == before
    rows = [("low", "2.2", "24"), form.sections[1]]
    changed = read_kiln_typed(replace(form, sections=rows), before).kiln
    assert changed is not None
    assert changed.sections[0] == Section("low", 2.2, 24.0, alloy="A1")
    assert changed.tariff_per_kwh == 0.3
    assert changed.shelves == (Shelf("floor"),)


def test_two_sections_of_one_name_are_refused():
    rows = [("top", "2", ""), ("top", "2", "")]
    read = read_kiln_typed(replace(typed(), sections=rows, supply=Supply.SINGLE_PHASE), None)
    assert list(read.wrong_cells) == [(1, 0)]
    assert read.kiln == Kiln(supply=Supply.SINGLE_PHASE)


def test_an_open_row_of_text_in_a_number_is_named():
    read = read_kiln_typed(replace(typed(), sections=[("top", "two", "")]), None)
    assert read.wrong_cells[0, 1].startswith("Section 1, power: expected a number from 0.05")
