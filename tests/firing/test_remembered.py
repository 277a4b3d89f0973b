import gc
import weakref
from dataclasses import dataclass, replace

from firing_review.firing.remembered import remembered


@dataclass(frozen=True, eq=False)
class Curve:
    values: tuple[float, ...]


asked: list[float] = []


@remembered
def hottest(curve: Curve, above_c: float) -> float | None:
    asked.append(above_c)
    return max((v for v in curve.values if v > above_c), default=None)


def test_an_answer_is_worked_out_once_for_a_value_and_a_question() -> None:
    asked.clear()
    curve = Curve((20.0, 900.0))
    assert [hottest(curve, 50.0), hottest(curve, 50.0), hottest(curve, 950.0)] == [900, 900, None]
    assert asked == [50.0, 950.0]


def test_a_changed_copy_is_asked_anew() -> None:
    curve = Curve((20.0, 900.0))
    assert hottest(curve, 50.0) == 900.0
    assert hottest(replace(curve, values=(20.0, 1000.0)), 50.0) == 1000.0


def test_an_answer_goes_with_its_value() -> None:
    curve = Curve((20.0, 900.0))
    hottest(curve, 50.0)
    gone = weakref.ref(curve)
    del curve
    gc.collect()
    assert gone() is None
