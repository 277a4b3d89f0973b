"""Every number that decides whether something is a finding: unit, default, reason."""

from dataclasses import dataclass, field
from typing import Any


def threshold(default: float, unit: str, reason: str) -> Any:  # noqa: ANN401 - as dataclasses.field
    """Return a field that carries its unit and the reason for its default."""
    return field(default=default, metadata={"unit": unit, "reason": reason})


@dataclass(frozen=True)
class Thresholds:
    """Limits of the detectors. "Practice" in a reason means common practice, no source."""

    # Reading the curve
    rate_window_min: float = threshold(20.0, "min", "long against 1 °C steps at 60 °C/h")
    spike_c: float = threshold(
        12.0, "°C", "more than a kiln moves against its trend in a few minutes"
    )
    spike_times: float = threshold(
        8.0, "times", "of the reading's own restlessness, about 5 sigma"
    )
    spike_window_min: float = threshold(6.0, "min", "a spike is over within half of it")
    bridge_min: float = threshold(20.0, "min", "a kiln's curve is near straight over it")
    jump_c: float = threshold(
        25.0, "°C", "no kiln steps this far between two samples a minute apart"
    )
    jump_rate_c_per_h: float = threshold(
        1500.0, "°C/h", "beyond the steepest natural fall of about 650 °C/h"
    )
    frozen_min: float = threshold(40.0, "min", "a live reading moves within this time")

    # Is it a firing at all
    least_climb_c: float = threshold(100.0, "°C", "less is no firing of clay or glass")
    least_rows: float = threshold(3.0, "rows", "start, middle and end")
    start_climb_c: float = threshold(15.0, "°C", "above the room's own wandering")

    # Beside the schedule
    line_tolerance_c: float = threshold(8.0, "°C", "noise, probe lag and a control band together")
    reach_tolerance_c: float = threshold(5.0, "°C", "controllers call a target reached this near")
    behind_note_min: float = threshold(
        15.0, "min", "a healthy kiln may trail this long at a bend of the schedule"
    )
    behind_watch_min: float = threshold(30.0, "min", "practice: half an hour is noticed")
    behind_fault_min: float = threshold(120.0, "min", "two hours change the heat work of a load")
    lagging_min: float = threshold(
        25.0, "min", "clear of the quarter of an hour a healthy kiln may trail at a bend"
    )
    slow_share: float = threshold(0.85, "share of the asked rate", "below it cones notice")
    slow_fault_share: float = threshold(
        0.5, "share", "half the asked rate: power or load is wrong"
    )
    fast_share: float = threshold(1.25, "share of the asked rate", "above it ware may suffer")
    fast_above_line_c: float = threshold(15.0, "°C", "clear of overshoot at a bend")
    stall_rate_c_per_h: float = threshold(
        15.0, "°C/h", "the rate the stall table counts as a stall"
    )
    stall_min: float = threshold(30.0, "min", "longer than any lag of wall or probe")
    overshoot_c: float = threshold(8.0, "°C", "about a third of a cone at cone 6")
    overshoot_fault_c: float = threshold(25.0, "°C", "one cone at cone 6")
    short_c: float = threshold(8.0, "°C", "about a third of a cone at cone 6")
    short_fault_c: float = threshold(15.0, "°C", "over half a cone at cone 6")
    hold_difference_min: float = threshold(6.0, "min", "shorter cannot be told from the bend")
    hold_difference_share: float = threshold(0.25, "share of the asked hold", "practice")
    hold_fault_min: float = threshold(45.0, "min", "about one cone of heat work")
    differs_rate_share: float = threshold(0.12, "share", "typed rates are round; noise is 3 %")
    differs_top_c: float = threshold(6.0, "°C", "a typing error is rarely smaller")
    follow_c: float = threshold(3.5, "°C", "a controlled kiln lags its set point by less")
    typed_piece_min: float = threshold(25.0, "min", "shorter bends of a set point are waiting")
    straight_rms_c: float = threshold(4.0, "°C", "a controlled ramp is straight to this")

    # Power and cooling
    full_output_pct: float = threshold(98.0, "%", "controllers show 98 to 100 at full output")
    demand_pct: float = threshold(3.0, "%", "below it a relay hardly closes")
    gap_fall_c: float = threshold(12.0, "°C", "a fall no hold or control makes")
    gap_min: float = threshold(6.0, "min", "shorter cuts leave no mark on cones")
    opened_share: float = threshold(1.7, "share", "natural cooling only ever slows down")
    opened_window_min: float = threshold(8.0, "min", "an opened lid shows within minutes")
    cooling_skip_c: float = threshold(110.0, "°C", "the wall gives heat back at first")
    slow_cooling_share: float = threshold(0.45, "share", "of its own earlier cooling constant")
    warm_above_room_c: float = threshold(150.0, "°C", "below it room and load blur the law")
    undemanded_climb_c: float = threshold(10.0, "°C", "above noise and heat given back by walls")
    undemanded_min: float = threshold(15.0, "min", "longer than a relay's cycle")

    # Sections and probes
    section_gap_c: float = threshold(18.0, "°C", "practice: more than half a cone")
    section_gap_fault_c: float = threshold(40.0, "°C", "more than one cone at cone 6")
    section_gap_min: float = threshold(20.0, "min", "a lasting difference, no lag")
    section_gap_from_c: float = threshold(300.0, "°C", "below it sections differ by their load")
    hunting_c: float = threshold(5.0, "°C", "half a wave that a hold should not show")
    hunting_waves: float = threshold(4.0, "waves", "fewer may be chance")
    ends_hot_c: float = threshold(250.0, "°C", "cooling down to here matters for ware")
    late_start_h: float = threshold(0.75, "h", "a delayed start or a pre-heat")


DEFAULTS = Thresholds()
