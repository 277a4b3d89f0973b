"""The window; the only place that knows Qt.

PySide6 is imported here so that pyqtgraph, which takes the first binding it finds, takes this one.
"""

from PySide6 import QtCore

QT_VERSION = QtCore.__version__
__all__ = ["QT_VERSION"]
