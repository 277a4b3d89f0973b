"""Which language the program speaks, and how it writes numbers and times in it."""

import json
from datetime import datetime

import pytest
from babel.messages.mofile import read_mo
from catalogue import as_key, is_translated, languages, po_path, read, read_messages

from firing_review.__main__ import main
from firing_review.firing import wording
from firing_review.firing.errors import InputError
from firing_review.firing.said import Said
from firing_review.firing.wording import AS_IN_THE_CODE, Language, as_in_the_code
from firing_review.io.languages import (
    NAMES,
    asked_language,
    language_named,
    speak,
    system_language,
)
from firing_review.io.resource_path import demo_logs
from firing_review.report.wording import Show, figure, render

US, UK, GERMAN = Language
LATE = datetime(2026, 3, 3, 21, 40)  # noqa: DTZ001 - a logger's clock knows no zone
SOON_AFTER_MIDNIGHT = datetime(2026, 12, 24, 0, 5)  # noqa: DTZ001


@pytest.fixture(autouse=True)
def _english_after_each():
    yield
    wording.use(AS_IN_THE_CODE)


@pytest.mark.parametrize(
    ("environment", "spoken"),
    [
        ({}, US),
        ({"LANG": "de_DE.UTF-8"}, GERMAN),
        ({"LANG": "de_AT@euro"}, GERMAN),
        ({"LANG": "en_GB.UTF-8"}, UK),
        ({"LANG": "en_AU.UTF-8"}, UK),
        ({"LANG": "en_US.UTF-8"}, US),
        ({"LANG": "C.UTF-8"}, US),
        ({"LANG": "fr_FR.UTF-8"}, US),
        ({"LANG": "de_DE.UTF-8", "LC_ALL": "en_GB.UTF-8"}, UK),
        ({"LANG": "de_DE.UTF-8", "LC_MESSAGES": "C"}, US),
        ({"LANG": "de_DE.UTF-8", "LANGUAGE": "fr:en_GB"}, UK),
        ({"LANG": "de_DE.UTF-8", "LANGUAGE": "fr"}, GERMAN),
    ],
)
def test_the_system_says_its_language_in_the_usual_variables(environment, spoken) -> None:
    assert system_language(environment) is spoken


def test_other_names_count_only_where_the_environment_has_none() -> None:
    assert system_language({}, ["fr-FR", "de-CH"]) is GERMAN
    assert system_language({"LANG": "en_US.UTF-8"}, ["de-CH"]) is US


def test_a_language_that_is_not_spoken_has_no_name() -> None:
    assert language_named("nl_NL") is None


def test_each_language_is_named_in_its_own_words() -> None:
    assert list(NAMES) == list(Language)
    assert NAMES[GERMAN] == "Deutsch"


@pytest.mark.parametrize(
    ("language", "late", "night", "number"),
    [
        (US, "Mar 3, 2026, 9:40 PM", "12:05 AM", "−3.5"),
        (UK, "3 Mar 2026, 21:40", "00:05", "−3.5"),
        (GERMAN, "3. März 2026, 21:40", "00:05", "−3,5"),
    ],
)
def test_dates_clock_and_decimal_sign_follow_the_language(language, late, night, number) -> None:
    speak(language)
    assert wording.moment(LATE) == late
    assert wording.clock(SOON_AFTER_MIDNIGHT) == night
    assert wording.written("-3.5") == number


@pytest.mark.parametrize("show", [Show.CELSIUS, Show.FAHRENHEIT])
def test_the_decimal_sign_does_not_depend_on_the_unit_of_temperatures(show) -> None:
    speak(GERMAN)
    assert figure("rated_kw", 3.5, show) == "3,50 kW"
    assert figure("drawn_a", 14.25, show) == "14,2 A"


def test_a_cone_keeps_its_number_and_gets_the_decimal_sign_of_the_language() -> None:
    speak(GERMAN)
    assert figure("cone", "06", Show.CELSIUS).startswith("06 (")
    assert figure("cone", "5.4", Show.CELSIUS).startswith("5,4 (")


def test_files_stay_as_they_are_in_every_language() -> None:
    speak(GERMAN)
    said = Said("{rated_kw}", {"rated_kw": 3.5})
    with as_in_the_code():
        assert render(said) == "3.50 kW"
        assert wording.tr("Mar") == "Mar"
    assert render(said) == "3,50 kW"


@pytest.mark.parametrize("language", languages())
def test_the_compiled_catalogue_says_what_its_source_says(language) -> None:
    wanted = {as_key(m.id): as_key(m.string) for m in read(language) if m.id and is_translated(m)}
    with po_path(language).with_suffix(".mo").open("rb") as file:
        found = {as_key(m.id): as_key(m.string) for m in read_mo(file) if m.id}
    assert {key: text for key, text in found.items() if key in wanted or key != text} == wanted


@pytest.mark.parametrize("language", languages())
def test_a_translation_has_the_same_places_as_its_text(language) -> None:
    for key, message in read_messages(language).items():
        originals = (key,) if isinstance(key, str) else key
        strings = (message.string,) if isinstance(message.string, str) else message.string
        for string in filter(None, strings or ()):
            assert any(places(string) == places(text) for text in originals), string


def places(text: str) -> list[str]:
    """Return the names in braces of a text."""
    return sorted(part.partition("}")[0] for part in text.split("{")[1:])


def test_the_option_names_the_language_and_the_rest_goes_on() -> None:
    asked = ["check", "--language", "de", "night.csv"]
    assert asked_language(asked) == (GERMAN, ["check", "night.csv"])
    assert asked_language(["--language=en_GB"]) == (UK, [])
    assert asked_language(["night.csv"]) == (None, ["night.csv"])


@pytest.mark.parametrize("asked", [["--language", "klingon"], ["--language"]])
def test_a_language_that_is_not_there_is_refused_with_those_that_are(asked) -> None:
    with pytest.raises(InputError, match="expected en_US, en_GB, de"):
        asked_language(asked)


def test_check_prints_in_the_language_asked_for_and_writes_json_in_english(
    tmp_path, capsys
) -> None:
    sheet, out = demo_logs() / "3_dead_section" / "firing.toml", tmp_path / "out.json"
    assert main(["--language", "de", "check", str(sheet), "--json", str(out)]) == 0
    assert "Laut Kegeln" in capsys.readouterr().out
    assert json.loads(out.read_text("utf-8"))["verdict"].startswith("By the cones")
