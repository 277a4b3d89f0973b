"""A program beside the one that is tried: a small window from which files are dragged.

    python tests/file_to_drag.py X Y PATH...

lies over everything at X, Y until it is ended from outside, and prints a line once it is there.
"""

import sys

from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtGui import QDrag, QMouseEvent
from PySide6.QtWidgets import QApplication, QLabel

SIDE = 40


class FileToDrag(QLabel):
    """Files that begin to move as soon as the mouse does with a button held."""

    def __init__(self, paths: list[str]) -> None:
        super().__init__("file")
        self._paths = paths
        over_all = Qt.WindowType.X11BypassWindowManagerHint | Qt.WindowType.ToolTip
        self.setWindowFlags(over_all)

    def mouseMoveEvent(self, _event: QMouseEvent) -> None:
        """Let the files be dragged."""
        data = QMimeData()
        data.setUrls([QUrl.fromLocalFile(path) for path in self._paths])
        drag = QDrag(self)
        drag.setMimeData(data)
        drag.exec(Qt.DropAction.CopyAction)


def main(arguments: list[str]) -> int:
    """Lie there."""
    x, y, *paths = arguments
    application = QApplication(sys.argv[:1])
    file = FileToDrag(paths)
    file.setGeometry(int(x), int(y), SIDE, SIDE)
    file.show()
    application.processEvents()
    sys.stdout.write("there\n")
    sys.stdout.flush()
    return application.exec()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
