"""The five steps: where each is to be seen, and what there is to see."""

from dataclasses import dataclass
from pathlib import Path

from firing_review.firing.said import N_
from firing_review.io.resource_path import demo_logs

_DEMO = "3_dead_section"
"""Its shelves came out hotter, as meant and cooler, and one cause explains it: every place has
something to show."""


@dataclass(frozen=True)
class Step:
    """One step: the place it leads to and what it says."""

    place: str
    text: str


STEPS = (
    Step(
        "firing",
        N_(
            "Below, in large letters, stands the answer about this invented firing. Three marks "
            "under it say how it is with safety, load and kiln; beside it stands the next check."
        ),
    ),
    Step(
        "firing",
        N_(
            "Each finding has a number, the same in the list and in the chart. "
            "Choose one in the list, and the chart frames it."
        ),
    ),
    Step(
        "shelves",
        N_(
            "The picture shows how each cone bent. Beside each shelf stands whether it was hotter "
            "or cooler than meant, and how far its cones are from the log."
        ),
    ),
    Step(
        "causes",
        N_(
            "Each likely cause says what speaks for it and what against it. "
            "Answer one of the questions, and the causes are weighed again."
        ),
    ),
    Step(
        "next",
        N_(
            "Next firing shows what a change would do to each shelf; here a part has to be mended "
            "first. The place Paper makes a page to print or hand on."
        ),
    ),
)


def guided_firing() -> Path:
    """Return the folder of the demo firing the guide leads through."""
    return demo_logs() / _DEMO
