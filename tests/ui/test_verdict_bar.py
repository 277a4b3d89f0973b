"""The verdict stays readable at every width."""

import pytest
from closing import put_away
from PySide6.QtCore import QCoreApplication

from firing_review.ui.verdict_bar.view import CHECK_LEAST_SIGNS, VerdictView


@pytest.mark.parametrize("width", range(700, 1500, 50))
def test_the_next_check_never_becomes_a_column_of_single_words(qapp, appearance, width):
    view = VerdictView(appearance)
    for marked in (view.safety, view.load, view.kiln):
        marked.text.setText("no danger sign was reported")
    view.sentence.setText("By the cones, bottom stayed cooler than meant and top hotter. " * 2)
    view.next_check.setText("Look through the peepholes: does every section glow? " * 3)
    view.resize(width, 300)
    view.fit(width)
    view.show()
    QCoreApplication.processEvents()
    least = view.next_check.fontMetrics().averageCharWidth() * CHECK_LEAST_SIGNS
    assert view.next_check.width() >= 0.8 * least
    put_away(view)
