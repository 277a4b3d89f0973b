"""What the program remembers about its user, each with its type and its default.

An INI file gives everything back as text (``False`` as ``"false"``, a list of one as its only
item), so every value is written and read here as text with a meaning of its own.
"""

import json
import os
from enum import StrEnum
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import QByteArray, QLocale, QSettings

from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import Language
from firing_review.report.paper.page import Paper
from firing_review.ui.home import home_folder
from firing_review.ui.start_page.demos import is_demo

Choice = TypeVar("Choice", bound=StrEnum)
RECENT_KEPT = 8
_LANDS = QLocale.Country
LETTER_LANDS = frozenset({_LANDS.UnitedStates, _LANDS.Canada, _LANDS.Mexico})
"""Where paper is US Letter; elsewhere it is A4."""
SMALLEST_SCALE, LARGEST_SCALE = 1.0, 2.0


class Brightness(StrEnum):
    """Paper or night, or whatever the system says."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class TimeShown(StrEnum):
    """Hours since the first sample, or the clock on the wall."""

    ELAPSED = "elapsed"
    CLOCK = "clock"


class Preferences:
    """Typed reader and writer of one INI file in the state folder."""

    def __init__(self, folder: Path) -> None:
        self._file = QSettings(str(folder / "preferences.ini"), QSettings.Format.IniFormat)

    def _text(self, key: str, default: str = "") -> str:
        return str(self._file.value(key, default, type=str))

    def _write(self, key: str, text: str) -> None:
        if self._text(key) != text:
            self._file.setValue(key, text)
            self._file.sync()

    @property
    def unit(self) -> TemperatureUnit:
        """Unit of temperatures on the screen."""
        return _one_of(TemperatureUnit, self._text("screen/unit"), TemperatureUnit.CELSIUS)

    @unit.setter
    def unit(self, unit: TemperatureUnit) -> None:
        self._write("screen/unit", unit.value)

    @property
    def unit_is_chosen(self) -> bool:
        """Whether the person ever chose a unit; before that the log's own unit is shown."""
        return bool(self._text("screen/unit"))

    @property
    def language(self) -> Language | None:
        """The language the person chose; None follows the system."""
        written = self._text("screen/language")
        return next((known for known in Language if known.value == written), None)

    @language.setter
    def language(self, language: Language) -> None:
        self._write("screen/language", language.value)

    @property
    def time_shown(self) -> TimeShown:
        """Hours or clock along the chart."""
        return _one_of(TimeShown, self._text("screen/time"), TimeShown.ELAPSED)

    @time_shown.setter
    def time_shown(self, shown: TimeShown) -> None:
        self._write("screen/time", shown.value)

    @property
    def brightness(self) -> Brightness:
        """Light, dark, or as the system is."""
        return _one_of(Brightness, self._text("screen/brightness"), Brightness.SYSTEM)

    @brightness.setter
    def brightness(self, brightness: Brightness) -> None:
        self._write("screen/brightness", brightness.value)

    @property
    def paper(self) -> Paper:
        """The paper pages are set for; before it is chosen, what is usual where the user lives."""
        usual = Paper.LETTER if QLocale.system().territory() in LETTER_LANDS else Paper.A4
        return _one_of(Paper, self._text("paper/size"), usual)

    @paper.setter
    def paper(self, paper: Paper) -> None:
        self._write("paper/size", paper.value)

    @property
    def scale(self) -> float:
        """Size of text and controls, 1 to 2."""
        try:
            scale = float(self._text("screen/scale", "1"))
        except ValueError:
            return SMALLEST_SCALE
        return min(max(scale, SMALLEST_SCALE), LARGEST_SCALE)

    @scale.setter
    def scale(self, scale: float) -> None:
        self._write("screen/scale", f"{scale:.2f}")

    @property
    def large_targets(self) -> bool:
        """Whether everything that can be pressed is as large as a gloved finger wants it."""
        return self._text("screen/large_targets") == "yes"

    @large_targets.setter
    def large_targets(self, large: bool) -> None:
        self._write("screen/large_targets", "yes" if large else "no")

    @property
    def recent(self) -> tuple[Path, ...]:
        """Files and folders opened last, newest first; those that are gone are left out."""
        try:
            names = json.loads(self._text("files/recent", "[]"))
        except ValueError:
            return ()
        paths = (Path(str(name)) for name in names) if isinstance(names, list) else ()
        return tuple(path for path in paths if os.path.exists(path))  # noqa: PTH110 - never raises

    def remember(self, path: Path) -> None:
        """Put ``path`` on top of the recent files."""
        path = path.absolute()
        kept = [path, *(other for other in self.recent if other != path)][:RECENT_KEPT]
        self._write("files/recent", json.dumps([str(one) for one in kept]))

    @property
    def book(self) -> Path | None:
        """The kiln book that was open last, if it was not closed since."""
        name = self._text("files/book")
        return Path(name) if name else None

    @book.setter
    def book(self, path: Path | None) -> None:
        self._write("files/book", "" if path is None else str(path.absolute()))

    @property
    def guide_over(self) -> bool:
        """Whether the guide was left or done, so that the first page need not offer it."""
        return self._text("guide/over") == "yes"

    @guide_over.setter
    def guide_over(self, over: bool) -> None:
        self._write("guide/over", "yes" if over else "no")

    @property
    def last_folder(self) -> Path:
        """Where the next file dialog begins: never among the program's own demo firings."""
        own = (path.parent for path in self.recent if not is_demo(path))
        return next(own, home_folder())

    @property
    def geometry(self) -> QByteArray:
        """Place and size of the window, as Qt keeps it; empty the first time."""
        return QByteArray.fromHex(self._text("window/geometry").encode())

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._write("window/geometry", bytes(geometry.toHex().data()).decode())


def _one_of(kind: type[Choice], text: str, default: Choice) -> Choice:
    try:
        return kind(text)
    except ValueError:
        return default
