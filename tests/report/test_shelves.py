"""Shelves stand as in the kiln, in whichever order their cones were written down."""

import pytest
from firings import GOOD, TO_1000, log_of

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Shelf
from firing_review.firing.sheet import Given
from firing_review.firing.wording import Language
from firing_review.io.languages import speak
from firing_review.io.tables import load_tables
from firing_review.report.shelves import shelf_names
from firing_review.review.pipeline import review_firing


def names_of(*written: str, kiln: Kiln | None = None) -> list[str]:
    cones = tuple(
        ShelfCone(shelf, "", ConeNumber("06"), ConeKind.SELF_SUPPORTING, 90.0) for shelf in written
    )
    return shelf_names(
        review_firing(Given(log_of(GOOD), "t", TO_1000, cones, kiln), load_tables())
    )


@pytest.mark.parametrize(
    ("written", "from_the_floor_up"),
    [
        (("top", "middle", "bottom"), ["bottom", "middle", "top"]),
        (("Top", "Bottom"), ["Bottom", "Top"]),
        (("second", "first", "top"), ["second", "first", "top"]),
        (("top", "by the door"), ["by the door", "top"]),
    ],
)
def test_the_shelf_called_top_is_never_drawn_below_the_one_called_bottom(
    written, from_the_floor_up
) -> None:
    assert names_of(*written) == from_the_floor_up


def test_the_words_of_the_language_on_the_screen_tell_the_height_too() -> None:
    speak(Language.GERMAN)
    try:
        assert names_of("oben", "Mitte", "unten") == ["unten", "Mitte", "oben"]
    finally:
        speak(Language.ENGLISH_US)


def test_the_order_of_the_kiln_sheet_stays_as_it_is() -> None:
    kiln = Kiln(shelves=(Shelf("top"), Shelf("bottom")))
    assert names_of("bottom", "top", kiln=kiln) == ["top", "bottom"]
