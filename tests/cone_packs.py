"""Witness cones as they would stand after a firing: bends by the law, no errors of reading."""

from collections.abc import Sequence

import numpy as np
from firings import Corners, firing_of, log_of, schedule, sections_of

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.units import Floats
from firing_review.io.tables import load_tables
from firing_review.physics.bend_law import bend_deg
from firing_review.physics.cone_law import fit_laws, law_of
from firing_review.physics.cones import dwell_of, log_work_done

TABLE = load_tables().cones
LAWS = fit_laws(TABLE)
SIX = ConeNumber("6")

TO_CONE_6 = schedule((150.0, 600.0, 0.0), (180.0, 1115.0, 0.0), (60.0, 1215.0, 10.0))


def cone_6_corners(top_c: float = 1215.0, hold_min: float = 10.0, rate: float = 60.0) -> Corners:
    """Return a firing to cone 6 with natural cooling after it."""
    last = top_c - 100.0
    at = [0.0, 580.0 / 150.0]
    at.append(at[-1] + (last - 600.0) / 180.0)
    at.append(at[-1] + 100.0 / rate)
    at.append(at[-1] + hold_min / 60.0)
    falls = [
        (at[-1] + h, 25.0 + (top_c - 25.0) * float(np.exp(-0.25 * h)))
        for h in np.arange(0.2, 6.0, 0.2)
    ]
    return [(at[0], 20.0), (at[1], 600.0), (at[2], last), (at[3], top_c), (at[4], top_c), *falls]


def cone_6_firing(every_min: float = 1.0, **how: float) -> AlignedFiring:
    return firing_of(log_of(cone_6_corners(**how), every_min), TO_CONE_6)


def bend_of(
    firing: AlignedFiring, number: str, shift_c: float, curve: Floats | None = None
) -> float:
    """Return the bend of a cone at a place hotter than the reading by ``shift_c``."""
    values = firing.reading_c if curve is None else curve
    dwell = dwell_of(firing.log.elapsed_h, values)
    law = law_of(LAWS, ConeNumber(number))
    return float(bend_deg(np.exp(float(log_work_done(dwell, law, shift_c)))))


def pack(
    firing: AlignedFiring,
    shelf: str,
    shift_c: float,
    numbers: Sequence[str] = ("5.5", "6", "7"),
    position: str = "",
) -> tuple[ShelfCone, ...]:
    """Return a pack on a shelf that was hotter than the reading by ``shift_c``."""
    return tuple(
        witness(shelf, n, bend_of(firing, n, shift_c), position=position) for n in numbers
    )


def witness(
    shelf: str,
    number: str,
    bend: float,
    kind: ConeKind = ConeKind.SELF_SUPPORTING,
    position: str = "",
) -> ShelfCone:
    return ShelfCone(shelf, position, ConeNumber(number), kind, bend)


def section_firing(**shifts_c: float) -> AlignedFiring:
    """Return a firing to cone 6 with a probe in each section, shifted by so much."""
    corners = cone_6_corners()
    shifted = {n: [(h, c + s) for h, c in corners] for n, s in shifts_c.items()}
    return firing_of(sections_of(**shifted), TO_CONE_6)
