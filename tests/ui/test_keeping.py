"""Edits are kept beside the window, and nothing is lost by it."""

import threading

import pytest

from firing_review.firing.errors import InputError
from firing_review.ui.keeping import RecoveryWriter, ToKeep


class Slow(ToKeep):
    """Something to keep that waits for a word, and remembers that it was written."""

    def __init__(self, name, written, word):
        object.__setattr__(self, "name", name)
        object.__setattr__(self, "written", written)
        object.__setattr__(self, "word", word)

    def write(self):
        self.word.wait(5.0)
        self.written.append(self.name)
        return InputError("there", "room", "none", "Make room.") if self.name == "bad" else None


@pytest.fixture
def word():
    return threading.Event()


@pytest.fixture
def writer(qapp, word):
    made = RecoveryWriter()
    yield made
    word.set()
    made.flush()


def test_of_several_that_wait_only_the_newest_is_written(qtbot, writer, word):
    written = []
    for name in ("first", "second", "third"):
        writer.keep(Slow(name, written, word))
    with qtbot.waitSignal(writer.written) as told:
        word.set()
    assert written == ["first", "third"]
    assert told.args == [None]


def test_what_is_flushed_is_written_and_told_at_once_and_only_once(qtbot, writer, word):
    written, told = [], []
    writer.written.connect(told.append)
    writer.keep(Slow("first", written, word))
    writer.keep(Slow("bad", written, word))
    word.set()
    writer.flush()
    assert written == ["first", "bad"]
    assert [error.found for error in told] == ["none"]
    qtbot.wait(20)
    assert len(told) == 1


def test_writing_that_takes_long_is_told_of(qtbot, writer, word):
    with qtbot.waitSignal(writer.late):
        writer.keep(Slow("first", [], word))
