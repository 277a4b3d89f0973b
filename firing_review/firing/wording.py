"""The one catalogue of texts, used by every layer.

English texts stand in the code and are the keys of the catalogue. The program's entry points
install another language with :func:`use`.
"""

import gettext

_current: gettext.NullTranslations = gettext.NullTranslations()


def use(translations: gettext.NullTranslations) -> None:
    """Install the catalogue that :func:`tr` and :func:`trn` answer from."""
    global _current  # noqa: PLW0603 - one language at a time is what a catalogue is
    _current = translations


def tr(text: str) -> str:
    """Return ``text`` in the current language."""
    return _current.gettext(text) if text else text


def trn(one: str, many: str, count: int) -> str:
    """Return the singular or plural text for ``count`` in the current language."""
    return _current.ngettext(one, many, count)
