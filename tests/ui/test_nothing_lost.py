"""Going from page to page loses nothing that the window still needs."""

import shiboken6
from closing import put_away
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QMenu, QVBoxLayout, QWidget

from firing_review.ui.seen_stack import SeenStack


def test_a_part_that_goes_takes_no_other_part_from_python(qapp):
    window, stack = QWidget(), SeenStack()
    passing, line, other = QLabel("passes"), QLineEdit(), QWidget()
    menu = QMenu(line)
    action = menu.addAction("stays")
    page = QWidget()
    for part in (passing, line):
        part.setParent(page)
    stack.add_page(other)
    stack.add_page(page)
    QVBoxLayout(window).addWidget(stack)
    window.show()
    other.setFocus()
    QApplication.processEvents()
    stack.show_page(page)
    assert line.hasFocus()
    passing.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    assert shiboken6.isValid(action)
    put_away(window)
