"""A book whose writer is killed 200 times, and on a disk that is full.

Run with ``python -m pytest tests/benchmarks/bench_book_trouble.py -s``.
"""

from pathlib import Path

import pytest
from book_trouble import write_and_kill

KILLED = 200
pytestmark = pytest.mark.timeout(1800)


def test_killed_at_200_random_moments_every_confirmed_edit_is_there(tmp_path: Path) -> None:
    confirmed, lost, unsound = 0, 0, 0
    for seed in range(KILLED):
        written = write_and_kill(tmp_path / "workshop.kilnbook", seed, longest_s=0.5)
        confirmed += written.confirmed
        lost += len(written.lost)
        unsound += not written.sound
    print(f"killed {KILLED} times, {confirmed} confirmed edits, {lost} lost, {unsound} unsound")  # noqa: T201
    assert (lost, unsound) == (0, 0)
