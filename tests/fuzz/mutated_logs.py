"""Thousands of damaged logs through ``check``: each must end in a review or in one clear line.

By hand, outside the usual checks:

    PYTHONPATH=.:tests python tests/fuzz/mutated_logs.py 20000 FOR_WHAT_FAILED [FIRST_NUMBER]

Small logs of every layout are damaged byte by byte and line by line, as a bad card, a cut
transfer or a spreadsheet would; the seed of every log is its number, so any can be made again.
"""

import contextlib
import io
import sys
import tempfile
import traceback
import warnings
from collections import Counter
from pathlib import Path

from damaged_logs import SAMPLES, damaged

from firing_review.cli import main as check

REVIEWED, BAD_INPUT = 0, 2


def mutated(number: int) -> bytes:
    """Return log ``number``: one of the samples, damaged by a chance that is its number."""
    return damaged(SAMPLES[number % len(SAMPLES)], number)


def outcome(path: Path) -> str:
    """Run ``check`` on a log; return what came of it, ``fault: ...`` for what must not be."""
    out, err = io.StringIO(), io.StringIO()
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = check([str(path)])
    except BaseException:  # noqa: BLE001 - whatever it is, it is the finding
        return f"fault: {traceback.format_exc()}"
    said = err.getvalue()
    if code == REVIEWED and out.getvalue().strip() and not said:
        return "reviewed"
    if code == BAD_INPUT and len(said.splitlines()) == 1 and not out.getvalue():
        return "refused in one line"
    return f"fault: exit {code}, {len(out.getvalue())} characters, error {said!r}"


def main(count: int, failed: Path, first: int = 0) -> int:
    """Check ``count`` logs; keep those that failed; print what came of all."""
    warnings.simplefilter("error")
    failed.mkdir(parents=True, exist_ok=True)
    seen: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "log.csv"
        for number in range(first, first + count):
            path.write_bytes(mutated(number))
            result = outcome(path)
            seen[result.split(":")[0]] += 1
            if result.startswith("fault"):
                (failed / f"{number}.csv").write_bytes(path.read_bytes())
                (failed / f"{number}.txt").write_text(result, encoding="utf-8")
            if (number + 1) % 500 == 0:
                print(number + 1, dict(seen), flush=True)  # noqa: T201 - what a run is for
    print(dict(seen))  # noqa: T201
    return int(seen["fault"] > 0)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), Path(sys.argv[2]), *map(int, sys.argv[3:])))
