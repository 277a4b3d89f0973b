"""Answers that are worked out once for a frozen value, kept on it and gone with it."""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar
from weakref import WeakKeyDictionary

Value = TypeVar("Value")
Rest = ParamSpec("Rest")
Answer = TypeVar("Answer")

_KEPT = "_remembered"


def remembered(
    work: Callable[Concatenate[Value, Rest], Answer],
) -> Callable[Concatenate[Value, Rest], Answer]:
    """Return ``work`` so that its last answer for a value is kept on that value.

    For functions of a frozen value and of others that can be compared. An edit makes a new review
    of the same log: what the edit does not touch need not be worked out again, and what was
    worked out takes no memory longer than the log itself.
    """
    name = f"{work.__module__}.{work.__qualname__}"

    @wraps(work)
    def once(value: Value, /, *args: Rest.args, **named: Rest.kwargs) -> Answer:
        kept = value.__dict__.setdefault(_KEPT, {})
        asked = (args, named)
        if name not in kept or kept[name][0] != asked:
            kept[name] = (asked, work(value, *args, **named))
        answer: Answer = kept[name][1]
        return answer

    return once


def kept_beside(work: Callable[[Value], Answer]) -> Callable[[Value], Answer]:
    """Return ``work`` so that its answer for a value is kept as long as that value.

    Unlike what is remembered it is no part of the value, so it does not go with it to another
    process; the value must not compare with others. The answer must not hold the value.
    """
    answers: WeakKeyDictionary[Value, Answer] = WeakKeyDictionary()

    @wraps(work)
    def once(value: Value, /) -> Answer:
        if value not in answers:
            answers[value] = work(value)
        return answers[value]

    return once
