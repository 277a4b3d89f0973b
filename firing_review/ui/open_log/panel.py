"""The page that shows how a log is read, and lets each part of it be corrected."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.log import ChannelRole, ReadingChoices
from firing_review.firing.said import N_
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr, written
from firing_review.io.log_clock import TIME_FORMS
from firing_review.io.log_layout import DECIMAL_WORDS, DELIMITER_WORDS
from firing_review.io.log_preview import LogPreview
from firing_review.ui.appearance import Appearance
from firing_review.ui.background import Background, Work
from firing_review.ui.chooser import Chooser
from firing_review.ui.open_log.look import Look, look_at
from firing_review.ui.open_log.remembered import RememberedReadings
from firing_review.ui.open_log.view import NARROW_PX, OpenLogView
from firing_review.ui.open_log.wanted import takes_long
from firing_review.ui.scrolled import Scrolled

ROLE_WORDS = {
    ChannelRole.CHAMBER: N_("chamber"),
    ChannelRole.SECTION: N_("section"),
    ChannelRole.SET_POINT: N_("set point"),
    ChannelRole.OUTPUT: N_("output"),
    ChannelRole.AMPS: N_("amps"),
    ChannelRole.COLD_END: N_("cold end"),
    ChannelRole.OTHER: N_("not used"),
}
UNITS = (TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT)


class OpenLogPage(QWidget):
    """One file, how it would be read, and what a person says instead.

    Signals
    -------
    used : the choices to read the file with.
    canceled : leave things as they were.
    refused : an error a person can act on.
    """

    used = Signal(object)
    canceled = Signal()
    refused = Signal(object)

    def __init__(
        self,
        appearance: Appearance,
        remembered: RememberedReadings,
        background: Background,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._remembered, self._appearance = remembered, appearance
        self._background = background
        self._raw, self._source = b"", ""
        self._choices = ReadingChoices()
        self._look_shown: Look | None = None
        self.roles: dict[str, Chooser] = {}
        self.view = OpenLogView(appearance)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(Scrolled(self.view, self), 1)
        layout.addWidget(self.view.foot)
        self._connect()

    def _connect(self) -> None:
        view = self.view
        view.unit.activated.connect(self._on_unit)
        view.order.activated.connect(self._on_order)
        view.run.activated.connect(self._on_run)
        view.time_unit.activated.connect(self._on_time_unit)
        view.delimiter.activated.connect(self._on_delimiter)
        view.decimal.activated.connect(self._on_decimal)
        view.use.clicked.connect(self._on_use)
        view.cancel.clicked.connect(self.canceled)
        view.forget.clicked.connect(self._on_forget)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put things under each other when there is little width."""
        super().resizeEvent(event)
        narrow = event.size().width() < self._appearance.sizes.px(NARROW_PX)
        self.view.show_narrow(narrow=narrow)

    def show_file(
        self,
        raw: bytes,
        source: str,
        choices: ReadingChoices,
        shown: Callable[[], None],
        refused: Callable[[FiringReviewError], None],
    ) -> None:
        """Show a file as these choices read it; it is looked at beside the window.

        Parameters
        ----------
        shown, refused : callable
            Told that the file is to be seen, or that it cannot be read as a log at all.
        """
        self._look(raw, source, choices, partial(self._on_file, raw, source, shown), refused)

    def _look(
        self,
        raw: bytes,
        source: str,
        choices: ReadingChoices,
        done: Callable[[Look], None],
        refused: Callable[[FiringReviewError], None],
    ) -> None:
        words = tr("Reading {name}").format(name=source)
        asked = (raw, source, choices)
        is_long = takes_long(len(raw))
        work = Work(words, look_at, asked, done, refused, self._show_again, is_long=is_long)
        self._background.run(work)

    def _on_file(self, raw: bytes, source: str, shown: Callable[[], None], look: Look) -> None:
        self._raw, self._source = raw, source
        self.view.title.setText(tr("How {source} is read").format(source=source))
        self.view.remember.setChecked(False)
        self._show(look)
        shown()
        first = self.view.unit if look.asked.unit else self.view.use
        (self.view.order if look.asked.order else first).setFocus()

    def _try(self, choices: ReadingChoices, name: str = "") -> None:
        """Take a correction, unless the file cannot be read with it.

        ``name`` is that of a column whose role is chosen, and has the keyboard afterwards.
        """
        self.view.use.setEnabled(False)
        self._look(self._raw, self._source, choices, partial(self._on_tried, name), self._on_wrong)

    def _on_tried(self, name: str, look: Look) -> None:
        self._show(look)
        if name in self.roles:
            self.roles[name].setFocus()

    def _on_wrong(self, error: FiringReviewError) -> None:
        self._show_again()
        self._say(str(error))

    def _show_again(self) -> None:
        """Show what was chosen before the last correction."""
        if self._look_shown is not None:
            self._show_choices(self._look_shown)
            self.view.use.setEnabled(self._look_shown.is_usable)

    def _show(self, look: Look) -> None:
        self._look_shown, self._choices = look, look.choices
        self._show_table(look)
        self._show_choices(look)
        self.view.about.setText(look.asked.asked or tr("Correct what is not so."))
        self.view.curve.show_log(look.log, unit_is_open=look.asked.unit)
        self._say(look.wrong)
        self.view.use.setEnabled(look.is_usable)
        key = look.seen.layout_key
        self.view.forget.setVisible(self._remembered.choices(key) is not None)

    def _say(self, wrong: str) -> None:
        self.view.wrong.setText(wrong)
        self.view.wrong.setVisible(bool(wrong))

    def _show_table(self, look: Look) -> None:
        seen = look.seen
        self.view.fill(look.names, look.rows)
        self.roles = {}
        roles = {r.index: r for r in seen.roles}
        for column, name in enumerate(look.names):
            if column in seen.time_columns or column not in roles:
                words = tr("time") if column in seen.time_columns else tr("not a number")
                self.view.set_role(column, QLabel(f" {words}"))
                continue
            chooser = self._chooser(name, roles[column].role)
            self.roles[name] = chooser
            self.view.set_role(column, chooser)

    def _chooser(self, name: str, role: ChannelRole) -> Chooser:
        chooser = Chooser()
        chooser.show_whole_words()
        chooser.setAccessibleName(tr("Role of column {name}").format(name=name))
        for one, words in ROLE_WORDS.items():
            chooser.addItem(tr(words), one)
        chooser.setCurrentIndex(list(ROLE_WORDS).index(role))
        chooser.activated.connect(self._on_role)
        return chooser

    def _show_choices(self, look: Look) -> None:
        view, seen, asked = self.view, look.seen, look.asked
        self._show_time(seen)
        self._show_signs(seen)
        unit = None if asked.unit else UNITS.index(seen.unit)
        _offer(view.unit, ["°C", "°F"], unit)
        order = None if asked.order else int("day first" not in seen.time_form)
        _offer(view.order, [tr("day first"), tr("month first")], order)
        dated = asked.order or self._choices.day_first is not None
        for widget in (view.order, view.order_label):
            widget.setVisible(dated or seen.time_form.endswith(("day first", "month first")))
        runs = [
            tr("{number}: {hours} h").format(number=n, hours=written(f"{hours:.1f}"))
            for n, hours in enumerate(seen.runs_h, start=1)
        ]
        chosen = self._choices.run
        _offer(view.run, runs, len(runs) - 1 if chosen is None else min(chosen, len(runs) - 1))
        for widget in (view.run, view.run_label):
            widget.setVisible(len(runs) > 1)

    def _show_time(self, seen: LogPreview) -> None:
        view, units = self.view, list(TIME_FORMS)
        view.time_form.setText(", ".join(tr(part) for part in seen.time_form.split(", ")))
        view.time_form.setVisible(seen.time_unit is None)
        view.time_unit.setVisible(seen.time_unit is not None)
        if seen.time_unit is not None:
            words = [tr(TIME_FORMS[unit]) for unit in units]
            _offer(view.time_unit, words, units.index(seen.time_unit))

    def _show_signs(self, seen: LogPreview) -> None:
        view = self.view
        for chooser, label, words, sign in (
            (view.delimiter, view.delimiter_label, DELIMITER_WORDS, seen.delimiter),
            (view.decimal, view.decimal_label, DECIMAL_WORDS, seen.decimal),
        ):
            offered = [_sign(word, one) for word, one in words.items()]
            _offer(chooser, offered, list(words.values()).index(sign))
            chooser.setVisible(seen.as_written)
            label.setVisible(seen.as_written)

    # what a person says

    @Slot(int)
    def _on_unit(self, _place: int) -> None:
        unit = {"°C": UNITS[0], "°F": UNITS[1]}.get(self.view.unit.currentText())
        if unit is not None:
            self._try(replace(self._choices, unit=unit))

    @Slot(int)
    def _on_order(self, _place: int) -> None:
        words = self.view.order.currentText()
        if words in (tr("day first"), tr("month first")):
            self._try(replace(self._choices, day_first=words == tr("day first")))

    @Slot(int)
    def _on_time_unit(self, place: int) -> None:
        self._try(replace(self._choices, time_unit=list(TIME_FORMS)[place]))

    @Slot(int)
    def _on_delimiter(self, place: int) -> None:
        delimiter = list(DELIMITER_WORDS.values())[place]
        self._try(replace(self._choices, delimiter=delimiter))

    @Slot(int)
    def _on_decimal(self, place: int) -> None:
        self._try(replace(self._choices, decimal=list(DECIMAL_WORDS.values())[place]))

    @Slot(int)
    def _on_run(self, place: int) -> None:
        self._try(replace(self._choices, run=place))

    @Slot(int)
    def _on_role(self, _place: int) -> None:
        name, chooser = next((n, c) for n, c in self.roles.items() if c is self.sender())
        roles = {**self._choices.roles, name: ChannelRole(chooser.currentData())}
        self._try(replace(self._choices, roles=roles), name)

    @Slot()
    def _on_use(self) -> None:
        if self._look_shown is None:
            return
        seen = self._look_shown.seen
        roles = {r.name: r.role for r in seen.roles}
        choices = replace(self._choices, roles=roles)
        if self.view.remember.isChecked():
            try:
                self._remembered.keep(seen.layout_key, choices)
            except InputError as error:
                self.refused.emit(error)
                return
        self.used.emit(choices)

    @Slot()
    def _on_forget(self) -> None:
        if self._look_shown is None:
            return
        try:
            self._remembered.forget(self._look_shown.seen.layout_key)
        except InputError as error:
            self.refused.emit(error)
            return
        self._try(ReadingChoices(run=self._choices.run))


def _sign(word: str, sign: str) -> str:
    """Return the word for a sign, and the sign itself if it can be seen."""
    return f"{tr(word)} ({sign})" if sign.strip() else tr(word)


def _offer(chooser: Chooser, words: list[str], chosen: int | None) -> None:
    """Offer words; without a chosen one, the first line asks for a choice."""
    chooser.clear()
    chooser.addItems(words if chosen is not None else [tr("Choose…"), *words])
    chooser.setCurrentIndex(chosen or 0)
