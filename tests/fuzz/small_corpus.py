"""Make a small corpus: of many inputs keep the shortest ones that each reach something new.

    PYTHONPATH=.:tests python tests/fuzz/small_corpus.py TO FROM...

An input is kept if it takes a step from one line of the readers to another that no shorter
input took.
"""

import contextlib
import hashlib
import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any

from fuzz.targets import read_one

PART = "firing_review"


def steps(data: bytes) -> set[tuple[str, int, int]]:
    """Return the steps from line to line that reading an input takes."""
    seen: set[tuple[str, int, int]] = set()

    def enter(frame: FrameType, _event: str, _value: Any) -> Callable[..., Any] | None:
        name = frame.f_code.co_filename
        if PART not in name:
            return None
        before = 0

        def step(at: FrameType, event: str, _value: Any) -> Any:
            nonlocal before
            if event == "line":
                seen.add((name, before, at.f_lineno))
                before = at.f_lineno
            return step

        return step

    sys.settrace(enter)
    try:
        with contextlib.suppress(Exception):
            read_one(data)
    finally:
        sys.settrace(None)
    return seen


def main(target: Path, sources: list[Path]) -> None:
    """Copy into ``target`` what is worth keeping."""
    inputs = {path.read_bytes() for source in sources for path in source.iterdir()}
    known: set[tuple[str, int, int]] = set()
    target.mkdir(parents=True, exist_ok=True)
    for data in sorted(inputs, key=lambda one: (len(one), one)):
        new = steps(data) - known
        if new:
            known |= new
            name = hashlib.sha256(data).hexdigest()[:12]
            (target / name).write_bytes(data)


if __name__ == "__main__":
    main(Path(sys.argv[1]), [Path(name) for name in sys.argv[2:]])
