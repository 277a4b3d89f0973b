"""What is written at the highest reading."""

from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.review.review import Review

CONES_APART = 0.3
"""Sections further apart than this [cones] share no one number of heat work."""


def peak_texts(review: Review, show: wording.Show) -> tuple[str, ...]:
    """Return the highest reading with the cone it came to, where one stands for all, then bare."""
    if review.firing is None:
        return ()
    text = wording.temperature(review.firing.peak_c, show)
    if len(review.given.log.temperatures) > 1:
        text = tr("mean {temperature}").format(temperature=text)
    cone = _cone_came_to(review)
    if not cone:
        return (text,)
    at_least = any(work.at_least for work in review.heat_work)
    return (f"{text}, {wording.heat_work_of(cone, show, at_least=at_least)}", text)


def _cone_came_to(review: Review) -> str:
    came = sorted(
        (work.cone_equivalent, work.label)
        for work in review.heat_work
        if work.cone_equivalent is not None and work.label
    )
    if not came or came[-1][0] - came[0][0] > CONES_APART:
        return ""
    return came[len(came) // 2][1]
