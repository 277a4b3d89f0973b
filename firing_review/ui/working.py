"""What work beside the window tells the window, whoever does it."""

from PySide6.QtCore import QObject, Signal


class Working(QObject):
    """Says what is being done and how far it is.

    Signals
    -------
    began : what is being done.
    progressed : how far, from 0 to 1, and what is being done now.
    ended : nothing is being done any more.
    """

    began = Signal(str)
    progressed = Signal(float, str)
    ended = Signal()

    @property
    def is_busy(self) -> bool:
        """Tell whether something is being done."""
        return bool(self.words)

    @property
    def words(self) -> str:
        """What is being done; empty if nothing is."""
        raise NotImplementedError

    def cancel(self) -> None:
        """End the work at the person's wish."""
        raise NotImplementedError
