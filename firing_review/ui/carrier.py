"""Buttons that hand over what they stand for; one of them carries text that wraps."""

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget


class Carrier(QPushButton):
    """A button that hands over what it stands for.

    Signals
    -------
    chosen : what it was made with.
    """

    chosen = Signal(object)

    def __init__(self, carried: object, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self._carried = carried
        self.clicked.connect(self._on_clicked)

    @Slot()
    def _on_clicked(self) -> None:
        self.chosen.emit(self._carried)


class WrappingCarrier(Carrier):
    """A button whose labels wrap at its width."""

    def __init__(
        self, carried: object, labels: list[QLabel], parent: QWidget | None = None
    ) -> None:
        super().__init__(carried, "", parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.lines = QVBoxLayout(self)
        self.lines.setSpacing(3)
        for label in labels:
            label.setWordWrap(True)
            label.setAlignment(Qt.AlignmentFlag.AlignTop)
            label.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self.lines.addWidget(label)
        self.lines.addStretch(1)

    def hasHeightForWidth(self) -> bool:
        """Wrap the text."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height the wrapped text needs."""
        return self.layout().totalHeightForWidth(width)

    def sizeHint(self) -> QSize:
        """Ask for the height the text needs at the present width."""
        width = max(self.width(), 200)
        return QSize(200, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        """Never cut the text."""
        return QSize(120, self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Measure the text again."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self.updateGeometry()
