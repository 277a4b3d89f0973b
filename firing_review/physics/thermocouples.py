"""Thermocouples: what a loop of wires gives, and what a display makes of it.

Reference functions of NIST Monograph 175 (ITS-90, IEC 60584-1). A display shows the inverse
function of its own type at (loop emf + emf of that type at its terminals); the loop emf is the
sum over its pieces of emf(hot end) − emf(cold end). Validity: K and N to 1372 and 1300 °C, S and
R to 1768 °C, B from 50 to 1820 °C (below that its emf is not unique). New wire: see
:func:`tolerance_c`; used wire drifts further, by amounts no table gives.
"""

from functools import lru_cache

import numpy as np

from firing_review.firing.tables import EmfPiece, ThermocoupleTable
from firing_review.firing.units import Floats

LEAST_DISPLAY_C = {"B": 50.0}
"""Below this a type's emf is not unique [°C]."""


def range_c(table: ThermocoupleTable, kind: str) -> tuple[float, float]:
    """Return the lowest and highest temperature of a type's reference function [°C]."""
    pieces = _pieces(table, kind)
    return pieces[0].from_c, pieces[-1].to_c


def emf_mv(table: ThermocoupleTable, kind: str, temperature_c: Floats | float) -> Floats:
    """Return the emf against a junction at 0 °C [mV]; NaN outside the type's range.

    Parameters
    ----------
    kind : str
        Type letter.
    temperature_c : array or float
        [°C].
    """
    temperature = np.asarray(temperature_c, dtype=float)
    emf = np.full(temperature.shape, np.nan)
    for piece in _pieces(table, kind):
        inside = (temperature >= piece.from_c) & (temperature <= piece.to_c)
        emf = np.where(inside, _of_piece(piece, temperature), emf)
    return emf


def temperature_c(table: ThermocoupleTable, kind: str, emf: Floats | float) -> Floats:
    """Return the temperature that gives an emf [°C]; NaN outside the type's range.

    Looked up on a grid of 1 °C and mended by two steps of Newton's rule: good to 1e-6 °C.
    """
    wanted = np.asarray(emf, dtype=float)
    grid_c, grid_mv = _grid(table, kind)
    inside = (wanted >= grid_mv[0]) & (wanted <= grid_mv[-1])
    found = np.interp(wanted, grid_mv, grid_c)
    for _ in range(2):
        slope = sensitivity_mv_per_k(table, kind, found)
        found = found - (emf_mv(table, kind, found) - wanted) / slope
        found = np.clip(found, grid_c[0], grid_c[-1])
    return np.where(inside, found, np.nan)


def sensitivity_mv_per_k(
    table: ThermocoupleTable, kind: str, temperature_c: Floats | float
) -> Floats:
    """Return how much the emf grows per degree [mV/K]."""
    temperature = np.asarray(temperature_c, dtype=float)
    slope = np.full(temperature.shape, np.nan)
    for piece in _pieces(table, kind):
        inside = (temperature >= piece.from_c) & (temperature <= piece.to_c)
        polynomial = np.polynomial.Polynomial(piece.coefficients).deriv()
        own = polynomial(temperature)
        if piece.bump:
            a0, a1, a2 = piece.bump
            off = temperature - a2
            own = own + 2.0 * a0 * a1 * off * np.exp(a1 * off**2)
        slope = np.where(inside, own, slope)
    return slope


def _pieces(table: ThermocoupleTable, kind: str) -> list[EmfPiece]:
    pieces = sorted((p for p in table.pieces if p.kind == kind), key=lambda p: p.from_c)
    if not pieces:
        raise ValueError(f"no thermocouple of type {kind!r} in the table: {table.kinds}")
    return pieces


def _of_piece(piece: EmfPiece, temperature: Floats) -> Floats:
    emf = np.polynomial.Polynomial(piece.coefficients)(temperature)
    if piece.bump:
        a0, a1, a2 = piece.bump
        emf = emf + a0 * np.exp(a1 * (temperature - a2) ** 2)
    return np.asarray(emf)


@lru_cache(maxsize=16)
def _grid(table: ThermocoupleTable, kind: str) -> tuple[Floats, Floats]:
    low, high = range_c(table, kind)
    grid = np.append(np.arange(max(low, LEAST_DISPLAY_C.get(kind, low)), high, 1.0), high)
    return grid, emf_mv(table, kind, grid)


def tolerance_c(
    table: ThermocoupleTable, kind: str, grade: str, temperature: float
) -> float | None:
    """Return how far new wire of a grade may be off [°C]; None where no limit is published.

    Parameters
    ----------
    grade : str
        ``iec_1``, ``iec_2``, ``iec_3``, ``astm_standard`` or ``astm_special``.
    """
    for row in table.tolerances:
        if (row.kind, row.grade) == (kind, grade) and row.from_c <= temperature <= row.to_c:
            if row.share_above_c:
                return row.degrees_c + row.share * max(temperature - row.share_above_c, 0.0)
            return max(row.degrees_c, row.share * abs(temperature))
    return None


def shown_by_wrong_type(
    table: ThermocoupleTable, couple: str, instrument: str, true_c: Floats, terminals_c: float
) -> Floats:
    """Return what an instrument set to another type shows [°C]; NaN beyond its range."""
    loop = emf_mv(table, couple, true_c) - emf_mv(table, couple, terminals_c)
    return _shown(table, instrument, loop, terminals_c)


def shown_reversed(
    table: ThermocoupleTable, kind: str, true_c: Floats, terminals_c: float
) -> Floats:
    """Return what is shown with the couple reversed at the instrument [°C]: it falls."""
    loop = emf_mv(table, kind, terminals_c) - emf_mv(table, kind, true_c)
    return _shown(table, kind, loop, terminals_c)


def shown_with_lead(
    table: ThermocoupleTable,
    kind: str,
    true_c: Floats,
    head_c: float,
    terminals_c: float,
    lead: str | None,
) -> Floats:
    """Return what is shown when the lead from the head is not what it should be [°C].

    Parameters
    ----------
    head_c, terminals_c : float
        Temperature where couple and lead join, and at the instrument [°C].
    lead : str or None
        Type letter of the lead, or None for copper, which gives no emf.
    """
    loop = emf_mv(table, kind, true_c) - emf_mv(table, kind, head_c)
    if lead is not None:
        loop = loop + emf_mv(table, lead, head_c) - emf_mv(table, lead, terminals_c)
    return _shown(table, kind, loop, terminals_c)


def shown_reversed_twice(
    table: ThermocoupleTable, kind: str, true_c: Floats, head_c: float, terminals_c: float
) -> Floats:
    """Return what is shown with a lead reversed at both ends [°C].

    It rises as it should but low by about twice the difference of head and instrument.
    """
    loop = emf_mv(table, kind, true_c) - emf_mv(table, kind, head_c)
    loop = loop - (emf_mv(table, kind, head_c) - emf_mv(table, kind, terminals_c))
    return _shown(table, kind, loop, terminals_c)


def shown_with_cold_end_error(
    table: ThermocoupleTable, kind: str, true_c: Floats, terminals_c: float, error_c: float
) -> Floats:
    """Return what is shown when the instrument takes its terminals for ``error_c`` warmer [°C]."""
    loop = emf_mv(table, kind, true_c) - emf_mv(table, kind, terminals_c)
    return _shown(table, kind, loop, terminals_c + error_c)


def _shown(
    table: ThermocoupleTable, instrument: str, loop_mv: Floats, believed_terminals_c: float
) -> Floats:
    return temperature_c(
        table, instrument, loop_mv + emf_mv(table, instrument, believed_terminals_c)
    )
