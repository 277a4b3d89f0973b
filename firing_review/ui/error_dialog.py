"""What nobody foresaw: shown once, with the report to copy; the work is in the recovery file."""

import platform
import sys
import traceback
from types import TracebackType

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review import __version__
from firing_review.firing.wording import tr
from firing_review.ui import QT_VERSION


def report_text(
    kind: type[BaseException], error: BaseException, trace: TracebackType | None
) -> str:
    """Return version, system and traceback as text."""
    head = (
        f"Firing Review {__version__}, Python {platform.python_version()}, Qt {QT_VERSION}, "
        f"{platform.platform()}"
    )
    return f"{head}\n\n{''.join(traceback.format_exception(kind, error, trace))}"


class ErrorDialog(QDialog):
    """Says that something went wrong in the program itself, and lets one copy the report."""

    def __init__(self, report: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Something went wrong in the program"))
        self.report = report
        text = QLabel(
            tr(
                "This should not have happened. What you typed is kept in the recovery file and "
                "is offered at the next start. You can go on, or close and start again."
            )
        )
        text.setWordWrap(True)
        self.box = QPlainTextEdit(report)
        self.box.setReadOnly(True)
        self.box.setAccessibleName(tr("Report"))
        self.copy = QPushButton(tr("&Copy the report"))
        self.go_on = QPushButton(tr("&Go on"))
        self.quit = QPushButton(tr("Close the &program"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(20, 20, 20, 16)
        layout.addWidget(text)
        layout.addWidget(self.box)
        row = QHBoxLayout()
        for button in (self.copy, self.quit, self.go_on):
            row.addWidget(button)
        layout.addLayout(row)
        self.resize(720, 420)
        self.copy.clicked.connect(self._on_copy)
        self.go_on.clicked.connect(self.accept)
        self.quit.clicked.connect(QGuiApplication.quit)

    @Slot()
    def _on_copy(self) -> None:
        QGuiApplication.clipboard().setText(self.report)


class ErrorCatcher(QObject):
    """Takes exceptions from any thread to the window's own, and shows the first of them."""

    caught = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.dialog: ErrorDialog | None = None
        self.caught.connect(self._on_caught)

    def install(self) -> None:
        """Become the program's hook for exceptions nobody caught."""
        sys.excepthook = self.hook

    def hook(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        """Pass the report on by a signal, and to standard error as always."""
        report = report_text(kind, error, trace)
        sys.stderr.write(report)
        self.caught.emit(report)

    @Slot(object)
    def _on_caught(self, report: str) -> None:
        if self.dialog is not None:
            return
        self.dialog = ErrorDialog(report)
        self.dialog.finished.connect(self._on_closed)
        self.dialog.open()

    @Slot()
    def _on_closed(self) -> None:
        if self.dialog is not None:
            self.dialog.deleteLater()
            self.dialog = None
