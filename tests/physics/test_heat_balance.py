import time
from dataclasses import replace

import numpy as np
import pytest

from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.schedule import Schedule, Segment
from firing_review.physics.heat_balance import Brickwork, cylinder, holding_kw, model_of
from firing_review.physics.kiln_controller import ControlSettings
from firing_review.physics.simulated_firing import Faults, Run, simulate

KILN = cylinder(500.0, 600.0, (2.7, 2.6, 2.7), 50.0, Brickwork(slices=8))
PLAN = Schedule((Segment(100.0, 150.0, 20.0), Segment(150.0, 950.0), Segment(60.0, 1040.0, 15.0)))
GOOD = simulate(KILN, PLAN)


def at_peak(fired: object, values: np.ndarray) -> np.ndarray:
    return values[int(np.argmax(fired.reading_c))]


def test_a_good_kiln_keeps_its_schedule() -> None:
    climbing = np.isfinite(GOOD.set_point_c) & (GOOD.elapsed_h > 0.5)
    behind = (GOOD.set_point_c - GOOD.reading_c)[climbing]
    assert np.quantile(np.abs(behind), 0.95) < 6.0
    assert GOOD.reading_c.max() == pytest.approx(1040.0, abs=4.0)


def test_a_hold_lasts_as_long_as_asked() -> None:
    at_top = GOOD.elapsed_h[GOOD.set_point_c == 1040.0]
    assert 60.0 * (at_top[-1] - at_top[0]) == pytest.approx(15.0, abs=5.0)


def test_heat_given_is_heat_kept_or_lost() -> None:
    empty = replace(KILN, wall=Brickwork(loss_factor=1e-6, slices=8), exchange_share=0.0)
    fired = simulate(empty, Schedule((Segment(None, 900.0),)), run=Run(hours=1.2, probe_lag_min=0))
    shell, core = fired.chamber_c[-1], fired.core_c[-1]
    kept = float((1000.0 * (shell - 25.0)).sum())  # air, elements and probe of each section
    for temperature, kg in ((shell, 0.6 * 50.0 / 3.0), (core, 0.4 * 50.0 / 3.0)):
        rise = 850.0 * (temperature - 25.0) + 0.175 * (temperature**2 - 25.0**2)
        kept += float((kg * rise).sum())
    assert kept / 3.6e6 == pytest.approx(fired.energy_kwh[-1], rel=0.005)


def test_a_dead_end_section_stays_cold() -> None:
    fired = simulate(KILN, PLAN, Faults(dead={0: 0.0}))
    bottom, middle, top = at_peak(fired, fired.chamber_c)
    assert bottom < middle - 30.0
    assert top > middle


def test_a_section_that_dies_midway_changes_the_output_from_then_on() -> None:
    fired = simulate(KILN, PLAN, Faults(dead={2: 5.0}))
    assert fired.elapsed_h[fired.elapsed_h < 5.0] == pytest.approx(
        GOOD.elapsed_h[GOOD.elapsed_h < 5.0]
    )
    before = fired.output[np.searchsorted(fired.elapsed_h, 4.9)]
    assert fired.output[np.searchsorted(fired.elapsed_h, 5.5)] > before + 0.1


def test_low_volts_cut_the_power_by_their_square() -> None:
    full = Schedule((Segment(None, 1000.0),))
    low = simulate(KILN, full, Faults(supply_share=0.9), Run(hours=0.5))
    good = simulate(KILN, full, run=Run(hours=0.5))
    assert low.energy_kwh[-1] / good.energy_kwh[-1] == pytest.approx(0.81, abs=0.001)


def test_a_probe_that_reads_high_leaves_the_kiln_colder() -> None:
    fired = simulate(KILN, PLAN, Faults(probe_error_share=0.02))
    assert fired.reading_c.max() == pytest.approx(1040.0, abs=4.0)
    true_c = at_peak(fired, fired.chamber_c)[1]
    assert 1040.0 - true_c == pytest.approx(0.02 * 1040.0, abs=5.0)


def test_during_a_power_cut_the_kiln_cools_and_then_goes_on() -> None:
    fired = simulate(KILN, PLAN, Faults(cut_h=(5.0, 1.0)))
    begin, end = np.searchsorted(fired.elapsed_h, (5.02, 5.98))
    assert fired.reading_c[end] < fired.reading_c[begin] - 50.0
    assert fired.reading_c.max() == pytest.approx(1040.0, abs=4.0)


def test_a_stuck_section_heats_after_the_end() -> None:
    fired = simulate(KILN, PLAN, Faults(stuck={0: 2.0}), Run(hours=16.0))
    late_good = simulate(KILN, PLAN, run=Run(hours=16.0, until_c=0.0))
    assert fired.chamber_c[-1, 0] > late_good.chamber_c[-1, 0] + 200.0


def test_a_controller_that_does_not_wait_ends_by_the_clock() -> None:
    weak = Faults(power_share=(0.55, 0.55, 0.55))
    waiting = simulate(KILN, PLAN, weak, Run(hours=30.0))
    ticking = simulate(KILN, PLAN, weak, Run(control=ControlSettings(waits=False)))
    done_h = ticking.elapsed_h[np.isfinite(ticking.set_point_c)][-1]
    planned_h = 125.0 / 100.0 + 1 / 3 + 800.0 / 150.0 + 1.5 + 0.25
    assert done_h == pytest.approx(planned_h, abs=0.1)
    assert waiting.reading_c.max() > ticking.reading_c.max() + 5.0


def test_the_kiln_sheet_gives_the_model() -> None:
    sheet = Kiln(
        volume_l=184.0,
        wall_mm=76.0,
        sections=(Section("bottom", 4.0), Section("middle", 3.5), Section("top", 4.0)),
    )
    model = model_of(sheet)
    assert model.power_kw == 11.5
    assert model.wall_m2 == pytest.approx(2.10, abs=0.02)
    assert [s.name for s in model.sections] == ["bottom", "middle", "top"]
    assert holding_kw(model, 1060.0) == pytest.approx(5.66, abs=0.06)


def test_an_empty_sheet_gives_a_usual_kiln() -> None:
    model = model_of(Kiln())
    assert model.power_kw == pytest.approx(11.6, abs=0.1)
    assert len(model.sections) == 1


def test_twelve_hours_of_firing_take_less_than_two_seconds() -> None:
    begun = time.perf_counter()
    simulate(KILN, PLAN, run=Run(hours=12.0))
    assert time.perf_counter() - begun < 2.0
