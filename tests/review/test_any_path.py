"""Whatever is done to a firing in whatever order: undo, redo, save and reload lose nothing."""

import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from any_changes import TABLES, changes, log
from firings import GOOD, log_of
from hypothesis import Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    rule,
    run_state_machine_as_test,
)
from same import same

from firing_review.firing.log import ReadingChoices
from firing_review.firing.said import Said
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.io.sheets import read_firing_sheet, write_firing_folder
from firing_review.review import edits
from firing_review.review.history import History
from firing_review.review.pipeline import review_firing
from firing_review.review.recovery import read_recovery, write_recovery

EXAMPLES = 60


@pytest.fixture(scope="module")
def light():
    """Let an edit change what was given without the sums; they have tests of their own."""
    review = review_firing(Given(log_of(GOOD)), TABLES)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(edits, "review_firing", lambda given, *_: replace(review, given=given))
        yield review


class AnyPath(RuleBasedStateMachine):
    """A person at work: edits, undo and redo against a plain list of what there was."""

    review = None

    @initialize()
    def open(self):
        self.folder = tempfile.TemporaryDirectory()
        self.begin(Given(log(ReadingChoices(unit=TemperatureUnit.CELSIUS))))

    def begin(self, given):
        opened = replace(self.review, given=given)
        self.history = History.of(opened, Said("opened"))
        self.line, self.at, self.count = [given], 0, 0

    @property
    def given(self):
        return self.history.review.given

    @rule(edit=changes)
    def change(self, edit):
        changed = edit(self.history.review, TABLES)
        self.history = self.history.push(changed, edit.label)
        self.line = [*self.line[: self.at + 1], changed.given]
        self.at += 1

    @rule()
    def undo(self):
        self.history = self.history.undo()
        self.at = max(self.at - 1, 0)

    @rule()
    def redo(self):
        self.history = self.history.redo()
        self.at = min(self.at + 1, len(self.line) - 1)

    @rule(times=st.integers(1, 5))
    def undo_and_redo_again(self, times):
        before, times = self.given, min(times, self.at)
        for _ in range(times):
            self.history = self.history.undo()
        for _ in range(times):
            self.history = self.history.redo()
        assert self.given is before

    @rule(reopen=st.booleans())
    def save(self, reopen):
        self.count += 1
        target = Path(tempfile.mkdtemp(dir=self.folder.name)) / "firing"
        back = read_firing_sheet(write_firing_folder(self.given, target))
        assert same(back, named(self.given))
        if reopen:
            self.begin(back)

    @rule(reopen=st.booleans())
    def keep(self, reopen):
        path = Path(self.folder.name) / "recovery.json"
        write_recovery(self.given, path)
        back = read_recovery(path)
        assert same(back, named(self.given))
        if reopen:
            self.begin(back)

    @invariant()
    def what_is_open_is_what_the_list_says(self):
        if hasattr(self, "line"):
            assert self.given is self.line[self.at]

    def teardown(self):
        if hasattr(self, "folder"):
            self.folder.cleanup()


def named(given: Given) -> Given:
    """Return a firing as its files name it: a schedule without a name has that of its file."""
    intended = given.intended
    if intended is not None and not intended.name:
        intended = replace(intended, name="schedule")
    return replace(given, intended=intended, earlier=tuple(named(one) for one in given.earlier))


def test_after_any_path_reading_back_gives_the_same_and_undo_then_redo_changes_nothing(light):
    AnyPath.review = light
    # without the phase that explains a failure: it traces every line, which takes minutes
    phases = (Phase.explicit, Phase.generate, Phase.shrink)
    run_state_machine_as_test(
        AnyPath,
        settings=settings(
            max_examples=EXAMPLES, stateful_step_count=20, deadline=None, phases=phases
        ),
    )
