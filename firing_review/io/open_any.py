"""Open whatever a person drops or names: a log, a firing sheet, or a folder with one."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from firing_review.firing.cones import ConeNumber
from firing_review.firing.log import ReadingChoices
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.io.firing_parts import load, parts_of

LOG_ENDINGS = frozenset({".csv", ".tsv", ".txt", ".log", ".dat", ".xlsx"})
"""Endings of the files in a folder that may be logs; a file that is named may have any."""


def gather(
    path: Path,
    schedule: Path | None = None,
    cones: Path | None = None,
    kiln: Path | None = None,
    goal_cone: ConeNumber | None = None,
    earlier: Sequence[Path] = (),
    unit: TemperatureUnit | None = None,
    choices: ReadingChoices | None = None,
) -> Given:
    """Read a firing; what is named here goes before what its sheet says.

    Parameters
    ----------
    path : Path
        A log, a firing sheet, or a folder with a ``firing.toml``.
    earlier : sequence of Path
        Logs or sheets of good firings, newest last.
    unit : TemperatureUnit, optional
        Unit of the log, where it does not say itself.
    choices : ReadingChoices, optional
        What a person settled about the log; a unit that is named goes before it.

    Raises
    ------
    InputError
        One clear line for the first file that cannot be used.
    """
    parts = parts_of(path)
    parts = replace(
        parts,
        schedule=schedule or parts.schedule,
        cones=cones or parts.cones,
        kiln=kiln or parts.kiln,
        goal_cone=goal_cone or parts.goal_cone,
        earlier=tuple(earlier) or parts.earlier,
        unit=unit or parts.unit,
        choices=choices or parts.choices,
    )
    return load(parts)
