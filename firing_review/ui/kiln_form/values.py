"""Between what is typed into the kiln form and a kiln; nothing of Qt."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.said import N_
from firing_review.firing.wording import as_typed, tr
from firing_review.io.kiln_sheet import THERMOCOUPLES
from firing_review.io.plain_text import parse_number

Cells = tuple[str, ...]
NAME, KW, OHMS = range(3)


@dataclass(frozen=True)
class NumberField:
    """One number of the name plate, with the range in which it makes sense."""

    key: str
    label: str
    unit: str
    low: float
    high: float


NUMBERS = (
    NumberField("volume_l", N_("Volume inside"), "L", 1.0, 50_000.0),
    NumberField("wall_mm", N_("Wall thickness"), "mm", 10.0, 1_000.0),
    NumberField("rated_kw", N_("Rated power"), "kW", 0.2, 1_000.0),
    NumberField("rated_volts", N_("Rated voltage"), "V", 90.0, 1_000.0),
)
SECTION_NUMBERS = (
    NumberField("rated_kw", N_("power"), "kW", 0.05, 500.0),
    NumberField("rated_cold_ohms", N_("resistance"), "Ω", 0.05, 10_000.0),
)
SUPPLY_WORDS: dict[Supply | None, str] = {
    None: N_("not given"),
    Supply.SINGLE_PHASE: N_("single phase"),
    Supply.THREE_PHASE_STAR: N_("three phase, star, no neutral"),
    Supply.THREE_PHASE_STAR_NEUTRAL: N_("three phase, star with neutral"),
    Supply.THREE_PHASE_DELTA: N_("three phase, delta"),
}
THERMOCOUPLE_LETTERS: tuple[str | None, ...] = (None, *THERMOCOUPLES)


@dataclass(frozen=True)
class KilnTyped:
    """The form as it stands: texts by key, the two choices, the rows of the sections."""

    texts: Mapping[str, str]
    supply: Supply | None
    thermocouple: str | None
    sections: Sequence[Cells]


@dataclass(frozen=True)
class KilnRead:
    """A kiln, and what in the form could not be used; there the kiln keeps what it had."""

    kiln: Kiln | None
    wrong: dict[str, str]
    wrong_cells: dict[tuple[int, int], str]


def typed_of(kiln: Kiln | None) -> KilnTyped:
    """Return the form that shows a kiln."""
    kiln = kiln or Kiln()
    texts = {field.key: _figure(getattr(kiln, field.key)) for field in NUMBERS}
    rows = tuple(
        (section.name, _figure(section.rated_kw), _figure(section.rated_cold_ohms))
        for section in kiln.sections
    )
    return KilnTyped({"name": kiln.name, **texts}, kiln.supply, kiln.thermocouple, rows)


def read_kiln_typed(typed: KilnTyped, before: Kiln | None) -> KilnRead:
    """Read the form; what it does not show (tariff, shelves, wire) is kept from ``before``."""
    base = before or Kiln()
    wrong: dict[str, str] = {}
    numbers: dict[str, float | None] = {}
    for field in NUMBERS:
        numbers[field.key] = _number(
            field, typed.texts[field.key], getattr(base, field.key), field.key, wrong
        )
    sections, wrong_cells = _sections(typed.sections, base.sections)
    kiln = replace(
        base,
        name=" ".join(typed.texts["name"].split()),
        supply=typed.supply,
        thermocouple=typed.thermocouple,
        sections=base.sections if sections is None else sections,
        **numbers,
    )
    return KilnRead(None if kiln == Kiln() else kiln, wrong, wrong_cells)


def _number(
    field: NumberField, text: str, before: float | None, key: str, wrong: dict[str, str]
) -> float | None:
    """Return the number typed; the one before where it cannot be used."""
    if not text.strip():
        return None
    sentence = _complaint(field, text)
    if sentence:
        wrong[key] = f"{tr(field.label)}: {sentence}"
        return before
    return parse_number(_bare(field, text))


def _complaint(field: NumberField, text: str) -> str:
    number = parse_number(_bare(field, text))
    if number is not None and field.low <= number <= field.high:
        return ""
    return tr("expected a number from {low} to {high} {unit}, found {text}.").format(
        low=_figure(field.low), high=_figure(field.high), unit=field.unit, text=repr(text)
    )


def _bare(field: NumberField, text: str) -> str:
    """Return the text without the unit that people like to write behind it."""
    text = text.strip()
    if text.casefold().endswith(field.unit.casefold()):
        text = text[: -len(field.unit)]
    return text.strip()


def _sections(
    rows: Sequence[Cells], before: Sequence[Section]
) -> tuple[tuple[Section, ...] | None, dict[tuple[int, int], str]]:
    """Read the rows; None while one of them cannot be used."""
    sections: list[Section] = []
    wrong: dict[tuple[int, int], str] = {}
    for place, cells in enumerate(rows):
        if not any(cells):
            continue
        name = cells[NAME].strip()
        if not name or name in [section.name for section in sections]:
            text = tr("Section {row}: give each section a name of its own, such as top.")
            wrong[place, NAME] = text.format(row=place + 1)
        base = _known(before, name, place)
        numbers = {}
        for column, field in enumerate(SECTION_NUMBERS, start=KW):
            complaint = _complaint(field, cells[column]) if cells[column].strip() else ""
            if complaint:
                text = tr("Section {row}, {field}: {complaint}")
                wrong[place, column] = text.format(
                    row=place + 1, field=tr(field.label), complaint=complaint
                )
            else:
                numbers[field.key] = parse_number(_bare(field, cells[column]))
        sections.append(replace(base, name=name, **numbers))
    return (None if wrong else tuple(sections)), wrong


def _known(before: Sequence[Section], name: str, place: int) -> Section:
    """Return the section that the row was before, by name, else by place."""
    same = next((section for section in before if section.name == name), None)
    if same is not None:
        return same
    return before[place] if place < len(before) else Section(name)


def _figure(number: float | None) -> str:
    return (
        "" if number is None else as_typed(f"{number:.4g}" if number < 1000 else f"{number:.0f}")
    )
