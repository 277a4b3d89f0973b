"""The one catalogue of texts, used by every layer, and how numbers and times are written.

English texts stand in the code and are the keys of the catalogue. The program's entry points
install another language with :func:`use`.
"""

import gettext
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from firing_review.firing.said import N_

MONTHS = (
    N_("Jan"),
    N_("Feb"),
    N_("Mar"),
    N_("Apr"),
    N_("May"),
    N_("Jun"),
    N_("Jul"),
    N_("Aug"),
    N_("Sep"),
    N_("Oct"),
    N_("Nov"),
    N_("Dec"),
)


class Language(StrEnum):
    """A language of the texts; a person chooses one, or the system does."""

    ENGLISH_US = "en_US"
    ENGLISH_UK = "en_GB"
    GERMAN = "de"


@dataclass(frozen=True)
class Spoken:
    """The texts in use, and the habits of writing that go with them."""

    language: Language
    texts: gettext.NullTranslations

    @property
    def decimal_sign(self) -> str:
        """What stands between ones and tenths."""
        return "," if self.language is Language.GERMAN else "."

    @property
    def counts_to_twelve(self) -> bool:
        """Whether clock times are written with AM and PM."""
        return self.language is Language.ENGLISH_US


AS_IN_THE_CODE = Spoken(Language.ENGLISH_US, gettext.NullTranslations())
_current = AS_IN_THE_CODE
_here: ContextVar[Spoken | None] = ContextVar("_here", default=None)
"""Another language for one task only; other threads go on in theirs."""


def _spoken() -> Spoken:
    return _here.get() or _current


def use(spoken: Spoken) -> None:
    """Install the language that every text is shown in from now on."""
    global _current  # noqa: PLW0603 - one language at a time is what a catalogue is
    _current = spoken


def language() -> Language:
    """Return the language in use."""
    return _spoken().language


@contextmanager
def as_in_the_code() -> Iterator[None]:
    """Write texts and figures as they stand in the code: for files that programs read."""
    token = _here.set(AS_IN_THE_CODE)
    try:
        yield
    finally:
        _here.reset(token)


def tr(text: str) -> str:
    """Return ``text`` in the current language."""
    return _spoken().texts.gettext(text) if text else text


def trn(one: str, many: str, count: int) -> str:
    """Return the singular or plural text for ``count`` in the current language."""
    return _spoken().texts.ngettext(one, many, count)


def listed(names: Sequence[str]) -> str:
    """Return names as a list in a sentence: ``top``, ``top and middle``, ``a, b and c``."""
    if len(names) < 2:
        return "".join(names)
    return tr("{names} and {last}").format(names=", ".join(names[:-1]), last=names[-1])


def written(number: str) -> str:
    """Return a number in figures (``-3.5``) with the language's sign and a true minus."""
    return number.replace("-", "−").replace(".", _spoken().decimal_sign)


def as_typed(number: str) -> str:
    """Return a number as a field shows it for editing: the language's sign, a plain minus."""
    return number.replace(".", _spoken().decimal_sign)


def clock(when: datetime) -> str:
    """Return the time of day as ``21:40`` or ``9:40 PM``."""
    if _spoken().counts_to_twelve:
        return f"{when.hour % 12 or 12}:{when:%M} {'AM' if when.hour < 12 else 'PM'}"
    return f"{when:%H:%M}"


def day(when: date) -> str:
    """Return a date in the order of the language, the month as a word."""
    return tr("{month} {day}, {year}").format(
        month=tr(MONTHS[when.month - 1]), day=when.day, year=when.year
    )


def moment(when: datetime) -> str:
    """Return date and time of day."""
    return f"{day(when)}, {clock(when)}"
