"""What the fuzzers feed: the first byte of an input names the reader, the rest is the file."""

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln, Section
from firing_review.io.cones_file import parse_cones_text
from firing_review.io.kiln_sheet import parse_kiln_text
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_preview import preview_log
from firing_review.io.plain_text import decode
from firing_review.io.schedule_file import parse_schedule_text
from firing_review.io.sheets import read_firing_sheet
from firing_review.review.recovery import read_recovery

KILN = Kiln(sections=(Section("bottom"), Section("top")))
LOG = "elapsed_min,chamber_C\n" + "".join(f"{10 * m},{20 + 9 * m}\n" for m in range(30))


def _firing_sheet(data: bytes) -> None:
    with TemporaryDirectory() as folder:
        (Path(folder) / "log.csv").write_text(LOG, encoding="utf-8")
        (Path(folder) / "firing.toml").write_bytes(data)
        read_firing_sheet(Path(folder) / "firing.toml")


def _recovery(data: bytes) -> None:
    with TemporaryDirectory() as folder:
        (Path(folder) / "recovery.json").write_bytes(data)
        read_recovery(Path(folder) / "recovery.json")


READERS: dict[str, Callable[[bytes], object]] = {
    "l": lambda data: read_log_bytes(data, "log.csv"),
    "p": lambda data: preview_log(data, "log.csv"),
    "s": lambda data: parse_schedule_text(decode(data), "schedule.csv"),
    "c": lambda data: parse_cones_text(decode(data), "cones.csv", KILN),
    "k": lambda data: parse_kiln_text(decode(data), "kiln.toml"),
    "f": _firing_sheet,
    "r": _recovery,
}
"""Log, its preview, schedule, cones, kiln sheet, firing sheet, recovery file."""


def read_one(data: bytes) -> None:
    """Read one input; a value or one clear line may come of it, anything else is a fault."""
    reader = READERS.get(data[:1].decode("latin-1"), READERS["l"])
    try:
        reader(data[1:])
    except InputError as error:
        line = str(error)
        if not line.strip() or "\n" in line:
            raise AssertionError(f"not one clear line: {line!r}") from error
