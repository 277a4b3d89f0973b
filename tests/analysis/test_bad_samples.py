import numpy as np
import pytest
from firings import GOOD, log_of, sections_of, with_values

from firing_review.analysis.bad_samples import bridge, chamber_reading, clean_channels
from firing_review.analysis.thresholds import DEFAULTS


def test_single_samples_that_leave_the_curve_and_return_are_taken_out() -> None:
    log = log_of(GOOD)
    values = log.channels[0].values.copy()
    values[[150, 300]] += [40.0, -60.0]
    clean = clean_channels(with_values(log, "chamber", values), DEFAULTS)[0]
    assert clean.spikes == ((150, 151), (300, 301))
    assert np.flatnonzero(np.isnan(clean.values_c)).tolist() == [150, 300]


def test_a_sharp_top_is_not_a_spike() -> None:
    log = log_of([(0.0, 20.0), (4.0, 1220.0), (6.0, 400.0), (8.0, 100.0)])
    assert clean_channels(log, DEFAULTS)[0].spikes == ()


def test_an_opened_lid_is_not_a_spike() -> None:
    log = log_of([*GOOD[:6], (9.0, 700.0), (9.1, 560.0), (9.5, 380.0), (10.0, 300.0)])
    assert clean_channels(log, DEFAULTS)[0].spikes == ()


def test_short_gaps_are_bridged_and_long_ones_stay() -> None:
    hours = np.arange(0.0, 2.0, 0.1)
    values = 100.0 * hours
    values[3:5] = np.nan
    values[10:16] = np.nan
    filled = bridge(hours, values, 20.0)
    assert filled[3:5] == pytest.approx([30.0, 40.0])
    assert np.isnan(filled[10:16]).all()


def test_the_mean_of_sections_has_no_step_where_one_of_them_ends() -> None:
    log = sections_of(top=[(0.0, 20.0), (5.0, 1020.0)], bottom=[(0.0, 20.0), (5.0, 920.0)])
    broken = log.channels[0].values.copy()
    broken[150:] = np.nan
    log = with_values(log, "top", broken)
    reading = chamber_reading(log, clean_channels(log, DEFAULTS), DEFAULTS)
    assert np.abs(np.diff(reading)).max() < 4.0
    assert reading[149] == pytest.approx((20 + 200 * 149 / 60 + 20 + 180 * 149 / 60) / 2)


def test_a_chamber_probe_is_not_averaged_with_sections() -> None:
    log = log_of([(0.0, 20.0), (5.0, 1000.0)], top=[(0.0, 20.0), (5.0, 600.0)])
    reading = chamber_reading(log, clean_channels(log, DEFAULTS), DEFAULTS)
    assert reading[-1] == pytest.approx(1000.0)
