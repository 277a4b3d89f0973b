"""The catalogue of texts: taken from code and knowledge files, kept as .po, compiled to .mo.

``python tests/catalogue.py`` brings every .po up to the code and compiles it;
``python tests/catalogue.py missing`` lists what has no translation yet.
"""

import ast
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from babel.messages import pofile
from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo

from firing_review.io.cause_files import load_knowledge
from firing_review.ui.start_page.demos import demo_firings

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "firing_review"
LOCALE = ROOT / "resources" / "locale"
DOMAIN = "firing_review"
DIFFERENCES_ONLY = frozenset({"en_GB"})
"""Languages whose catalogue has only the texts that differ from those in the code."""
MARKS = {"tr": 1, "N_": 1, "trn": 2}
"""How many texts each of the marking functions takes."""
FIXED = datetime(2026, 1, 1, tzinfo=UTC)
"""The catalogues carry no date of their own, so that equal texts make equal files."""

Key = str | tuple[str, ...]


def texts_in_code() -> Iterator[Key]:
    """Return every text marked with ``tr``, ``trn`` or ``N_``, those within f-strings too."""
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                count = MARKS.get(node.func.id, 0)
                words = [a.value for a in node.args[:count] if isinstance(a, ast.Constant)]
                if words and len(words) == count:
                    yield words[0] if count == 1 else tuple(words)


def every_text() -> set[Key]:
    """Return every text a person can see."""
    demos = (text for demo in demo_firings() for text in (demo.title, demo.story))
    return {*texts_in_code(), *load_knowledge().texts(), *demos} - {""}


def languages() -> tuple[str, ...]:
    """Return the languages that have a catalogue."""
    return tuple(sorted(path.name for path in LOCALE.iterdir() if path.is_dir()))


def po_path(language: str) -> Path:
    """Return where the translations of a language stand."""
    return LOCALE / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def read(language: str) -> Catalog:
    """Return the catalogue of a language as it stands in its file."""
    with po_path(language).open("rb") as file:
        return pofile.read_po(file, locale=language, domain=DOMAIN)


def read_messages(language: str) -> dict[Key, Message]:
    """Return the messages of a language by their text in the code."""
    return {as_key(m.id): m for m in read(language) if m.id}


def as_key(text: str | list[str] | tuple[str, ...]) -> Key:
    """Return a text, or its singular and plural, as what it is looked up by."""
    return text if isinstance(text, str) else tuple(text)


def brought_up(language: str) -> Catalog:
    """Return the catalogue with the texts of today; for UK English only those that differ."""
    known, texts = read_messages(language), every_text()
    catalogue = Catalog(
        locale=language,
        domain=DOMAIN,
        project="Firing Review",
        version="1",
        header_comment="# Texts of Firing Review. See DEVELOPERS.md, How to add: a text.",
        copyright_holder="",
        msgid_bugs_address="",
        last_translator="",
        language_team="",
        creation_date=FIXED,
        revision_date=FIXED,
        fuzzy=False,
    )
    for key in sorted(texts, key=str):
        message = known.get(key)
        if (message is not None and message.string) or language not in DIFFERENCES_ONLY:
            catalogue.add(key, message.string if message else None)
    return catalogue


def compiled(catalogue: Catalog) -> bytes:
    """Return a catalogue as the program reads it."""
    buffer = BytesIO()
    write_mo(buffer, catalogue)
    return buffer.getvalue()


def is_translated(message: Message | None) -> bool:
    """Tell whether every form of a message has a translation."""
    if message is None or not message.string:
        return False
    return isinstance(message.string, str) or all(message.string)


def missing(language: str) -> list[Key]:
    """Return the texts of today without a translation, in the order of the alphabet."""
    known = read_messages(language)
    return [k for k in sorted(every_text(), key=str) if not is_translated(known.get(k))]


def obsolete(language: str) -> list[Key]:
    """Return the translations whose text is gone from the code."""
    return sorted(set(read_messages(language)) - every_text(), key=str)


def write(language: str, catalogue: Catalog) -> None:
    """Write a catalogue in both forms."""
    path = po_path(language)
    with path.open("wb") as file:
        pofile.write_po(file, catalogue, width=99, no_location=True)
    path.with_suffix(".mo").write_bytes(compiled(read(language)))


def main(arguments: list[str]) -> int:
    """Bring the catalogues up to the code, or list what is missing."""
    for language in languages():
        if arguments == ["missing"]:
            sys.stdout.writelines(f"{language} gone: {text!r}\n" for text in obsolete(language))
            if language not in DIFFERENCES_ONLY:
                sys.stdout.writelines(f"{language} missing: {t!r}\n" for t in missing(language))
            continue
        write(language, brought_up(language))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
