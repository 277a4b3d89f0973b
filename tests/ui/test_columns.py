"""Columns of a table share out its width."""

import pytest

from firing_review.ui.columns import shared_out


@pytest.mark.parametrize(
    ("room", "expected"),
    [
        (400, [100, 300]),  # room to spare goes to the last
        (240, [90, 150]),  # each has its least and half of what it would like more
        (180, [80, 100]),
        (90, [40, 50]),  # not even the least has room: all give way alike
    ],
)
def test_a_column_gets_what_it_would_like_or_its_least_and_a_share(room, expected):
    assert shared_out(room, [100, 200], [80, 100]) == expected
