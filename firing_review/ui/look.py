"""Colors and sizes of the window, each named after its use."""

from dataclasses import dataclass

from PySide6.QtGui import QColor

TARGET_PX, LARGE_TARGET_PX = 36, 48
"""Height of what can be pressed; the larger is about 10 mm, for a finger in a glove."""


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
