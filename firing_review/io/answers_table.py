"""Answers and meter readings of a firing sheet."""

import math
from collections.abc import Mapping, Sequence

from firing_review.firing.cones import ConeNumber, parse_cone
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln
from firing_review.firing.sheet import DANGER_SIGNS, NO_SIGN, OPEN_CIRCUIT, Answers, Readings
from firing_review.firing.wording import tr
from firing_review.io.known_words import did_you_mean, plain
from firing_review.io.toml_text import Table, toml_lines

SAFETY = (NO_SIGN, *DANGER_SIGNS)
ONSET = ("sudden", "gradual", "comes_and_goes")
ENDED = ("by_itself", "stopped_by_hand", "error", "power_cut", "shut_off", "found_hot")
LOAD = ("usual", "light", "heavy")
OPEN = "open"
_ANSWER_KEYS = tuple(Answers.__dataclass_fields__)
_READING_KEYS = tuple(Readings.__dataclass_fields__)


def read_answers(table: Table, kiln: Kiln | None) -> Answers:
    """Read the table ``[answers]``; with a kiln its sections are checked."""
    table.refuse_unknown(_ANSWER_KEYS)
    return Answers(
        safety=_safety(table),
        onset=table.word("onset", ONSET),
        ended=table.word("ended", ENDED),
        load=table.word("load", LOAD),
        ware=table.text("ware"),
        ware_rated_cone=read_cone(table, "ware_rated_cone"),
        load_place=table.text("load_place"),
        usual_hours=table.number("usual_hours"),
        firings_since_elements=table.count("firings_since_elements"),
        changed=table.text("changed"),
        probe_touched=table.flag("probe_touched"),
        sections_dark=_sections_dark(table, kiln),
    )


def read_cone(table: Table, key: str) -> ConeNumber | None:
    """Read a cone number that stands as text in a sheet."""
    text = table.cone_text(key)
    if text is None:
        return None
    return parse_cone(text, table.sheet.where, table.sheet.line_of(key, table.name, table.index))


def _safety(table: Table) -> tuple[str, ...] | None:
    words = table.words("safety", SAFETY)
    if words is not None and "none" in words and len(words) > 1:
        raise table.refuse("safety", tr("either none or what was noticed"), tr('Remove "none".'))
    return words


def _sections_dark(table: Table, kiln: Kiln | None) -> tuple[str, ...] | None:
    names = table.texts("sections_dark")
    if names is None:
        return None
    return tuple(_section(table, "sections_dark", name, _sections(kiln)) for name in names)


def _sections(kiln: Kiln | None) -> tuple[str, ...]:
    return tuple(section.name for section in kiln.sections) if kiln else ()


def _section(table: Table, key: str, name: str, sections: Sequence[str]) -> str:
    if not sections:
        return name
    known = next((section for section in sections if plain(section) == plain(name)), None)
    if known is None:
        remedy = did_you_mean(name, sections, tr("Name it as in the kiln sheet."))
        line = table.sheet.line_of(key, table.name, table.index)
        expected = tr("a section of the kiln, from the floor up {sections}").format(
            sections=", ".join(sections)
        )
        raise InputError(table.sheet.where, expected, repr(name), remedy, line)
    return known


def read_readings(table: Table, kiln: Kiln | None) -> Readings:
    """Read the table ``[readings]``; with a kiln its sections are checked."""
    table.refuse_unknown(_READING_KEYS)
    return Readings(
        volts_no_load=table.number("volts_no_load"),
        volts_full_load=table.number("volts_full_load"),
        amps=_by_section(table.table("amps"), kiln),
        cold_ohms=_by_section(table.table("cold_ohms"), kiln, open_allowed=True),
    )


def _by_section(
    table: Table, kiln: Kiln | None, *, open_allowed: bool = False
) -> Mapping[str, float]:
    return {
        _section(table, key, key, _sections(kiln)): _reading(table, key, open_allowed)
        for key in table.values
    }


def _reading(table: Table, key: str, open_allowed: bool) -> float:
    value = table.values[key]
    if open_allowed and isinstance(value, str) and plain(value) == OPEN:
        return OPEN_CIRCUIT
    good = isinstance(value, int | float) and not isinstance(value, bool)
    if good and isinstance(value, int | float) and math.isfinite(value) and value >= 0.0:
        return float(value)
    expected = (
        tr('a number from 0 up, or "open" for no continuity') if open_allowed else tr("a number")
    )
    raise table.refuse(key, expected, tr("Write the reading without quotes and unit."))


def answers_lines(answers: Answers) -> list[str]:
    """Return the lines of ``[answers]``; none if nothing was answered."""
    values = {key: getattr(answers, key) for key in _ANSWER_KEYS}
    if answers.ware_rated_cone is not None:
        values["ware_rated_cone"] = answers.ware_rated_cone.text
    lines = toml_lines(values)
    return ["", "[answers]", *lines] if lines else []


def readings_lines(readings: Readings) -> list[str]:
    """Return the lines of ``[readings]``; none if nothing was measured."""
    volts = {"volts_no_load": readings.volts_no_load, "volts_full_load": readings.volts_full_load}
    lines = toml_lines(volts)
    lines = ["", "[readings]", *lines] if lines else []
    for key in ("amps", "cold_ohms"):
        by_section = getattr(readings, key)
        if by_section:
            values = {name: OPEN if math.isinf(v) else v for name, v in by_section.items()}
            lines += ["", f"[readings.{key}]", *toml_lines(values)]
    return lines
