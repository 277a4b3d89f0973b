"""A line to type into that leaves undo to the program once its text is taken."""

from PySide6.QtCore import QEvent
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit


class Entry(QLineEdit):
    """A line edit that can be marked wrong.

    While something is being typed, undo takes back typing; afterwards the program's own undo
    works with the cursor still in the line.
    """

    def take(self, text: str) -> None:
        """Show a text that is taken over already."""
        if self.text() != text:
            self.setText(text)
        self.setModified(False)

    def mark(self, sentence: str) -> None:
        """Mark the entry wrong with a sentence, or right with an empty one."""
        wrong = bool(sentence)
        if bool(self.property("wrong")) != wrong:
            self.setProperty("wrong", wrong)
            self.style().unpolish(self)
            self.style().polish(self)
        self.setAccessibleDescription(sentence)

    def event(self, event: QEvent) -> bool:
        """Let the program's undo and redo through when nothing is half typed."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            keys = QKeySequence.StandardKey
            undoing = event.matches(keys.Undo) or event.matches(keys.Redo)
            if undoing and not self.isModified():
                event.ignore()
                return False
        return super().event(event)
