"""Widgets of a test are gone before the next one begins."""

from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QWidget


def put_away(widget: QWidget) -> None:
    """Close a widget and let Qt delete it now."""
    widget.close()
    widget.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
