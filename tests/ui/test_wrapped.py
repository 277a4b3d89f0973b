"""Running text in the window."""

from PySide6.QtWidgets import QLabel

from firing_review.ui.start_page.view import StartView
from firing_review.ui.wrapped import Wrapped


def test_no_line_ends_between_a_figure_and_its_unit(qtbot):
    label = Wrapped("ran 200 °C colder")
    qtbot.addWidget(label)
    assert QLabel.text(label) == "ran 200\u00a0°C colder"
    label.setText("after 10 min")
    assert QLabel.text(label) == "after 10\u00a0min"
    assert label.text() == "after 10 min"


def test_every_text_that_wraps_in_the_window_keeps_figure_and_unit_together(window, log_file):
    window.open_path(log_file)
    for key in [place.key for place in window.places.all()]:
        window.work.go_to(key)
    loose = [
        label.text()
        for label in window.findChildren(QLabel)
        if label.wordWrap() and not isinstance(label, Wrapped) and " °" in label.text()
    ]
    assert loose == []


def test_every_line_of_a_numbered_step_begins_beside_its_number(qtbot, appearance):
    view = StartView(appearance)
    qtbot.addWidget(view)
    view.resize(700, 700)
    view.show()
    labels = view.steps.findChildren(QLabel)
    numbers = [one for one in labels if one.text() in {"1", "2", "3"}]
    steps = [one for one in labels if one not in numbers][:3]
    assert [one.x() for one in numbers] == [0, 0, 0]
    assert [one.y() for one in steps] == [one.y() for one in numbers]
    assert {one.x() for one in steps} == {numbers[0].width() + 10}
