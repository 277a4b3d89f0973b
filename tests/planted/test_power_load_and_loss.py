"""Power, load and heat loss planted in a lumped kiln and found again.

The kiln here is the equation itself, C dT/dt = u P − L(T), with a loss that grows with
temperature; it shares no code with the program.
"""

import numpy as np
import pytest
from firings import firing_of

from firing_review.analysis.power_balance import judge_power
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.schedule import Schedule, Segment

PLAN = Schedule((Segment(150.0, 600.0, 0.0), Segment(120.0, 1060.0, 10.0)))
FULL = Schedule((Segment(None, 1060.0, 0.0),))
STEP_H = 1.0 / 240.0


def loss_kw(temperature_c: float) -> float:
    warm = temperature_c - 20.0
    return 0.0035 * warm + 1.1e-6 * warm**2


def fire(  # a kiln of 10 kW that loses about 4.8 kW at 1060 °C
    plan: Schedule,
    power: float = 1.0,
    mass: float = 1.0,
    loss: float = 1.0,
    *,
    every_s: float = 60.0,
    noise_c: float = 0.0,
    step_c: float = 0.0,
    logged: bool = True,
    seed: int = 1,
) -> AlignedFiring:
    capacity, full_kw, temperature = 0.028 * mass, 10.0 * power, 20.0
    hours, values, outputs = [0.0], [20.0], [0.0]
    target, hold_left, number = 20.0, 0.0, 0
    while hours[-1] < 40.0:
        output = 0.0
        if number < len(plan.segments):
            segment = plan.segments[number]
            rate = segment.rate_c_per_h or 1e9
            target = min(target + rate * STEP_H, segment.target_c, temperature + 8.0)
            need = capacity * 0.0 + loss * loss_kw(temperature)
            climb = rate if target < segment.target_c else 0.0
            need += capacity * min(climb, 1e4) + capacity * (target - temperature) / 0.05
            output = float(np.clip(need / full_kw, 0.0, 1.0))
            if temperature >= segment.target_c - 1.0:
                hold_left += STEP_H
                if hold_left >= segment.hold_min / 60.0:
                    number, hold_left = number + 1, 0.0
        temperature += STEP_H * (full_kw * output - loss * loss_kw(temperature)) / capacity
        hours.append(hours[-1] + STEP_H)
        values.append(temperature)
        outputs.append(100.0 * output)
        if number == len(plan.segments) and temperature < 150.0:
            break
    grid = np.arange(0.0, hours[-1], every_s / 3600.0)
    reading = np.interp(grid, hours, values)
    reading += np.random.default_rng(seed).normal(0.0, noise_c, len(grid)) if noise_c else 0.0
    if step_c:
        reading = np.round(reading / step_c) * step_c
    channels = [Channel("chamber", ChannelRole.CHAMBER, reading)]
    if logged:
        channels.append(Channel("output", ChannelRole.OUTPUT, np.interp(grid, hours, outputs)))
    return firing_of(FiringLog("planted.csv", grid, tuple(channels)), plan)


BASE = fire(PLAN)


@pytest.mark.parametrize("power", [0.95, 0.9, 0.8, 0.7, 0.6])
def test_lost_power_is_found(power: float) -> None:
    judged = judge_power(fire(PLAN, power), (BASE,))
    assert judged.power_ratio == pytest.approx(power, abs=0.02)
    assert judged.power_low <= power <= judged.power_high
    assert judged.mass_ratio == pytest.approx(1.0, abs=0.02)
    assert judged.loss_ratio == 1.0


@pytest.mark.parametrize("mass", [0.7, 1.3, 1.6, 2.0])
def test_another_load_is_no_lost_power(mass: float) -> None:
    judged = judge_power(fire(PLAN, mass=mass), (BASE,))
    assert judged.mass_ratio == pytest.approx(mass, rel=0.05)
    assert judged.power_low <= 1.0 <= judged.power_high


@pytest.mark.parametrize("loss", [1.2, 1.4, 1.6])
def test_a_leak_is_no_lost_power(loss: float) -> None:
    judged = judge_power(fire(PLAN, loss=loss), (BASE,))
    # a leak of every loss alike cannot be told from a lighter load by shape alone; power can
    assert judged.loss_ratio == pytest.approx(loss, rel=0.05) or judged.mass_ratio < 1.0
    assert judged.power_ratio == pytest.approx(1.0, abs=0.05)


@pytest.mark.parametrize(("power", "mass"), [(0.8, 1.5), (0.9, 1.3), (0.7, 1.8)])
def test_power_and_load_together_are_told_apart(power: float, mass: float) -> None:
    judged = judge_power(fire(PLAN, power, mass), (BASE,))
    assert judged.power_low <= power <= judged.power_high
    assert judged.mass_ratio == pytest.approx(mass, rel=0.06)


@pytest.mark.parametrize(
    ("every_s", "noise_c", "step_c"), [(10, 1.0, 1.0), (60, 0.7, 1.0), (300, 0.5, 5.0)]
)
def test_noise_coarse_steps_and_slow_sampling_are_borne(
    every_s: float, noise_c: float, step_c: float
) -> None:
    options = {"every_s": every_s, "noise_c": noise_c, "step_c": step_c}
    judged = judge_power(fire(PLAN, 0.8, **options), (fire(PLAN, **options),))
    assert judged.power_low <= 0.8 <= judged.power_high


def test_without_output_a_run_at_full_output_serves() -> None:
    judged = judge_power(fire(FULL, 0.8, logged=False), (fire(FULL, logged=False),))
    assert judged.power_ratio == pytest.approx(0.8, abs=0.03)


def test_without_output_and_full_output_the_answer_is_cannot_tell() -> None:
    judged = judge_power(fire(PLAN, logged=False), (fire(PLAN, logged=False),))
    assert judged.power_ratio is None
    assert "ran at full output" in judged.basis[0].text
    assert "log the output" in judged.basis[1].text


def test_without_an_earlier_firing_the_answer_is_cannot_tell() -> None:
    judged = judge_power(BASE, ())
    assert judged.power_ratio is None
    assert "earlier" in judged.basis[0].text


def test_the_ceiling_is_where_loss_equals_power() -> None:
    # 0.0035 w + 1.1e-6 w² = 6 at w = 1235: a ceiling of 1255 °C, far from the top of 1060 °C
    judged = judge_power(fire(PLAN, 0.6), (BASE,))
    assert judged.ceiling_c == pytest.approx(1255.0, abs=60.0)
