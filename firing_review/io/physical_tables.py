"""Tables of thermocouples and heating wire from ``resources/``."""

import csv
from collections.abc import Iterator, Mapping
from functools import cache

from firing_review.firing.tables import (
    EmfPiece,
    ThermocoupleTable,
    ToleranceRow,
    WireAlloy,
    WireTable,
)
from firing_review.io.resource_path import resource

EMF_SOURCE = "NIST Monograph 175 (SRD 60); see resources/thermocouples/SOURCES.txt"
WIRE_SOURCE = "Handbook and makers' tables of heating alloys; see resources/wire/SOURCES.txt"
_CT = "ct_"


def _rows(folder: str, name: str) -> Iterator[Mapping[str, str]]:
    with resource(folder, name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


@cache
def load_thermocouples() -> ThermocoupleTable:
    """Return the reference functions and tolerances of thermocouples."""
    tolerances = tuple(
        ToleranceRow(
            kind=row["type"],
            grade=row["class"],
            from_c=float(row["from_c"]),
            to_c=float(row["to_c"]),
            degrees_c=float(row["degrees_c"]),
            share=float(row["share"]),
            share_above_c=float(row["share_above_c"]),
        )
        for row in _rows("thermocouples", "tolerances.csv")
    )
    pieces = tuple(_piece(row) for row in _rows("thermocouples", "its90_reference.csv"))
    return ThermocoupleTable(pieces, tolerances, EMF_SOURCE)


def _piece(row: Mapping[str, str]) -> EmfPiece:
    numbers = [row[f"c{i}"] for i in range(15)]
    bump = None
    if row["a0_mv"]:
        bump = (float(row["a0_mv"]), float(row["a1_per_k2"]), float(row["a2_c"]))
    return EmfPiece(
        kind=row["type"],
        from_c=float(row["from_c"]),
        to_c=float(row["to_c"]),
        coefficients=tuple(float(text) for text in numbers if text),
        bump=bump,
    )


@cache
def load_wire() -> WireTable:
    """Return the heating alloys."""
    alloys = tuple(
        WireAlloy(
            name=row["alloy"],
            rho20_uohm_m=_number(row["rho20_uohm_m"]),
            max_wire_c=_number(row["max_wire_temp_c"]),
            hot_over_cold=tuple(
                (float(key.removeprefix(_CT)), float(text))
                for key, text in row.items()
                if key.startswith(_CT) and text
            ),
            status=row["status"],
        )
        for row in _rows("wire", "element_wire.csv")
    )
    return WireTable(alloys, WIRE_SOURCE)


def _number(text: str) -> float | None:
    return float(text) if text else None
