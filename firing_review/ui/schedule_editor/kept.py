"""Schedules kept under the person's own names, one CSV file each in the state folder."""

from pathlib import Path
from urllib.parse import quote, unquote

from firing_review.firing.schedule import Intended
from firing_review.firing.units import TemperatureUnit
from firing_review.io.schedule_file import read_schedule, write_schedule

LONGEST_NAME = 80


class KeptSchedules:
    """A folder of schedules; any name will do, whatever the file system allows."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def names(self) -> list[str]:
        """Return the names in order of the alphabet."""
        if not self._folder.is_dir():
            return []
        found = (unquote(path.stem) for path in self._folder.glob("*.csv"))
        return sorted(found, key=str.casefold)

    def keep(self, name: str, intended: Intended, unit: TemperatureUnit) -> None:
        """Keep a schedule; one of the same name is replaced.

        Raises
        ------
        InputError
            If the folder cannot be written.
        """
        write_schedule(self._file(name), intended, unit)

    def load(self, name: str) -> Intended:
        """Return a kept schedule; raises InputError if it cannot be read."""
        return read_schedule(self._file(name))

    def _file(self, name: str) -> Path:
        return self._folder / f"{quote(name.strip()[:LONGEST_NAME], safe=' ')}.csv"
