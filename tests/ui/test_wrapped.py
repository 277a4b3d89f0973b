"""Running text in the window."""

from PySide6.QtWidgets import QLabel

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
