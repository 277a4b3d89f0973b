"""How files of one layout are read, kept in the state folder once a person settled it."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from firing_review.firing.log import ChannelRole, ReadingChoices
from firing_review.firing.units import TemperatureUnit, TimeUnit
from firing_review.io.log_layout import DECIMAL_WORDS, DELIMITER_WORDS
from firing_review.io.whole_file import write_whole


class RememberedReadings:
    """Choices by the key of a layout, in one JSON file; a damaged file remembers nothing."""

    def __init__(self, file: Path) -> None:
        self._file = file

    def __bool__(self) -> bool:
        """Tell whether anything is remembered at all."""
        return bool(self._all())

    def choices(self, key: str) -> ReadingChoices | None:
        """Return what was settled for files of this layout."""
        found = self._all().get(key)
        try:
            return _choices(found) if isinstance(found, dict) else None
        except (ValueError, TypeError, AttributeError):
            return None

    def keep(self, key: str, choices: ReadingChoices) -> None:
        """Remember choices; which firing of several was meant belongs to one file only.

        Raises
        ------
        InputError
            If the file cannot be written.
        """
        self._write(
            {
                **self._all(),
                key: {
                    "unit": choices.unit.value if choices.unit else None,
                    "day_first": choices.day_first,
                    "time_unit": choices.time_unit.value if choices.time_unit else None,
                    "delimiter": choices.delimiter,
                    "decimal": choices.decimal,
                    "roles": {name: role.value for name, role in choices.roles.items()},
                },
            }
        )

    def forget(self, key: str) -> None:
        """Leave files of this layout to the reader again."""
        left = self._all()
        if left.pop(key, None) is not None:
            self._write(left)

    def _all(self) -> dict[str, Any]:
        try:
            found = json.loads(self._file.read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return {}
        return found if isinstance(found, dict) else {}

    def _write(self, everything: dict[str, Any]) -> None:
        write_whole(self._file, json.dumps(everything, indent=1).encode())


def _choices(found: dict[str, Any]) -> ReadingChoices:
    unit, day_first = found.get("unit"), found.get("day_first")
    time_unit = found.get("time_unit")
    return ReadingChoices(
        unit=TemperatureUnit(unit) if unit else None,
        day_first=day_first if isinstance(day_first, bool) else None,
        roles={str(n): ChannelRole(role) for n, role in (found.get("roles") or {}).items()},
        delimiter=_known(found.get("delimiter"), DELIMITER_WORDS),
        decimal=_known(found.get("decimal"), DECIMAL_WORDS),
        time_unit=TimeUnit(time_unit) if time_unit else None,
    )


def _known(sign: object, words: Mapping[str, str]) -> str | None:
    return next((one for one in words.values() if one == sign), None)
