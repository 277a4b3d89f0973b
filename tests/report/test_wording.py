import pytest

from firing_review.firing.said import Said
from firing_review.firing.wording import Language
from firing_review.io.languages import speak
from firing_review.report.wording import Show, chance, figure, minutes, render


def test_a_difference_of_ten_degrees_is_eighteen_in_fahrenheit() -> None:
    assert figure("short_delta_c", 10.0, Show.FAHRENHEIT) == "18 °F"


def test_a_temperature_converts_with_the_offset() -> None:
    assert figure("reached_c", 1222.0, Show.BOTH) == "1222 °C / 2232 °F"


def test_a_rate_converts_without_the_offset() -> None:
    assert figure("got_c_per_h", 60.0, Show.FAHRENHEIT) == "108 °F per hour"


@pytest.mark.parametrize(
    ("value_min", "text"),
    [(0.4, "0 min"), (59.6, "1 h 00 min"), (125.0, "2 h 05 min"), (-7, "−7 min")],
)
def test_a_length_of_time_reads_in_hours_and_minutes(value_min: float, text: str) -> None:
    assert minutes(value_min) == text


def test_a_figure_that_is_not_known_is_a_dash_and_no_error() -> None:
    said = Said("Reading stopped at {reached_c} after {took_h}.", {"reached_c": None})
    assert render(said) == "Reading stopped at — after —."


def test_braces_in_a_name_from_a_file_are_only_text() -> None:
    said = Said("{channel} gave no reading.", {"channel": "{0.__class__} {evil}"})
    assert render(said) == "{0.__class__} {evil} gave no reading."


@pytest.mark.parametrize(
    ("names", "text", "german"),
    [
        (("top",), "top", "top"),
        (("middle", "bottom"), "middle and bottom", "middle und bottom"),
        (("a", "b", "c"), "a, b and c", "a, b und c"),
        ((), "", ""),
        (("half\nshelf", "{last}"), "half shelf and {last}", "half shelf und {last}"),
    ],
)
def test_names_in_a_sentence_are_a_list_as_one_says_it(names, text, german) -> None:
    said = Said("{shelves}: colder.", {"shelves": names})
    assert render(said) == f"{text}: colder."
    speak(Language.GERMAN)
    try:
        assert render(said) == f"{german}: colder."
    finally:
        speak(Language.ENGLISH_US)


@pytest.mark.parametrize(
    ("share", "text"), [(0.404, "40 %"), (0.95, "95 %"), (0.997, "over 95 %"), (0.0, "0 %")]
)
def test_no_cause_is_said_to_be_certain(share: float, text: str) -> None:
    assert chance(share) == text


def test_a_day_reads_as_dates_do_in_the_language() -> None:
    said = Said("As on {earlier_day}.", {"earlier_day": "2026-09-05"})
    assert render(said) == "As on Sep 5, 2026."
