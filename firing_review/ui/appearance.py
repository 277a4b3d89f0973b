"""Colors, sizes and the style sheet: one place, applied again when the system changes."""

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QObject, QSignalBlocker, Qt, Signal, Slot
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from firing_review.ui.look import DARK, LIGHT, Colors, Sizes
from firing_review.ui.preferences import Brightness, Preferences
from firing_review.ui.style_sheet import style_sheet

SCHEMES = {
    Brightness.SYSTEM: Qt.ColorScheme.Unknown,
    Brightness.LIGHT: Qt.ColorScheme.Light,
    Brightness.DARK: Qt.ColorScheme.Dark,
}
SCALES = (1.0, 1.15, 1.3, 1.5, 1.75, 2.0)


class Appearance(QObject):
    """The look of the program now; says when it changed.

    Signals
    -------
    changed : after a new look was applied; panels that paint themselves paint again.
    """

    changed = Signal()

    def __init__(self, preferences: Preferences, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._preferences = preferences
        self.colors = LIGHT
        self.sizes = Sizes(preferences.scale, preferences.large_targets)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self.apply)

    @Slot()
    def apply(self) -> None:
        """Put colors, fonts and sizes on the whole program."""
        self._tell_system()
        self.colors = DARK if self._wants_dark() else LIGHT
        self.sizes = Sizes(self._preferences.scale, self._preferences.large_targets)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setFont(self.font(self.sizes.base))
            application.setPalette(_palette(self.colors))
            application.setStyleSheet(style_sheet(self.colors, self.sizes))
        self.changed.emit()

    @contextmanager
    def on_paper(self) -> Iterator[None]:
        """Use the light colors for a while without a word to anyone: a picture goes on paper."""
        seen, self.colors = self.colors, LIGHT
        try:
            yield
        finally:
            self.colors = seen

    def choose(self, brightness: Brightness) -> None:
        """Remember light, dark or system, and apply it."""
        self._preferences.brightness = brightness
        self.apply()

    def rescale(self, scale: float) -> None:
        """Remember the size of text and controls, and apply it."""
        self._preferences.scale = scale
        self.apply()

    def choose_targets(self, *, large: bool) -> None:
        """Remember how large what can be pressed is, and apply it."""
        self._preferences.large_targets = large
        self.apply()

    def enlarge(self) -> None:
        """Make everything larger, up to twice."""
        self._step(1)

    def reduce(self) -> None:
        """Make everything smaller again."""
        self._step(-1)

    def _step(self, step: int) -> None:
        now = min(SCALES, key=lambda scale: abs(scale - self._preferences.scale))
        place = min(max(SCALES.index(now) + step, 0), len(SCALES) - 1)
        self.rescale(SCALES[place])

    def font(self, pixels: int, *, bold: bool = False) -> QFont:
        """Return the system sans at ``pixels`` with figures of equal width."""
        font = QFont(QGuiApplication.font())
        font.setPixelSize(pixels)
        font.setBold(bold)
        font.setFeature(QFont.Tag("tnum"), 1)
        return font

    def _tell_system(self) -> None:
        """Let what the system draws, the frame of the window and its dialogs, be as chosen."""
        hints = QGuiApplication.styleHints()
        with QSignalBlocker(hints):  # what is said here is applied here
            hints.setColorScheme(SCHEMES[self._preferences.brightness])

    def _wants_dark(self) -> bool:
        chosen = self._preferences.brightness
        if chosen is Brightness.SYSTEM:
            return QGuiApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark
        return chosen is Brightness.DARK


def _palette(colors: Colors) -> QPalette:
    palette = QPalette()
    roles = QPalette.ColorRole
    for role, color in (
        (roles.Window, colors.page),
        (roles.WindowText, colors.ink),
        (roles.Base, colors.field),
        (roles.AlternateBase, colors.panel),
        (roles.Text, colors.ink),
        (roles.PlaceholderText, colors.muted),
        (roles.Button, colors.panel),
        (roles.ButtonText, colors.ink),
        (roles.ToolTipBase, colors.panel),
        (roles.ToolTipText, colors.ink),
        (roles.Highlight, colors.accent),
        (roles.HighlightedText, colors.on_accent),
        (roles.Link, colors.accent),
    ):
        palette.setColor(role, QColor(color))
    for role in (roles.WindowText, roles.Text, roles.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, role, QColor(colors.line))
    return palette
