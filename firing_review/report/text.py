"""A review as plain text for a terminal, a message or a binder."""

from firing_review.firing.results import Light, ShelfHeat
from firing_review.firing.said import N_, Said
from firing_review.firing.wording import moment, tr
from firing_review.report.axis_marks import clock_text
from firing_review.report.cause_text import (
    causes_text,
    likeliest_line,
    load_text,
    next_check_line,
    questions_text,
)
from firing_review.report.shown_text import shown
from firing_review.report.wording import (
    Show,
    cone_label,
    hours,
    offset_text,
    render,
    render_all,
    temperature,
)
from firing_review.review.review import Review

LIGHT_WORDS = {
    Light.FINE: N_("fine"),
    Light.WATCH: N_("watch"),
    Light.STOP: N_("stop"),
    Light.UNKNOWN: N_("cannot tell"),
    Light.NOT_ASKED: N_("not asked yet"),
}
SEVERITY_WORDS = {"note": N_("Note"), "watch": N_("Watch"), "fault": N_("Fault")}
MOST_CAUSES = 3
CAUTION = N_(
    "Mains power kills. Covers off, volts and amps: only a licensed electrician. "
    "Local codes and licensed practice come first."
)


def review_text(review: Review, show: Show = Show.CELSIUS) -> str:
    """Return the review as text: verdict, marks, load, findings, shelves, causes, questions."""
    parts = [
        _head(review),
        render_all(review.verdict.sentences, show),
        _marks(review, show),
        likeliest_line(review, show),
        next_check_line(review, show),
        load_text(review, show),
        _findings(review, show),
        _shelves(review, show),
        causes_text(review, show, MOST_CAUSES),
        questions_text(review, show),
        _next_firing(review, show),
        _notes(review),
        _reading(review, show),
        tr(CAUTION),
    ]
    return "\n\n".join(part for part in parts if part) + "\n"


def _head(review: Review) -> str:
    given = review.given
    title = shown(given.title or given.log.source)
    kiln = f" · {shown(given.kiln.name)}" if given.kiln and given.kiln.name else ""
    day = moment(given.log.started_at) if given.log.started_at else ""
    return f"{title}{kiln}{' · ' + day if day else ''}"


def _marks(review: Review, show: Show) -> str:
    verdict, lights = review.verdict, review.verdict.lights
    rows = (
        (tr("Safety"), lights.safety, verdict.safety_word),
        (tr("Load"), lights.load, verdict.load_word),
        (tr("Kiln"), lights.kiln, verdict.kiln_word),
    )
    return "\n".join(
        f"  {name + ':':8} {mark_text(light, word, show)}" for name, light, word in rows
    )


def mark_text(light: Light, word: Said, show: Show) -> str:
    """Return one mark in words, ``watch: underfired, by the log``."""
    short, long = tr(LIGHT_WORDS[light]), render(word, show)
    return long if short == long else f"{short}: {long}"


def _findings(review: Review, show: Show) -> str:
    if not review.findings:
        return tr("Nothing found in the curve.")
    lines = [tr("What was found")]
    for number, found in enumerate(review.findings, start=1):
        when = f"{hours(found.start_h)} – {hours(found.end_h)}"
        word = tr(SEVERITY_WORDS[found.severity])
        lines.append(f"  {number}. {word}, {when}: {render(found.summary, show)}")
    return "\n".join(lines)


def _shelves(review: Review, show: Show) -> str:
    if not review.shelves:
        return ""
    return "\n".join(
        [tr("Shelves"), *(f"  {shelf_text(s, show)}" for s in reversed(review.shelves))]
    )


SHELF_WORDS = {
    "cold": N_("cooler than meant"),
    "even": N_("as meant"),
    "hot": N_("hotter than meant"),
    "": N_("cannot tell"),
}


def shelf_text(shelf: ShelfHeat, show: Show) -> str:
    """Return a shelf in words: against the goal, the cone it got, and against its log."""
    cone = tr(", cone {cone}").format(cone=cone_label(shelf.label, show)) if shelf.label else ""
    notes = f" {render_all(shelf.notes, show)}" if shelf.notes else ""
    text = f"{shown(shelf.shelf)}: {tr(SHELF_WORDS[shelf.word])}{cone}."
    if shelf.offset_c is None or shelf.low_c is None or shelf.high_c is None:
        return text + notes
    offset = offset_text(shelf.offset_c, shelf.low_c, shelf.high_c, show)
    return text + " " + tr("Against its log: {offset}.").format(offset=offset) + notes


def _next_firing(review: Review, show: Show) -> str:
    plan = review.next_firing
    lines = [f"  {render(said, show)}" for said in plan.said]
    lines += [f"  – {render_all((o.said, *o.notes), show)}" for o in plan.options]
    if plan.restart is not None:
        lines.append(f"  {tr('The stopped firing')}: {render_all(plan.restart.said, show)}")
    return "\n".join([tr("Next firing"), *lines]) if lines else ""


def _notes(review: Review) -> str:
    """Return the person's own notes by their time."""
    lines = [f"  {when}: {text}" for when, text in note_lines(review)]
    return "\n".join([tr("Notes:"), *lines]) if lines else ""


def note_lines(review: Review) -> list[tuple[str, str]]:
    """Return the person's own notes, each with its time in hours and by the clock."""
    started = review.given.log.started_at
    lines = []
    for note in review.given.notes:
        moment_h = hours(note.at_h)
        when = f"{moment_h} ({clock_text(started, note.at_h)})" if started else moment_h
        lines.append((when, shown(note.text)))
    return lines


def _reading(review: Review, show: Show) -> str:
    """Return how the log was read, mends included."""
    log = review.given.log
    lines = [
        tr("Read from {source}: {rows} rows over {length}, {dropped} left out.").format(
            source=shown(log.source),
            rows=log.rows,
            length=hours(log.hours),
            dropped=log.rows_dropped,
        )
    ]
    if review.firing:
        lines.append(
            tr("Highest reading {peak} after {when}.").format(
                peak=temperature(review.firing.peak_c, show), when=hours(review.firing.peak_h)
            )
        )
    lines += [f"  {render(note.said, show)}" for note in log.notes]
    return "\n".join(lines)
