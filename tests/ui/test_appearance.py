"""Contrast computed from the palette, sizes from the scale."""

from dataclasses import asdict

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from firing_review.ui.look import DARK, LIGHT, Sizes
from firing_review.ui.preferences import Brightness

TEXT_ON_PAGE = ("ink", "muted", "accent", "hot", "cold", "fine", "watch", "set_point")


def luminance(color: str) -> float:
    """Return relative luminance, WCAG 2.2 definition."""
    parts = [int(color[n : n + 2], 16) / 255.0 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_is_21_to_1():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)


@pytest.mark.parametrize("colors", [LIGHT, DARK])
@pytest.mark.parametrize("name", TEXT_ON_PAGE)
@pytest.mark.parametrize("ground", ["page", "panel", "field"])
def test_text_and_marks_stand_out(colors, name, ground):
    found = asdict(colors)
    assert contrast(found[name], found[ground]) >= 4.5


@pytest.mark.parametrize("colors", [LIGHT, DARK])
@pytest.mark.parametrize("ground", ["chosen", "band", "band_chosen"])
def test_ink_stays_readable_on_what_is_chosen(colors, ground):
    assert contrast(colors.ink, asdict(colors)[ground]) >= 7.0
    assert contrast(colors.muted, asdict(colors)[ground]) >= 4.5


@pytest.mark.parametrize("colors", [LIGHT, DARK])
def test_lines_and_the_focus_ring_can_be_seen(colors):
    assert contrast(colors.line, colors.page) >= 3.0
    assert contrast(colors.line, colors.panel) >= 3.0
    assert contrast(colors.on_accent, colors.accent) >= 4.5


@pytest.mark.parametrize("scale", [1.0, 1.3, 2.0])
def test_nothing_is_smaller_than_14_pixels_nor_harder_to_hit_than_36(scale):
    sizes = Sizes(scale)
    assert sizes.small >= round(14 * scale)
    assert sizes.base == round(16 * scale)
    assert sizes.target >= 36 * scale - 0.5


def test_dark_is_put_on_at_once_and_remembered(appearance, preferences, qtbot):
    with qtbot.waitSignal(appearance.changed):
        appearance.choose(Brightness.DARK)
    assert appearance.colors is DARK
    assert preferences.brightness is Brightness.DARK
    assert DARK.page in qtbot_style()


def test_the_colors_follow_the_system_while_the_program_runs(
    appearance, preferences, qtbot, monkeypatch
):
    dark = True
    monkeypatch.setattr(appearance, "_wants_dark", lambda: dark)
    hints = QGuiApplication.styleHints()
    with qtbot.waitSignal(appearance.changed):
        hints.colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert appearance.colors is DARK
    assert DARK.page in qtbot_style()
    dark = False
    hints.colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert appearance.colors is LIGHT


def test_a_choice_of_brightness_is_applied_once(appearance, qtbot):
    told = []
    appearance.changed.connect(lambda: told.append(appearance.colors))
    appearance.choose(Brightness.DARK)
    appearance.choose(Brightness.SYSTEM)
    assert told == [DARK, LIGHT]


def qtbot_style() -> str:
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    return QApplication.instance().styleSheet()
