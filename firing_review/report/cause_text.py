"""Load, next firing, causes and open questions as text: the same words on screen and on paper."""

from collections.abc import Sequence

from firing_review.firing.results import (
    AgainWord,
    CauseWeighed,
    Check,
    LoadWord,
    Question,
    ShelfAdvice,
    Sign,
)
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.report.shown_text import shown
from firing_review.report.wording import Show, chance, hours, minutes, render, render_all
from firing_review.review.review import Review

LIKELY_WORDS = (
    (0.8, N_("very likely")),
    (0.5, N_("likely")),
    (0.15, N_("possible")),
    (0.0, N_("unlikely")),
)
"""Words for probabilities, from the top."""
LOAD_WORDS = {
    LoadWord.KEEP: N_("keep"),
    LoadWord.LOOK: N_("look at each piece"),
    LoadWord.REFIRE: N_("refire"),
    LoadWord.DISCARD: N_("discard what is spoiled"),
    LoadWord.WAIT: N_("leave it for now"),
}
AGAIN_WORDS = {
    AgainWord.YES: N_("yes"),
    AgainWord.WITH_CARE: N_("yes, with care"),
    AgainWord.NOT_YET: N_("not yet"),
    AgainWord.ASK: N_("cannot tell yet"),
    AgainWord.STOP: N_("no"),
}
AFTER_SAFETY = N_("Refire only after the question about safety is answered.")
SHOWN_FROM = 0.03
"""A cause less probable than this is not worth its lines."""
NAMED_FROM = 0.5
"""From here on a cause is named beside the verdict; below, only among others."""
NO_CAUTION = frozenset({"none", "other"})
"""Causes whose caution says nothing about themselves."""


def likely_word(probability: float) -> str:
    """Return the fixed word for a probability."""
    return next(tr(word) for least, word in LIKELY_WORDS if probability >= least)


def cause_name(cause: CauseWeighed, show: Show) -> str:
    """Return a cause with how probable it is, as word and number."""
    share = chance(cause.probability)
    return f"{render(cause.name, show)}: {likely_word(cause.probability)}, {share}"


def likeliest(review: Review) -> CauseWeighed | None:
    """Return the cause to be named beside the verdict, if one is more likely than not."""
    named = [c for c in review.causes[:1] if c.id not in NO_CAUTION]
    return next((c for c in named if c.probability >= NAMED_FROM), None)


def likeliest_line(review: Review, show: Show) -> str:
    """Return the cause that is more likely than not, or nothing."""
    cause = likeliest(review)
    return (
        "" if cause is None else tr("Most likely: {cause}").format(cause=cause_name(cause, show))
    )


def together_text(cause: CauseWeighed, review: Review, show: Show) -> str:
    """Return that a second cause may be at work, or nothing."""
    names = {c.id: render(c.name, show) for c in review.causes}
    other = names.get(cause.together_with or "")
    return tr("Perhaps together with: {other}.").format(other=other) if other else ""


def sign_text(sign: Sign, show: Show) -> str:
    """Return one thing that was seen, with when it was."""
    text = render(sign.said, show)
    if sign.at_h is None or sign.at_h <= 0.0:
        return text
    return f"{hours(sign.at_h)}: {text}"


def who_text(check: Check, show: Show) -> str:
    """Return who may do a check, how long it takes and with what."""
    parts = [tr(check.who), tr("about {time}").format(time=minutes(check.minutes))]
    tool = render(check.tool, show) if check.tool is not None else ""
    if tool and tool != tr("none"):
        parts.append(tool)
    return ", ".join(parts)


def check_lines(check: Check, show: Show) -> list[str]:
    """Return a check: who may do it first, then what to do, then what each answer means."""
    lines = [f"{who_text(check, show)}: {render(check.text, show)}"]
    if check.settles is not None:
        lines.append(render(check.settles, show))
    return lines


def next_check_line(review: Review, show: Show) -> str:
    """Return the one next check, or nothing."""
    if review.next_check is None:
        return ""
    return tr("Next check: {check}").format(check=check_lines(review.next_check, show)[0])


def cause_lines(cause: CauseWeighed, review: Review, show: Show) -> list[str]:
    """Return one cause in lines; the caution comes with it."""
    lines = [f"  {cause_name(cause, show)}"]
    body = [render(cause.what, show)] if cause.what is not None else []
    body += [t for t in (together_text(cause, review, show),) if t]
    body += [f"+ {sign_text(s, show)}" for s in cause.signs_for]
    body += [f"− {sign_text(s, show)}" for s in cause.signs_against]
    body += [f"? {render(said, show)}" for said in cause.not_looked_at[:3]]
    if cause.next_check is not None:
        body += [f"→ {line}" for line in check_lines(cause.next_check, show)]
    if cause.fix is not None:
        body.append(tr("Then: {fix}").format(fix=render(cause.fix, show)))
    if cause.caution is not None and cause.id not in NO_CAUTION:
        body.append(tr("Caution: {caution}").format(caution=render(cause.caution, show)))
    return [*lines, *(f"    {line}" for line in body)]


def causes_text(review: Review, show: Show, most: int) -> str:
    """Return the most probable causes, the signs explained in the first line."""
    worth = [c for c in review.causes if c.probability >= SHOWN_FROM][:most]
    if not worth:
        return ""
    head = tr("Most likely causes (+ for, − against, ? not looked at, → check)")
    return "\n".join([head, *(line for c in worth for line in cause_lines(c, review, show))])


def load_line(advice: ShelfAdvice, show: Show) -> str:
    """Return what to do with the pieces of one shelf, and why."""
    return _load_line((advice,), show)


def load_lines(review: Review, show: Show) -> list[str]:
    """Return what to do with the load, from the top shelf down; like shelves share a line."""
    groups: dict[tuple[LoadWord, str], list[ShelfAdvice]] = {}
    for advice in reversed(review.load_advice):
        groups.setdefault((advice.word, render(advice.said, show)), []).append(advice)
    lines = [_load_line(group, show) for group in groups.values()]
    if review.next_firing.refire is not None:
        lines.append(render_all(review.next_firing.refire.said, show))
    refires = any(a.word is LoadWord.REFIRE for a in review.load_advice)
    if refires and review.given.answers.safety is None:
        lines.append(tr(AFTER_SAFETY))
    return lines


def _load_line(group: Sequence[ShelfAdvice], show: Show) -> str:
    word, said = group[0].word, render(group[0].said, show)
    shelves = "; ".join(_shelf_and_got(one, show) for one in group)
    return f"{_begin(tr(LOAD_WORDS[word]))}{': ' if shelves else ''}{shelves}. {said}"


def _shelf_and_got(advice: ShelfAdvice, show: Show) -> str:
    if advice.got is None:
        return shown(advice.shelf)
    return f"{shown(advice.shelf)}, {render(advice.got, show)}"


def _begin(text: str) -> str:
    """Return a text with a capital, to begin a sentence with."""
    return f"{text[:1].upper()}{text[1:]}"


def load_text(review: Review, show: Show) -> str:
    """Return the part about the load, and whether the kiln may be fired again."""
    parts = []
    lines = load_lines(review, show)
    if lines:
        parts.append("\n".join([tr("The load"), *(f"  {line}" for line in lines)]))
    again = again_line(review, show)
    if again:
        parts.append("\n".join([tr("May it be fired again?"), f"  {again}"]))
    return "\n\n".join(parts)


def again_line(review: Review, show: Show) -> str:
    """Return whether the kiln may be fired again, and on what condition."""
    again = review.fire_again
    if again is None:
        return ""
    word = tr(AGAIN_WORDS[again.word])
    return f"{_begin(word)}. {render(again.said, show)}"


def question_line(question: Question, show: Show) -> str:
    """Return an open question and what its answer would settle."""
    settles = render(question.settles, show)
    return tr("{question} (settles: {settles})").format(
        question=render(question.text, show), settles=settles
    )


def questions_text(review: Review, show: Show) -> str:
    """Return what is still to be asked, in the order in which people who answer ask."""
    if not review.questions:
        return ""
    lines = [f"  – {question_line(q, show)}" for q in review.questions]
    return "\n".join([tr("Not said yet; each may be left open"), *lines])


def causes_page_text(review: Review, show: Show) -> str:
    """Return all that the place of causes shows, as text to hand on."""
    parts = [load_text(review, show), causes_text(review, show, 5), questions_text(review, show)]
    return "\n\n".join(part for part in parts if part) + "\n"
