"""What a person could not read in a window: words that are cut, and pages that scroll sideways."""

from collections.abc import Iterator

from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QComboBox,
    QLabel,
    QScrollArea,
    QStyle,
    QStyleOptionComboBox,
    QTableWidget,
    QWidget,
)

from firing_review.ui.elided import Elided
from firing_review.ui.top_bar.title import TitleButton

ROUNDING_PX = 1


def cut_words(window: QWidget) -> list[str]:
    """Return everything in sight that has less room than its words need."""
    seen = (w for w in window.findChildren(QWidget) if w.isVisible() and w.window() is window)
    return [text for widget in seen for text in _cut(widget)]


def _cut(widget: QWidget) -> Iterator[str]:
    if _has_no_room(widget):
        yield f"no room: {_words(widget)}"
    wide = isinstance(widget, QAbstractScrollArea) and not isinstance(widget, QTableWidget)
    if wide and (widget.horizontalScrollBar().maximum() > 0 or _is_wider(widget)):
        yield f"scrolls sideways: {_name(widget)}"


def _has_no_room(widget: QWidget) -> bool:
    if isinstance(widget, Elided | TitleButton):
        return False  # cut on purpose; the whole is in the title of the window
    if isinstance(widget, QLabel) and widget.wordWrap():
        return widget.heightForWidth(widget.width()) > widget.height() + ROUNDING_PX
    if isinstance(widget, QLabel | QAbstractButton) and widget.text():
        return widget.sizeHint().width() > widget.width() + ROUNDING_PX
    if isinstance(widget, QComboBox):
        return widget.fontMetrics().horizontalAdvance(_words(widget)) > _room(widget)
    return False


def _words(widget: QWidget) -> str:
    return widget.currentText() if isinstance(widget, QComboBox) else widget.text()


def _is_wider(area: QAbstractScrollArea) -> bool:
    page = area.widget() if isinstance(area, QScrollArea) else None
    return page is not None and page.width() > area.viewport().width()


def _room(chooser: QComboBox) -> int:
    option = QStyleOptionComboBox()
    chooser.initStyleOption(option)
    kind, part = QStyle.ComplexControl.CC_ComboBox, QStyle.SubControl.SC_ComboBoxEditField
    return chooser.style().subControlRect(kind, option, part, chooser).width()


def _name(widget: QWidget) -> str:
    return (
        widget.accessibleName() or f"{type(widget).__name__} in {type(widget.parent()).__name__}"
    )
