"""What the fuzzers came upon is read again by every run of the tests."""

from pathlib import Path

import pytest
from fuzz.targets import READERS, read_one

CORPUS = sorted((Path(__file__).parent / "corpus").iterdir())
MOST_BYTES = 200_000


def test_the_corpus_is_small_and_has_every_reader():
    assert sum(path.stat().st_size for path in CORPUS) < MOST_BYTES
    assert {path.read_bytes()[:1].decode("latin-1") for path in CORPUS} >= set(READERS)


@pytest.mark.parametrize("part", range(8))
def test_every_input_of_the_corpus_ends_in_a_value_or_one_clear_line(part):
    for path in CORPUS[part::8]:
        read_one(path.read_bytes())


def test_an_error_that_is_no_clear_line_is_told_from_one_that_is(monkeypatch):
    def fails(_data):
        raise ValueError("a fault of the reader")

    monkeypatch.setitem(READERS, "x", fails)
    with pytest.raises(ValueError, match="a fault"):
        read_one(b"xanything")
