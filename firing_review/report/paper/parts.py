"""Parts that several pages share, each as blocks; empty where there is nothing to say."""

from collections import Counter
from collections.abc import Sequence

from firing_review.diagnosis.safety import SWITCH_OFF, in_danger
from firing_review.firing.results import CauseWeighed, Check, LoadWord, ShelfAdvice
from firing_review.firing.said import N_
from firing_review.firing.wording import listed, moment, tr
from firing_review.report.cause_text import (
    AFTER_SAFETY,
    NO_CAUTION,
    again_line,
    cause_name,
    check_lines,
    load_line,
    question_line,
    sign_text,
    together_text,
    who_text,
)
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
from firing_review.report.text import SEVERITY_WORDS, mark_text, note_lines
from firing_review.report.wording import (
    Show,
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
MOST_GAPS, MOST_NOTES = 5, 8
COMMON_CAUTION = 3
"""A caution that so many causes share is in the general one already."""
CAUTION = N_(
    "Local codes, the kiln's own instructions and licensed practice come first. Mains power "
    "kills: breaker off, plug out and kiln cold before any cover is opened; volts, amps and all "
    "live work are for a licensed electrician. Let a kiln cool shut; ventilate the room."
)
FOOT = N_("Firing Review reads a firing that is over. It gives advice only and controls nothing.")


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
        parts.append(moment(given.log.started_at))
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


def load(review: Review, show: Show) -> tuple[Heading | Points, ...]:
    """Return what to do with the pieces, from the top down; like shelves share a line."""
    groups: dict[LoadWord, list[ShelfAdvice]] = {}
    for advice in reversed(review.load_advice):
        groups.setdefault(advice.word, []).append(advice)
    points = []
    for first, *others in groups.values():
        text = load_line(first, show)
        if others:
            shelves = listed([shown(one.shelf, 24) for one in others])
            text += " " + tr("The same goes for {shelves}.").format(shelves=shelves)
        points.append(Point("□", text))
    if review.next_firing.refire is not None and not danger(review):
        points.append(Point("–", render_all(review.next_firing.refire.said, show)))
    if LoadWord.REFIRE in groups and review.given.answers.safety is None:
        points.append(Point("–", "", tr(AFTER_SAFETY)))
    return (Heading(tr("This load")), Points(tuple(points))) if points else ()


def again(review: Review, show: Show) -> tuple[Heading | Words, ...]:
    """Return whether the kiln may be fired again, and on what condition."""
    line = again_line(review, show)
    return (Heading(tr("May it be fired again?")), Words(line)) if line else ()


def likely(review: Review, most: int = MOST_CAUSES) -> list[CauseWeighed]:
    """Return the causes worth a line."""
    return [c for c in review.causes[:most] if c.probability >= SMALLEST_SHARE]


def cause_points(cause: CauseWeighed, review: Review, show: Show, most: int) -> list[Point]:
    """Return a cause with what speaks for and against it."""
    points = [Point("", together_text(cause, review, show), f"{cause_name(cause, show)}.")]
    points += [Point("+", sign_text(sign, show)) for sign in cause.signs_for[:most]]
    points += [Point("−", sign_text(sign, show)) for sign in cause.signs_against[:most]]
    return points


def causes(review: Review, show: Show, most: int = 3) -> tuple[Heading | Points, ...]:
    """Return the likely causes."""
    points = [
        point for cause in likely(review) for point in cause_points(cause, review, show, most)
    ]
    return (Heading(tr("Most likely behind it")), Points(tuple(points))) if points else ()


def check_point(check: Check, show: Show) -> Point:
    """Return a check; who may do it comes first."""
    who = who_text(check, show)
    text = " ".join([render(check.text, show), *check_lines(check, show)[1:]])
    return Point("□", text, f"{who[:1].upper()}{who[1:]}:")


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
    for one in plan.options[:most]:
        text = render_all((one.said, *one.notes), show)
        points.append(Point("–" if one.far_over else "□", text))
    if plan.restart is not None:
        points.append(Point("–", render_all(plan.restart.said, show), tr("Going on:")))
    return (Heading(tr("Next firing")), Points(tuple(points))) if points else ()


def gaps(review: Review, show: Show, most: int = MOST_GAPS) -> tuple[Heading | Points, ...]:
    """Return what is not known, and what it would settle."""
    points = [Point("□", question_line(q, show)) for q in review.questions[:most]]
    left = len(review.questions) - most
    if left > 0 and points:
        points.append(Point("", tr("and {count} more").format(count=left)))
    return (Heading(tr("Gaps in what is known")), Points(tuple(points))) if points else ()


def notes(review: Review, most: int = MOST_NOTES) -> tuple[Heading | Points, ...]:
    """Return the person's own notes by their time."""
    lines = note_lines(review)
    points = [Point("–", text, f"{when}:") for when, text in lines[:most]]
    if len(lines) > most:
        points.append(Point("", tr("and {count} more").format(count=len(lines) - most)))
    return (Heading(tr("Notes")), Points(tuple(points))) if points else ()


def pictures(*found: Picture | None) -> tuple[Picture, ...]:
    """Return the pictures there are."""
    return tuple(picture for picture in found if picture is not None)


def reading_line(review: Review) -> Words:
    """Return how the log was read."""
    log = review.given.log
    text = tr("Read from {source}: {rows} rows over {length}, {dropped} left out.").format(
        source=shown(log.source, 60),
        rows=log.rows,
        length=hours(log.hours),
        dropped=log.rows_dropped,
    )
    return Words(text, quiet=True)


def caution(review: Review, show: Show) -> Framed:
    """Return the caution every page carries, with those of the likely causes."""
    common = Counter(c.caution.text for c in review.causes if c.caution)
    named = [c.caution for c in likely(review) if c.caution and c.id not in NO_CAUTION]
    own = [said for said in named if common[said.text] < COMMON_CAUTION]
    more = dict.fromkeys(render(said, show) for said in own)
    return Framed(tr("Before anybody touches the kiln"), " ".join([tr(CAUTION), *more]))
