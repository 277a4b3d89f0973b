"""Undo and redo: whole immutable reviews in a row, each with the name of the edit that made it."""

from dataclasses import dataclass, replace

from firing_review.firing.said import Said
from firing_review.review.review import Review

DEPTH = 100
"""Steps kept: more than a sitting takes, and a long log's arrays still fit in memory."""


@dataclass(frozen=True, eq=False)
class Step:
    """A review and what was done to come to it."""

    review: Review
    label: Said


@dataclass(frozen=True, eq=False)
class History:
    """Where one is, what was before, and what was undone (next first)."""

    present: Step
    past: tuple[Step, ...] = ()
    future: tuple[Step, ...] = ()

    @classmethod
    def of(cls, review: Review, label: Said) -> "History":
        """Return a history that begins here."""
        return cls(Step(review, label))

    @property
    def review(self) -> Review:
        """The review to show."""
        return self.present.review

    @property
    def undo_label(self) -> Said | None:
        """What undo would take back; None if there is nothing."""
        return self.present.label if self.past else None

    @property
    def redo_label(self) -> Said | None:
        """What redo would do again; None if there is nothing."""
        return self.future[0].label if self.future else None

    def push(self, review: Review, label: Said) -> "History":
        """Return the history after an edit; what was undone before is gone."""
        past = (*self.past, self.present)[-DEPTH:]
        return History(Step(review, label), past)

    def replace_present(self, review: Review) -> "History":
        """Return the history with the review of the same step worked out again."""
        return replace(self, present=Step(review, self.present.label))

    def undo(self) -> "History":
        """Return the history one step back; the same if there is none."""
        if not self.past:
            return self
        return History(self.past[-1], self.past[:-1], (self.present, *self.future))

    def redo(self) -> "History":
        """Return the history one step forward again; the same if there is none."""
        if not self.future:
            return self
        return History(self.future[0], (*self.past, self.present), self.future[1:])
