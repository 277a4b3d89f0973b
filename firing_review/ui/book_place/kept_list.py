"""A short list of what is kept at a kiln, under a heading, with a button that takes one out."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtWidgets import (
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.ui.appearance import Appearance

ROWS_SHOWN = 4


class KeptList(QWidget):
    """Entries as lines, newest first.

    Signals
    -------
    chosen : another entry is chosen, or none; carries it.
    removed : an entry is to be taken out.
    """

    chosen = Signal(object)
    removed = Signal(object)

    def __init__(
        self, appearance: Appearance, heading: str, remove: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._entries: tuple[object, ...] = ()
        title = QLabel(heading)
        title.setProperty("part", "heading")
        self.list = QListWidget()
        self.list.setAccessibleName(heading)
        self.list.setWordWrap(True)
        self.remove = QPushButton(remove)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(title)
        layout.addWidget(self.list)
        layout.addWidget(self.remove, 0, Qt.AlignmentFlag.AlignLeft)
        self.list.currentRowChanged.connect(self._on_row)
        self.remove.clicked.connect(self._on_remove)

    @property
    def current(self) -> object | None:
        """The entry that is chosen, if one is."""
        row = self.list.currentRow()
        return self._entries[row] if 0 <= row < len(self._entries) else None

    def show_entries(self, entries: Sequence[object], lines: Sequence[str]) -> None:
        """Show entries, each as its line."""
        self._entries = tuple(entries)
        self.list.clear()
        for line in lines:
            QListWidgetItem(line, self.list)
        for widget in (self.list, self.remove):
            widget.setVisible(bool(entries))
        self._on_row(-1)
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        target, count = self._appearance.sizes.target, self.list.count()
        for row in range(count):
            self.list.item(row).setSizeHint(QSize(0, target))
        self.list.setFixedHeight(target * min(max(count, 1), ROWS_SHOWN) + 8)

    @Slot(int)
    def _on_row(self, _row: int) -> None:
        entry = self.current
        self.remove.setEnabled(entry is not None and self.isEnabled())
        self.chosen.emit(entry)

    @Slot()
    def _on_remove(self) -> None:
        entry = self.current
        if entry is not None:
            self.removed.emit(entry)
