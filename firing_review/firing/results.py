"""What a review says: heat work, shelves, heating elements, causes, the verdict."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from firing_review.firing.cones import ConeNumber
from firing_review.firing.said import Figure, Said
from firing_review.firing.schedule import Schedule
from firing_review.firing.units import Floats


class Light(StrEnum):
    """One glance at load, kiln or safety."""

    FINE = "fine"
    WATCH = "watch"
    STOP = "stop"
    UNKNOWN = "unknown"
    NOT_ASKED = "not_asked"


@dataclass(frozen=True)
class Lights:
    """The three marks at the top: each with its word."""

    load: Light = Light.UNKNOWN
    kiln: Light = Light.UNKNOWN
    safety: Light = Light.NOT_ASKED


@dataclass(frozen=True)
class Verdict:
    """The answer in one or two sentences, and the three marks with what each says."""

    sentences: tuple[Said, ...]
    lights: Lights
    load_word: Said
    kiln_word: Said
    safety_word: Said


@dataclass(frozen=True, eq=False)
class ChannelHeatWork:
    """Heat work of one logged curve.

    Attributes
    ----------
    cone_equivalent : float or None
        Rank on the cone scale with tenths between neighbours; None if no cone could move.
    label : str or None
        The same as text, such as ``5.4`` or ``below 022``.
    goal_fraction : float or None
        Work done as a share of what the goal cone needs to reach its end point.
    fraction_so_far : array or None
        The same along the log, shape (rows,).
    at_least : bool
        Whether the record is broken near its top, or its rows are far apart there, so that the
        heat work is a lower bound.
    rank_so_far : array or None
        Rank of the cone brought down up to each sample, shape (rows,); NaN before the coolest.
        Given for the firing's own reading only.
    """

    name: str
    cone_equivalent: float | None
    label: str | None
    goal_fraction: float | None
    fraction_so_far: Floats | None = None
    at_least: bool = False
    rank_so_far: Floats | None = None

    def rank_at(self, row: int) -> float | None:
        """Return the rank of the cone brought down up to a sample; None before the coolest."""
        if self.rank_so_far is None or not 0 <= row < len(self.rank_so_far):
            return None
        rank = float(self.rank_so_far[row])
        return None if math.isnan(rank) else rank


@dataclass(frozen=True)
class ShelfHeat:
    """How much hotter or colder than its logged curve a shelf was.

    Attributes
    ----------
    offset_c, low_c, high_c : float or None
        Median and 90 % range of the shift of the logged curve [°C]; + is hotter than logged.
    cone_equivalent : float or None
        Rank on the cone scale that the shelf got.
    word : str
        ``cold``, ``even`` or ``hot`` against the goal cone; empty if that cannot be told.
    figures : mapping
        A bound where there is only one: ``at_least_delta_c`` or ``at_most_delta_c`` [°C], and
        the same as a cone, ``at_least_cone`` or ``at_most_cone``, with its rank on the scale,
        ``at_least_rank`` or ``at_most_rank``.
    position : str
        Empty for the whole shelf.
    places : tuple of ShelfHeat
        The same for each position, where cones stand in several on this shelf.
    """

    shelf: str
    offset_c: float | None
    low_c: float | None
    high_c: float | None
    cone_equivalent: float | None
    label: str | None
    word: str
    notes: tuple[Said, ...] = ()
    figures: Mapping[str, Figure] = field(default_factory=dict)
    position: str = ""
    places: tuple["ShelfHeat", ...] = ()


@dataclass(frozen=True)
class SectionElements:
    """The heating elements of one section: share of rated power now, and how that is known.

    Attributes
    ----------
    by_curve : bool
        Whether the share is only the heat that came to the section's probe, against an earlier
        firing: sections heat each other, so a dead one shows less than the others, not none.
    """

    section: str
    power_ratio: float | None
    power_low: float | None
    power_high: float | None
    resistance_ratio: float | None = None
    notes: tuple[Said, ...] = ()
    by_curve: bool = False


@dataclass(frozen=True, eq=False)
class ClimbCurve:
    """How fast one firing climbed at each temperature.

    Attributes
    ----------
    temperature_c, full_climb_c_per_h, power_over_heat_c_per_h : array
        Temperatures [°C]; the climb as it would be at full output, and full power over heat
        capacity [°C/h]; NaN where the firing does not tell.
    """

    name: str
    temperature_c: Floats
    full_climb_c_per_h: Floats
    power_over_heat_c_per_h: Floats


@dataclass(frozen=True)
class ElementsJudged:
    """Power, extra load and heat loss against an earlier good firing.

    Ratios are 1 where nothing changed. ``basis`` says in words what the figures rest on.
    ``test_climb`` is what to fire once where the log cannot tell; None where it can.
    """

    power_ratio: float | None = None
    power_low: float | None = None
    power_high: float | None = None
    mass_ratio: float | None = None
    loss_ratio: float | None = None
    ceiling_c: float | None = None
    basis: tuple[Said, ...] = ()
    per_section: tuple[SectionElements, ...] = ()
    curves: tuple[ClimbCurve, ...] = ()
    figures: Mapping[str, Figure] = field(default_factory=dict)
    test_climb: Schedule | None = None


@dataclass(frozen=True)
class Check:
    """Something to look at or measure: who may do it, with what, how long, what it settles."""

    id: str
    text: Said
    who: str
    minutes: float
    settles: Said | None = None
    tool: Said | None = None


@dataclass(frozen=True)
class Sign:
    """One thing that speaks for or against a cause, and where it can be seen.

    Attributes
    ----------
    fact : str
        The question it answers.
    at_h : float or None
        Where in the log [h].
    place : str
        Shelf or section; empty for the whole kiln.
    """

    said: Said
    fact: str
    at_h: float | None = None
    place: str = ""


@dataclass(frozen=True)
class CauseWeighed:
    """One possible cause with its probability and what speaks for and against it.

    ``signs_for`` and ``signs_against`` are the same sentences with their places; ``what`` says in
    plain words what the cause is.
    """

    id: str
    name: Said
    probability: float
    speaks_for: tuple[Said, ...] = ()
    speaks_against: tuple[Said, ...] = ()
    not_looked_at: tuple[Said, ...] = ()
    next_check: Check | None = None
    fix: Said | None = None
    caution: Said | None = None
    together_with: str | None = None
    signs_for: tuple[Sign, ...] = ()
    signs_against: tuple[Sign, ...] = ()
    what: Said | None = None


@dataclass(frozen=True)
class Question:
    """Something the files do not say: what is asked, and what an answer would settle.

    Attributes
    ----------
    key : str
        Where the answer goes: a field of the answers or readings, or a file.
    choices : tuple of (value, Said)
        Answers to choose from; empty where a number, a text or a file is given.
    """

    key: str
    text: Said
    settles: Said
    choices: tuple[tuple[str | bool, Said], ...] = ()


class AgainWord(StrEnum):
    """Whether the kiln may be fired again."""

    YES = "yes"
    WITH_CARE = "with_care"
    NOT_YET = "not_yet"
    ASK = "ask"
    STOP = "stop"


@dataclass(frozen=True)
class FireAgain:
    """Whether the kiln may be fired again, and on what condition."""

    word: AgainWord
    said: Said


class LoadWord(StrEnum):
    """What to do with the pieces of a shelf."""

    KEEP = "keep"
    LOOK = "look"
    REFIRE = "refire"
    DISCARD = "discard"
    WAIT = "wait"


@dataclass(frozen=True)
class ShelfAdvice:
    """What to do with the pieces of one shelf, and why; an empty shelf is the whole load.

    ``got`` is the heat the shelf got, as a cone or a bound; None where nothing tells.
    """

    shelf: str
    word: LoadWord
    said: Said
    got: Said | None = None


@dataclass(frozen=True)
class PlanOption:
    """One way to bring the cold shelf to the goal cone, and what it does to every shelf.

    Attributes
    ----------
    extra_hold_min, top_c, last_rate_c_per_h : float or None
        What changes: minutes added to the hold at the top (negative: taken off), the new top
        [°C], the new rate over the last 100 °C [°C/h]; None is as before.
    shelf_cones : mapping
        Rank on the cone scale that each shelf would get; None where only a bound is known.
    shelf_ranges : mapping
        Its 90 % range; an open end is None.
    far_over : tuple of str
        Shelves that it would surely take so far over the goal that they may be spoiled.
    """

    id: str
    said: Said
    schedule: Schedule
    extra_hold_min: float | None
    top_c: float | None
    last_rate_c_per_h: float | None
    shelf_cones: Mapping[str, float | None] = field(default_factory=dict)
    notes: tuple[Said, ...] = ()
    shelf_ranges: Mapping[str, tuple[float | None, float | None]] = field(default_factory=dict)
    far_over: tuple[str, ...] = ()


@dataclass(frozen=True)
class SecondFiring:
    """A load that did not get its heat: what to do with it, and a schedule if one helps."""

    said: tuple[Said, ...]
    schedule: Schedule | None = None


@dataclass(frozen=True)
class NextFiring:
    """The plan for the next firing.

    Attributes
    ----------
    options : tuple of PlanOption
        Ways to change the schedule; empty where it may stay, or where no change helps.
    refire : SecondFiring or None
        For a load that was underfired.
    restart : SecondFiring or None
        For a firing that stopped before its top.
    """

    goal_cone: ConeNumber | None = None
    options: tuple[PlanOption, ...] = ()
    said: tuple[Said, ...] = ()
    refire: SecondFiring | None = None
    restart: SecondFiring | None = None
