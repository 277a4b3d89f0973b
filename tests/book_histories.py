"""Invented histories of a kiln, as the figures a book keeps: without logs, to try many."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C
from firing_review.analysis.element_readings import REPLACE
from firing_review.book.nouns import Change, ChangeKind, FiringKept
from firing_review.book.summary import ShelfKept, Summary
from firing_review.firing.results import Light, Lights

NEW_SET = Change(ChangeKind.ELEMENTS, date(2025, 1, 1))
FIRST_DAY = datetime.fromisoformat("2025-01-02T08:00")
WORN_OUT = 1.0 / REPLACE
PEAKS_C = {"6": 1222.0, "04": 1060.0}
ADDED = datetime(2026, 6, 1, tzinfo=UTC)


def heat_curve(power: float) -> tuple[float, ...]:
    """Return full power over heat capacity of a usual kiln [°C/h], times the power."""
    return tuple(round(float(v), 1) for v in power * (600.0 - 0.2 * (GRID_C - 300.0)))


def kept(number: int, days: float | None = None, **figures: object) -> FiringKept:
    """Return the firing of that number; ``days`` after the first one, else two a week."""
    begun = FIRST_DAY + timedelta(days=3.5 * (number - 1) if days is None else days)
    known = {
        "title": f"firing {number}",
        "started_at": begun,
        "goal_cone": "6",
        "reviewed": True,
        "firing": True,
        "lights": Lights(Light.FINE, Light.FINE, Light.NOT_ASKED),
        "peak_c": 1222.0,
        "power_over_heat": heat_curve(1.0),
        "wear_h": 1.8,
        "planned": ((150.0, 1000.0, 0.0), (60.0, 1222.0, 10.0)),
    }
    return FiringKept(number, 1, Summary(**{**known, **figures}), None, ADDED, ADDED)


def shelf(offset_c: float, name: str = "middle", half_c: float = 4.0) -> ShelfKept:
    return ShelfKept(name, offset_c, offset_c - half_c, offset_c + half_c)


def scattered(rng: np.random.Generator, share: float, count: int) -> np.ndarray:
    """Return scatter as shares, with more odd ones than the bell curve has."""
    return share * rng.standard_t(6, count) / np.sqrt(1.5)


@dataclass(frozen=True)
class PlantedLife:
    """A set of heating elements up to now, and the hours of wear it truly has left."""

    firings: tuple[FiringKept, ...]
    left_h: float


def planted_life(seed: int, scatter: float = 0.02, until: tuple[float, float] = (0.3, 0.95)):
    """Return a life cut off at a random moment: 60 to 180 firings to cone 6, some of bisque.

    Power falls over wear along a course that bends either way.
    """
    rng = np.random.default_rng(seed)
    wear = {"6": rng.uniform(1.4, 2.2), "04": rng.uniform(0.1, 0.25)}
    life_h, bend = rng.uniform(60, 180) * wear["6"], rng.uniform(0.8, 1.3)
    stop_h, glazes = rng.uniform(*until) * life_h, rng.uniform(0.3, 1.0)
    cones, worn = [], []
    while sum(worn) < stop_h:
        cones.append("6" if rng.random() < glazes else "04")
        worn.append(wear[cones[-1]] * float(np.exp(rng.normal(0.0, 0.08))))
    done_h = np.cumsum(worn)
    power = 1.0 - (1.0 - WORN_OUT) * (done_h / life_h) ** bend
    power *= np.exp(scattered(rng, scatter, len(power)))
    firings = tuple(
        kept(
            number,
            goal_cone=cone,
            peak_c=PEAKS_C[cone],
            power_over_heat=heat_curve(share),
            wear_h=worn_h,
        )
        for number, (cone, share, worn_h) in enumerate(zip(cones, power, worn, strict=True), 1)
    )
    return PlantedLife(firings, float(life_h - done_h[-1]))


def falling(rng: np.random.Generator, count: int, per_firing: float, scatter: float = 0.02):
    """Return firings whose power falls by the same share each time."""
    power = (1.0 - per_firing) ** np.arange(count) * np.exp(rng.normal(0.0, scatter, count))
    return power_firings(power)


def power_firings(power: Sequence[float]) -> tuple[FiringKept, ...]:
    return tuple(kept(n, power_over_heat=heat_curve(p)) for n, p in enumerate(power, 1))
