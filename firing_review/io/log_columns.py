"""What each column of a log records: by its name, its unit, and how it behaves."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from firing_review.firing.log import TEMPERATURE_ROLES, ChannelRole
from firing_review.firing.units import Floats

_POSITIONS = (
    r"\b(top|mid|bot|upper|lower|cent(er|re|ral)\b|front|back|rear|left|right|oben|mitte|unten)"
    r"|zone|section"
)
_WORDS: tuple[tuple[ChannelRole, str, float], ...] = (
    (
        ChannelRole.COLD_END,
        (
            r"cold|\bcj|cjc|reference junction|\bamb\b|ambient|\broom|internal|board|umgebung"
            r"|vergleichsst"
        ),
        0.9,
    ),
    (
        ChannelRole.OTHER,
        (
            r"batt|weight|mass\b|flow|flux|pressure|vacuum|bar\b|hrr|energy|kwh|serial|index|segment"
            r"|status|humid|\bpt\d|^hg\d|baseline|gewicht|label|file|error|step|\brate\b|\bramp\b"
            r"|remain|alarm|volt|flue|exhaust|chimney|\bstack\b|outside|outdoor|\bdoor\b|\blid\b"
            r"|\bfan\b|oxygen|\bo2\b|deviation|counter|\bcycle|\bdwell\b|\bhold\b|heat ?work"
        ),
        0.9,
    ),
    (
        ChannelRole.SET_POINT,
        (
            r"set.?point|\bset\b|^s[pv]\b|\bsp$|setpt|target|program(me)?\b|\bsoll|asked|wanted"
            r"|consigne|consigna"
        ),
        0.95,
    ),
    (
        ChannelRole.OUTPUT,
        (
            r"output|duty|\bout ?\d*\b|\bop\b|^mv$|^%$|element on|^power$|power.?(pct|percent|%)"
            r"|heater|relay|\bssr\b"
            r"|stellgrad|ausgang|leistung|demand|puissance|potencia"
        ),
        0.9,
    ),
    (ChannelRole.AMPS, r"\bamps?\b|amperes?|current|strom\b|stromst", 0.9),
    (ChannelRole.SECTION, _POSITIONS, 0.9),
    (
        ChannelRole.CHAMBER,
        (
            r"chamber|kiln|furnace|oven|ofen|\bfour\b|horno|forno|feedback|process|^pv\b|actual"
            r"|\bist(wert)?\b|sample temp|^ts$|shroud"
        ),
        0.9,
    ),
    (
        ChannelRole.SECTION,
        (
            r"^t[_ ]?\d+\b|^tc[_ ]?\d+|^ch[_ ]?\d+|^probe|^channel|^sensor"
            r"|thermocouple|temp|celsius|fahrenheit"
        ),
        0.7,
    ),
)
_TEMPERATURE_UNIT = re.compile(
    r"(°|\ufffd|deg\s?)\s?[cf]\b|[_\s(\[][cf][)\]]?$|celsius|fahrenheit|^[cf]$", re.IGNORECASE
)
_FOREIGN_UNIT = re.compile(
    r"kw|\bw\b|m2|bar|mg|kg|ml|kwh|%|l/min|volt|\bv\b|mv\b|hpa|ppm|(c|f|k)\s?/\s?(h|min)",
    re.IGNORECASE,
)
_UNIT_IN_NAME = re.compile(
    r"[\s_]*[\[(]?(°|deg\s?)?\s?\b[cf][)\]]?$|[\s_]*[\[(]?(celsius|fahrenheit)[)\]]?$"
)
_IN_BRACKETS = re.compile(r"[\[(]([^\])]*)[\])]")
_AMPS_UNIT = re.compile(r"^\W*(a|amps?)\W*$", re.IGNORECASE)
ROW_NAMES = re.compile(
    r"^(no\b|index|nr\b|row|rsum|#|sample|segment|count|record|n$)", re.IGNORECASE
)
SENSOR_NAMES = re.compile(
    r"sensor|probe|channel|chan\b|name|tag|point|variable|id$|^ch$", re.IGNORECASE
)
"""Names of a column that says which probe a row is of."""
MOST_SENSORS = 64
"""A column of more values names no probes."""
LOOKED_AT = 20_000
"""Samples of a column looked at to tell what it is; more say no more."""
IN_DEGREES = TEMPERATURE_ROLES | {ChannelRole.SET_POINT, ChannelRole.COLD_END}
LEAST_RISE = 40.0
"""A column that rises by less over the record is no chamber of a firing, in °C or °F."""
MOST_SECTIONS = 16
"""More probes than this are not sections of a kiln; those that behave most alike are taken."""
SHORT = 60
"""With fewer samples the steps are large; what climbs and falls once is smooth enough."""
LIKELY = 0.6
"""Confidence from which a role is believed without being asked about."""
ALIKE = 0.6
"""A probe in the chamber gets at least as hot as this share of what the chamber's own reads."""
PLAIN = 0.9
"""A name that leaves no doubt; a section so named that never warms is a dead probe."""
ROOM = (0.0, 130.0)
"""What a cold end may read, in °C or °F."""


@dataclass(frozen=True)
class ColumnRole:
    """The role of one column, how sure it is, its name and unit, and if it is in degrees."""

    index: int
    name: str
    unit: str
    role: ChannelRole
    confidence: float
    degrees: bool = False


def find_roles(
    values: Mapping[int, Floats],
    names: list[str],
    units: tuple[str, ...],
    chosen: Mapping[str, ChannelRole],
) -> tuple[ColumnRole, ...]:
    """Return the role of every numeric column, in the order of the file."""
    found = []
    for index, column in values.items():
        unit = units[index] if index < len(units) else ""
        role, confidence = _by_name(names[index], unit)
        if names[index] in chosen:
            role, confidence = chosen[names[index]], 1.0
        elif _counts_rows(column, names[index], confidence):
            role, confidence = ChannelRole.OTHER, 0.9
        found.append(ColumnRole(index, names[index], unit, role, confidence))
    roles = _sensible(_believed_by_behaviour(found, values, chosen), values, chosen)
    return tuple(replace(r, degrees=_in_degrees(r.name, r.unit, r.role)) for r in roles)


def _in_degrees(name: str, unit: str, role: ChannelRole) -> bool:
    """Tell whether a column is a temperature, whatever it is the temperature of."""
    if role in IN_DEGREES:
        return True
    said = bool(_TEMPERATURE_UNIT.search(unit) or _TEMPERATURE_UNIT.search(name))
    return said and not _FOREIGN_UNIT.search(_unit_of(name, unit))


def _believed_by_behaviour(
    found: list[ColumnRole], values: Mapping[int, Floats], chosen: Mapping[str, ChannelRole]
) -> tuple[ColumnRole, ...]:
    """Take back roles that the values contradict; a temperature that stands alone stays one."""
    judged = []
    named = [f.index for f in found if f.role in TEMPERATURE_ROLES and f.confidence >= LIKELY]
    for r in found:
        if r.name in chosen or named == [r.index]:
            judged.append(r)
            continue
        role, confidence = _by_behaviour(values[r.index], r.role, r.confidence)
        judged.append(replace(r, role=role, confidence=confidence))
    return tuple(judged)


def _counts_rows(column: Floats, name: str, confidence: float) -> bool:
    """Tell whether a column only numbers the rows."""
    looked_at = column[:LOOKED_AT]
    good = looked_at[np.isfinite(looked_at)]
    if len(good) < 4 or not np.mean(np.diff(good) == 1.0) > 0.95:
        return False
    return bool(ROW_NAMES.search(name)) or confidence < LIKELY or bool(abs(good[0]) <= 1.0)


def _unit_of(name: str, unit: str) -> str:
    """Return the unit of a column from its unit row, else from the brackets in its name."""
    found = _IN_BRACKETS.search(name)
    return unit or (found[1] if found else "")


def _by_name(name: str, unit: str) -> tuple[ChannelRole, float]:
    plain = re.sub(r"[_.]+", " ", name.lower()).strip()
    foreign = bool(_FOREIGN_UNIT.search(_unit_of(name, unit)))
    if _AMPS_UNIT.search(_unit_of(name, unit)):
        return ChannelRole.AMPS, 0.9
    for role, pattern, confidence in _WORDS:
        if re.search(pattern, plain):
            percent = role is ChannelRole.OUTPUT and "%" in _unit_of(name, unit)
            return (ChannelRole.OTHER, 0.9) if foreign and not percent else (role, confidence)
    if foreign:
        return ChannelRole.OTHER, 0.9
    if _TEMPERATURE_UNIT.search(unit) or _TEMPERATURE_UNIT.search(name):
        return ChannelRole.SECTION, 0.6
    return ChannelRole.SECTION, 0.3


def said_by_name(name: str) -> bool:
    """Tell whether a name says what the column records."""
    return _by_name(name, "")[1] >= LIKELY


def _by_behaviour(
    column: Floats, role: ChannelRole, confidence: float
) -> tuple[ChannelRole, float]:
    """Take back a role that the values contradict."""
    sparse = column[:: max(1, len(column) // LOOKED_AT)]
    good = sparse[np.isfinite(sparse)]
    if not len(good):
        return ChannelRole.OTHER, 0.9
    low, high = np.percentile(good, [1.0, 99.0])
    if role is ChannelRole.OUTPUT and (low < -1.0 or high > 110.0):
        return ChannelRole.OTHER, 0.6
    if role in TEMPERATURE_ROLES and confidence < PLAIN and high - low < LEAST_RISE:
        roomlike = ROOM[0] < low and high < ROOM[1] and confidence >= LIKELY
        return (ChannelRole.COLD_END if roomlike else ChannelRole.OTHER), 0.6
    if role is ChannelRole.SECTION and confidence < LIKELY and not _like_a_temperature(good):
        return ChannelRole.OTHER, 0.5
    return role, confidence


def _like_a_temperature(good: Floats) -> bool:
    """Tell whether values move like a temperature: smooth, and from warm to hot."""
    if len(good) < 8:
        return True
    span = float(np.percentile(good, 99) - np.percentile(good, 1))
    steps = np.abs(np.diff(good))
    if len(good) < SHORT:
        return span > 80.0 and float(steps.sum()) < 4.0 * span
    return (
        span > 80.0
        and float(np.percentile(good, 99)) > 100.0
        and float(np.median(steps)) < 0.1 * span
    )


def _sensible(
    roles: tuple[ColumnRole, ...],
    values: Mapping[int, Floats],
    chosen: Mapping[str, ChannelRole],
) -> tuple[ColumnRole, ...]:
    """Settle what only the columns together can tell."""
    roles = _without_twins(_family(roles, chosen))
    chambers = [r for r in roles if r.role is ChannelRole.CHAMBER]
    if len(chambers) > 1 and _numbered(chambers):
        roles = tuple(_as(r, ChannelRole.SECTION) if r in chambers else r for r in roles)
        chambers = []
    sections = [r for r in roles if r.role is ChannelRole.SECTION]
    if not chambers and len(sections) == 1:
        only = sections[0]
        roles = tuple(_as(r, ChannelRole.CHAMBER) if r is only else r for r in roles)
    if chambers and not chosen:
        weak = {r.index for r in sections if not _in_chamber(r, chambers, values)}
        roles = tuple(_as(r, ChannelRole.OTHER) if r.index in weak else r for r in roles)
        sections = [r for r in sections if r.index not in weak]
    if len(sections) > MOST_SECTIONS:
        keep = _most_alike(sections, values)
        roles = tuple(
            r
            if r.role is not ChannelRole.SECTION or r.index in keep
            else _as(r, ChannelRole.OTHER)
            for r in roles
        )
    for single in (ChannelRole.SET_POINT, ChannelRole.OUTPUT):
        several = [r for r in roles if r.role is single]
        extra = {r.index for r in several[1:]}
        roles = tuple(_as(r, ChannelRole.OTHER) if r.index in extra else r for r in roles)
    return roles


def _numbered(chambers: list[ColumnRole]) -> bool:
    """Tell columns that carry one name and a number each: probes in one kiln."""
    return len({re.sub(r"\d+", "", r.name) for r in chambers}) == 1


def _in_chamber(
    section: ColumnRole, chambers: list[ColumnRole], values: Mapping[int, Floats]
) -> bool:
    """Tell a probe in the kiln beside one named as the chamber: it gets about as hot."""
    if section.confidence >= PLAIN:
        return True
    hottest = [_top(values[r.index]) for r in chambers]
    return section.confidence > LIKELY and ALIKE * max(hottest) < _top(values[section.index])


def _top(column: Floats) -> float:
    good = column[np.isfinite(column)]
    return float(np.percentile(good, 98)) if len(good) else 0.0


def _without_twins(roles: tuple[ColumnRole, ...]) -> tuple[ColumnRole, ...]:
    """Leave out a temperature that stands a second time in the other unit."""
    seen: set[tuple[str, ChannelRole]] = set()
    kept = []
    for r in roles:
        plain = _UNIT_IN_NAME.sub("", r.name.lower()).strip(" _")
        twin = plain != r.name.lower() and (plain, r.role) in seen and r.role in IN_DEGREES
        seen.add((plain, r.role))
        kept.append(_as(r, ChannelRole.OTHER) if twin else r)
    return tuple(kept)


def _as(role: ColumnRole, new: ChannelRole) -> ColumnRole:
    return replace(role, role=new)


def _family(
    roles: tuple[ColumnRole, ...], chosen: Mapping[str, ChannelRole]
) -> tuple[ColumnRole, ...]:
    """Of several families of numbered probes, keep the one named most plainly.

    A file with TC1 to TC12 beside BeamTC1 to BeamTC9 records a chamber and something in it.
    """
    if chosen:
        return roles
    stems: dict[str, list[ColumnRole]] = {}
    for r in roles:
        if r.role is ChannelRole.SECTION and re.search(r"\d+$", r.name):
            stems.setdefault(re.sub(r"[\s_]*\d+$", "", r.name), []).append(r)
    big = {s: members for s, members in stems.items() if len(members) >= 3}
    if len(big) < 2:
        return roles
    plain = next((s for s in ("TC", "T", "CH", "Ch", "Probe") if s in big), None)
    if plain is None:
        return roles
    keep = {r.index for r in big[plain]}
    return tuple(
        r if r.role is not ChannelRole.SECTION or r.index in keep else _as(r, ChannelRole.OTHER)
        for r in roles
    )


def _most_alike(sections: list[ColumnRole], values: Mapping[int, Floats]) -> set[int]:
    """Return the columns nearest to the median of the hot half: a chamber has one temperature."""
    tops = {r.index: float(np.nanpercentile(values[r.index], 95)) for r in sections}
    middle = float(np.percentile(list(tops.values()), 75))
    ranked = sorted(tops, key=lambda i: abs(tops[i] - middle))
    return set(ranked[:MOST_SECTIONS])
