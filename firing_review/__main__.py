"""Start: ``firing-review`` opens the window, ``firing-review check`` works without one."""

import gc
import os
import sys
from collections.abc import Sequence

from firing_review import __version__
from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.io.languages import asked_language, named_by_windows, speak, system_language
from firing_review.late import module, write_pdf

USAGE = N_(
    "Firing Review looks at an electric kiln firing that is over.\n"
    "\n"
    "  firing-review                   open the window\n"
    "  firing-review FILE_OR_FOLDER    open a log, a firing sheet, a folder or a kiln book\n"
    "  firing-review check FILE ...    review without a window; see: firing-review check --help\n"
    "  firing-review --language L ...  speak en_US, en_GB or de, not the system's language\n"
    "  firing-review blank SHEET OUT   write a blank sheet; see: firing-review blank --help\n"
    "  firing-review --version         say which version this is\n"
    "  firing-review --help            show this text\n"
)
BAD_INPUT = 2
SELDOM = 50_000
"""Objects made before the collector looks for lost ones: while modules load it finds none, and
looking takes a tenth of a check's time."""
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
"""The number libraries would start a thread for each core as they load, which takes longer than
all the sums that they would share among them."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the command line asks and return the exit code."""
    for name in ONE_THREAD:
        os.environ.setdefault(name, "1")
    try:
        chosen, asked = asked_language(sys.argv[1:] if arguments is None else arguments)
    except InputError as error:
        sys.stderr.write(f"{error}\n")
        return BAD_INPUT
    speak(chosen or system_language(os.environ, named_by_windows()))
    if asked[:1] == ["check"]:
        gc.set_threshold(SELDOM)
        return _printing("firing_review.cli", asked[1:])
    if asked[:1] == ["blank"]:
        return _printing("firing_review.cli.blank", asked[1:])
    if asked[:1] in (["--help"], ["-h"]):
        sys.stdout.write(tr(USAGE))
        return 0
    if asked[:1] == ["--version"]:
        sys.stdout.write(f"Firing Review {__version__}\n")
        return 0
    unknown = next((word for word in asked if word.startswith("-")), None)
    if unknown is not None or len(asked) > 1:
        sys.stderr.write(_refusal(unknown))
        return BAD_INPUT
    try:
        window = module("firing_review.ui.app")
    except InputError as error:
        sys.stderr.write(f"{error}\n")
        return BAD_INPUT
    return int(window.main(asked, chosen))


def _printing(name: str, arguments: list[str]) -> int:
    """Run a command that prints; text that nobody takes, or that has no room, is no crash."""
    try:
        code = int(module(name).main(arguments, write_pdf))
        sys.stdout.flush()
    except BrokenPipeError:  # the reader of the text has seen enough
        _print_no_more()
        return 0
    except OSError as error:
        _print_no_more()
        text = tr("firing-review: the review cannot be printed: {reason}")
        sys.stderr.write(text.format(reason=error.strerror or error) + "\n")
        return BAD_INPUT
    return code


def _print_no_more() -> None:
    """Let what is still to be printed go nowhere, so that the end of the program is quiet."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _refusal(unknown: str | None) -> str:
    if unknown is None:
        text = tr(
            "firing-review opens one firing at a time; give one file or one folder. "
            "For several: firing-review check FILE ..."
        )
        return text + "\n"
    text = tr("firing-review: there is no option {option}; see: firing-review --help")
    return text.format(option=unknown) + "\n"


if __name__ == "__main__":
    if hasattr(sys, "frozen"):  # the stand-alone program starts itself for each core
        module("multiprocessing").freeze_support()
    sys.exit(main())
