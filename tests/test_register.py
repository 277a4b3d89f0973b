"""The register of outside checks is complete, and nothing in it is the program's own output."""

import pytest
from own_output import own_expectations
from register import PAGE, PUBLISHED, RegisterError, all_checks, checks_of, page_with, table

FILES = sorted(PUBLISHED.glob("test_*.py"))
GOOD = """
from outside import outside
from firing_review.physics.circuits import power_w
SOURCES = {"page": "a public page"}
@outside("page", "1 W: rounded")
def test_power():
    assert power_w(230.0, 10.0) == 5290.0
"""


def test_every_outside_check_names_its_source():
    assert FILES
    assert {check.file for check in all_checks()} == {path.name for path in FILES}


def test_the_table_in_the_page_is_the_one_the_tests_make():
    page = PAGE.read_text(encoding="utf-8")
    assert page_with(table(all_checks()), page) == page, "run python tests/register.py --write"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_expected_value_is_worked_out_by_the_program(path):
    assert own_expectations(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('@outside("page", "1 W: rounded")\n', "", "test_power names no source"),
        ('outside("page"', 'outside("book"', "no source 'book'"),
        ('"1 W: rounded"', '" "', "does not say how near"),
        ("SOURCES", "OTHERS", "no SOURCES"),
        ('"}', '", "idle": "never used"}', "no test uses the source idle"),
    ],
)
def test_a_file_that_leaves_something_out_is_told_so(old, new, said):
    assert old in GOOD
    with pytest.raises(RegisterError, match=said):
        checks_of(GOOD.replace(old, new), "test_x.py")


def test_a_row_says_what_which_source_how_near_and_where_they_part():
    text = GOOD.replace("def test_power", "def test_230_5_volts_give_power")
    text = text.replace('rounded")', 'rounded", "the page forgot the current")')
    shown = table(checks_of(text, "test_x.py"))
    assert "1. a public page" in shown
    assert "| 230.5 volts give power | 1 | 1 W: rounded | the page forgot the current |" in shown


@pytest.mark.parametrize(
    "planted",
    [
        "    assert power_w(230.0, 10.0) == power_w(460.0, 40.0)",
        "    assert power_w(230.0, 10.0) == pytest.approx(power_w(230.0, 10.0))",
        "    wanted = power_w(230.0, 10.0)\n    assert power_w(230.0, 10.0) == wanted",
        "    for w in [power_w(v, 1.0) for v in (1.0,)]:\n        assert power_w(1.0, 1.0) == w",
        "    def w(v):\n        return power_w(v, 1.0)\n    assert power_w(2.0, 1.0) == w(2.0)",
        "    assert all(power_w(v, 1.0) == power_w(v, 1.0) for v in (1.0, 2.0))",
    ],
)
def test_an_expected_value_that_the_program_works_out_is_found(planted):
    text = GOOD.replace("    assert power_w(230.0, 10.0) == 5290.0", planted)
    assert len(own_expectations(text)) == 1


def test_figures_typed_in_loops_and_tables_are_nobodys_output():
    text = (
        GOOD + "    for v, w in [(1.0, 1.0), (2.0, 4.0)]:\n        assert power_w(v, 1.0) == w\n"
    )
    assert own_expectations(text) == []
