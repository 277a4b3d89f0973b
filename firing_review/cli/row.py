"""One firing of many as a row of the summary."""

from dataclasses import dataclass

from firing_review.cli.inputs import Input
from firing_review.firing.findings import Severity
from firing_review.firing.wording import tr
from firing_review.report.shown_text import LONGEST_NAME, shown
from firing_review.report.text import LIGHT_WORDS
from firing_review.report.wording import Show, chance, cone_label, cone_name, render, render_all
from firing_review.review.review import Review


@dataclass(frozen=True)
class Row:
    """What the summary says of one firing; the texts are in the reader's language and unit.

    Attributes
    ----------
    result : str
        Name of its files among the results, without ending.
    error : str
        Why it could not be reviewed; empty if it was.
    peak_c, hours : float or None
        Highest reading [°C] and length of the record [h].
    text : str
        The whole review as text, where there is but one; not part of the table.
    """

    file: str
    result: str
    error: str = ""
    title: str = ""
    kiln: str = ""
    started_at: str = ""
    hours: float | None = None
    peak_c: float | None = None
    goal_cone: str = ""
    cone_equivalent: str = ""
    safety: str = ""
    load: str = ""
    kiln_state: str = ""
    verdict: str = ""
    faults: int | None = None
    watches: int | None = None
    cause: str = ""
    cause_share: str = ""
    next_check: str = ""
    text: str = ""


def refused_row(one: Input, error: str) -> Row:
    """Return the row of a firing that could not be reviewed."""
    return Row(file=shown(one.name), result="", error=error)


def row_of(one: Input, review: Review, show: Show) -> Row:
    """Return the row of a review."""
    given, lights = review.given, review.verdict.lights
    cause = review.causes[0] if review.causes else None
    heat = review.heat_work[0].label if review.heat_work else None
    count = [f.severity for f in review.findings].count
    return Row(
        file=shown(one.name),
        result=one.result,
        title=shown(given.title or given.log.source, LONGEST_NAME),
        kiln=shown(given.kiln.name, LONGEST_NAME) if given.kiln else "",
        started_at=f"{given.log.started_at:%Y-%m-%d %H:%M}" if given.log.started_at else "",
        hours=round(given.log.hours, 2),
        peak_c=round(review.firing.peak_c, 1) if review.firing else None,
        goal_cone=cone_name(given.goal_cone, show) if given.goal_cone else "",
        cone_equivalent=tr("cone {number}").format(number=cone_label(heat, show)) if heat else "",
        safety=tr(LIGHT_WORDS[lights.safety]),
        load=tr(LIGHT_WORDS[lights.load]),
        kiln_state=tr(LIGHT_WORDS[lights.kiln]),
        verdict=render_all(review.verdict.sentences, show),
        faults=count(Severity.FAULT),
        watches=count(Severity.WATCH),
        cause=render(cause.name, show) if cause else "",
        cause_share=chance(cause.probability) if cause else "",
        next_check=render(review.next_check.text, show) if review.next_check else "",
    )
