"""A review written to files: JSON, and a page as PDF, HTML or text."""

from collections.abc import Callable
from pathlib import Path

from firing_review.cli.inputs import Input
from firing_review.cli.options import Options
from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr
from firing_review.io.whole_file import write_whole
from firing_review.report.paper.html_page import page_html
from firing_review.report.paper.make import make_page
from firing_review.report.paper.page import Page, Paper, Reader
from firing_review.report.paper.page_text import page_text
from firing_review.report.review_json import review_json
from firing_review.report.text import review_text
from firing_review.review.review import Review

PdfWriter = Callable[[Page, Path, Paper], None]
"""Writes a page as PDF; handed in by the program's start, because type is set by the window's
library, which the command line does not know."""


def write_results(
    review: Review, one: Input, options: Options, write_pdf: PdfWriter | None, *, several: bool
) -> None:
    """Write what the options ask for; with several firings into folders, each under its name."""
    if options.json:
        target = _target(options.json, one, ".json", several=several)
        write_whole(target, review_json(review).encode())
    if options.report:
        target = _target(options.report, one, f".{options.form}", several=several)
        if target.suffix.lower() == ".txt" and options.page is None:
            write_whole(target, review_text(review, options.show).encode())
        else:
            page = make_page(review, options.page or Reader.MAKER, options.show)
            write_page(page, target, options.paper, write_pdf)


def _target(name: str, one: Input, ending: str, *, several: bool) -> Path:
    return Path(name) / f"{one.result}{ending}" if several else Path(name)


def write_page(page: Page, target: Path, paper: Paper, write_pdf: PdfWriter | None) -> None:
    """Write a page; the ending of the name says as what.

    Raises
    ------
    InputError
        If the ending is none of .pdf, .html and .txt.
    """
    ending = target.suffix.lower()
    if ending in {".html", ".htm"}:
        write_whole(target, page_html(page, paper).encode())
    elif ending == ".txt":
        write_whole(target, page_text(page).encode())
    elif ending == ".pdf" and write_pdf is not None:
        write_pdf(page, target, paper)
    else:
        raise InputError(
            str(target),
            tr("a name ending in .pdf, .html or .txt"),
            repr(target.suffix),
            tr("End the name with what the file is to be."),
        )
