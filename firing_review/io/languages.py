"""Languages of the program: what the system speaks, and the catalogues that hold the texts."""

import gettext
from collections.abc import Iterable, Mapping

from firing_review.firing.wording import AS_IN_THE_CODE, Language, Spoken, use
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
