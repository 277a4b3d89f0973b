"""A log written every second says the same as one written every half minute, only sooner."""

import numpy as np
import pytest
from firings import GOOD, TO_1000, Corners, clock, cooling, line, log_of, with_values
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.analysis.alignment import align
from firing_review.analysis.bad_samples import clean_channels
from firing_review.analysis.find import find_all
from firing_review.analysis.thinning import WHILE_S, Cleaned, thin_if_dense
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.units import Floats
from firing_review.physics.cones import dwell_of

SECOND_MIN, HALF_MINUTE_MIN = 1.0 / 60.0, 0.5
SAME_MIN = 1.0
"""Events lie within two samples of the slower log [min]."""


def thinned(log: FiringLog) -> Cleaned:
    return thin_if_dense(log, clean_channels(log, DEFAULTS), DEFAULTS)


def looked_at(log: FiringLog) -> tuple[AlignedFiring, tuple[Finding, ...]]:
    thin, clean = thinned(log)
    firing = align(thin, clean, TO_1000, DEFAULTS)
    return firing, find_all(firing, clean, DEFAULTS)


def every_second(corners: Corners = GOOD, **extra: Corners) -> FiringLog:
    return log_of(corners, SECOND_MIN, **extra)


def test_a_log_of_every_half_minute_comes_back_as_it_is() -> None:
    log = log_of(GOOD, HALF_MINUTE_MIN)
    clean = clean_channels(log, DEFAULTS)
    assert thin_if_dense(log, clean, DEFAULTS) == (log, clean)


def test_a_short_log_of_every_second_comes_back_as_it_is() -> None:
    log = every_second([(0.0, 20.0), (5.0, 900.0)])
    assert thinned(log)[0] is log


def test_a_dense_log_keeps_one_sample_for_twenty_seconds_and_its_ends() -> None:
    log = every_second()
    thin = thinned(log)[0]
    assert thin.rows == pytest.approx(log.rows / WHILE_S, rel=0.001)
    assert (thin.elapsed_h[0], thin.elapsed_h[-1]) == (0.0, log.elapsed_h[-1])
    assert np.diff(thin.elapsed_h).min() > 0.0
    assert thin.raw == log.raw


def test_a_straight_climb_stays_the_same_line() -> None:
    log = every_second([(0.0, 20.0), (7.0, 1070.0)])
    thin = thinned(log)[0]
    assert thin.channels[0].values == pytest.approx(20.0 + 150.0 * thin.elapsed_h)


def test_a_relay_switched_every_second_becomes_its_share_of_full_output() -> None:
    log = every_second()
    relay = Channel("output", ChannelRole.OUTPUT, 100.0 * (np.arange(log.rows) % 4 == 0))
    thin = thinned(FiringLog("relay.csv", log.elapsed_h, (*log.channels, relay)))[0]
    # 19 to 21 samples make a while, so the last may be one switching more or less
    assert thin.channels[1].values[1:-1] == pytest.approx(25.0, abs=4.0)


def test_a_reading_that_stands_still_stands_still_to_the_last_digit() -> None:
    log = every_second()
    values = log.channels[0].values.copy()
    values[10_000:16_000] = 433.3
    thin = thinned(with_values(log, "chamber", values))[0]
    inside = (thin.elapsed_h > 10_020 / 3600.0) & (thin.elapsed_h < 15_980 / 3600.0)
    assert set(thin.channels[0].values[inside].tolist()) == {433.3}


def test_spikes_and_lost_readings_are_counted_and_timed_to_the_second() -> None:
    log = every_second()
    values = log.channels[0].values.copy()
    values[[7_000, 7_007, 12_000]] += 60.0
    values[9_001:9_031] = np.nan
    values[9_040:9_041] = np.nan
    log = with_values(log, "chamber", values)
    findings = {f.kind.value: f for f in looked_at(log)[1]}
    assert findings["probe_spike"].figures["count"] == 3
    assert findings["probe_spike"].start_h == pytest.approx(7_000 / 3600.0, abs=1e-9)
    assert findings["probe_dropout"].figures["count"] == 2
    assert findings["probe_dropout"].figures["lost_min"] == pytest.approx(31 / 60.0)
    assert findings["probe_dropout"].figures["first_at_c"] == pytest.approx(values[9_000])


def test_a_leap_is_not_blurred_into_two_halves() -> None:
    log = every_second()
    values = log.channels[0].values.copy()
    values[15_007:] += 45.0
    found = {f.kind.value: f for f in looked_at(with_values(log, "chamber", values))[1]}
    assert found["probe_jump"].figures["to_c"] == pytest.approx(values[15_007])
    assert found["probe_jump"].start_h == pytest.approx(15_006 / 3600.0, abs=1e-9)


def test_a_pause_of_the_record_keeps_its_length() -> None:
    log = every_second()
    kept = np.ones(log.rows, dtype=bool)
    kept[8_003:10_500] = False
    channel = Channel("chamber", ChannelRole.CHAMBER, log.channels[0].values[kept])
    thin = thinned(FiringLog("paused.csv", log.elapsed_h[kept], (channel,)))[0]
    assert np.diff(thin.elapsed_h).max() == pytest.approx(2_498 / 3600.0)


CUT: Corners = [*GOOD[:3], (4.0, 620.0), (4.4, 520.0), (6.4, 920.0), (7.4, 1000.0)]
WORN: Corners = [*GOOD[:3], (5.5, 780.0), (8.0, 930.0), (11.0, 1000.0), (11.2, 1000.0)]
FIRINGS = {
    "good": GOOD,
    "power cut": [*CUT, (7.65, 1000.0), *cooling(7.65, 1000.0)],
    "worn": [*WORN, *cooling(11.2, 1000.0)],
    "stalled": [*GOOD[:3], (6.0, 930.0), (8.0, 934.0), *cooling(8.0, 934.0)],
    "too hot": [*GOOD[:4], (6.9, 1032.0), *cooling(6.9, 1032.0)],
    "held long": [*GOOD[:5], (8.1, 1000.0), *cooling(8.1, 1000.0)],
    "opened": [*GOOD[:6], (8.0, 850.0), (9.0, 745.0), (9.4, 500.0), (11.0, 200.0)],
}


@pytest.mark.parametrize("name", FIRINGS)
def test_a_dense_log_gives_the_findings_of_a_usual_one(name: str) -> None:
    dense, usual = (
        looked_at(log_of(FIRINGS[name], every, noise_c=0.4))
        for every in (SECOND_MIN, HALF_MINUTE_MIN)
    )
    assert dense[0].log.rows < 5_000
    assert dense[0].peak_c == pytest.approx(usual[0].peak_c, abs=1.0)
    assert [(f.kind, f.severity) for f in dense[1]] == [(f.kind, f.severity) for f in usual[1]]
    for one, other in zip(dense[1], usual[1], strict=True):
        assert one.start_h == pytest.approx(other.start_h, abs=SAME_MIN / 60.0 + 0.02)
        assert one.figures == pytest.approx(other.figures, rel=0.06, abs=2.0)


@settings(max_examples=20, deadline=None)
@given(
    peak_h=st.floats(3.0, 6.0),
    peak_c=st.floats(700.0, 1250.0),
    hold_h=st.floats(0.0, 1.5),
    gaps=st.lists(st.tuples(st.integers(500, 22_000), st.integers(1, 400)), max_size=4),
)
def test_no_time_no_gap_and_no_degree_is_lost(
    peak_h: float, peak_c: float, hold_h: float, gaps: list[tuple[int, int]]
) -> None:
    end_h = peak_h + hold_h
    corners = [(0.0, 20.0), (peak_h, peak_c), (end_h, peak_c), *cooling(end_h, peak_c, 6.0)]
    elapsed_h = clock(corners, SECOND_MIN)
    values: Floats = np.round(line(elapsed_h, corners), 1)
    for first, length in gaps:
        values[first : first + length] = np.nan
    log = FiringLog("made.csv", elapsed_h, (Channel("c", ChannelRole.CHAMBER, values),))
    whole, (thin, clean) = clean_channels(log, DEFAULTS)[0], thinned(log)
    assert thin.rows < log.rows / 10
    assert len(clean[0].missing) == len(whole.missing)
    lost = [log.elapsed_h[b] - log.elapsed_h[a] for a, b in whole.missing]
    kept = [thin.elapsed_h[b] - thin.elapsed_h[a] for a, b in clean[0].missing]
    assert kept == pytest.approx(lost)
    all_c = 2_000.0
    before = dwell_of(elapsed_h, values, all_c)
    after = dwell_of(thin.elapsed_h, clean[0].values_c, all_c)
    assert after.hours.sum() == pytest.approx(before.hours.sum(), abs=1e-6)
    degree_hours = before.hours @ before.temperature_c
    assert after.hours @ after.temperature_c == pytest.approx(degree_hours, rel=1e-3)
