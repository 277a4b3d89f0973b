"""What keeps the window quick to answer: early loading, short turns, looks at the right time."""

import gc
import sys
from importlib import import_module

from PySide6.QtCore import QObject, QThread, QTimer, Signal, Slot

from firing_review.ui.published import tables

NEEDED = (
    "firing_review.ui.open_log.opener",
    "firing_review.io.log_rows",
    "firing_review.io.log_parts",
    "charset_normalizer",
    "firing_review.ui.schedule_editor.kept",
    "firing_review.ui.firing_place.panel",
    "firing_review.review.history",
    "firing_review.review.recovery",
    "firing_review.ui.shelves_place.panel",
    "firing_review.ui.elements_place.panel",
    "firing_review.ui.causes_place.panel",
    "firing_review.ui.next_place.panel",
    "firing_review.ui.book_place.panel",
    "firing_review.ui.paper_place.panel",
    "firing_review.book.plain_files",
    "firing_review.book.renew",
)
"""In the order in which they are wanted; who wants one that is being loaded waits for it."""
LOADS_AFTER_MS = 300
"""The first window is on the screen by then."""
TURN_S = 0.0005
"""How long a thread beside the window goes on when the window wants its turn [s]."""
LOOKS_EVERY_MS = 500


class Answering(QObject):
    """Loads what a firing needs while nobody waits for it, and looks for lost objects meanwhile.

    Python looks through its objects for what can be thrown away whenever enough were made, in
    whatever thread that happens to be. Here it looks in the window's own thread, between two
    things a person does, and never through what was loaded: that takes longer than an edit may.

    Signals
    -------
    loaded : everything is there that a window with a firing in it is made from.
    """

    loaded = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._loading = _Loading(self)
        self._loading.finished.connect(self._on_loaded)
        self._wait = QTimer(self)
        self._wait.setSingleShot(True)
        self._wait.timeout.connect(self._loading.start)
        self._looks = QTimer(self)
        self._looks.timeout.connect(self._look)
        self._turn_before_s = sys.getswitchinterval()

    @property
    def is_looking(self) -> bool:
        """Whether all is loaded, and lost objects are looked for."""
        return self._looks.isActive()

    def begin(self) -> None:
        """Begin; from now on nobody else looks for lost objects."""
        sys.setswitchinterval(TURN_S)
        gc.disable()
        self._wait.start(LOADS_AFTER_MS)

    def end(self) -> None:
        """Leave everything to Python again; returns when no thread is left."""
        for timer in (self._wait, self._looks):
            timer.stop()
        self._loading.finished.disconnect(self._on_loaded)
        self._loading.requestInterruption()
        self._loading.wait()
        gc.unfreeze()
        gc.enable()
        sys.setswitchinterval(self._turn_before_s)

    @Slot()
    def _on_loaded(self) -> None:
        gc.freeze()
        self._looks.start(LOOKS_EVERY_MS)
        self.loaded.emit()

    @Slot()
    def _look(self) -> None:
        """Look as often as Python would, through the young first."""
        for generation, most in enumerate(gc.get_threshold()):
            if gc.get_count()[generation] > most:
                gc.collect(generation)


class _Loading(QThread):
    def run(self) -> None:
        """Load one after the other."""
        for name in NEEDED:
            if self.isInterruptionRequested():
                return
            import_module(name)
        tables()
