"""What an edit leaves as it was is not worked out again, and nobody can tell."""

from dataclasses import replace

from any_changes import TABLES, changes, log
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from same import same

from firing_review.firing.log import ReadingChoices
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.review.pipeline import review_firing


def never_seen(one: Given) -> Given:
    """Return the same firing with logs of which nothing was worked out yet."""
    earlier = tuple(replace(before, log=replace(before.log)) for before in one.earlier)
    return replace(one, log=replace(one.log), earlier=earlier)


@settings(max_examples=40, deadline=None, phases=(Phase.explicit, Phase.generate, Phase.shrink))
@given(st.lists(changes, min_size=1, max_size=4))
def test_after_any_edits_the_review_is_the_one_that_is_worked_out_from_the_start(made):
    review = review_firing(Given(log(ReadingChoices(unit=TemperatureUnit.CELSIUS))), TABLES)
    for edit in made:
        review = edit(review, TABLES)
        assert same(review, review_firing(never_seen(review.given), TABLES))
