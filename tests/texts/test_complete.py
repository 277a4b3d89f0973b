"""Every text a person can see is there in German, and the UK words where they differ."""

import re

import pytest
from catalogue import Key, is_translated, missing, obsolete, read_messages

SAME_IN_GERMAN = re.compile(r"[^A-Za-z]*|(\W|\{[^}]*\}|A4|US Letter|[ACFVhkW])*")
"""Signs, places and units only."""
SAME_WORDS = frozenset(
    {
        "Esc",
        "{what} … {seconds} s",
        "April",
        "Firing Review",
        "Name",
        "Segment",
        "Multimeter",
        "Voltmeter",
        "{title} – Firing Review",
    }
)
UK_DIFFERS = re.compile(
    r"\b(colors?|gray|peepholes?|bisque|licensed|refired?|a hold|the hold|local codes)\b",
    re.IGNORECASE,
)


def forms(key: Key) -> tuple[str, ...]:
    return (key,) if isinstance(key, str) else key


def test_every_text_has_a_german_one() -> None:
    assert missing("de") == []


@pytest.mark.parametrize("language", ["de", "en_GB"])
def test_no_catalogue_keeps_a_text_that_is_gone(language) -> None:
    assert obsolete(language) == []


@pytest.mark.parametrize("language", ["de", "en_GB"])
def test_no_translation_is_a_guess(language) -> None:
    assert [key for key, message in read_messages(language).items() if message.fuzzy] == []


def test_no_english_is_left_in_the_german_texts() -> None:
    left = [
        key
        for key, message in read_messages("de").items()
        if is_translated(message)
        and forms(key) == forms(message.string)
        and key not in SAME_WORDS
        and not SAME_IN_GERMAN.fullmatch(str(key))
    ]
    assert left == []


def test_words_that_differ_have_their_uk_form() -> None:
    known = read_messages("en_GB")
    texts = {key for key in read_messages("de") if any(map(UK_DIFFERS.search, forms(key)))}
    assert sorted(map(str, texts - set(known))) == []


def test_german_addresses_nobody_and_shouts_at_nobody() -> None:
    strings = [form for message in read_messages("de").values() for form in forms(message.string)]
    assert [s for s in strings if re.search(r"!(?!r)|\b([Dd]u|[Dd]eine?[nrs]?|Ihnen)\b", s)] == []
