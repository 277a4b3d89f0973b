"""Where the window stands when it opens: as it was left, or as the screen allows."""

from PySide6.QtCore import QByteArray, QSize, Qt
from PySide6.QtWidgets import QMainWindow

FIRST_SIZE = (1600, 960)
SMALL_SCREEN_PX = 1440


def place_on_screen(window: QMainWindow, left_as: QByteArray) -> None:
    """Put a window where it was left; where its screen is gone, as if it opened first."""
    room = window.screen().availableGeometry()
    window.resize(QSize(*FIRST_SIZE).boundedTo(room.size()))
    if not left_as.isEmpty() and window.restoreGeometry(left_as):
        return
    if room.width() <= SMALL_SCREEN_PX:
        window.setWindowState(Qt.WindowState.WindowMaximized)
