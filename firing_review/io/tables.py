"""``resources/`` to tables, checked when they are read."""

import csv
from functools import cache

from firing_review.firing.cones import ConeCell, ConeNumber, ConeTable
from firing_review.firing.tables import Tables
from firing_review.io.cause_files import load_knowledge
from firing_review.io.physical_tables import load_thermocouples, load_wire
from firing_review.io.resource_path import resource

CHART = "Temperature-equivalents chart for pyrometric cones; see resources/cones/SOURCES.txt"


@cache
def load_tables() -> Tables:
    """Return every published table the program computes with."""
    return Tables(
        cones=_cones("end_points.csv"),
        cones_iron_free=_cones("end_points_iron_free.csv"),
        thermocouples=load_thermocouples(),
        wire=load_wire(),
        knowledge=load_knowledge(),
    )


def _cones(name: str) -> ConeTable:
    with resource("cones", name).open(encoding="utf-8", newline="") as file:
        cells = tuple(
            ConeCell(
                cone=ConeNumber(row["cone"]),
                kind=row["kind"],
                rate_c_per_h=float(row["rate_c_per_h"]),
                temperature_c=float(row["temp_c"]),
                temperature_f=float(row["temp_f"]),
                status=row["status"],
            )
            for row in csv.DictReader(file)
            if row["temp_c"]
        )
    return ConeTable(cells, CHART)
