"""Changes at a kiln in words."""

from firing_review.book.nouns import Change, ChangeKind
from firing_review.firing.said import N_
from firing_review.firing.wording import day as day_words
from firing_review.firing.wording import tr

CHANGE_WORDS = {
    ChangeKind.ELEMENTS: N_("Heating elements"),
    ChangeKind.PROBE: N_("Probe"),
    ChangeKind.RELAY: N_("Relay or switch"),
    ChangeKind.OTHER: N_("Something else"),
}


def change_text(change: Change) -> str:
    """Return what was changed, in which sections."""
    word = tr(CHANGE_WORDS[change.kind])
    return f"{word}: {', '.join(change.sections)}" if change.sections else word


def change_line(change: Change) -> str:
    """Return a change with its day and the person's own words, for a list."""
    day = tr("day not known") if change.on is None else day_words(change.on)
    line = f"{day}  {change_text(change)}"
    return f"{line}. {change.text}" if change.text else line
