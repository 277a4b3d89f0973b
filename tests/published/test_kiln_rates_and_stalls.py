"""Climb rates, stall temperatures and holding power of the 184 l reference kiln.

Source: table computed independently from the same published brick data (560 kg/m³, 1050 J/kgK,
one-dimensional wall, 14 slices), calibrated on published meter readings of a 74 l kiln
(potters.org/subject43125.htm). One real account stands beside it: with one of three relays dead a
kiln stalled at 954 °C (owner's weblog), 1014 °C by this model at loss factor 2.0 and 1240 °C at
1.45. The brick's conductivity is from memory of makers' data sheets.
"""

from dataclasses import replace

import numpy as np
import pytest
from outside import outside

from firing_review.firing.schedule import Schedule, Segment
from firing_review.physics.heat_balance import (
    Brickwork,
    KilnModel,
    cylinder,
    holding_kw,
    steady_skin_c,
    usual_heat_kj_per_k,
)
from firing_review.physics.simulated_firing import Faults, Run, simulate

SOURCES = {
    "reference": (
        "table of the 184 l reference kiln, computed independently from published brick "
        "data and calibrated on published meter readings of a 74 l kiln "
        "(potters.org/subject43125.htm); conductivity from memory of data sheets"
    ),
    "weblog": "an owner's weblog: stall at 954 °C with one of three relays dead",
    "owner": "an owner's account of cooling at 183 °C",
}

REFERENCE = replace(cylinder(584.0, 686.0, (11.52,), 80.0), core_share=0.0)
FULL = Schedule((Segment(None, 1300.0),))
STALL_C_PER_H = 15.0


def with_loss(factor: float) -> KilnModel:
    return replace(REFERENCE, wall=Brickwork(loss_factor=factor))


def climb(model: KilnModel, faults: Faults, hours: float = 14.0) -> tuple[np.ndarray, ...]:
    fired = simulate(model, FULL, faults, Run(probe=0, probe_lag_min=0.0, hours=hours))
    until = int(np.argmax(fired.chamber_c[:, 0])) + 1
    chamber, elapsed_h = fired.chamber_c[:until, 0], fired.elapsed_h[:until]
    return elapsed_h, chamber, np.gradient(chamber, elapsed_h)


def rates_at(model: KilnModel, faults: Faults, *temperatures_c: float) -> np.ndarray:
    _, chamber, rate = climb(model, faults)
    return np.interp(temperatures_c, chamber, rate)


def stall_c(model: KilnModel, power: float) -> float:
    hours, chamber, rate = climb(model, Faults(power_share=(power,)), hours=25.0)
    return float(chamber[np.flatnonzero((rate < STALL_C_PER_H) & (hours > 0.2))[0]])


@outside("reference", "0.5 %: same equations, other solver")
@pytest.mark.parametrize(
    ("factor", "watts"),
    [
        (1.0, (771, 1861, 3199, 3699, 4013, 4228, 4909, 5277)),
        (1.45, (1070, 2604, 4499, 5211, 5657, 5963, 6935, 7460)),
        (2.0, (1406, 3456, 6008, 6970, 7574, 7988, 9305, 10018)),
    ],
)
def test_power_to_hold_agrees_with_the_table(factor: float, watts: tuple[int, ...]) -> None:
    temperatures = (300.0, 600.0, 900.0, 1000.0, 1060.0, 1100.0, 1222.0, 1285.0)
    got = [1000.0 * holding_kw(with_loss(factor), t) for t in temperatures]
    assert got == pytest.approx(watts, rel=0.005)


@outside("reference", "2 °C: other grid of the wall")
def test_the_jacket_is_as_hot_as_the_table_says() -> None:
    got = [steady_skin_c(with_loss(f), 1222.0) for f in (1.0, 1.45, 2.0)]
    assert got == pytest.approx((177.0, 215.0, 253.0), abs=2.0)


@outside("reference", "3 %: other grid and time step")
@pytest.mark.parametrize(
    ("power", "rates"),
    [
        (1.0, (399, 310, 251, 206, 163, 141, 119)),
        (1 / 1.10, (357, 275, 221, 178, 136, 115, 93)),
        (1 / 1.15, (338, 260, 208, 166, 125, 103, 82)),
        ((220 / 240) ** 2, (325, 249, 198, 157, 116, 95, 73)),
        ((208 / 240) ** 2, (284, 215, 170, 130, 90, 69, 48)),
    ],
)
def test_climb_at_full_output_agrees_with_the_table(power: float, rates: tuple[int, ...]) -> None:
    temperatures = (200.0, 400.0, 600.0, 800.0, 1000.0, 1100.0, 1200.0)
    got = rates_at(REFERENCE, Faults(power_share=(power,)), *temperatures)
    assert got == pytest.approx(rates, rel=0.03, abs=2.0)


@outside("reference", "8 °C: where exactly a slow climb counts as a stall")
@pytest.mark.parametrize(
    ("factor", "power", "stalls_at_c"),
    [
        (1.45, 2 / 3, 1240),
        (1.45, 1 / 2, 997),
        (1.45, 1 / 3, 716),
        (2.0, 2 / 3, 1014),
        (2.0, 1 / 2, 812),
        (2.0, 1 / 3, 581),
    ],
)
def test_stall_temperatures_agree_with_the_table(
    factor: float, power: float, stalls_at_c: float
) -> None:
    assert stall_c(with_loss(factor), power) == pytest.approx(stalls_at_c, abs=8.0)


@outside(
    "weblog",
    "40 to 80 °C",
    "the model stalls 60 °C higher than the kiln did; its limit, said in the table",
)
def test_the_real_stall_at_954_is_as_near_as_the_model_claims() -> None:
    # 60 to 290 °C below the model: said in the source as the model's own limit
    short_c = stall_c(with_loss(2.0), 2 / 3) - 954.0
    assert 40.0 < short_c < 80.0


@outside("reference", "0.02: two places")
@pytest.mark.parametrize(
    ("faults", "load", "ratios"),
    [
        (Faults(power_share=(1 / 1.10,)), 1.0, (0.89, 0.88, 0.83, 0.78)),
        (Faults(supply_share=208 / 240), 1.0, (0.71, 0.68, 0.55, 0.40)),
        (Faults(power_share=(2 / 3,)), 1.0, (0.62, 0.57, 0.40, 0.19)),
        (Faults(), 1.5, (0.71, 0.75, 0.75, 0.75)),
        (Faults(leak_w_per_k=2.0), 1.0, (0.96, 0.86, 0.69, 0.50)),
    ],
    ids=("resistance +10 %", "208 for 240 V", "one of three dead", "load x1.5", "leak"),
)
def test_ratios_of_climb_part_power_load_and_leak(
    faults: Faults, load: float, ratios: tuple[float, ...]
) -> None:
    temperatures = (200.0, 600.0, 1000.0, 1200.0)
    now = rates_at(REFERENCE.with_load(load), faults, *temperatures)
    assert now / rates_at(REFERENCE, Faults(), *temperatures) == pytest.approx(ratios, abs=0.02)


@outside("reference", "6 %: other grid and time step")
def test_natural_cooling_is_of_the_published_size() -> None:
    plan = Schedule((Segment(150.0, 1222.0),))
    fired = simulate(REFERENCE, plan, run=Run(probe=0, probe_lag_min=0.0, until_c=140.0))
    peak = int(np.argmax(fired.chamber_c[:, 0]))
    hours, chamber = fired.elapsed_h[peak:], fired.chamber_c[peak:, 0]
    fall = -np.gradient(chamber, hours)
    at = (1000.0, 800.0, 600.0, 400.0, 300.0, 220.0)
    got = np.interp(at, chamber[::-1], fall[::-1])
    assert got == pytest.approx((141, 106, 75, 47, 33, 23), rel=0.06)


@outside("owner", "18 to 30 °C/h", "the real kiln cooled at 30 °C/h, the model at somewhat less")
def test_a_real_kiln_at_183_degrees_cools_nearly_as_fast() -> None:
    # an owner's account: a 76 mm kiln fell 22 °C in 45 min at 183 °C, 30 °C/h; the table says 18
    # to 26 °C/h for 80 to 40 kg, so real kilns cool somewhat faster than the model
    fired = simulate(
        REFERENCE.with_load(0.5),
        Schedule((Segment(150.0, 1222.0),)),
        run=Run(probe=0, probe_lag_min=0.0, until_c=150.0),
    )
    peak = int(np.argmax(fired.chamber_c[:, 0]))
    fall = -np.gradient(fired.chamber_c[peak:, 0], fired.elapsed_h[peak:])
    assert 18.0 < np.interp(183.0, fired.chamber_c[peak:, 0][::-1], fall[::-1]) < 30.0


@outside("reference", "5 %: an estimate for kilns without an earlier firing")
def test_climb_and_cooling_of_the_table_add_up_to_power_over_heat() -> None:
    # rows "100 %" of the climb and "76 mm, 80 kg" of the cooling at 600, 800 and 1000 °C; the
    # estimate is used for kilns without an earlier firing and is meant to some percent
    sums = np.array([251 + 75, 206 + 106, 163 + 141])
    heat = usual_heat_kj_per_k(REFERENCE, np.array([600.0, 800.0, 1000.0]))
    assert 11.52 * 3600.0 / heat == pytest.approx(sums, rel=0.05)
