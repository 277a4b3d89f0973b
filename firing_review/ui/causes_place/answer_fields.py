"""Fields to answer a question in: a choice, a number, a text; an empty one leaves it open."""

from collections.abc import Sequence

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.wording import tr
from firing_review.io.plain_text import parse_number
from firing_review.ui.chooser import Chooser
from firing_review.ui.entry import Entry

OPEN = "–"


class ChoiceField(Chooser):
    """One of several answers.

    Signals
    -------
    answered : the value chosen, None for left open.
    """

    answered = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.activated.connect(self._on_activated)

    def set_choices(self, choices: Sequence[tuple[object, str]]) -> None:
        """Offer these answers after the open one."""
        self.clear()
        self.addItem(OPEN, None)
        for value, word in choices:
            self.addItem(word, value)

    def show_value(self, value: object) -> None:
        """Show an answer that was given, in the person's own words if it is none of these."""
        values = [self.itemData(place) for place in range(self.count())]
        if value not in values:
            self.addItem(str(value), value)
            values.append(value)
        self.setCurrentIndex(values.index(value))

    @Slot(int)
    def _on_activated(self, place: int) -> None:
        self.answered.emit(self.itemData(place))


class TextField(Entry):
    """An answer in the person's own words.

    Signals
    -------
    answered : the text, None for left open.
    """

    answered = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._value: object = None
        self.editingFinished.connect(self._on_finished)

    def show_value(self, value: object) -> None:
        """Show an answer that was given."""
        self._value = value
        self.take("" if value is None else str(value))
        self.mark("")

    @Slot()
    def _on_finished(self) -> None:
        self._read()

    def _read(self) -> None:
        self._offer(self.text().strip() or None)

    def _offer(self, value: object) -> None:
        self.mark("")
        self.setModified(False)
        if value != self._value:
            self._value = value
            self.answered.emit(value)


class NumberField(TextField):
    """An answer that is a number from 0 up; whole numbers only where things are counted."""

    def __init__(self, *, counted: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._counted = counted

    def show_value(self, value: object) -> None:
        """Show an answer that was given."""
        self._value = value
        self.take(f"{value:g}" if isinstance(value, int | float) else "")
        self.mark("")

    def _read(self) -> None:
        text = self.text().strip()
        number = parse_number(text) if text else None
        whole = number is None or not self._counted or number == round(number)
        if (text and number is None) or not whole or (number is not None and number < 0):
            self.mark(tr("A whole number") if self._counted else tr("A number"))
            return
        self._offer(int(number) if self._counted and number is not None else number)
