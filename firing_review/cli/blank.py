"""``firing-review blank``: sheets to write on by hand."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from firing_review.cli.one import error_line
from firing_review.cli.results import PdfWriter, write_page
from firing_review.firing.errors import FiringReviewError
from firing_review.firing.wording import tr
from firing_review.io.kiln_sheet import read_kiln
from firing_review.report.paper.blank import BlankSheet, blank_page
from firing_review.report.paper.page import Paper

WRITTEN, BAD_INPUT = 0, 2


def blank_parser() -> argparse.ArgumentParser:
    """Return the parser of the ``blank`` command."""
    parser = argparse.ArgumentParser(
        prog="firing-review blank", description=tr("Write a blank sheet to fill in by hand.")
    )
    kinds = [sheet.value for sheet in BlankSheet]
    parser.add_argument("sheet", choices=kinds, help=tr("cones by shelf, or readings by section"))
    parser.add_argument("out", metavar="OUT", help=tr("name ending in .pdf, .html or .txt"))
    parser.add_argument("--kiln", metavar="F", help=tr("kiln sheet, for its shelves and sections"))
    papers = [paper.value for paper in Paper]
    parser.add_argument(
        "--paper", choices=papers, default=Paper.A4.value, help=tr("size of paper")
    )
    return parser


def main(argv: Sequence[str], write_pdf: PdfWriter | None = None) -> int:
    """Write a blank sheet; return the exit code."""
    asked = blank_parser().parse_args(list(argv))
    try:
        kiln = read_kiln(Path(asked.kiln)) if asked.kiln else None
        page = blank_page(BlankSheet(asked.sheet), kiln)
        write_page(page, Path(asked.out), Paper(asked.paper), write_pdf)
    except (FiringReviewError, OSError) as error:
        print(error_line(error), file=sys.stderr)
        return BAD_INPUT
    return WRITTEN
