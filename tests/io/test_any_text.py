"""Whatever stands in a file, the answer is a value or one clear line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.errors import InputError
from firing_review.firing.units import TemperatureUnit
from firing_review.io.cones_file import parse_cones_text
from firing_review.io.kiln_sheet import parse_kiln_text
from firing_review.io.plain_text import decode, parse_number, table_rows
from firing_review.io.schedule_file import parse_schedule_text

SCHEDULE = "rate_c_per_h,target_c,hold_min\n"
CONES = "shelf,position,cone,kind,bend_deg\n"
cells = st.text(
    st.sampled_from("0123456789.,;:-+eE/ \t\"'#°CFfulO\x00\u2212\u00b2\n"), max_size=40
)
keys = st.sampled_from(["name", "supply", "sections", "shelves", "rated_kw", "[[sections]]", "x"])
lines = st.lists(st.tuples(keys, st.text(max_size=12)), max_size=6)


def places_refused(read, text, where, *more):
    """Return the file that an error names, if there is one; any other error goes through."""
    try:
        read(text, where, *more)
    except InputError as error:
        return {error.where}
    return set()


@given(st.sampled_from(["", SCHEDULE, "time_min,temperature_f\n"]), cells)
def test_any_schedule_text_is_read_or_refused(header, text):
    found = places_refused(parse_schedule_text, header + text, "plan.csv", TemperatureUnit.CELSIUS)
    assert found <= {"plan.csv"}


@given(st.sampled_from(["", CONES]), cells)
def test_any_cones_text_is_read_or_refused(header, text):
    assert places_refused(parse_cones_text, header + text, "cones.csv", None) <= {"cones.csv"}


@given(lines, st.sampled_from([" = ", "\n", "=[", "={", ' = "']))
def test_any_sheet_is_read_or_refused(pairs, between):
    text = "\n".join(f"{key}{between}{value}" for key, value in pairs)
    assert places_refused(parse_kiln_text, text, "kiln.toml") <= {"kiln.toml"}


@given(st.binary(max_size=60))
def test_any_bytes_become_rows(data):
    assert all(row.line >= 1 for row in table_rows(decode(data)))


def test_a_cell_of_any_length_is_taken():
    assert len(table_rows("a," + "x" * 200_000)[0].cells) == 2


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("7", 7.0),
        ("-2.5", -2.5),
        ("\u22122,5", -2.5),
        ("1e3", 1000.0),
        (".5", 0.5),
        ("1,250", None),
        ("1.2.3", None),
        ("", None),
        ("1e999", None),
        ("nan", None),
        ("\u00b2", None),
    ],
)
def test_a_number_is_plain_or_it_is_none(text, number):
    assert parse_number(text) == number


def test_text_comes_out_of_every_encoding_a_spreadsheet_writes():
    for encoding in ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"):
        assert decode("größe °C;1\n".encode(encoding)) == "größe °C;1\n"
