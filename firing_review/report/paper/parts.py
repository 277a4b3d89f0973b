"""Parts that several pages share, each as blocks; empty where there is nothing to say."""

from collections.abc import Sequence

from firing_review.diagnosis.safety import SWITCH_OFF, in_danger
from firing_review.firing.results import CauseWeighed, Check, LoadWord, ShelfAdvice
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.report.paper.page import (
    Block,
    Framed,
    Heading,
    Mark,
    Marks,
    Page,
    Picture,
    Point,
    Points,
    Words,
)
from firing_review.report.shown_text import LONGEST_NAME, shown
from firing_review.report.text import SEVERITY_WORDS, mark_text
from firing_review.report.wording import (
    Show,
    chance,
    cone_name,
    hours,
    render,
    render_all,
    temperature,
)
from firing_review.review.review import Review

MOST_FINDINGS = 5
MOST_CAUSES = 2
SMALLEST_SHARE = 0.05
"""Causes below this share are not worth a line on a page."""
MOST_GAPS = 5
CAUTION = N_(
    "Local codes, the kiln's own instructions and licensed practice come first. Mains power "
    "kills: breaker off, plug out and kiln cold before any cover is opened; volts, amps and all "
    "live work are for a licensed electrician. Let a kiln cool shut; ventilate the room."
)
FOOT = N_("Firing Review reads a firing that is over. It gives advice only and controls nothing.")
WHO_WORDS = {
    "look only": N_("look only"),
    "cold and unplugged": N_("cold and unplugged"),
    "electrician": N_("electrician"),
}


def page_of(review: Review, kind: str, blocks: Sequence[Block], show: Show) -> Page:
    """Return a page with the head that every page of a firing has."""
    given = review.given
    title = shown(given.title or given.log.source, LONGEST_NAME)
    return Page(kind, title, _under(review, show), tuple(blocks), tr(FOOT))


def _under(review: Review, show: Show) -> str:
    """Return kiln, day, cone meant and highest reading in one line."""
    given = review.given
    parts = []
    if given.kiln is not None and given.kiln.name:
        parts.append(tr("kiln {name}").format(name=shown(given.kiln.name, LONGEST_NAME // 2)))
    if given.log.started_at is not None:
        parts.append(f"{given.log.started_at:%Y-%m-%d %H:%M}")
    if given.goal_cone is not None:
        parts.append(tr("meant: {cone}").format(cone=cone_name(given.goal_cone, show)))
    if review.firing is not None:
        peak = temperature(review.firing.peak_c, show)
        parts.append(tr("highest reading {peak}").format(peak=peak))
    return " · ".join(parts)


def danger(review: Review) -> tuple[Framed, ...]:
    """Return what stands first where there is a sign of danger."""
    if not in_danger(review.given.answers, review.findings):
        return ()
    return (Framed(tr("Stop"), render(SWITCH_OFF)),)


def verdict(review: Review, show: Show) -> tuple[Words | Marks, ...]:
    """Return the answer and the three marks."""
    said, lights = review.verdict, review.verdict.lights
    marks = (
        (tr("Safety"), lights.safety, said.safety_word),
        (tr("Load"), lights.load, said.load_word),
        (tr("Kiln"), lights.kiln, said.kiln_word),
    )
    return (
        Words(render_all(said.sentences, show), strong=True),
        Marks(tuple(Mark(name, light, mark_text(light, w, show)) for name, light, w in marks)),
    )


def findings(
    review: Review, show: Show, most: int = MOST_FINDINGS
) -> tuple[Heading | Points, ...]:
    """Return the findings with the numbers they have in the chart."""
    points = []
    for number, found in enumerate(review.findings[:most], start=1):
        word = tr(SEVERITY_WORDS[found.severity])
        points.append(Point(str(number), render(found.summary, show), f"{word}:"))
    left = len(review.findings) - most
    if left > 0:
        points.append(Point("", tr("and {count} more, of less weight").format(count=left)))
    if not points:
        return ()
    return Heading(tr("What was found")), Points(tuple(points))


def load(review: Review, show: Show, *, brief: bool = False) -> tuple[Heading | Points, ...]:
    """Return what to do with the pieces, from the top down; if brief, once for like shelves."""
    groups: dict[LoadWord | str, list[ShelfAdvice]] = {}
    for advice in reversed(review.load_advice):
        groups.setdefault(advice.word if brief else advice.shelf, []).append(advice)
    points = []
    for first, *others in groups.values():
        text = render(first.said, show)
        if others:
            shelves = ", ".join(shown(one.shelf, 24) for one in others)
            text += " " + tr("The same goes for {shelves}.").format(shelves=shelves)
        points.append(Point("□", text))
    return (Heading(tr("This load")), Points(tuple(points))) if points else ()


def likely(review: Review, most: int = MOST_CAUSES) -> list[CauseWeighed]:
    """Return the causes worth a line."""
    return [c for c in review.causes[:most] if c.probability >= SMALLEST_SHARE]


def cause_points(cause: CauseWeighed, show: Show, most: int = 3) -> list[Point]:
    """Return a cause with what speaks for and against it."""
    points = [Point("", chance(cause.probability), f"{render(cause.name, show)}:")]
    points += [Point("+", render(said, show)) for said in cause.speaks_for[:most]]
    points += [Point("−", render(said, show)) for said in cause.speaks_against[:most]]
    return points


def causes(review: Review, show: Show, most: int = 3) -> tuple[Heading | Points, ...]:
    """Return the likely causes."""
    points = [point for cause in likely(review) for point in cause_points(cause, show, most)]
    return (Heading(tr("Most likely behind it")), Points(tuple(points))) if points else ()


def check_point(check: Check, show: Show) -> Point:
    """Return a check; who may do it comes first."""
    who = tr(WHO_WORDS.get(check.who, check.who))
    head = tr("{who}, about {time} min").format(who=who.capitalize(), time=round(check.minutes))
    text = render(check.text, show)
    if check.settles is not None:
        text += " " + render(check.settles, show)
    return Point("□", text, f"{head}:")


def next_check(review: Review, show: Show) -> tuple[Heading | Points, ...]:
    """Return the one check that would tell most, else that of the likeliest cause."""
    checks = [c.next_check for c in likely(review) if c.next_check is not None]
    check = review.next_check or next(iter(checks), None)
    if check is None:
        return ()
    return Heading(tr("The next check")), Points((check_point(check, show),))


def next_firing(review: Review, show: Show, most: int = 9) -> tuple[Heading | Points, ...]:
    """Return the plan of the next firing; in danger there is none."""
    if in_danger(review.given.answers, review.findings):
        return ()
    plan = review.next_firing
    points = [Point("–", render_all(plan.said, show))] if plan.said else []
    points += [Point("□", render_all((o.said, *o.notes), show)) for o in plan.options[:most]]
    for head, second in ((tr("This load:"), plan.refire), (tr("Going on:"), plan.restart)):
        if second is not None:
            points.append(Point("–", render_all(second.said, show), head))
    return (Heading(tr("Next firing")), Points(tuple(points))) if points else ()


def gaps(review: Review, show: Show, most: int = MOST_GAPS) -> tuple[Heading | Points, ...]:
    """Return what is not known, and what it would settle."""
    points = [Point("□", render(q.text, show)) for q in review.questions[:most]]
    left = len(review.questions) - most
    if left > 0 and points:
        points.append(Point("", tr("and {count} more questions").format(count=left)))
    return (Heading(tr("Gaps in what is known")), Points(tuple(points))) if points else ()


def pictures(*found: Picture | None) -> tuple[Picture, ...]:
    """Return the pictures there are."""
    return tuple(picture for picture in found if picture is not None)


def reading_line(review: Review) -> Words:
    """Return how the log was read."""
    log = review.given.log
    text = tr("Read from {source}: {rows} rows over {length}, {dropped} rows left out.").format(
        source=shown(log.source, 60),
        rows=log.rows,
        length=hours(log.hours),
        dropped=log.rows_dropped,
    )
    return Words(text, quiet=True)


def caution() -> Framed:
    """Return the caution every page carries."""
    return Framed(tr("Before anybody touches the kiln"), tr(CAUTION))
