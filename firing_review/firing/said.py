"""Sentences with figures, kept free of unit and language until they are shown.

A layer below the report says ``Said(N_("Reading stopped at {reached_c}"), {"reached_c": 954.0})``.
Only the report and the window turn it into text, in °C or °F and in the reader's language.
The ending of a figure's name is its unit: ``_c`` a temperature, ``_delta_c`` a difference,
``_c_per_h`` a rate, ``_h`` and ``_min`` durations, ``_pct`` a share in percent, ``_v``, ``_a``,
``_ohm``, ``_kw`` and ``_kwh`` electrical values; ``cone`` and ``_cone`` a cone number as text;
``_word`` a text of the catalogue; ``_day`` a date as ``2026-03-03``. A tuple is a list of names:
``("top", "middle")`` becomes ``top and middle``.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

Figure = float | int | str | tuple[str, ...] | None
Figures = dict[str, Figure]


def N_(text: str) -> str:  # noqa: N802 - the usual gettext name
    """Mark ``text`` for the catalogue; it is translated when it is shown."""
    return text


@dataclass(frozen=True)
class Said:
    """One sentence: a catalogue text with named places, and the figures that fill them."""

    text: str
    figures: Mapping[str, Figure] = field(default_factory=lambda: MappingProxyType({}))
