"""``firing-review check``: a review without a window."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from firing_review.firing.cones import parse_cone
from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.sheet import Given
from firing_review.firing.tables import Tables
from firing_review.firing.units import TemperatureUnit
from firing_review.report.wording import Show

REVIEWED, BAD_INPUT = 0, 2
DESCRIPTION = """\
Review one or more firings without a window and print what was found.

A sheet (firing.toml) names log, schedule, cones and kiln; a bare log (CSV) will do.
Several sheets, or a folder of them, are reviewed one after the other; --json and
--report then name folders.
"""
EPILOG = "Exit: 0 reviewed; 2 something could not be read (one line on standard error)."


def check_parser() -> argparse.ArgumentParser:
    """Return the parser of the ``check`` command."""
    parser = argparse.ArgumentParser(
        prog="firing-review check",
        description=DESCRIPTION,
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "inputs", nargs="+", metavar="SHEET_OR_LOG", help="firing sheet, log or folder"
    )
    parser.add_argument("--schedule", metavar="F", help="schedule (CSV)")
    parser.add_argument("--cones", metavar="F", help="witness cones (CSV)")
    parser.add_argument("--kiln", metavar="F", help="kiln sheet (TOML)")
    parser.add_argument("--goal-cone", metavar="N", help="the cone meant, for instance 06 or 6")
    parser.add_argument(
        "--earlier", metavar="F", action="append", default=[], help="an earlier good firing"
    )
    parser.add_argument("--unit", choices=["C", "F"], help="unit of the log, if it does not say")
    parser.add_argument("--json", metavar="OUT", help="write the review as JSON")
    parser.add_argument("--report", metavar="OUT", help="write the review as text (.txt)")
    parser.add_argument(
        "--show", choices=["C", "F", "both"], default="C", help="unit of what is printed"
    )
    return parser


def main(argv: Sequence[str]) -> int:
    """Run ``check`` with its arguments; return the exit code."""
    options = check_parser().parse_args(list(argv))
    from firing_review.io.tables import load_tables  # noqa: PLC0415 - keeps --help quick

    try:
        tables = load_tables()
        inputs = _expand(options.inputs)
    except FiringReviewError as error:
        return _refuse(error)
    several = len(inputs) > 1
    worst = REVIEWED
    for path in inputs:
        try:
            _check_one(path, options, tables, several=several)
        except (FiringReviewError, OSError) as error:
            worst = _refuse(error)
    return worst


def _refuse(error: Exception) -> int:
    text = str(error)
    if isinstance(error, OSError):
        place, reason = error.filename or "file", error.strerror or error
        text = f"{place}: {reason}. Check the path and the rights."
    print(text, file=sys.stderr)
    return BAD_INPUT


def _expand(names: Sequence[str]) -> list[Path]:
    """Return the inputs with a folder of firings replaced by the sheets in it."""
    paths: list[Path] = []
    for name in names:
        path = Path(name)
        below = sorted(path.glob("*/firing.toml")) if path.is_dir() else []
        paths += below if below and not (path / "firing.toml").exists() else [path]
    return paths


def _check_one(path: Path, options: argparse.Namespace, tables: Tables, *, several: bool) -> None:
    from firing_review.report.review_json import review_json  # noqa: PLC0415
    from firing_review.report.text import review_text  # noqa: PLC0415
    from firing_review.review.pipeline import review_firing  # noqa: PLC0415

    review = review_firing(_gather(path, options), tables)
    text = review_text(review, Show(options.show))
    print(text if not several else f"== {path}\n{text}")
    if options.json:
        _write(_target(options.json, path, ".json", several=several), review_json(review))
    if options.report:
        target = _target(options.report, path, ".txt", several=several)
        if target.suffix != ".txt":
            raise InputError(
                str(target), "a name ending in .txt", repr(target.suffix), "Name a text file."
            )
        _write(target, text)


def _target(name: str, path: Path, ending: str, *, several: bool) -> Path:
    if not several:
        return Path(name)
    folder = Path(name)
    folder.mkdir(parents=True, exist_ok=True)
    stem = path.parent.name if path.name == "firing.toml" else path.stem
    return folder / f"{stem}{ending}"


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def _gather(path: Path, options: argparse.Namespace) -> Given:
    from firing_review.io.open_any import gather  # noqa: PLC0415

    return gather(
        path,
        schedule=_path(options.schedule),
        cones=_path(options.cones),
        kiln=_path(options.kiln),
        goal_cone=parse_cone(options.goal_cone, "--goal-cone") if options.goal_cone else None,
        earlier=tuple(Path(e) for e in options.earlier),
        unit=TemperatureUnit(options.unit) if options.unit else None,
    )


def _path(name: str | None) -> Path | None:
    return Path(name) if name else None
