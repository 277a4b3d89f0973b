"""The kiln sheet: name plate, sections and shelves from the floor up."""

from collections.abc import Sequence
from pathlib import Path

from firing_review.firing.kiln import Kiln, Section, Shelf, Supply
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.io.toml_text import Sheet, Table, parse_sheet, read_sheet, toml_lines

EXPECTED = N_("a kiln sheet (TOML)")
THERMOCOUPLES = ("B", "C", "E", "J", "K", "N", "R", "S", "T")
_PLATE = (
    "name",
    "volume_l",
    "wall_mm",
    "rated_kw",
    "rated_volts",
    "supply",
    "thermocouple",
    "tariff_per_kwh",
)
KILN_KEYS = (*_PLATE, "sections", "shelves")
_SECTION_KEYS = tuple(Section.__dataclass_fields__)
_SHELF_KEYS = tuple(Shelf.__dataclass_fields__)


def read_kiln(path: Path) -> Kiln:
    """Read a kiln sheet.

    Raises
    ------
    InputError
        With file, line and key of the first thing that cannot be used.
    """
    return _kiln(read_sheet(path, tr(EXPECTED)))


def parse_kiln_text(text: str, where: str) -> Kiln:
    """Read a kiln sheet from its text."""
    return _kiln(parse_sheet(text, where, tr(EXPECTED)))


def _kiln(sheet: Sheet) -> Kiln:
    table = Table(sheet, sheet.values)
    table.refuse_unknown(KILN_KEYS)
    supply = table.word("supply", [one.value for one in Supply])
    sections = tuple(_section(one) for one in table.tables("sections"))
    shelves = tuple(_shelf(one, sections) for one in table.tables("shelves"))
    for key, names in (
        ("sections", [section.name for section in sections]),
        ("shelves", [shelf.name for shelf in shelves]),
    ):
        _refuse_twins(table, key, names)
    return Kiln(
        name=table.text("name") or "",
        volume_l=table.number("volume_l"),
        wall_mm=table.number("wall_mm"),
        rated_kw=table.number("rated_kw"),
        rated_volts=table.number("rated_volts"),
        supply=Supply(supply) if supply else None,
        thermocouple=_thermocouple(table),
        tariff_per_kwh=table.number("tariff_per_kwh"),
        sections=sections,
        shelves=shelves,
    )


def _thermocouple(table: Table) -> str | None:
    letter = table.text("thermocouple")
    if letter is None or letter.strip().upper() in THERMOCOUPLES:
        return letter.strip().upper() if letter else None
    expected = tr("a type letter of a thermocouple, one of {thermocouples}").format(
        thermocouples=", ".join(THERMOCOUPLES)
    )
    raise table.refuse("thermocouple", expected, tr("Read it off the probe or its lead wire."))


def _name(table: Table) -> str:
    name = (table.text("name") or "").strip()
    if not name:
        raise table.refuse(
            "name",
            tr("a name for each of [[{name}]]").format(name=table.name),
            tr("Add a line name = ."),
        )
    return name


def _section(table: Table) -> Section:
    table.refuse_unknown(_SECTION_KEYS, KILN_KEYS)
    return Section(
        name=_name(table),
        rated_kw=table.number("rated_kw"),
        rated_cold_ohms=table.number("rated_cold_ohms"),
        elements=table.count("elements"),
        wiring=table.text("wiring"),
        alloy=table.text("alloy"),
        wire_mm=table.number("wire_mm"),
        probe_column=table.text("probe_column"),
    )


def _shelf(table: Table, sections: Sequence[Section]) -> Shelf:
    table.refuse_unknown(_SHELF_KEYS, KILN_KEYS)
    names = [section.name for section in sections]
    section = table.text("section")
    if section is not None and section not in names:
        expected = tr("a section of this kiln, from the floor up {names}").format(
            names=", ".join(names) or tr("none given")
        )
        raise table.refuse("section", expected, tr("Name a section as written in [[sections]]."))
    height = table.values.get("height_mm")
    height_mm = 0.0 if height == 0 and not isinstance(height, bool) else table.number("height_mm")
    return Shelf(_name(table), section, height_mm)


def _refuse_twins(table: Table, key: str, names: Sequence[str]) -> None:
    twin = next((name for name in names if names.count(name) > 1), None)
    if twin is not None:
        one = table.tables(key)[len(names) - 1 - names[::-1].index(twin)]
        raise one.refuse(
            "name",
            tr("a different name for each of [[{key}]]").format(key=key),
            tr("Rename one of them."),
        )


def kiln_text(kiln: Kiln) -> str:
    """Return the text of a kiln sheet that :func:`read_kiln` reads back to the same kiln."""
    plate = {key: getattr(kiln, key) for key in _PLATE}
    plate["name"] = kiln.name or None
    plate["supply"] = kiln.supply.value if kiln.supply else None
    lines = ["# Kiln sheet; sections and shelves from the floor up.", *toml_lines(plate)]
    for section in kiln.sections:
        lines += ["", "[[sections]]", *toml_lines({k: getattr(section, k) for k in _SECTION_KEYS})]
    for shelf in kiln.shelves:
        lines += ["", "[[shelves]]", *toml_lines({k: getattr(shelf, k) for k in _SHELF_KEYS})]
    return "\n".join(lines) + "\n"
