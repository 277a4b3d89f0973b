"""What stands beside the verdict: the cause, then what to check, or else what mends it."""

from dataclasses import replace

import pytest
from closing import put_away
from firings import GOOD, log_of

from firing_review.firing.results import CauseWeighed, Check
from firing_review.firing.said import Said
from firing_review.firing.sheet import Given
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.ui.preferences import Preferences
from firing_review.ui.showing import Showing
from firing_review.ui.verdict_bar.panel import VerdictBar

SUPPLY = CauseWeighed(
    "low_supply",
    Said("Low supply voltage"),
    0.9,
    fix=Said("Electrician or the supply company."),
    caution=Said("Mains power."),
)
VOLTS = Check("volts", Said("Have the volts measured."), "electrician", 30.0)


@pytest.fixture
def bar(qapp, appearance, tmp_path):
    made = VerdictBar(appearance, Showing(Preferences(tmp_path)))
    yield made
    put_away(made)


def shown(bar, **known) -> str:
    bar.show_review(replace(review_firing(Given(log_of(GOOD)), load_tables()), **known))
    return bar.view.next_check.text()


def test_while_a_check_would_tell_more_it_is_named(bar):
    words = shown(bar, causes=(SUPPLY,), next_check=VOLTS)
    assert "Next check" in words
    assert "Have the volts measured." in words
    assert "supply company" not in words


def test_when_nothing_is_left_to_check_what_mends_it_is_named_with_the_caution(bar):
    words = shown(bar, causes=(SUPPLY,), next_check=None)
    assert "If it is this" in words
    assert "see Causes" in words.replace("\N{NO-BREAK SPACE}", " ")
    assert "Electrician or the supply company." in words


def test_nothing_is_mended_while_the_cause_is_open(bar):
    words = shown(bar, causes=(replace(SUPPLY, probability=0.4),), next_check=None)
    assert words == ""
