"""One firing in a few figures, kept in the book so that lists and trends never read a log."""

import json
import math
import zlib
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields, replace
from datetime import datetime
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from typing import Any

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C
from firing_review.analysis.probe_against_cones import probe_against_cones
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Severity
from firing_review.firing.results import ClimbCurve, Light, Lights, ShelfHeat
from firing_review.firing.said import Figure, Said
from firing_review.firing.schedule import Schedule
from firing_review.firing.sheet import Given
from firing_review.firing.units import Floats
from firing_review.review.review import Review

TOP_STRETCH_C = 100.0
"""The last stretch of a climb, where a small loss of power costs most time [°C]."""
TOP_COVERED = 0.8
"""Share of that stretch that must have been climbed at full output to tell a rate."""
LAST_C = 5.0
"""The last few degrees are rounded off by the controller [°C]."""
AT_TOP_C = 25.0
"""Within this of the peak the kiln is at its top [°C]."""

Curve = tuple[float | None, ...]
Segments = tuple[tuple[float | None, float, float], ...]


@dataclass(frozen=True)
class ShelfKept:
    """A shelf as its cones told: offset from the log with its 90 % range [°C], or one bound."""

    shelf: str
    offset_c: float | None = None
    low_c: float | None = None
    high_c: float | None = None
    cone: str | None = None
    word: str = ""
    at_least_delta_c: float | None = None
    at_most_delta_c: float | None = None


@dataclass(frozen=True)
class Summary:
    """What a list or a trend needs of a firing.

    All but the first few are None where the review did not tell, or there was none yet.

    Attributes
    ----------
    started_at : datetime or None
        By the clock of the log.
    reviewed : bool
        Whether the figures come from a review; ``firing`` tells if the log held a firing.
    planned : tuple of (rate, target, hold)
        The schedule as meant [°C/h, °C, min]; empty without one.
    heating_h, top_h : float
        From the first climb to the last demand, and within 25 °C of the peak [h].
    top_rate_c_per_h : float or None
        Rate over the last 100 °C of the climb, only where it was climbed at full output.
    power_over_heat, fall : tuple
        Full power over heat capacity and natural cooling on ``GRID_C`` [°C/h].
    wear_h : float or None
        Wear of the heating elements, in hours at 1200 °C.
    resistance : mapping
        By section, cold resistance as a share of the listed one.
    """

    title: str = ""
    source: str = ""
    started_at: datetime | None = None
    goal_cone: str | None = None
    load: str | None = None
    planned: Segments = ()
    version: str = ""
    reviewed: bool = False
    firing: bool = False
    verdict: tuple[Said, ...] = ()
    lights: Lights = field(default_factory=Lights)
    faults: int = 0
    heating_h: float | None = None
    top_h: float | None = None
    peak_c: float | None = None
    cone: str | None = None
    top_rate_c_per_h: float | None = None
    power_ratio: float | None = None
    power_low: float | None = None
    power_high: float | None = None
    mass_ratio: float | None = None
    loss_ratio: float | None = None
    cooling_ratio: float | None = None
    ceiling_c: float | None = None
    power_over_heat: Curve = ()
    fall: Curve = ()
    shelves: tuple[ShelfKept, ...] = ()
    probe_offset_c: float | None = None
    probe_low_c: float | None = None
    probe_high_c: float | None = None
    energy_kwh: float | None = None
    energy_cost: float | None = None
    wear_h: float | None = None
    resistance: Mapping[str, float] = field(default_factory=dict)


@cache
def program_version() -> str:
    """Return the version of the program that makes a summary."""
    try:
        return version("firing-review")
    except PackageNotFoundError:
        return ""


def summary_of_given(given: Given) -> Summary:
    """Return what is known of a firing before it is reviewed."""
    log, intended = given.log, given.intended
    planned: Segments = ()
    if isinstance(intended, Schedule):
        planned = tuple((s.rate_c_per_h, s.target_c, s.hold_min) for s in intended.segments)
    return Summary(
        title=given.title,
        source=log.source,
        started_at=log.started_at,
        goal_cone=given.goal_cone.text if given.goal_cone else None,
        load=given.answers.load,
        planned=planned,
        version=program_version(),
    )


def summarize(review: Review) -> Summary:
    """Return the figures of a reviewed firing that lists and trends are made of."""
    known: dict[str, object] = {
        "verdict": review.verdict.sentences,
        "lights": review.verdict.lights,
        "reviewed": True,
        "firing": review.firing is not None,
        "faults": sum(f.severity is Severity.FAULT for f in review.findings),
    }
    if review.firing is not None:
        known |= _course(review.firing) | _heating_elements(review) | _cones(review)
    return replace(summary_of_given(review.given), **known)  # type: ignore[arg-type]


def _course(firing: AlignedFiring) -> dict[str, object]:
    elapsed_h, reading_c = firing.log.elapsed_h, firing.reading_c
    at_top = np.isfinite(reading_c) & (reading_c > firing.peak_c - AT_TOP_C)
    top_h = float(np.sum(np.diff(elapsed_h)[at_top[1:] & at_top[:-1]]))
    return {
        "heating_h": _rounded(firing.heating_end_h - firing.start_h),
        "top_h": _rounded(top_h),
        "peak_c": _rounded(firing.peak_c, 1),
        "top_rate_c_per_h": _rounded(top_rate_c_per_h(firing), 1),
    }


def top_rate_c_per_h(firing: AlignedFiring) -> float | None:
    """Return the rate over the last 100 °C of the climb, if it was at full output [°C/h].

    A climb that the schedule held back tells nothing of what the kiln can do.
    """
    elapsed_h, reading_c = firing.log.elapsed_h, firing.reading_c
    climb = (elapsed_h >= firing.start_h) & (elapsed_h <= firing.peak_h)
    begun = climb & (reading_c >= firing.peak_c - TOP_STRETCH_C)
    ended = climb & (reading_c >= firing.peak_c - LAST_C)
    if not begun.any() or not ended.any():
        return None
    first, last = int(begun.argmax()), int(ended.argmax())
    hours = float(elapsed_h[last] - elapsed_h[first])
    if hours <= 0.0 or firing.full_output[first : last + 1].mean() < TOP_COVERED:
        return None
    return float(reading_c[last] - reading_c[first]) / hours


def _heating_elements(review: Review) -> dict[str, object]:
    judged = review.elements
    known = {
        name: _rounded(getattr(judged, name))
        for name in ("power_ratio", "power_low", "power_high", "mass_ratio", "loss_ratio")
    }
    figures = {
        name: _rounded(_number(judged.figures.get(name)))
        for name in ("cooling_ratio", "energy_kwh", "energy_cost", "wear_h")
    }
    ratios = {s.section: s.resistance_ratio for s in judged.per_section}
    curves = _curves(judged.curves[0]) if judged.curves else {}
    resistance = {
        name: round(ratio, 4)
        for name, ratio in ratios.items()
        if ratio is not None and math.isfinite(ratio)
    }
    ceiling = {"ceiling_c": _rounded(judged.ceiling_c, 1), "resistance": resistance}
    return {**known, **figures, **ceiling, **curves}


def _curves(curve: ClimbCurve) -> dict[str, object]:
    full = curve.power_over_heat_c_per_h
    return {"power_over_heat": _curve(full), "fall": _curve(full - curve.full_climb_c_per_h)}


def _curve(values: Floats) -> Curve:
    kept = [round(float(v), 1) if math.isfinite(v) else None for v in values]
    return tuple(kept) if any(v is not None for v in kept) else ()


def curve_array(curve: Curve) -> Floats:
    """Return a kept curve on ``GRID_C``; NaN where the firing does not tell."""
    values = np.full(len(GRID_C), np.nan)
    known = [np.nan if v is None else v for v in curve[: len(GRID_C)]]
    values[: len(known)] = known
    return values


def _cones(review: Review) -> dict[str, object]:
    probe = probe_against_cones(review.shelves)
    chamber = review.heat_work[0].label if review.heat_work else None
    return {
        "cone": chamber,
        "shelves": tuple(_shelf(s) for s in review.shelves),
        "probe_offset_c": _rounded(probe.offset_c, 2),
        "probe_low_c": _rounded(probe.low_c, 2),
        "probe_high_c": _rounded(probe.high_c, 2),
    }


def _shelf(shelf: ShelfHeat) -> ShelfKept:
    return ShelfKept(
        shelf.shelf,
        _rounded(shelf.offset_c, 2),
        _rounded(shelf.low_c, 2),
        _rounded(shelf.high_c, 2),
        shelf.label,
        shelf.word,
        _number(shelf.figures.get("at_least_delta_c")),
        _number(shelf.figures.get("at_most_delta_c")),
    )


def shelf_heat(kept: ShelfKept) -> ShelfHeat:
    """Return a kept shelf as the planning asks for it."""
    bounds: dict[str, Figure] = {
        "at_least_delta_c": kept.at_least_delta_c,
        "at_most_delta_c": kept.at_most_delta_c,
    }
    return ShelfHeat(
        kept.shelf,
        kept.offset_c,
        kept.low_c,
        kept.high_c,
        None,
        kept.cone,
        kept.word,
        figures={name: value for name, value in bounds.items() if value is not None},
    )


def _number(value: Figure) -> float | None:
    good = isinstance(value, int | float) and math.isfinite(value)
    return float(value) if good and isinstance(value, int | float) else None


def _rounded(value: float | None, places: int = 4) -> float | None:
    return None if value is None or not math.isfinite(value) else round(value, places)


# As text in the book


def summary_text(summary: Summary) -> str:
    """Return a summary as JSON; what is not known is left out."""
    usual = Summary()
    names = [f.name for f in fields(Summary)]
    known = {n: getattr(summary, n) for n in names if getattr(summary, n) != getattr(usual, n)}
    if summary.started_at is not None:
        known["started_at"] = summary.started_at.isoformat()
    if summary.verdict:
        known["verdict"] = [_said_json(said) for said in summary.verdict]
    return json.dumps(known, ensure_ascii=False, separators=(",", ":"), default=_plain)


def _plain(value: object) -> object:
    """Return what JSON has no word for: a dataclass without its empty fields, a mapping."""
    if isinstance(value, ShelfKept | Lights):
        return {k: v for k, v in asdict(value).items() if v is not None and v != ""}
    return dict(value) if isinstance(value, Mapping) else str(value)


def _said_json(said: Said) -> dict[str, object]:
    figures = {
        name: None if isinstance(value, float) and not math.isfinite(value) else value
        for name, value in said.figures.items()
    }
    return {"text": said.text, "figures": figures}


def _said(known: Mapping[str, Any]) -> Said:
    names = {k: tuple(v) for k, v in known["figures"].items() if isinstance(v, list)}
    return Said(known["text"], {**known["figures"], **names})


def summary_bytes(summary: Summary) -> bytes:
    """Return the same packed, as the book keeps it: a third of the text."""
    return zlib.compress(summary_text(summary).encode(), 6)


def summary_of_bytes(packed: object, source: str) -> Summary:
    """Return a summary as the book kept it; a damaged one is as if never worked out."""
    try:
        return read_summary(zlib.decompress(packed).decode())  # type: ignore[arg-type]
    except (zlib.error, TypeError, ValueError, KeyError, AttributeError):
        return Summary(source=source)


_KEYS = tuple(f.name for f in fields(Summary))
_SHELF_KEYS = frozenset(f.name for f in fields(ShelfKept))


def read_summary(text: str) -> Summary:
    """Return a summary from its JSON; keys of a newer version are passed over."""
    known = json.loads(text)
    values = {key: known[key] for key in _KEYS if key in known}
    if "started_at" in values:
        values["started_at"] = datetime.fromisoformat(values["started_at"])
    for key in ("power_over_heat", "fall"):
        if key in values:
            values[key] = tuple(values[key])
    if "planned" in values:
        values["planned"] = tuple(tuple(step) for step in values["planned"])
    if "verdict" in values:
        values["verdict"] = tuple(_said(one) for one in values["verdict"])
    if "lights" in values:
        values["lights"] = Lights(**{k: Light(v) for k, v in values["lights"].items()})
    if "shelves" in values:
        values["shelves"] = tuple(
            ShelfKept(**{k: v for k, v in s.items() if k in _SHELF_KEYS})
            for s in values["shelves"]
        )
    return Summary(**values)
