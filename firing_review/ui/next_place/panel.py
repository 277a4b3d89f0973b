"""The place "Next firing": what a change of the schedule would do to every shelf."""

from functools import partial

import numpy as np
from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.results import NextFiring, PlanOption
from firing_review.firing.schedule import Schedule
from firing_review.firing.tables import Tables
from firing_review.firing.wording import tr, written
from firing_review.physics.bend_law import bend_deg
from firing_review.physics.cones import rank_label
from firing_review.planning.plan_base import (
    PlanBase,
    ShelfBase,
    ShelfOutcome,
    goal_log_work,
    plan_base,
    preview_plan,
)
from firing_review.planning.schedules import with_hold, with_last_rate, with_top
from firing_review.planning.top_curve import Change
from firing_review.report.wording import (
    cone_label,
    difference,
    minutes,
    rate,
    render_all,
    temperature,
)
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.layouts import fill
from firing_review.ui.next_place.outcomes import ShelfRow
from firing_review.ui.next_place.view import NextView
from firing_review.ui.saving import save_schedule
from firing_review.ui.showing import Showing

HOLD_MIN, RATE_C_PER_H, TOP_C = (-60, 180), (15, 240), (-40, 40)
"""What the sliders reach: minutes added, °C/h, degrees added."""


class NextPlace(QWidget):
    """Sliders, shelves, the new schedule over the old.

    Signals
    -------
    refused : an error a person can act on.
    """

    refused = Signal(object)

    def __init__(
        self,
        appearance: Appearance,
        showing: Showing,
        tables: Tables,
        questions: Questions,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._showing, self._tables, self._questions = showing, tables, questions
        self._review: Review | None = None
        self._base: PlanBase | None = None
        self.view = NextView(appearance, self)
        fill(self, self.view)
        for slider, (low, high) in (
            (self.view.hold, HOLD_MIN),
            (self.view.rate, RATE_C_PER_H),
            (self.view.top, TOP_C),
        ):
            slider.setRange(low, high)
            slider.valueChanged.connect(self._on_moved)
        self.view.reset.clicked.connect(self.reset)
        self.view.save.clicked.connect(self._on_save)
        appearance.changed.connect(self._on_look)
        showing.changed.connect(self._on_look)

    def show_review(self, review: Review) -> None:
        """Show the plan of a review; the sliders go back to how it was."""
        self._review, self._base = review, None
        if review.firing is not None:
            self._base = plan_base(
                review.given, review.firing, review.shelves, review.elements, self._tables.cones
            )
        for widget in (
            self.view.hold,
            self.view.rate,
            self.view.top,
            self.view.save,
            self.view.reset,
        ):
            widget.setEnabled(self._base is not None)
        self._say(review.next_firing)
        self.reset()

    @property
    def change(self) -> Change:
        """What the sliders ask for."""
        base, view = self._base, self.view
        usual = round(base.rate_c_per_h) if base is not None else view.rate.value()
        moved = view.rate.value() != usual
        return Change(
            extra_hold_min=float(view.hold.value()),
            last_rate_c_per_h=float(view.rate.value()) if moved else None,
            higher_c=float(view.top.value()),
        )

    @Slot()
    def reset(self) -> None:
        """Put the sliders back to how the firing was; without a plan show nothing."""
        base = self._base
        self._set(0, round(base.rate_c_per_h) if base is not None else RATE_C_PER_H[0], 0)

    def _set(self, hold_min: int, rate_c_per_h: int, higher_c: int) -> None:
        for slider, value in (
            (self.view.hold, hold_min),
            (self.view.rate, rate_c_per_h),
            (self.view.top, higher_c),
        ):
            slider.blockSignals(True)
            slider.setValue(value)
            slider.blockSignals(False)
        self._on_moved()

    @Slot()
    def _on_look(self) -> None:
        self.view.dress()
        if self._review is not None:
            self._say(self._review.next_firing)
            self._on_moved()

    @Slot()
    def _on_moved(self) -> None:
        base, show = self._base, self._showing.show
        if base is None:
            self.view.show_nothing()
            return
        change, view = self.change, self.view
        view.hold_label.setText(
            tr("as asked")
            if base.as_asked and not change.extra_hold_min
            else _signed(change.extra_hold_min, minutes(abs(change.extra_hold_min)))
        )
        view.rate_label.setText(rate(change.last_rate_c_per_h or base.rate_c_per_h, show))
        top = temperature(base.schedule.top_c + change.higher_c, show)
        added = _signed(change.higher_c, difference(abs(change.higher_c), show))
        view.top_label.setText(top if not change.higher_c else f"{top} ({added})")
        rows = zip(base.shelves, preview_plan(base, change), strict=True)
        view.outcomes.show_rows(tuple(self._row(base, shelf, outcome) for shelf, outcome in rows))
        view.chart.show()
        view.chart.show_schedules(base.schedule, self.schedule, self._showing.unit)

    @property
    def schedule(self) -> Schedule:
        """The schedule the sliders make."""
        if self._base is None:
            return Schedule(())
        change, schedule = self.change, self._base.schedule
        schedule = with_top(with_hold(schedule, change.extra_hold_min), change.higher_c)
        if change.last_rate_c_per_h is not None:
            schedule = with_last_rate(schedule, change.last_rate_c_per_h)
        return schedule

    def _row(self, base: PlanBase, shelf: ShelfBase, outcome: ShelfOutcome) -> ShelfRow:
        work = float(np.exp(min(goal_log_work(base, shelf, self.change), 3.0)))
        goal = float(base.goal.cone.rank)
        rank = outcome.rank
        word = ""
        if rank is not None:
            off = rank - goal
            word = "even" if abs(off) <= base.tolerance_cones else "cold" if off < 0 else "hot"
        name = tr("by the log") if outcome.shelf == "reading" else outcome.shelf
        return ShelfRow(name, float(bend_deg(work)), self._words(outcome), word)

    def _words(self, outcome: ShelfOutcome) -> str:
        ends = [
            written(rank_label(v)) if v is not None and v >= 0 else None
            for v in (outcome.low, outcome.high)
        ]
        if outcome.rank is None or outcome.rank < 0:
            return tr("only a bound is known") if any(ends) else tr("cannot tell")
        cone = cone_label(rank_label(outcome.rank), self._showing.show)
        text = tr("about cone {cone}").format(cone=cone)
        if all(ends):
            text += tr(", between {low} and {high}").format(low=ends[0], high=ends[1])
        return text

    # words and ways

    def _say(self, plan: NextFiring) -> None:
        show = self._showing.show
        parts = [render_all(plan.said, show)]
        for head, second in (
            (tr("This load"), plan.refire),
            (tr("The stopped firing"), plan.restart),
        ):
            parts += [f"{head}: {render_all(second.said, show)}"] if second is not None else []
        self.view.words.setText("\n\n".join(part for part in parts if part))
        self.view.clear_ways()
        for option in plan.options:
            words = render_all((option.said, *option.notes), show)
            way = self.view.add_way(words, tr("Show it") if option.far_over else tr("Try this"))
            way.clicked.connect(partial(self._take, option))
        seconds = (
            (tr("Save the refire schedule…"), plan.refire),
            (tr("Save the restart schedule…"), plan.restart),
        )
        for name, second in seconds:
            if second is not None and second.schedule is not None:
                button = self.view.add_way("", name)
                button.clicked.connect(partial(self._save, second.schedule))

    def _take(self, option: PlanOption, _checked: bool = False) -> None:
        """Put the sliders where a way is."""
        if self._base is None:
            return
        top_c = option.top_c if option.top_c is not None else self._base.schedule.top_c
        self._set(
            round(option.extra_hold_min or 0.0),
            round(option.last_rate_c_per_h or self._base.rate_c_per_h),
            round(top_c - self._base.schedule.top_c),
        )

    @Slot()
    def _on_save(self) -> None:
        self._save(self.schedule)

    def _save(self, schedule: Schedule | None, _checked: bool = False) -> None:
        if schedule is None:
            return
        name = tr("next firing.csv")
        error = save_schedule(self, self._questions, schedule, name, self._showing.unit)
        if error is not None:
            self.refused.emit(error)


def _signed(value: float, text: str) -> str:
    if not value:
        return tr("as it was")
    return f"+ {text}" if value > 0 else f"− {text}"
