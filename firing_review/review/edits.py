"""Each change a person can make, as a function from review to review with a name for undo.

``edit = set_title("March glaze")`` and then
``history = history.push(edit(history.review, tables), edit.label)``.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from firing_review.analysis.thresholds import DEFAULTS, Thresholds
from firing_review.firing.cones import ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln
from firing_review.firing.log import FiringLog
from firing_review.firing.said import N_, Said
from firing_review.firing.schedule import Intended
from firing_review.firing.sheet import Answers, Given, Picture, Readings, TimeNote
from firing_review.firing.tables import Tables
from firing_review.io.cones_file import note_lost_zeros
from firing_review.io.notes_table import in_order
from firing_review.review.kiln_change import naming_what_is_there, with_kiln
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review


@dataclass(frozen=True)
class Edit:
    """A change to what was given; called with a review it returns the review that follows.

    Attributes
    ----------
    weighs : bool
        Whether anything of the review follows from what is changed; nothing does from a note.
    """

    label: Said
    change: Callable[[Given], Given]
    weighs: bool = True

    def __call__(self, review: Review, tables: Tables, limits: Thresholds = DEFAULTS) -> Review:
        """Return the review after this edit, worked out afresh where the edit weighs."""
        if not self.weighs:
            return replace(review, given=self.change(review.given))
        given = note_lost_zeros(self.change(review.given), tables.cones)
        return review_firing(given, tables, limits, review.past)


def set_schedule(intended: Intended | None) -> Edit:
    """Return the edit that changes the schedule, or takes it away."""
    label = Said(N_("schedule") if intended else N_("schedule removed"))
    return Edit(label, lambda given: replace(given, intended=intended))


def set_kiln(kiln: Kiln | None) -> Edit:
    """Return the edit that changes the kiln, or takes it away."""
    return Edit(Said(N_("kiln")), lambda given: with_kiln(given, kiln))


def set_goal_cone(cone: ConeNumber | None) -> Edit:
    """Return the edit that changes the cone meant."""
    return Edit(Said(N_("goal cone")), lambda given: replace(given, goal_cone=cone))


def set_title(title: str) -> Edit:
    """Return the edit that changes the title."""
    return Edit(Said(N_("title")), lambda given: replace(given, title=title), weighs=False)


def set_cones(cones: Sequence[ShelfCone]) -> Edit:
    """Return the edit that changes the witness cones."""
    return _naming(N_("witness cones"), cones=tuple(cones))


def set_bends(cones: Sequence[ShelfCone], pictures: Sequence[Picture]) -> Edit:
    """Return the edit that takes bends off a picture and keeps the picture with the firing."""
    return _naming(N_("bends from a picture"), cones=tuple(cones), pictures=tuple(pictures))


def set_shelves(kiln: Kiln, cones: Sequence[ShelfCone]) -> Edit:
    """Return the edit that adds, removes or moves shelves, their cones with them."""
    return _naming(N_("shelves"), kiln=kiln, cones=tuple(cones))


def set_answers(answers: Answers) -> Edit:
    """Return the edit that changes the answers."""
    return _naming(N_("answers"), answers=answers)


def set_safety(signs: tuple[str, ...] | None) -> Edit:
    """Return the edit that changes the signs of danger noticed; None leaves the question open."""
    return Edit(
        Said(N_("answers")),
        lambda given: replace(given, answers=replace(given.answers, safety=signs)),
    )


def set_readings(readings: Readings) -> Edit:
    """Return the edit that changes the meter readings."""
    return _naming(N_("meter readings"), readings=readings)


def set_tolerance(tolerance_cones: float) -> Edit:
    """Return the edit that changes how far a shelf may be from the goal [cones]."""
    return Edit(
        Said(N_("tolerance of the shelves")),
        lambda given: replace(given, tolerance_cones=tolerance_cones),
    )


def set_earlier(earlier: Sequence[Given]) -> Edit:
    """Return the edit that changes the earlier good firings, newest last."""
    return Edit(Said(N_("earlier firings")), lambda given: replace(given, earlier=tuple(earlier)))


def set_log(log: FiringLog) -> Edit:
    """Return the edit that puts the same firing's log in anew, for instance in another unit."""
    return Edit(Said(N_("how the log is read")), lambda given: replace(given, log=log))


def add_note(note: TimeNote) -> Edit:
    """Return the edit that pins a note to a moment of the firing."""
    return _notes(N_("note added"), lambda notes: (*notes, note))


def change_note(before: TimeNote, after: TimeNote) -> Edit:
    """Return the edit that changes the words of a note, or moves it."""
    label = N_("note moved") if before.text == after.text else N_("note changed")
    return _notes(label, lambda notes: [after if one == before else one for one in notes])


def remove_note(note: TimeNote) -> Edit:
    """Return the edit that takes a note away."""
    return _notes(N_("note removed"), lambda notes: [one for one in notes if one != note])


def _notes(label: str, change: Callable[[tuple[TimeNote, ...]], Sequence[TimeNote]]) -> Edit:
    return Edit(
        Said(label),
        lambda given: replace(given, notes=in_order(change(given.notes))),
        weighs=False,
    )


def _naming(label: str, **changes: Any) -> Edit:  # noqa: ANN401 (fields of Given)
    """Return the edit that changes fields which name shelves and sections of the kiln."""
    return Edit(Said(label), lambda given: naming_what_is_there(replace(given, **changes)))
