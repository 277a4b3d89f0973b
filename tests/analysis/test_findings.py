"""Planted faults are found, and a good firing stays clean."""

from dataclasses import replace

import numpy as np
import pytest
from firings import (
    GOOD,
    cooling,
    findings_of,
    kinds_of,
    log_of,
    schedule,
    sections_of,
    with_values,
)

from firing_review.analysis.bad_samples import clean_channels
from firing_review.analysis.beginnings import find_not_a_firing
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.findings import FindingKind, Severity
from firing_review.firing.log import FiringLog

START = [(0.0, 20.0), (1.0, 120.0), (1.5, 120.0)]


def the(kind: str, found: tuple) -> object:
    return next(f for f in found if f.kind.value == kind)


@pytest.mark.parametrize("noise_c", [0.0, 1.0, 2.0])
def test_a_good_firing_has_no_findings(noise_c: float) -> None:
    assert kinds_of(log_of(GOOD, noise_c=noise_c)) == set()


@pytest.mark.parametrize("every_min", [0.25, 1.0, 5.0])
def test_a_good_firing_is_clean_at_any_sampling(every_min: float) -> None:
    assert kinds_of(log_of(GOOD, every_min)) == set()


def test_a_stall_is_found_where_the_climb_stopped() -> None:
    corners = [*START, (4.5, 720), (5.0, 760), (8.0, 765), *cooling(8.0, 765)]
    found = the("stall", findings_of(log_of(corners)))
    assert found.severity is Severity.FAULT
    assert found.start_h == pytest.approx(5.0, abs=0.3)
    assert found.end_h == pytest.approx(8.0, abs=0.3)
    assert found.figures["stalled_at_c"] == pytest.approx(765.0, abs=3.0)


def test_a_hold_is_not_a_stall() -> None:
    plan = schedule((200.0, 820.0, 180.0), (80.0, 900.0, 0.0))
    corners = [(0, 20), (4, 820), (7, 820), (8, 900), *cooling(8.0, 900)]
    assert kinds_of(log_of(corners), plan) == set()


def test_a_slow_climb_tells_from_where_and_how_slow() -> None:
    corners = [*START, (4.0, 620), (7.0, 920), (8.0, 1000), (8.25, 1000), *cooling(8.25, 1000)]
    found = the("slow_climb", findings_of(log_of(corners)))
    assert found.figures["got_c_per_h"] == pytest.approx(100.0, rel=0.03)
    assert found.figures["asked_c_per_h"] == 200.0
    assert found.figures["from_c"] == pytest.approx(620.0, abs=15.0)
    assert found.figures["behind_min"] == pytest.approx(90.0, abs=6.0)


def test_a_little_behind_near_a_bend_is_not_slow() -> None:
    corners = [*START, (5.0, 820), (5.65, 920), (6.65, 1000), (6.9, 1000), *cooling(6.9, 1000)]
    assert "slow_climb" not in kinds_of(log_of(corners))


def test_a_climb_at_full_rate_is_never_slow() -> None:
    plan = schedule((None, 600.0, 0.0), (60.0, 700.0, 0.0))
    corners = [(0, 20), (9, 600), (10.67, 700), *cooling(10.67, 700)]
    assert "slow_climb" not in kinds_of(log_of(corners), plan)


def test_overshoot_tells_by_how_much() -> None:
    corners = [*GOOD[:4], (6.5, 1000), (6.6, 1015), (6.75, 1000), *cooling(6.75, 1000)]
    found = the("overshoot", findings_of(log_of(corners)))
    assert found.figures["over_delta_c"] == pytest.approx(15.0, abs=3.0)


def test_a_top_that_was_not_reached_is_short_of_target() -> None:
    corners = [*GOOD[:4], (6.1, 950), (6.3, 950), *cooling(6.3, 950)]
    found = the("short_of_target", findings_of(log_of(corners)))
    assert found.severity is Severity.FAULT
    assert found.figures["short_delta_c"] == pytest.approx(50.0, abs=2.0)


def test_heating_that_ends_in_the_middle_of_a_climb_ended_early() -> None:
    corners = [*START, (4.5, 720), *cooling(4.5, 720)]
    found = the("ended_early", findings_of(log_of(corners)))
    assert found.start_h == pytest.approx(4.5, abs=0.1)
    assert found.figures["climb_c_per_h"] == pytest.approx(200.0, rel=0.05)


def test_a_record_that_stops_while_climbing_is_not_called_an_early_end() -> None:
    assert kinds_of(log_of([*START, (4.5, 720)])) == {"record_ends_hot"}


def test_a_power_cut_in_the_middle_is_found_with_its_length() -> None:
    corners = [*START, (4.0, 620), (5.0, 500), (5.6, 620), (7.1, 920), (8.1, 1000), (8.35, 1000)]
    found = the("power_gap", findings_of(log_of([*corners, *cooling(8.35, 1000)])))
    assert found.start_h == pytest.approx(4.0, abs=0.15)
    assert found.figures["lasted_min"] == pytest.approx(60.0, abs=10.0)


def test_a_cut_at_a_low_temperature_is_found_as_well() -> None:
    corners = [*START, (2.0, 220), (2.35, 191), (5.85, 920), (6.85, 1000), (7.1, 1000)]
    assert "power_gap" in kinds_of(log_of([*corners, *cooling(7.1, 1000)]))


def test_a_gap_with_few_rows_is_found_before_many_rows_of_climb() -> None:
    corners = [*START, (3.5, 520), (4.0, 430), (6.9, 1000), *cooling(6.9, 1000)]
    full = log_of(corners, every_min=0.25)
    kept = (full.elapsed_h < 3.4) | (full.elapsed_h > 4.0)
    kept |= np.isclose(np.mod(full.elapsed_h * 12.0, 1.0), 0.0)
    chamber = full.channels[0]
    rare = replace(chamber, values=chamber.values[kept])
    assert "power_gap" in kinds_of(FiringLog("hand-made.csv", full.elapsed_h[kept], (rare,)))


def test_a_kiln_that_settles_on_its_target_had_no_power_gap() -> None:
    up = [(0, 20), (1.0, 145), (1.3, 120), (1.5, 120), *GOOD[3:6]]
    assert "power_gap" not in kinds_of(log_of([*up, *cooling(6.75, 1000)]))


def test_a_power_gap_takes_every_section_down() -> None:
    fell = [*START, (4.0, 620), (4.4, 480), (5.0, 620), (8.35, 1000), *cooling(8.35, 1000)]
    rose = [*START, (4.0, 620), (4.4, 640), (5.0, 700), (8.35, 1000), *cooling(8.35, 1000)]
    assert "power_gap" in kinds_of(sections_of(bottom=fell, top=fell))
    assert "power_gap" not in kinds_of(sections_of(bottom=fell, top=rose))


def test_a_hold_of_one_section_is_no_damp_load_in_their_mean() -> None:
    held = [(0, 20), (1.0, 120), (1.5, 120), *GOOD[3:6], *cooling(6.75, 1000)]
    colder = [(h, c if c > 300 else 20 + 0.7 * (c - 20)) for h, c in held]
    log = sections_of(bottom=colder, top=colder, middle=held)
    assert "damp_flat_spot" not in kinds_of(log)


def test_a_flat_spot_far_longer_than_the_hold_near_it_is_a_damp_load() -> None:
    flat = [(0, 20), (0.85, 103), (2.6, 108), *((h + 1.5, c) for h, c in GOOD[3:6])]
    log = sections_of(bottom=[*flat, *cooling(8.25, 1000)], top=[*flat, *cooling(8.25, 1000)])
    assert "damp_flat_spot" in kinds_of(log)


def test_a_set_point_that_still_asks_while_the_kiln_cools_is_a_power_gap() -> None:
    corners = [*START, (4.0, 620), *cooling(4.0, 620, hours=8.0)]
    asked = [*START, (4.0, 620), (corners[-1][0], 620)]
    assert "power_gap" in kinds_of(log_of(corners, set_point=asked))


@pytest.mark.parametrize(("got_min", "kind"), [(2.0, "short_hold"), (75.0, "long_hold")])
def test_a_hold_of_the_wrong_length_is_found(got_min: float, kind: str) -> None:
    end_h = 6.5 + got_min / 60.0
    corners = [*GOOD[:5], (end_h, 1000), *cooling(end_h, 1000)]
    found = the(kind, findings_of(log_of(corners)))
    assert found.figures["got_min"] == pytest.approx(got_min, abs=2.5)
    assert found.figures["asked_min"] == 15.0


def test_a_set_point_below_the_schedule_is_a_typing_difference_and_no_slow_climb() -> None:
    corners = [*START, (9.5, 920), (10.5, 1000), (10.75, 1000), *cooling(10.75, 1000)]
    found = findings_of(log_of(corners, set_point=corners))
    differs = the("schedule_differs", found)
    assert differs.figures["typed_c_per_h"] == pytest.approx(100.0, rel=0.03)
    assert differs.figures["meant_c_per_h"] == 200.0
    assert "slow_climb" not in {f.kind.value for f in found}


def test_a_controller_that_waits_is_a_slow_climb_and_no_typing_difference() -> None:
    slow = [*START, (3.5, 520), (5.5, 760), (7.5, 920), (8.5, 1000), (8.75, 1000)]
    corners = [*slow, *cooling(8.75, 1000)]
    waiting = [(h, c + 10.0 if 3.5 < h < 8.0 else c) for h, c in corners]
    kinds = kinds_of(log_of(corners, set_point=waiting))
    assert "slow_climb" in kinds
    assert "schedule_differs" not in kinds


def test_an_opened_lid_is_fast_cooling() -> None:
    corners = [*GOOD[:6], *cooling(6.75, 1000, hours=5.0)]
    hour, warm_c = corners[-1]
    corners += [(hour + 0.3, warm_c - 150.0), (hour + 1.0, warm_c - 300.0), (hour + 3.0, 60.0)]
    found = the("fast_cooling", findings_of(log_of(corners)))
    assert found.figures["from_c"] == pytest.approx(warm_c, abs=40.0)


def test_natural_cooling_of_a_small_kiln_is_not_fast() -> None:
    corners = [*GOOD[:6], *cooling(6.75, 1000, per_h=0.5)]
    assert kinds_of(log_of(corners)) == set()


def test_a_kiln_that_levels_off_hot_after_its_end_heats_without_demand() -> None:
    level = [
        (6.75 + t, 600.0 + 400.0 * float(np.exp(-0.5 * t))) for t in np.arange(0.1, 20.0, 0.1)
    ]
    kinds = kinds_of(log_of([*GOOD[:6], *level]))
    assert {"heats_without_demand", "slow_cooling"} <= kinds


def test_output_at_zero_while_the_kiln_climbs_is_heat_without_demand() -> None:
    output = [(0, 40), (3.0, 40), (3.01, 0), (4.0, 0), (4.01, 40), (6.75, 40), (6.76, 0), (18, 0)]
    found = the("heats_without_demand", findings_of(log_of(GOOD, output=output)))
    assert found.start_h == pytest.approx(3.0, abs=0.1)


def test_a_section_that_lies_apart_is_a_zone_gap() -> None:
    cold = [(h, 20.0 + (c - 20.0) * 0.95) for h, c in GOOD]
    found = the("zone_gap", findings_of(sections_of(bottom=cold, middle=GOOD, top=GOOD)))
    assert found.channel == "bottom"
    assert found.figures["apart_delta_c"] == pytest.approx(-40.0, abs=12.0)


def test_two_sections_apart_are_told_once_and_by_all_that_lies_between_them() -> None:
    cold = [(h, 20.0 + (c - 20.0) * 0.9) for h, c in GOOD]
    found = the("zone_gap", findings_of(sections_of(bottom=cold, top=GOOD)))
    assert (found.channel, found.figures["other"]) == ("bottom", "top")
    assert found.figures["widest_delta_c"] == pytest.approx(98.0, abs=3.0)
    assert found.figures["size_delta_c"] == -found.figures["apart_delta_c"]


def test_lost_samples_are_dropouts_and_stay_out_of_the_curve() -> None:
    log = log_of(GOOD)
    values = log.channels[0].values.copy()
    values[[100, 140, 141, 200]] = np.nan
    found = findings_of(with_values(log, "chamber", values))
    assert [f.kind.value for f in found] == ["probe_dropout"]
    assert found[0].figures["count"] == 3


def test_spikes_are_counted_and_change_nothing_else() -> None:
    log = log_of(GOOD)
    values = log.channels[0].values.copy()
    values[[100, 140, 200, 260]] += 90.0
    found = findings_of(with_values(log, "chamber", values))
    assert [(f.kind.value, f.figures["count"]) for f in found] == [("probe_spike", 4)]


def test_a_step_that_stays_is_a_jump() -> None:
    log = log_of(GOOD)
    values = log.channels[0].values.copy()
    values[250:] -= 60.0
    assert "probe_jump" in kinds_of(with_values(log, "chamber", values))


def test_a_reading_that_never_moves_while_the_line_does_is_frozen() -> None:
    log = log_of(GOOD)
    values = log.channels[0].values.copy()
    values[200:300] = values[200]
    assert "probe_frozen" in kinds_of(with_values(log, "chamber", values))


def test_a_frozen_probe_is_found_beside_one_that_reads_nothing() -> None:
    log = sections_of(bottom=GOOD, middle=GOOD, top=GOOD)
    stuck = log.channels[0].values.copy()
    stuck[200:300] = stuck[200]
    stuck[300:320] = np.nan
    log = with_values(log, "bottom", stuck)
    log = with_values(log, "top", np.full(len(stuck), np.nan))
    assert the("probe_frozen", findings_of(log)).channel == "bottom"


def test_a_probe_that_ends_before_the_firing_is_dead() -> None:
    log = sections_of(bottom=GOOD, middle=GOOD, top=GOOD)
    values = log.channels[2].values.copy()
    values[200:] = np.nan
    found = the("probe_dead", findings_of(with_values(log, "top", values)))
    assert found.channel == "top"


def test_a_reading_that_sinks_below_its_start_falls_while_heating() -> None:
    falling = [(0, 25), (0.5, -40), (1.0, -140), (8, -140)]
    log = sections_of(bottom=GOOD, middle=GOOD, top=[*falling, (18.0, -100)])
    assert "probe_falls_while_heating" in kinds_of(log)


def test_regular_waves_in_a_hold_are_hunting() -> None:
    plan = schedule((200.0, 820.0, 120.0))
    hold = [(4 + t, 820 + 10 * float(np.sin(2 * np.pi * t / 0.2))) for t in np.arange(0, 2, 0.02)]
    corners = [(0, 20), *hold, *cooling(6.0, 820)]
    found = the("hunting", findings_of(log_of(corners, 0.5), plan))
    assert found.figures["period_min"] == pytest.approx(12.0, rel=0.25)


def test_a_room_log_is_no_firing_and_says_why() -> None:
    log = log_of([(0, 20), (5, 60), (10, 22)])
    found = find_not_a_firing(log, clean_channels(log, DEFAULTS), DEFAULTS)
    assert found is not None
    assert found.kind is FindingKind.NOT_A_FIRING
    assert found.figures["climb_delta_c"] == pytest.approx(40.0, abs=1.0)


def test_a_file_without_a_temperature_is_no_firing() -> None:
    log = FiringLog("x.csv", np.array([0.0, 1.0, 2.0]), ())
    assert find_not_a_firing(log, (), DEFAULTS) is not None


def test_sections_that_are_all_silent_for_a_while_are_not_apart() -> None:
    log = sections_of(top=GOOD, bottom=GOOD)
    for name in ("top", "bottom"):
        values = log.channels[0].values.copy()
        values[200:203] = np.nan
        log = with_values(log, name, values)
    assert "zone_gap" not in kinds_of(log)
