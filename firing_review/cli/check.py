"""The ``check`` command from its arguments to its exit code."""

import gc
import sys
from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from firing_review.cli.inputs import Input, books_held, inputs_of
from firing_review.cli.options import Options, read_options
from firing_review.cli.progress import Progress
from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.wording import tr

if TYPE_CHECKING:
    from firing_review.cli.results import PdfWriter
    from firing_review.cli.row import Row

REVIEWED, BAD_INPUT, STOPPED = 0, 2, 130
FILE_ENDINGS = frozenset({".json", ".pdf", ".html", ".htm", ".txt"})
FEWEST_FOR_PROCESSES = 4
"""Starting a process costs about as long as a few reviews."""
SOON = 1_000
"""Objects made before the collector looks for lost ones, once modules are loaded: what a review
leaves behind is let go before the next, so that memory stays flat over many."""


def main(argv: Sequence[str], write_pdf: "PdfWriter | None" = None) -> int:
    """Run ``check`` with its arguments; return the exit code.

    ``write_pdf`` is what writes a page as PDF; without it there is none.
    """
    names, options = read_options(argv)
    _print_anywhere()
    from firing_review.cli.one import check_one, error_line  # noqa: PLC0415 - keeps --help quick

    try:
        inputs = inputs_of(names)
        if len(inputs) > 1:
            return _check_many(inputs, options, write_pdf)
    except (FiringReviewError, OSError) as error:
        print(error_line(error), file=sys.stderr)
        return BAD_INPUT
    row = check_one(inputs[0], options, several=False, write_pdf=write_pdf)
    if row.error:
        print(row.error, file=sys.stderr)
        return BAD_INPUT
    print(row.text)
    return REVIEWED


def _print_anywhere() -> None:
    """Let a terminal that lacks a sign, such as °, show another in its place."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _check_many(inputs: list[Input], options: Options, write_pdf: "PdfWriter | None") -> int:
    """Review all, side by side; write every result and the table; tell if any failed."""
    from firing_review.cli.summary import summary_text, write_summary  # noqa: PLC0415

    gc.set_threshold(SOON)
    folders = _folders(options)
    for folder in folders:
        folder.mkdir(parents=True, exist_ok=True)
    progress = Progress(len(inputs))
    rows: dict[str, Row] = {}
    stopped = False
    try:
        with books_held(inputs):
            for one, row in _rows(inputs, options, write_pdf):
                rows[one.result] = row
                if row.error:
                    progress.say(row.error)
                progress.step(failed=bool(row.error))
    except KeyboardInterrupt:
        stopped = True
    progress.clear()
    in_order = [rows[one.result] for one in inputs if one.result in rows]
    for folder in folders:
        write_summary(in_order, folder)
    print(summary_text(in_order, options.show), end="")
    if stopped:
        print(tr("Stopped before the end; what was finished is written."), file=sys.stderr)
        return STOPPED
    return BAD_INPUT if any(row.error for row in in_order) else REVIEWED


def _folders(options: Options) -> set[Path]:
    """Return the folders of the results; the name of a file there is a slip."""
    folders = {Path(name) for name in (options.json, options.report) if name}
    for folder in folders:
        if folder.suffix.lower() in FILE_ENDINGS and not folder.is_dir():
            raise InputError(
                str(folder),
                tr("a folder, because several firings are named"),
                tr("the name of a file"),
                tr("Name a folder; --as says what the pages in it are."),
            )
    return folders


def _rows(
    inputs: list[Input], options: Options, write_pdf: "PdfWriter | None"
) -> Iterator[tuple[Input, "Row"]]:
    from firing_review.cli.one import check_one  # noqa: PLC0415
    from firing_review.cli.side_by_side import can_share, cores, side_by_side  # noqa: PLC0415

    do = partial(check_one, options=options, several=True, write_pdf=write_pdf)
    processes = min(options.cores or cores(), len(inputs))
    if processes == 1 or len(inputs) < FEWEST_FOR_PROCESSES or not can_share():
        return ((one, do(one)) for one in inputs)
    return side_by_side(inputs, do, _lost, processes)


def _lost(one: Input) -> "Row":
    from firing_review.cli.row import refused_row  # noqa: PLC0415

    text = tr("{file}: its review was ended from outside, perhaps for want of memory.")
    return refused_row(one, text.format(file=one.name))
