"""The files that README.md shows, written as they stand there and read."""

import re
import textwrap
from pathlib import Path

import pytest

from firing_review.firing.kiln import Section, Shelf
from firing_review.firing.sheet import Answers, Readings
from firing_review.io.firing_parts import SHEET_KEYS
from firing_review.io.kiln_sheet import KILN_KEYS
from firing_review.io.open_any import gather

PAGE = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
FILES = PAGE[PAGE.index("\n## Files\n") :]
NAMES = ("schedule.csv", "cones.csv", "kiln.toml", "firing.toml")
LOG = "elapsed_h,T1 [C],bottom,top\n" + "".join(f"{h},{h},{20 + h},{30 + h}\n" for h in range(9))


def shown() -> dict[str, str]:
    """Return the text of each file that is shown, by the name it is given here."""
    blocks = re.findall(r"(?:^(?:    .*)?\n)+", FILES, re.MULTILINE)
    texts = [textwrap.dedent(block).strip() + "\n" for block in blocks if block.strip()]
    return dict(zip(NAMES, texts, strict=True))


def test_the_files_that_are_shown_fit_each_other_and_are_read(tmp_path):
    for name, text in shown().items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    sheet = shown()["firing.toml"]
    reading = sheet[sheet.index("log_unit") : sheet.index("[[notes]]")]
    (tmp_path / "firing.toml").write_text(sheet.replace(reading, ""), encoding="utf-8")
    for name in ("log.csv", "good.csv"):
        (tmp_path / name).write_text(LOG, encoding="utf-8")
    (tmp_path / "cones.jpg").write_bytes(b"a picture")
    given = gather(tmp_path / "firing.toml")
    assert given.intended is not None
    assert given.intended.top_c == 1000.0
    assert [cone.shelf for cone in given.cones] == ["bottom", "top"]
    assert given.answers.safety == ("none",)
    assert given.readings.volts_full_load == 231.0
    assert [note.at_h for note in given.notes] == [3.5]


@pytest.mark.parametrize("form", [Answers, Readings, Section, Shelf])
def test_every_key_of_a_table_is_named(form):
    assert [key for key in form.__dataclass_fields__ if not re.search(rf"\b{key}\b", FILES)] == []


@pytest.mark.parametrize("keys", [SHEET_KEYS, KILN_KEYS], ids=["firing sheet", "kiln sheet"])
def test_every_key_of_a_sheet_is_named(keys):
    assert [key for key in keys if not re.search(rf"\b{key}\b", FILES)] == []
