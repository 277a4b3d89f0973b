"""From the command to the first painted window, beside a bare window with one plot.

Run with ``python -m pytest tests/benchmarks/bench_start.py -s``; printed, never a condition.
"""

import os
import subprocess
import sys
import time

PAIRS = 5
_END = """
import os, sys
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication
class End(QObject):
    def eventFilter(self, one, event):
        if event.type() == QEvent.Type.Paint and one.isWidgetType() and one.window().isVisible():
            QTimer.singleShot(0, lambda: os._exit(0))
        return False
end = End()
"""
BARE = (
    _END
    + """
from PySide6.QtWidgets import QMainWindow
import pyqtgraph as pg
app = QApplication([])
app.installEventFilter(end)
window = QMainWindow()
window.setCentralWidget(pg.PlotWidget())
window.resize(1366, 768)
window.show()
app.exec()
"""
)
OURS = (
    _END
    + """
import firing_review.ui.app as start
shown = start.make_window
def make(home, questions):
    QApplication.instance().installEventFilter(end)
    return shown(home, questions)
start.make_window = make
start.main([])
"""
)


def spent_s(code: str, home: str) -> tuple[float, float]:
    """Return wall time and processor time [s] until the first paint."""
    environment = {**os.environ, "FIRING_REVIEW_HOME": home, "QT_QPA_PLATFORM": "offscreen"}
    began = time.perf_counter()
    command = [sys.executable, "-c", code]
    process = subprocess.Popen(command, env=environment, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0
    return time.perf_counter() - began, usage.ru_utime + usage.ru_stime


def test_the_first_window_beside_a_bare_one(tmp_path, benchmark):
    home = str(tmp_path)
    ratios = []
    for _ in range(PAIRS):
        bare, ours = spent_s(BARE, home), spent_s(OURS, home)
        ratios.append((ours[0] / bare[0], ours[1] / bare[1]))
        print(f"bare {bare[0]:.2f} s ({bare[1]:.2f}), ours {ours[0]:.2f} s ({ours[1]:.2f})")  # noqa: T201
    print("time and processor time, times a bare window:", ratios)  # noqa: T201
    benchmark.pedantic(spent_s, args=(OURS, home), rounds=1)
