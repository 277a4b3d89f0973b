"""Notes at moments of a firing are read, written back, and refused with the line of the slip."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firing_review.firing.errors import InputError
from firing_review.firing.sheet import Given, TimeNote
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.sheets import firing_files, read_firing_sheet, write_firing_folder

LOG = "elapsed_min,chamber_C\n" + "".join(f"{m},{20 + 2 * m}\n" for m in range(0, 300, 5))
SHEET = """\
log = "log.csv"

[[notes]]
at_h = 3
text = "peephole plug out"

[[notes]]
at_h = 0.5
text = "damp smell"

[answers]
load = "heavy"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "log.csv").write_text(LOG)
    (tmp_path / "firing.toml").write_text(SHEET)
    return tmp_path


def test_notes_are_read_by_their_time(folder):
    notes = read_firing_sheet(folder / "firing.toml").notes
    assert notes == (TimeNote(0.5, "damp smell"), TimeNote(3.0, "peephole plug out"))


@pytest.mark.parametrize(
    ("slip", "expected", "line"),
    [
        ("at_h = 3", "at_h = -1", 4),
        ("at_h = 3", 'at_h = "three"', 4),
        ("at_h = 3", "at_h = true", 4),
        ("at_h = 3", "at_h = inf", 4),
        ('text = "peephole plug out"', 'text = " "', 5),
        ('text = "peephole plug out"', 'words = "plug"', 5),
    ],
)
def test_a_slip_in_a_note_is_named_with_its_line(folder, slip, expected, line):
    (folder / "firing.toml").write_text(SHEET.replace(slip, expected, 1))
    with pytest.raises(InputError) as caught:
        read_firing_sheet(folder / "firing.toml")
    assert caught.value.line == line


def test_a_note_without_a_moment_is_refused(folder):
    (folder / "firing.toml").write_text(SHEET.replace("at_h = 3", "", 1))
    with pytest.raises(InputError, match="no at_h"):
        read_firing_sheet(folder / "firing.toml")


def test_notes_that_are_no_tables_are_refused(folder):
    (folder / "firing.toml").write_text('log = "log.csv"\nnotes = "plug out"\n')
    with pytest.raises(InputError, match=r"\[\[notes\]\]"):
        read_firing_sheet(folder / "firing.toml")


def test_a_firing_without_notes_has_none_in_its_sheet():
    files = firing_files(Given(read_log_bytes(LOG.encode(), "log.csv")))
    assert b"notes" not in files["firing.toml"]


notes = st.lists(
    st.builds(
        TimeNote,
        st.floats(0.0, 200.0),
        st.text(min_size=1).filter(lambda text: text.strip() and text.isprintable()),
    ),
    max_size=6,
)


@given(notes)
@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40, deadline=None
)
def test_what_was_noted_reads_back_the_same(tmp_path_factory, written):
    ordered = tuple(sorted(written, key=lambda note: note.at_h))
    log = read_log_bytes(LOG.encode(), "log.csv")
    folder = tmp_path_factory.mktemp("firing") / "new"
    sheet = write_firing_folder(replace(Given(log), notes=ordered), folder)
    assert read_firing_sheet(sheet).notes == ordered
