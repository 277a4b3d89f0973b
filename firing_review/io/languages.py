"""Languages of the program: what the system speaks, and the catalogues that hold the texts."""

import gettext
import locale
import sys
from collections.abc import Iterable, Mapping, Sequence

from firing_review.firing.errors import InputError
from firing_review.firing.wording import AS_IN_THE_CODE, Language, Spoken, tr, use
from firing_review.io.resource_path import resource

DOMAIN = "firing_review"
NAMES = {
    Language.ENGLISH_US: "English (US)",
    Language.ENGLISH_UK: "English (UK)",
    Language.GERMAN: "Deutsch",
}
"""Each language in its own words; these are never translated."""
VARIABLES = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")
"""Where a system says its language, the strongest first."""
OPTION = "--language"
US_REGIONS = frozenset({"", "US", "PH"})


def speak(language: Language) -> None:
    """Show every text in ``language`` from now on."""
    if language is Language.ENGLISH_US:
        use(AS_IN_THE_CODE)
        return
    folder = str(resource("locale"))
    use(Spoken(language, gettext.translation(DOMAIN, folder, [language.value])))


def system_language(environment: Mapping[str, str], also: Iterable[str] = ()) -> Language:
    """Return the language of the system; US English if none of ours fits.

    Parameters
    ----------
    environment : mapping
        ``LANGUAGE`` may list several, parted by colons; the first that is known counts.
    also : iterable of str
        Names of locales that count where the environment names none.
    """
    for variable in VARIABLES:
        value = environment.get(variable, "")
        known = _first_known(value.split(":"))
        if known is not None:
            return known
        if value and variable != "LANGUAGE":
            return Language.ENGLISH_US
    return _first_known(also) or Language.ENGLISH_US


def _first_known(names: Iterable[str]) -> Language | None:
    return next((known for name in names if (known := language_named(name)) is not None), None)


def language_named(name: str) -> Language | None:
    """Return the language of a locale name such as ``de_AT.UTF-8`` or ``en-GB``."""
    plain = name.partition(".")[0].partition("@")[0].replace("-", "_")
    spoken, _, region = plain.partition("_")
    if spoken.lower() == "de":
        return Language.GERMAN
    if spoken.lower() != "en":
        return None
    return Language.ENGLISH_US if region.upper() in US_REGIONS else Language.ENGLISH_UK


def asked_language(arguments: Sequence[str]) -> tuple[Language | None, list[str]]:
    """Return the language that ``--language`` asks for, and the other arguments.

    Raises
    ------
    InputError
        If it names none that the program speaks.
    """
    rest, asked = [], None
    words = iter(arguments)
    for word in words:
        name, _, value = word.partition("=")
        if name != OPTION:
            rest.append(word)
            continue
        value = value or next(words, "")
        asked = next((known for known in Language if known.value == value), None)
        if asked is None:
            remedy = tr("Leave it out for the language of the system.")
            raise InputError(OPTION, ", ".join(Language), value or tr("nothing"), remedy)
    return asked, rest


def named_by_windows() -> list[str]:
    """Return the locale of the Windows desktop; nothing on other systems."""
    if sys.platform != "win32":
        return []
    import ctypes  # noqa: PLC0415 - this part of it is there on Windows only

    number = ctypes.windll.kernel32.GetUserDefaultUILanguage()
    return [locale.windows_locale.get(number, "")]
