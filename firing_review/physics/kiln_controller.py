"""A controller that follows a schedule: a set point that may wait, and a demand for power."""

from dataclasses import dataclass

from firing_review.firing.schedule import Schedule


@dataclass(frozen=True)
class ControlSettings:
    """How a controller behaves; all of it common practice, no source.

    Attributes
    ----------
    waits : bool
        Whether the set point stands still while the kiln is behind, and a hold begins only
        when its temperature is reached.
    wait_band_c : float
        How far behind the kiln may be before the set point waits [°C].
    reach_band_c : float
        How near a target counts as reached [°C].
    full_at_c : float
        Distance below the set point that alone asks for full output [°C].
    reset_min : float
        Time in which a lasting distance doubles the demand [min].
    """

    waits: bool = True
    wait_band_c: float = 12.0
    reach_band_c: float = 1.5
    full_at_c: float = 25.0
    reset_min: float = 8.0


class ScheduleFollower:
    """The state of a controller while a firing runs; used by the simulation only."""

    def __init__(self, schedule: Schedule, settings: ControlSettings, start_c: float) -> None:
        self._segments = schedule.segments
        self._settings = settings
        self._number = 0
        self._holding = False
        self._held_h = 0.0
        self._sum = 0.0
        self.set_point_c = start_c

    @property
    def done(self) -> bool:
        """Whether the schedule has run to its end."""
        return self._number >= len(self._segments)

    def resume_from(self, reading_c: float) -> None:
        """Go on after a power cut from where the kiln now is, in the same segment."""
        self.set_point_c = reading_c
        self._sum = 0.0

    def stop(self) -> float:
        """End the schedule at once and ask for nothing."""
        self._number = len(self._segments)
        return 0.0

    def demand(self, reading_c: float, step_h: float) -> float:
        """Return the share of full output asked for, 0 to 1, and move the set point on."""
        if self.done:
            return 0.0
        self._move(reading_c, step_h)
        if self.done:
            return 0.0
        error = (self.set_point_c - reading_c) / self._settings.full_at_c
        asked = error + self._sum
        if 0.0 < asked < 1.0 or (asked >= 1.0) == (error < 0.0):
            self._sum += error * step_h * 60.0 / self._settings.reset_min
        self._sum = min(max(self._sum, 0.0), 1.0)
        return min(max(asked, 0.0), 1.0)

    def _move(self, reading_c: float, step_h: float) -> None:
        segment = self._segments[self._number]
        if self._holding:
            self._held_h += step_h
            if self._held_h >= segment.hold_min / 60.0:
                self._number, self._holding, self._held_h = self._number + 1, False, 0.0
            return
        rising = segment.target_c >= self.set_point_c
        behind_c = (self.set_point_c - reading_c) * (1.0 if rising else -1.0)
        if self.set_point_c != segment.target_c:
            if not (self._settings.waits and behind_c > self._settings.wait_band_c):
                self._ramp(step_h)
        elif not self._settings.waits or behind_c <= self._settings.reach_band_c:
            self._holding = True

    def _ramp(self, step_h: float) -> None:
        segment = self._segments[self._number]
        if segment.rate_c_per_h is None:
            self.set_point_c = segment.target_c
            return
        step_c = abs(segment.rate_c_per_h) * step_h
        gap_c = segment.target_c - self.set_point_c
        self.set_point_c += min(max(gap_c, -step_c), step_c)
