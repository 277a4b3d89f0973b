"""What about a file is open until a person says it."""

from dataclasses import dataclass

from firing_review.firing.wording import tr
from firing_review.io.log_preview import LogPreview

_ABOUT_DATES = "dates"


@dataclass(frozen=True)
class Open:
    """Whether the unit or the order of day and month is open, and how that is asked."""

    unit: bool = False
    order: bool = False
    asked: str = ""

    def __bool__(self) -> bool:
        """Tell whether anything is open."""
        return self.unit or self.order


def open_questions(seen: LogPreview) -> Open:
    """Return what the reader could not settle by itself."""
    dates = [d for d in seen.doubts if d.expected.startswith(_ABOUT_DATES)]
    others = [d for d in seen.doubts if d not in dates]
    asked = [
        tr("The file does not settle it: {found}.").format(found=d.found) for d in seen.doubts
    ]
    if others:
        asked.append(tr("Choose °C or °F below."))
    if dates:
        asked.append(tr("Choose the order of day and month below."))
    return Open(bool(others), bool(dates), " ".join(asked))
