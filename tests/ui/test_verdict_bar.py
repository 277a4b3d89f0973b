"""The verdict stays readable at every width."""

import pytest
from closing import put_away
from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.ui.verdict_bar.view import CHECK_LEAST_SIGNS, VerdictView

LAPTOP = (1366, 768)
DEMOS = sorted(path.parent.name for path in demo_logs().glob("*/firing.toml"))
SENTENCE = "By the cones, bottom stayed cooler than meant and top hotter. "
CHECK = "Look through the peepholes: does every section glow? "


def laid_out(appearance, width, sentence, check):
    """Return a verdict of these words, shown at this width."""
    view = VerdictView(appearance)
    for marked in (view.safety, view.load, view.kiln):
        marked.text.setText("no danger sign was reported")
    view.sentence.setText(sentence)
    view.next_check.setText(check)
    view.resize(width, 300)
    view.fit(width)
    view.show()
    QCoreApplication.processEvents()
    return view


@pytest.mark.parametrize("width", range(700, 1500, 50))
def test_the_next_check_never_becomes_a_column_of_single_words(qapp, appearance, width):
    view = laid_out(appearance, width, SENTENCE * 2, CHECK * 3)
    least = view.next_check.fontMetrics().averageCharWidth() * CHECK_LEAST_SIGNS
    assert view.next_check.width() >= 0.8 * least
    put_away(view)


def test_many_words_of_the_next_check_get_a_wider_column_and_few_leave_it_to_the_sentence(
    qapp, appearance
):
    many = laid_out(appearance, 1600, SENTENCE, CHECK * 3)
    few = laid_out(appearance, 1600, SENTENCE * 3, "Worn heating elements")
    assert many.next_check.width() > 1.5 * few.next_check.width()
    assert many.sentence.width() > many.next_check.width()
    put_away(many)
    put_away(few)


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
def test_no_demo_firing_has_more_than_five_lines_beside_its_verdict(window, language):
    window.choose_language(language)
    window.resize(*LAPTOP)
    lines = {}
    for name in DEMOS:
        window.open_path(demo_logs() / name / "firing.toml")
        for _ in range(3):
            QApplication.processEvents()
        check = window.work.verdict.view.next_check
        spacing = check.fontMetrics().lineSpacing()
        assert check.width() < LAPTOP[0] / 2
        lines[name] = round(check.heightForWidth(check.width()) / spacing)
    assert [name for name, count in lines.items() if not 1 <= count <= 5] == []
    assert len(lines) == 8
