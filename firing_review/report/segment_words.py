"""One word for what came of a segment."""

from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import Stretch, StretchKind
from firing_review.firing.said import N_

NOT_REACHED = N_("not reached")
SHORT = N_("short of target")
LATE = N_("behind")
SHORT_HOLD = N_("short")
LONG_HOLD = N_("long")
AS_ASKED = N_("as asked")
FOUND = N_("found in the log")


def segment_word(stretch: Stretch) -> str:
    """Return the verdict on one segment as an untranslated catalogue text."""
    if stretch.start_h is None:
        return NOT_REACHED
    if stretch.planned_target_c is None:
        return FOUND
    if stretch.kind is StretchKind.HOLD:
        return _hold_word(stretch)
    if not stretch.complete:
        return SHORT
    return LATE if (stretch.behind_min or 0.0) >= DEFAULTS.behind_note_min else AS_ASKED


def _hold_word(stretch: Stretch) -> str:
    asked = stretch.planned_hold_min or 0.0
    difference = (stretch.hold_min or 0.0) - asked
    allowed = max(DEFAULTS.hold_difference_min, DEFAULTS.hold_difference_share * asked)
    if abs(difference) <= allowed:
        return AS_ASKED
    return LONG_HOLD if difference > 0 else SHORT_HOLD
