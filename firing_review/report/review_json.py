"""A review as a JSON document: °C, and hours from the log's first sample."""

import json
import math
import numbers
from typing import Any

from firing_review.firing.aligned import Stretch
from firing_review.firing.findings import Finding
from firing_review.firing.results import (
    CauseWeighed,
    Check,
    ElementsJudged,
    FireAgain,
    NextFiring,
    Question,
    SecondFiring,
    SectionElements,
    ShelfAdvice,
    ShelfHeat,
    Sign,
)
from firing_review.firing.said import Said
from firing_review.firing.schedule import Schedule
from firing_review.firing.wording import as_in_the_code
from firing_review.report.segment_words import segment_word
from firing_review.report.wording import render, render_all
from firing_review.review.review import Review

FORMAT = "firing-review/1"

Json = dict[str, Any]


def review_document(review: Review) -> Json:
    """Return the review as plain values; every key is always there, unknown is null.

    Sentences in it are English whatever the language on the screen: a program reads them.
    """
    with as_in_the_code():
        return _document(review)


def _document(review: Review) -> Json:
    firing = review.firing
    lights = review.verdict.lights
    return {
        "format": FORMAT,
        "verdict": render_all(review.verdict.sentences),
        "lights": {"load": lights.load, "kiln": lights.kiln, "safety": lights.safety},
        "log": _log(review),
        "notes": [{"at_h": note.at_h, "text": note.text} for note in review.given.notes],
        "segments": [_segment(s) for s in firing.stretches] if firing else [],
        "peak_c": firing.peak_c if firing else None,
        "peak_h": firing.peak_h if firing else None,
        "findings": [_finding(f) for f in review.findings],
        "heat_work": _heat_work(review),
        "shelves": [_shelf(s) for s in review.shelves],
        "elements": _elements(review.elements),
        "causes": [_cause(c) for c in review.causes],
        "next_check": _check(review.next_check),
        "questions": [_question(q) for q in review.questions],
        "load_advice": [_advice(a) for a in review.load_advice],
        "fire_again": _again(review.fire_again),
        "next_firing": _next_firing(review.next_firing),
    }


def review_json(review: Review) -> str:
    """Return the review as JSON text, numbers rounded to what they can carry."""
    return json.dumps(_finite(review_document(review)), indent=1, ensure_ascii=False) + "\n"


def _finite(value: Any) -> Any:  # noqa: ANN401 - any JSON value
    """Return the value with NaN and infinity as null and floats to six digits."""
    if isinstance(value, dict):
        return {k: _finite(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(v) for v in value]
    if isinstance(value, numbers.Integral) and not isinstance(value, bool):
        return int(value)
    if isinstance(value, numbers.Real) and not isinstance(value, bool):
        value = float(value)
        return float(f"{value:.6g}") if math.isfinite(value) else None
    return value


def _log(review: Review) -> Json:
    log = review.given.log
    return {
        "rows": log.rows,
        "rows_dropped": log.rows_dropped,
        "started_at": log.started_at.isoformat() if log.started_at else None,
        "hours": log.hours,
        "sample_s": log.sample_s,
        "unit_read": log.unit_read,
        "channels": [{"name": c.name, "role": c.role} for c in log.channels],
        "notes": [{"kind": n.kind, "text": render(n.said), "count": n.count} for n in log.notes],
    }


def _segment(stretch: Stretch) -> Json:
    return {
        "number": stretch.number,
        "kind": stretch.kind,
        "planned": {
            "rate_c_per_h": stretch.planned_rate_c_per_h,
            "target_c": stretch.planned_target_c,
            "hold_min": stretch.planned_hold_min,
        },
        "actual": {
            "rate_c_per_h": stretch.rate_c_per_h,
            "reached_c": stretch.reached_c,
            "hold_min": stretch.hold_min,
            "start_h": stretch.start_h,
            "end_h": stretch.end_h,
        },
        "behind_min": stretch.behind_min,
        "word": segment_word(stretch),
    }


def _finding(finding: Finding) -> Json:
    return {
        "kind": finding.kind,
        "severity": finding.severity,
        "start_h": finding.start_h,
        "end_h": finding.end_h,
        "channel": finding.channel,
        "summary": render(finding.summary),
        "figures": dict(finding.figures),
    }


def _heat_work(review: Review) -> Json:
    return {
        "goal_cone": review.given.goal_cone.text if review.given.goal_cone else None,
        "channels": [
            {
                "name": h.name,
                "cone_equivalent": h.label,
                "goal_fraction": h.goal_fraction,
            }
            for h in review.heat_work
        ],
    }


def _shelf(shelf: ShelfHeat) -> Json:
    return {
        "shelf": shelf.shelf,
        "offset_c": shelf.offset_c,
        "low_c": shelf.low_c,
        "high_c": shelf.high_c,
        "cone_equivalent": shelf.label,
        "word": shelf.word or None,
        "notes": _said(shelf.notes),
        "figures": dict(shelf.figures),
    }


def _elements(elements: ElementsJudged) -> Json:
    return {
        "power_ratio": elements.power_ratio,
        "power_low": elements.power_low,
        "power_high": elements.power_high,
        "loss_ratio": elements.loss_ratio,
        "mass_ratio": elements.mass_ratio,
        "ceiling_c": elements.ceiling_c,
        "basis": render_all(elements.basis) or None,
        "figures": dict(elements.figures),
        "per_section": [_section(s) for s in elements.per_section],
    }


def _section(section: SectionElements) -> Json:
    return {
        "section": section.section,
        "power_ratio": section.power_ratio,
        "power_low": section.power_low,
        "power_high": section.power_high,
        "resistance_ratio": section.resistance_ratio,
        "notes": _said(section.notes),
        "by_curve": section.by_curve,
    }


def _said(sentences: tuple[Said, ...]) -> list[str]:
    return [render(s) for s in sentences]


def _cause(cause: CauseWeighed) -> Json:
    return {
        "id": cause.id,
        "name": render(cause.name),
        "probability": cause.probability,
        "for": _said(cause.speaks_for),
        "against": _said(cause.speaks_against),
        "not_looked_at": _said(cause.not_looked_at),
        "next_check": _check(cause.next_check),
        "fix": render(cause.fix) if cause.fix else None,
        "caution": render(cause.caution) if cause.caution else None,
        "together_with": cause.together_with,
        "what": render(cause.what) if cause.what else None,
        "signs_for": [_sign(s) for s in cause.signs_for],
        "signs_against": [_sign(s) for s in cause.signs_against],
    }


def _sign(sign: Sign) -> Json:
    return {
        "text": render(sign.said),
        "fact": sign.fact,
        "at_h": sign.at_h,
        "place": sign.place or None,
    }


def _question(question: Question) -> Json:
    return {
        "key": question.key,
        "text": render(question.text),
        "settles": render(question.settles),
        "choices": [{"value": v, "text": render(said)} for v, said in question.choices],
    }


def _advice(advice: ShelfAdvice) -> Json:
    return {
        "shelf": advice.shelf or None,
        "word": advice.word,
        "got": render(advice.got) if advice.got else None,
        "text": render(advice.said),
    }


def _again(again: FireAgain | None) -> Json:
    if again is None:
        return {"word": None, "text": None}
    return {"word": again.word, "text": render(again.said)}


def _check(check: Check | None) -> Json | None:
    if check is None:
        return None
    return {
        "id": check.id,
        "text": render(check.text),
        "who": check.who,
        "minutes": check.minutes,
        "tool": render(check.tool) if check.tool else None,
        "settles": render(check.settles) if check.settles else None,
    }


def _next_firing(plan: NextFiring) -> Json:
    return {
        "goal_cone": plan.goal_cone.text if plan.goal_cone else None,
        "said": _said(plan.said),
        "refire": _second(plan.refire),
        "restart": _second(plan.restart),
        "options": [
            {
                "id": o.id,
                "text": render(o.said),
                "extra_hold_min": o.extra_hold_min,
                "top_c": o.top_c,
                "last_rate_c_per_h": o.last_rate_c_per_h,
                "shelf_cones": dict(o.shelf_cones),
                "shelf_ranges": {name: list(ends) for name, ends in o.shelf_ranges.items()},
                "schedule": _schedule(o.schedule),
                "notes": _said(o.notes),
            }
            for o in plan.options
        ],
    }


def _second(second: SecondFiring | None) -> Json | None:
    if second is None:
        return None
    schedule = _schedule(second.schedule) if second.schedule else None
    return {"said": _said(second.said), "schedule": schedule}


def _schedule(schedule: Schedule) -> list[Json]:
    return [
        {"rate_c_per_h": s.rate_c_per_h, "target_c": s.target_c, "hold_min": s.hold_min}
        for s in schedule.segments
    ]
