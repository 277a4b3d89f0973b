"""Colors, sizes and the style sheet: one place, applied again when the system changes."""

from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt, Signal, Slot
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from firing_review.ui.preferences import Brightness, Preferences
from firing_review.ui.style_sheet import style_sheet

TARGET_PX, LARGE_TARGET_PX = 36, 48
"""Height of what can be pressed; the larger is about 10 mm, for a finger in a glove."""
SCALES = (1.0, 1.15, 1.3, 1.5, 1.75, 2.0)


@dataclass(frozen=True)
class Colors:
    """Every color of the window, named after its use.

    Contrast of text and marks against ``page`` and ``panel`` is at least 4.5 : 1; ``line`` is
    never the only carrier of a meaning.
    """

    page: str
    panel: str
    field: str
    ink: str
    muted: str
    accent: str
    on_accent: str
    chosen: str
    hot: str
    cold: str
    fine: str
    watch: str
    set_point: str
    line: str
    band: str
    band_chosen: str


LIGHT = Colors(
    page="#FBF9F6",
    panel="#F1EDE6",
    field="#FFFFFF",
    ink="#211D19",
    muted="#5C554C",
    accent="#8C4A1F",
    on_accent="#FFFFFF",
    chosen="#EFDDCD",
    hot="#B34700",
    cold="#00629B",
    fine="#00694C",
    watch="#8A5A00",
    set_point="#7A3E9D",
    line="#8A8175",
    band="#F3ECE0",
    band_chosen="#F0DCC4",
)
DARK = Colors(
    page="#1D1B19",
    panel="#282523",
    field="#171513",
    ink="#F4EFE8",
    muted="#BDB4A8",
    accent="#F0A070",
    on_accent="#1D1B19",
    chosen="#49362A",
    hot="#FF9A4D",
    cold="#6CBEF0",
    fine="#4CC9A0",
    watch="#F0C04A",
    set_point="#D3A4F0",
    line="#8F867B",
    band="#2A2622",
    band_chosen="#453325",
)


def blended(color: str, ground: str, share: float) -> QColor:
    """Return ``share`` of a color over a ground, opaque: what is see-through is slow to draw."""
    over, under = QColor(color), QColor(ground)
    mixed = (
        share * a + (1 - share) * b
        for a, b in zip(over.getRgbF()[:3], under.getRgbF()[:3], strict=True)
    )
    return QColor.fromRgbF(*mixed)


@dataclass(frozen=True)
class Sizes:
    """Sizes in device-independent pixels, all from one scale."""

    scale: float = 1.0
    large: bool = False

    def px(self, pixels: float) -> int:
        """Return a length drawn for scale 1 at the present scale."""
        return round(pixels * self.scale)

    @property
    def base(self) -> int:
        """Running text."""
        return self.px(16)

    @property
    def small(self) -> int:
        """The smallest type anywhere."""
        return self.px(14)

    @property
    def table(self) -> int:
        """Type in tables."""
        return self.px(15)

    @property
    def verdict(self) -> int:
        """The answer at the top."""
        return self.px(21)

    @property
    def target(self) -> int:
        """Height of anything that can be pressed."""
        return self.px(LARGE_TARGET_PX if self.large else TARGET_PX)


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

    @property
    def is_dark(self) -> bool:
        """Whether the dark colors are in use."""
        return self.colors is DARK

    @Slot()
    def apply(self) -> None:
        """Put colors, fonts and sizes on the whole program."""
        self.colors = DARK if self._wants_dark() else LIGHT
        self.sizes = Sizes(self._preferences.scale, self._preferences.large_targets)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setFont(self.font(self.sizes.base))
            application.setPalette(_palette(self.colors))
            application.setStyleSheet(style_sheet(self.colors, self.sizes))
        self.changed.emit()

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
