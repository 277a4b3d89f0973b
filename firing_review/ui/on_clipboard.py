"""What the program put on the clipboard, and what becomes of it when the program ends."""

from PySide6.QtCore import QByteArray, QMimeData
from PySide6.QtGui import QGuiApplication


class _LongText(QMimeData):
    """Text that Python made and the clipboard owns."""


def put_text(text: QByteArray) -> None:
    """Put a long text in UTF-8 on the clipboard; it is read as text once it is pasted."""
    data = _LongText()
    data.setData("text/plain", text)
    QGuiApplication.clipboard().setMimeData(data)


def leave_to_qt() -> None:
    """Make Qt alone hold the text on the clipboard: it may do so longer than Python lasts."""
    clipboard = QGuiApplication.clipboard()
    if isinstance(clipboard.mimeData(), _LongText):
        clipboard.setText(clipboard.text())
