from dataclasses import replace

import numpy as np
import pytest

from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.schedule import Schedule, Segment
from firing_review.physics.heat_balance import (
    Brickwork,
    cylinder,
    holding_kw,
    model_of,
    skin_w_per_k_m2,
)
from firing_review.physics.kiln_controller import ControlSettings
from firing_review.physics.simulated_firing import Faults, Run, _Body, simulate

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


def test_twelve_hours_of_firing_are_simulated(benchmark) -> None:
    fired = benchmark.pedantic(simulate, (KILN, PLAN), {"run": Run(hours=12.0)}, rounds=1)
    assert fired.elapsed_h[-1] == pytest.approx(12.0, abs=0.1)


def stored_j_per_kg(temperature_c: np.ndarray) -> np.ndarray:
    """Heat from 25 °C up of a body of 850 + 0.35 T J/(kg K), written out."""
    return 850.0 * (temperature_c - 25.0) + 0.175 * (temperature_c**2 - 25.0**2)


def test_heat_carried_off_by_air_is_missing_from_the_load() -> None:
    tight = replace(KILN, wall=Brickwork(loss_factor=1e-6, slices=8))
    full = Schedule((Segment(None, 1200.0),))
    fired = simulate(tight, full, Faults(leak_w_per_k=3.0), Run(hours=1.2, probe_lag_min=0))
    shell, core = fired.chamber_c[-1], fired.core_c[-1]
    kept = float((1000.0 * (shell - 25.0)).sum())
    kept += float((10.0 * stored_j_per_kg(shell) + 20.0 / 3.0 * stored_j_per_kg(core)).sum())
    lost = 3600.0 * np.trapezoid((fired.chamber_c - 25.0).sum(axis=1), fired.elapsed_h)
    assert lost / 3.6e6 > 0.1 * fired.energy_kwh[-1]
    assert (kept + lost) / 3.6e6 == pytest.approx(fired.energy_kwh[-1], rel=0.01)


def test_heat_given_is_in_load_and_walls_or_went_off_by_the_jacket() -> None:
    body, power_w = _Body(KILN, Faults()), np.array([2700.0, 2600.0, 2700.0])
    shed_j = 0.0
    for _ in range(6 * 60 * 6):
        jacket = skin_w_per_k_m2(body._skin_c, 25.0) * (body._skin_c - 25.0)
        shed_j += float((10.0 * jacket * body._area).sum())
        body.step(power_w)
    kept = float((1000.0 * (body.chamber_c - 25.0)).sum())
    kept += float((10.0 * stored_j_per_kg(body.chamber_c)).sum())
    kept += float((20.0 / 3.0 * stored_j_per_kg(body.core_c)).sum())
    slice_j_per_m2_k = 560.0 * 1050.0 * 0.076 / 8.0
    kept += float((slice_j_per_m2_k * (body._wall_c - 25.0) * body._area[:, None]).sum())
    assert body.chamber_c.min() > 900.0
    assert shed_j > 0.05 * 8000.0 * 6 * 3600.0
    assert kept + shed_j == pytest.approx(8000.0 * 6 * 3600.0, rel=0.01)


def test_a_weak_kiln_stalls_where_its_loss_equals_its_power() -> None:
    weak = cylinder(300.0, 300.0, (1.0,), 3.0, Brickwork(wall_mm=64.0, slices=8))
    fired = simulate(weak, Schedule((Segment(None, 1300.0),)), run=Run(hours=24.0))
    assert fired.output[-1] == 1.0
    assert fired.chamber_c[-1, 0] - fired.chamber_c[-60, 0] < 1.0
    assert 600.0 < fired.chamber_c[-1, 0] < 1200.0
    assert holding_kw(weak, float(fired.chamber_c[-1, 0])) == pytest.approx(1.0, rel=0.01)


def hours_between(fired: object, low_c: float, high_c: float) -> float:
    until = int(np.argmax(fired.reading_c)) + 1
    begin, end = np.interp((low_c, high_c), fired.reading_c[:until], fired.elapsed_h[:until])
    return float(end - begin)


def test_less_power_climbs_slower_and_more_so_the_hotter_the_walls() -> None:
    no_core = replace(KILN, core_share=0.0)  # a core that lags behind blurs the trend
    full, run = Schedule((Segment(None, 1200.0),)), Run(hours=8.0)
    good = simulate(no_core, full, run=run)
    worn = simulate(no_core, full, Faults(power_share=(0.8, 0.8, 0.8)), run)
    longer = [
        hours_between(worn, low_c, low_c + 100.0) / hours_between(good, low_c, low_c + 100.0)
        for low_c in (200.0, 500.0, 800.0, 1000.0)
    ]
    assert longer[0] > 1.25
    assert longer == sorted(longer)


def test_a_heavy_load_below_leaves_the_bottom_behind() -> None:
    fired = simulate(KILN, PLAN, Faults(load_share=(2.0, 1.0, 1.0)))
    bottom, middle, top = at_peak(fired, fired.core_c)
    assert bottom < min(middle, top) - 5.0


def test_heating_elements_that_fail_midway_are_as_new_before() -> None:
    fired = simulate(KILN, PLAN, Faults(power_share=(0.85,) * 3, power_share_from_h=5.0))
    before = int(np.searchsorted(fired.elapsed_h, 5.0))
    assert (fired.reading_c[:before] == GOOD.reading_c[:before]).all()
    later = int(np.searchsorted(fired.elapsed_h, 5.3))
    assert fired.output[later] / GOOD.output[later] == pytest.approx(1 / 0.85, rel=0.03)


def test_after_a_cut_that_ends_the_firing_nothing_is_asked_any_more() -> None:
    fired = simulate(KILN, PLAN, Faults(cut_h=(5.0, 0.5), resumes=False))
    after = fired.elapsed_h > 5.0
    assert (fired.output[after] == 0.0).all()
    assert np.isnan(fired.set_point_c[fired.elapsed_h > 5.6]).all()
    assert fired.reading_c[after].max() < 900.0


def test_an_opened_lid_shows_as_a_faster_fall_from_there_on() -> None:
    opened = simulate(KILN, PLAN, Faults(opened_at_c=300.0))
    still_hot = int(np.flatnonzero(GOOD.reading_c > 320.0)[-1])
    assert (opened.reading_c[:still_hot] == GOOD.reading_c[:still_hot]).all()

    def minutes_from_280_to_200(fired: object) -> int:
        late = fired.reading_c[still_hot:]
        return int(((late < 280.0) & (late > 200.0)).sum())

    assert minutes_from_280_to_200(opened) < 0.7 * minutes_from_280_to_200(GOOD)
