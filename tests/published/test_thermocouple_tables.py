"""Thermocouples against two reference libraries, the standards, and worked examples.

Libraries: ``thermocouple-its90`` for every type over its whole range, and ``thermocouples`` for K
and N over the whole range and for S, R and B in the lowest range of their functions; above it that
library (2.1.2) leaves the printed tables by whole millivolts, so there the printed table of the
standard stands as the second source.
Tolerances: IEC 60584-1 and ASTM E230 as reprinted.
Effects of wrong type, reversed and copper leads and cold end: computed independently from the
same NIST functions (table read on the day of writing); where a trade page gives a value it is
named.
"""

import numpy as np
import pytest
import thermocouple_its90
import thermocouples as second_library
from outside import outside

from firing_review.io.physical_tables import load_thermocouples
from firing_review.physics.thermocouples import (
    emf_mv,
    sensitivity_mv_per_k,
    shown_by_wrong_type,
    shown_reversed,
    shown_reversed_twice,
    shown_with_cold_end_error,
    shown_with_lead,
    temperature_c,
    tolerance_c,
)

SOURCES = {
    "library": "open-source library thermocouple-its90",
    "second library": "open-source library thermocouples",
    "tables": "NIST Monograph 175 (1993), printed tables",
    "tolerances": "IEC 60584-1 and ASTM E230 as reprinted by three trade sources",
    "independent": "computed independently from the NIST functions",
    "trade": "a trade page on thermocouples",
    "definition": "follows from the definition of the reference function",
}

TABLE = load_thermocouples()
TOPS_C = {"K": 1372, "N": 1300, "S": 1768, "R": 1768, "B": 1820}
NIST_TABLE = {  # emf [mV] at the temperature [°C], NIST Monograph 175 tables
    "K": {25: 1.000, 100: 4.096, 500: 20.644, 1000: 41.276, 1222: 49.637, 1300: 52.410},
    "N": {25: 0.659, 100: 2.774, 500: 16.748, 1000: 36.256, 1222: 44.662, 1300: 47.513},
    "S": {25: 0.143, 100: 0.646, 500: 4.233, 1000: 9.587, 1222: 12.216, 1300: 13.159},
    "R": {25: 0.141, 100: 0.647, 500: 4.471, 1000: 10.506, 1222: 13.535, 1300: 14.629},
    "B": {25: -0.002, 100: 0.033, 500: 1.242, 1000: 4.834, 1222: 7.016, 1300: 7.848},
}


def every_degree(kind: str) -> np.ndarray:
    return np.arange(0.0, TOPS_C[kind] + 1.0)


@outside("library", "1e-6 mV: same polynomials")
@pytest.mark.parametrize("kind", "KNSRB")
def test_emf_agrees_with_one_library_at_every_degree(kind: str) -> None:
    couple = thermocouple_its90.get(kind)
    expected = [couple.emf(float(t)) for t in every_degree(kind)]
    assert emf_mv(TABLE, kind, every_degree(kind)) == pytest.approx(expected, abs=1e-6)


@outside(
    "second library",
    "1e-6 mV: same polynomials",
    "above their lowest range that library (2.1.2) leaves the printed tables of S, R "
    "and B by whole millivolts; not compared there",
)
@pytest.mark.parametrize(
    ("kind", "up_to_c"), [("K", 1372), ("N", 1300), ("S", 1064), ("R", 1064), ("B", 630)]
)
def test_emf_agrees_with_a_second_library(kind: str, up_to_c: int) -> None:
    couple = second_library.get_thermocouple(kind)
    grid = np.arange(0.0, up_to_c + 1.0)
    expected = [1000.0 * couple.temp_to_volt(float(t)) for t in grid]
    assert emf_mv(TABLE, kind, grid) == pytest.approx(expected, abs=1e-6)


@outside("tables", "0.00051 mV: printed to three places")
@pytest.mark.parametrize("kind", "KNSRB")
def test_emf_agrees_with_the_printed_table(kind: str) -> None:
    for at_c, printed in NIST_TABLE[kind].items():
        assert float(emf_mv(TABLE, kind, at_c)) == pytest.approx(printed, abs=0.00051)


@outside("definition", "1e-5 °C: numerical inverse")
@pytest.mark.parametrize("kind", "KNSRB")
def test_temperature_and_emf_are_each_others_inverse(kind: str) -> None:
    low = 60.0 if kind == "B" else -20.0 if kind in "KN" else 0.0
    grid = np.arange(low, TOPS_C[kind], 7.0)
    assert temperature_c(TABLE, kind, emf_mv(TABLE, kind, grid)) == pytest.approx(grid, abs=1e-5)


@outside("independent", "0.011 µV/K: two places")
@pytest.mark.parametrize(
    ("kind", "at_c", "microvolt"),
    [
        ("K", 1000, 38.98),
        ("N", 600, 38.96),
        ("S", 1250, 12.09),
        ("R", 900, 12.79),
        ("B", 25, 0.05),
    ],
)
def test_sensitivity_agrees_with_the_table(kind: str, at_c: float, microvolt: float) -> None:
    got = 1000.0 * float(sensitivity_mv_per_k(TABLE, kind, at_c))
    assert got == pytest.approx(microvolt, abs=0.011)


@outside("definition", "exact: no value")
def test_outside_its_range_a_type_says_nothing() -> None:
    assert np.isnan(emf_mv(TABLE, "K", 1400.0))
    assert np.isnan(temperature_c(TABLE, "S", 25.0))


@outside("tolerances", "0.04 °C: shares of rounded temperatures")
@pytest.mark.parametrize(
    ("kind", "grade", "at_c", "may_be_off_c"),
    [
        ("K", "astm_standard", 1222.0, 9.2),  # 0.75 %
        ("S", "astm_standard", 1222.0, 3.055),  # 0.25 %
        ("K", "iec_1", 1000.0, 4.0),
        ("K", "iec_2", 300.0, 2.5),
        ("S", "iec_1", 1300.0, 1.6),
        ("S", "iec_2", 600.0, 1.5),
        ("B", "iec_2", 1222.0, 3.055),
        ("B", "astm_standard", 1222.0, 6.11),
    ],
)
def test_tolerance_of_new_wire(kind: str, grade: str, at_c: float, may_be_off_c: float) -> None:
    assert tolerance_c(TABLE, kind, grade, at_c) == pytest.approx(may_be_off_c, abs=0.04)


@outside("tolerances", "exact: no value")
def test_beyond_the_standard_there_is_no_tolerance() -> None:
    assert tolerance_c(TABLE, "K", "iec_1", 1222.0) is None


@outside("independent", "0.6 °C: whole degrees")
@pytest.mark.parametrize(
    ("couple", "instrument", "at_c", "shows_c"),
    [
        ("K", "S", 300, 1135),
        ("K", "R", 500, 1655),
        ("K", "N", 1100, 1223),
        ("K", "J", 1000, 739),
        ("N", "K", 1222, 1099),
        ("S", "K", 1222, 325),
        ("S", "R", 1222, 1127),
        ("R", "S", 1222, 1331),
        ("B", "S", 1000, 577),
    ],
)
def test_a_wrong_type_shows_what_the_table_says(
    couple: str, instrument: str, at_c: float, shows_c: float
) -> None:
    shown = shown_by_wrong_type(TABLE, couple, instrument, np.array([at_c]), 30.0)
    assert float(shown[0]) == pytest.approx(shows_c, abs=0.6)


@outside("trade", "12 %: round figures", "the page gives round figures, 10 % off")
def test_a_trade_page_gives_the_same_order_for_a_wrong_type() -> None:
    # it says: K on an S instrument shows 2000 °F at 500 °F, S on a K instrument the reverse
    k_on_s = float(shown_by_wrong_type(TABLE, "K", "S", np.array([260.0]), 30.0)[0])
    s_on_k = float(shown_by_wrong_type(TABLE, "S", "K", np.array([1093.0]), 30.0)[0])
    assert k_on_s == pytest.approx(1093.0, rel=0.1)
    assert s_on_k == pytest.approx(260.0, rel=0.12)


@outside("definition", "exact: no value")
def test_beyond_the_other_types_range_nothing_is_shown() -> None:
    assert np.isnan(shown_by_wrong_type(TABLE, "K", "S", np.array([600.0]), 30.0)[0])


@outside("independent", "0.06 °C: one place")
def test_reversed_wires_fall_as_the_kiln_warms() -> None:
    shown = shown_reversed(TABLE, "K", np.array([30.0, 50.0, 100.0, 200.0]), 30.0)
    assert shown == pytest.approx([30.0, 9.7, -44.5, -190.1], abs=0.06)


@outside("independent", "0.06 °C: one place")
@pytest.mark.parametrize(
    ("kind", "true_c", "head_c", "room_c", "reversed_c", "copper_c"),
    [
        ("K", 1222, 70, 30, -89.5, -45.1),
        ("K", 300, 50, 30, -39.8, -19.8),
        ("N", 1000, 100, 30, -102.0, -51.1),
        ("S", 1222, 60, 25, -36.9, -18.5),
        ("R", 1000, 70, 30, -39.6, -19.7),
    ],
)
def test_reversed_and_copper_leads_read_low(
    kind: str, true_c: float, head_c: float, room_c: float, reversed_c: float, copper_c: float
) -> None:
    true = np.array([float(true_c)])
    twice = shown_reversed_twice(TABLE, kind, true, head_c, room_c) - true
    copper = shown_with_lead(TABLE, kind, true, head_c, room_c, None) - true
    assert float(twice[0]) == pytest.approx(reversed_c, abs=0.06)
    assert float(copper[0]) == pytest.approx(copper_c, abs=0.06)


@outside("independent", "0.06 °C: one place")
@pytest.mark.parametrize(("kind", "lead", "error_c"), [("S", "K", 118.4), ("K", "S", -35.4)])
def test_a_lead_of_another_type_shifts_the_reading(kind: str, lead: str, error_c: float) -> None:
    true = np.array([1000.0])
    shown = shown_with_lead(TABLE, kind, true, 70.0, 30.0, lead)
    assert float(shown[0]) - 1000.0 == pytest.approx(error_c, abs=0.06)


@outside("independent", "0.06 °C: one place")
@pytest.mark.parametrize(
    ("kind", "off_c", "error_c"),
    [
        ("K", 10, 10.5),
        ("K", -30, -30.7),
        ("N", 10, 7.0),
        ("S", 20, 10.9),
        ("R", 5, 2.3),
        ("B", 20, 0.5),
    ],
)
def test_an_error_of_the_cold_end_is_whole_for_k_and_half_for_s(
    kind: str, off_c: float, error_c: float
) -> None:
    shown = shown_with_cold_end_error(TABLE, kind, np.array([1000.0]), 30.0, off_c)
    assert float(shown[0]) - 1000.0 == pytest.approx(error_c, abs=0.06)


@outside("trade", "0.1 °C", "the page names no type; the sum is that of type N")
def test_the_published_sum_of_cold_end_and_reading() -> None:
    # a trade page: 9.340 mV with the cold end at 27 °C is 320 °C, not 327 °C (these are type N)
    total = 9.340 + float(emf_mv(TABLE, "N", 27.0))
    assert float(temperature_c(TABLE, "N", total)) == pytest.approx(320.0, abs=0.1)
