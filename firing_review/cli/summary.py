"""The table of all firings of a run: CSV, JSON, and text for the terminal."""

import csv
import io
import json
from collections.abc import Sequence
from dataclasses import asdict, fields
from pathlib import Path

from firing_review.cli.inputs import SUMMARY
from firing_review.cli.row import Row
from firing_review.firing.wording import tr
from firing_review.io.csv_cells import guarded
from firing_review.io.whole_file import write_whole
from firing_review.report.wording import Show, hours, temperature

FORMAT = "firing-review-summary/1"
COLUMNS = tuple(field.name for field in fields(Row) if field.name != "text")


def write_summary(rows: Sequence[Row], folder: Path) -> None:
    """Write the table as CSV and JSON into a folder."""
    write_whole(folder / f"{SUMMARY}.csv", summary_csv(rows).encode("utf-8-sig"))
    write_whole(folder / f"{SUMMARY}.json", summary_json(rows).encode())


def summary_csv(rows: Sequence[Row]) -> str:
    """Return the table as CSV in which no text can be taken for a formula."""
    out = io.StringIO()
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC)
    writer.writerow(COLUMNS)
    for row in rows:
        writer.writerow([_cell(getattr(row, name)) for name in COLUMNS])
    return out.getvalue()


def _cell(value: str | float | None) -> str | float:
    if value is None:
        return ""
    return guarded(value) if isinstance(value, str) else value


def summary_json(rows: Sequence[Row]) -> str:
    """Return the table as JSON; what is not known is null."""
    firings = []
    for row in rows:
        known = {name: value for name, value in asdict(row).items() if name != "text"}
        firings.append({n: None if v == "" else v for n, v in known.items()})
    document = {"format": FORMAT, "firings": firings}
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


def summary_text(rows: Sequence[Row], show: Show) -> str:
    """Return the table as lines for the terminal, two or three for each firing."""
    failed = sum(bool(row.error) for row in rows)
    head = tr("{count} firings, {failed} could not be reviewed.")
    blocks = [_block(row, show) for row in rows]
    return "\n".join([*blocks, head.format(count=len(rows), failed=failed)]) + "\n"


def _block(row: Row, show: Show) -> str:
    if row.error:
        return tr("{file}\n    not reviewed: {error}").format(file=row.file, error=row.error)
    lights = tr("safety {safety} · load {load} · kiln {kiln}").format(
        safety=row.safety, load=row.load, kiln=row.kiln_state
    )
    facts = [lights]
    if row.peak_c is not None:
        facts.append(tr("highest {peak}").format(peak=temperature(row.peak_c, show)))
    if row.hours is not None:
        facts.append(hours(row.hours))
    if row.cause:
        facts.append(f"{row.cause}: {row.cause_share}")
    return f"{row.file}\n    {' · '.join(facts)}\n    {row.verdict}"
