"""Segments as rows of text: asked, got, behind, cone, word."""

from collections.abc import Callable
from dataclasses import dataclass

from firing_review.firing.aligned import Stretch, StretchKind
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.segment_words import AS_ASKED, FOUND, segment_word
from firing_review.report.wording import Show

NUMBER, ASKED, GOT, BEHIND, CONE, WORD = range(6)
HEADINGS = (
    N_("Segment"),
    N_("Asked"),
    N_("Got"),
    N_("Behind by"),
    N_("Cone"),
    N_("In a word"),
)
KIND_WORDS = {
    StretchKind.CLIMB: N_("climb"),
    StretchKind.HOLD: N_("hold"),
    StretchKind.COOL: N_("cool"),
}


@dataclass(frozen=True)
class SegmentRow:
    """One segment as shown; ``plain`` tells that nothing is to be remarked."""

    cells: tuple[str, str, str, str, str, str]
    plain: bool
    start_h: float | None


def segment_rows(
    stretches: tuple[Stretch, ...], show: Show, cone_at: Callable[[float], str] = lambda _: ""
) -> list[SegmentRow]:
    """Return stretches as rows in the unit of the screen.

    ``cone_at`` names the cone brought down up to an hour of the log.
    """
    return [_row(stretch, show, cone_at) for stretch in stretches]


def _row(stretch: Stretch, show: Show, cone_at: Callable[[float], str]) -> SegmentRow:
    word = segment_word(stretch)
    cells = (
        f"{stretch.number} {tr(KIND_WORDS[stretch.kind])}",
        _asked(stretch, show),
        _got(stretch, show),
        _behind(stretch),
        cone_at(stretch.end_h) if stretch.end_h is not None else "",
        tr(word),
    )
    return SegmentRow(cells, word in (AS_ASKED, FOUND), stretch.start_h)


def _asked(stretch: Stretch, show: Show) -> str:
    target = stretch.planned_target_c
    if stretch.kind is StretchKind.HOLD:
        hold = stretch.planned_hold_min
        return "" if hold is None else wording.minutes(hold)
    if target is None:
        return ""
    goal = wording.temperature(target, show)
    if stretch.full_rate or stretch.planned_rate_c_per_h is None:
        return tr("full, to {target}").format(target=goal) if stretch.full_rate else goal
    rate = wording.rate(stretch.planned_rate_c_per_h, show)
    return tr("{rate}, to {target}").format(rate=rate, target=goal)


def _got(stretch: Stretch, show: Show) -> str:
    if stretch.start_h is None:
        return ""
    if stretch.kind is StretchKind.HOLD:
        return _got_hold(stretch, show)
    reached = stretch.reached_c
    if stretch.rate_c_per_h is None:
        return "" if reached is None else wording.temperature(reached, show)
    rate = wording.rate(abs(stretch.rate_c_per_h), show)
    if reached is None:
        return rate
    text = tr("{rate}, to {target}")
    return text.format(rate=rate, target=wording.temperature(reached, show))


def _got_hold(stretch: Stretch, show: Show) -> str:
    if stretch.hold_min is None:
        return ""
    text = wording.minutes(stretch.hold_min)
    if stretch.droop_c is not None and stretch.droop_c >= 1.0:
        droop = wording.difference(stretch.droop_c, show)
        text += ", " + tr("sank by {droop}").format(droop=droop)
    return text


def _behind(stretch: Stretch) -> str:
    if stretch.behind_min is None or abs(stretch.behind_min) < 1.0:
        return ""
    text = wording.minutes(abs(stretch.behind_min))
    return text if stretch.behind_min > 0 else tr("{time} sooner").format(time=text)
