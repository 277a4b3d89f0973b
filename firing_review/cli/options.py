"""What the ``check`` command can be told."""

import argparse
from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.said import N_
from firing_review.firing.wording import Language, language, tr
from firing_review.report.paper.page import Paper, Reader
from firing_review.report.wording import Show

DESCRIPTION = N_("""\
Review one or more firings without a window and print what was found.

A sheet (firing.toml) names log, schedule, cones and kiln; a bare log (CSV) will do.
Several sheets, a folder of them, or a kiln book (.kilnbook) are reviewed side by side on
all cores; --json and --report then name folders, which also get the table of all firings,
summary.csv and summary.json.
""")
EPILOG = N_("Exit: 0 reviewed; 2 something could not be read (one line on standard error).")


@dataclass(frozen=True)
class Options:
    """The options as plain values that can be handed to another process."""

    schedule: str | None
    cones: str | None
    kiln: str | None
    goal_cone: str | None
    earlier: tuple[str, ...]
    unit: str | None
    show: Show
    json: str | None
    report: str | None
    cores: int | None
    language: Language
    page: Reader | None
    paper: Paper
    form: str


def read_options(argv: Sequence[str]) -> tuple[list[str], Options]:
    """Return the inputs as typed, and the options."""
    parser = check_parser()
    found = parser.parse_args(list(argv))
    if found.page and not found.report:
        parser.error(tr("--page says who the --report is for; name that too"))
    options = Options(
        schedule=found.schedule,
        cones=found.cones,
        kiln=found.kiln,
        goal_cone=found.goal_cone,
        earlier=tuple(found.earlier),
        unit=found.unit,
        show=Show(found.show),
        json=found.json,
        report=found.report,
        cores=found.cores,
        language=Language(found.language) if found.language else language(),
        page=Reader(found.page) if found.page else None,
        paper=Paper(found.paper),
        form=found.form,
    )
    return list(found.inputs), options


def check_parser() -> argparse.ArgumentParser:
    """Return the parser of the ``check`` command."""
    parser = argparse.ArgumentParser(
        prog="firing-review check",
        description=tr(DESCRIPTION),
        epilog=tr(EPILOG),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "inputs", nargs="+", metavar="SHEET_OR_LOG", help=tr("firing sheet, log, folder or book")
    )
    parser.add_argument("--schedule", metavar="F", help=tr("schedule (CSV)"))
    parser.add_argument("--cones", metavar="F", help=tr("witness cones (CSV)"))
    parser.add_argument("--kiln", metavar="F", help=tr("kiln sheet (TOML)"))
    parser.add_argument(
        "--goal-cone", metavar="N", help=tr("the cone meant, for instance 06 or 6")
    )
    parser.add_argument(
        "--earlier", metavar="F", action="append", default=[], help=tr("an earlier good firing")
    )
    parser.add_argument(
        "--unit", choices=["C", "F"], help=tr("unit of the log, if it does not say")
    )
    parser.add_argument("--json", metavar="OUT", help=tr("write the review as JSON"))
    parser.add_argument("--report", metavar="OUT", help=tr("write a page: .pdf, .html or .txt"))
    _add_paper(parser)
    parser.add_argument(
        "--show", choices=["C", "F", "both"], default="C", help=tr("unit of what is printed")
    )
    parser.add_argument(
        "--language", choices=list(Language), help=tr("language of texts; else the system's")
    )
    parser.add_argument(
        "--cores", metavar="N", type=count, help=tr("how many firings at a time; else all cores")
    )
    return parser


def _add_paper(parser: argparse.ArgumentParser) -> None:
    """Add what is said about the page that is written."""
    readers = [reader.value for reader in Reader]
    parser.add_argument(
        "--page",
        choices=readers,
        help=tr(
            "who the page is for: maker (what next), office (safe? cost?), technician "
            "(readings and plate), case (facts for a list or the phone); else maker, and for .txt "
            "the whole review"
        ),
    )
    parser.add_argument(
        "--paper",
        choices=[p.value for p in Paper],
        default=Paper.A4.value,
        help=tr("size of paper"),
    )
    parser.add_argument(
        "--as",
        dest="form",
        choices=["pdf", "html", "txt"],
        default="txt",
        help=tr("with several firings: what the pages in the --report folder are"),
    )


def count(text: str) -> int:
    """Return a whole number from 1 up, as typed."""
    number = int(text)
    if number < 1:
        raise ValueError
    return number
