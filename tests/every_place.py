"""A walk through all that the window can show of a firing."""

from collections.abc import Iterator

from firing_review.ui.firing_place.panel import Beside
from firing_review.ui.main_window import MainWindow
from firing_review.ui.paper_place.view import CHOICES


def every_place(window: MainWindow) -> Iterator[str]:
    """Show each place, each page on paper and each page beside the chart, and name it."""
    for key in [place.key for place in window.places.all()]:
        window.work.go_to(key)
        yield key
    for number in range(len(CHOICES)):
        window.paper.view.choice.setCurrentIndex(number)
        yield f"paper {number}"
    window.work.go_to("firing")
    for beside in Beside:
        window.firing.show_beside(beside)
        yield beside.value
