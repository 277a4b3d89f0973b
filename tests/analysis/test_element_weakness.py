"""The judgment of heating elements, put together: curve, meter, holds, margin, energy, wear."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from firings import GOOD, TO_1000, firing_of, log_of

from firing_review.analysis.element_weakness import cone_end_c, judge_elements
from firing_review.analysis.element_wear import wear_hours
from firing_review.analysis.firing_energy import energy_used
from firing_review.analysis.hold_output import HoldOutput, compare_holds
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber
from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.results import ElementsJudged
from firing_review.firing.sheet import Readings
from firing_review.io.physical_tables import load_wire
from firing_review.io.resource_path import demo_logs
from firing_review.io.sheets import read_firing_sheet
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

KILN = Kiln(volume_l=100.0, rated_kw=8.0, rated_volts=240.0, tariff_per_kwh=0.25)


def with_channel(log: FiringLog, name: str, role: ChannelRole, value: float) -> FiringLog:
    channel = Channel(name, role, np.full(log.rows, value))
    return replace(log, channels=(*log.channels, channel))


def half_output() -> AlignedFiring:
    log = log_of([(0.0, 20.0), (4.0, 900.0), (5.0, 900.0), (8.0, 400.0)])
    return firing_of(with_channel(log, "output", ChannelRole.OUTPUT, 50.0), TO_1000)


@cache
def demo(start: str) -> ElementsJudged:
    folder: Path = next(demo_logs().glob(f"{start}*"))
    return review_firing(read_firing_sheet(folder / "firing.toml"), load_tables()).elements


def texts(judged: ElementsJudged) -> str:
    return " ".join(said.text for said in judged.basis)


@pytest.mark.parametrize(
    ("start", "power", "off"),
    [
        ("1_", 1.0, 0.03),
        # (0.80, 0.84, 0.81) of 4.15, 3.3, 4.15 kW
        ("2_", 0.815, 0.03),
        # 2.55 of 7.05 kW are gone
        ("3_", 1.0 - 2.55 / 7.05, 0.06),
        # (212 / 240)²
        ("4_", 0.780, 0.03),
    ],
)
def test_what_was_planted_in_a_demo_kiln_is_found(start: str, power: float, off: float) -> None:
    judged = demo(start)
    assert judged.power_ratio == pytest.approx(power, abs=off)
    assert judged.power_low <= power <= judged.power_high


def test_worn_heating_elements_and_low_supply_part_by_the_meter() -> None:
    worn, low = demo("2_").figures, demo("4_").figures
    assert worn["resistance_share_ratio"] == pytest.approx(0.81, abs=0.02)
    assert worn["supply_share_ratio"] > 0.97
    assert low["resistance_share_ratio"] == pytest.approx(1.0, abs=0.02)
    assert low["supply_share_ratio"] == pytest.approx(0.780, abs=0.001)


def test_curve_and_meter_of_the_demo_kilns_agree() -> None:
    assert "do not agree" not in texts(demo("2_")) + texts(demo("4_"))


def test_a_meter_that_contradicts_the_curve_is_named() -> None:
    # the curve has only 81 % of the power, the meter all of it
    sheet = read_firing_sheet(next(demo_logs().glob("2_*")) / "firing.toml")
    sound = {s.name: float(s.rated_cold_ohms or 0.0) for s in sheet.kiln.sections}
    given = replace(sheet, readings=Readings(241.0, 240.0, {}, sound))
    assert "do not agree" in texts(review_firing(given, load_tables()).elements)


def test_readings_alone_give_power_where_the_curve_cannot() -> None:
    kiln = replace(KILN, sections=(Section("all", rated_kw=8.0, rated_cold_ohms=7.0),))
    judged = judge_elements(
        firing_of(log_of(GOOD)), (), kiln, Readings(None, 240.0, {}, {"all": 7.7})
    )
    assert judged.power_ratio == pytest.approx(1 / 1.1)
    assert judged.figures["power_from"] == "readings"
    assert judged.per_section[0].resistance_ratio == pytest.approx(1.1)


def test_without_an_earlier_firing_the_kiln_sheet_gives_a_wide_range() -> None:
    sheet = read_firing_sheet(next(demo_logs().glob("1_*")) / "firing.toml")
    judged = review_firing(replace(sheet, earlier=()), load_tables()).elements
    assert judged.figures["power_from"] == "sheet"
    assert judged.power_low < 1.0 < judged.power_high
    assert judged.power_high / judged.power_low > 2.0
    assert judged.mass_ratio is None


def test_with_nothing_known_it_cannot_tell_and_says_what_to_log() -> None:
    judged = judge_elements(firing_of(log_of(GOOD)), (), None, Readings())
    assert judged.power_ratio is None
    assert "log the output" in texts(judged)
    assert judged.test_climb is not None


@pytest.mark.parametrize(
    ("over_c", "says"), [(-40.0, "would not reach the goal cone"), (30.0, "lie between")]
)
def test_a_ceiling_near_the_goal_cone_is_said(over_c: float, says: str) -> None:
    firing = review_firing(
        read_firing_sheet(next(demo_logs().glob("2_*")) / "firing.toml"), load_tables()
    ).firing
    ceiling_c = demo("2_").ceiling_c
    judged = judge_elements(firing, (), None, Readings(), ceiling_c - over_c)
    assert judged.figures["margin_delta_c"] == pytest.approx(over_c)
    assert says in texts(judged)


def test_the_end_point_of_the_goal_cone() -> None:
    chart = load_tables().cones
    assert cone_end_c(ConeNumber("6"), chart) == pytest.approx(1222.0, abs=3.0)
    assert cone_end_c(None, chart) is None


def test_energy_is_output_times_rated_power() -> None:
    # 50 % of 8 kW over 8 h
    used = energy_used(half_output(), KILN, Readings(), (1.0, 0.95, 1.05))
    assert used.kwh == pytest.approx(32.0, rel=0.01)
    assert used.low_kwh < 30.0
    assert used.high_kwh > 34.0
    assert used.cost == pytest.approx(8.0, rel=0.01)


def test_energy_follows_the_power_that_is_left() -> None:
    used = energy_used(half_output(), KILN, Readings(), (0.8, 0.75, 0.85))
    assert used.kwh == pytest.approx(25.6, rel=0.01)


def test_energy_by_current_goes_before_energy_by_output() -> None:
    log = with_channel(
        log_of([(0.0, 20.0), (5.0, 900.0), (8.0, 400.0)]), "A", ChannelRole.AMPS, 20.0
    )
    kiln = replace(KILN, supply=Supply.SINGLE_PHASE)
    used = energy_used(firing_of(log), kiln, Readings(volts_full_load=230.0))
    assert used.kwh == pytest.approx(230.0 * 20.0 * 8.0 / 1000.0, rel=0.01)


def test_without_output_and_current_there_is_no_energy() -> None:
    assert energy_used(firing_of(log_of(GOOD)), KILN, Readings()) is None
    assert energy_used(half_output(), None, Readings()) is None


def test_a_hole_in_the_log_is_no_energy() -> None:
    whole = half_output()
    keep = (whole.log.elapsed_h < 2.0) | (whole.log.elapsed_h > 4.0)
    channels = tuple(replace(c, values=c.values[keep]) for c in whole.log.channels)
    holed = replace(whole.log, elapsed_h=whole.log.elapsed_h[keep], channels=channels)
    used = energy_used(firing_of(holed, TO_1000), KILN, Readings(), (1.0, 1.0, 1.0))
    assert used.kwh == pytest.approx(0.5 * 8.0 * 6.0, rel=0.02)


def test_an_hour_at_1200_is_one_wear_hour_and_50_degrees_less_half_of_it() -> None:
    hours = np.array([0.0, 1.0])
    assert wear_hours(hours, np.array([1200.0, 1200.0])) == pytest.approx(1.0)
    assert wear_hours(hours, np.array([1150.0, 1150.0])) == pytest.approx(0.5)
    assert wear_hours(hours, np.array([1000.0, np.nan])) == 0.0


def test_a_firing_to_cone_6_wears_far_more_than_one_to_cone_04() -> None:
    assert demo("1_").figures["wear_h"] > 5.0 * demo("7_").figures["wear_h"]


def test_only_like_holds_are_compared() -> None:
    now = (HoldOutput(1210.0, 10.0, 0.8), HoldOutput(650.0, 60.0, 0.3))
    same = (HoldOutput(1205.0, 12.0, 0.6),)
    longer = (HoldOutput(1205.0, 40.0, 0.5),)
    assert compare_holds(now, same) == (now[0], same[0])
    assert compare_holds(now, longer) is None
    assert compare_holds(now, (HoldOutput(1100.0, 10.0, 0.5),)) is None


def test_alloy_of_the_sheet_narrows_the_amps_it_expects() -> None:
    known = Section("all", rated_cold_ohms=7.0, alloy="FeCrAl 22Cr-5.8Al")
    kiln = replace(KILN, sections=(known,))
    readings = Readings(None, 240.0, {"all": 38.5}, {"all": 7.0})
    with_wire = judge_elements(half_output(), (), kiln, readings, None, load_wire())
    without = judge_elements(half_output(), (), kiln, readings)
    notes = [j.per_section[0].notes for j in (with_wire, without)]
    # 240 / (7.0 · 1.05) = 32.6 to 34.6 A with the alloy known: 38.5 A are over ten percent more
    assert any("Contradiction" in n.text for n in notes[0])
