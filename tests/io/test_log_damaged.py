"""Damaged files: whatever is done to the bytes, a log comes out or one clear line."""

import pytest
from damaged_logs import FIXED, SAMPLES, damaged
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.cli import main
from firing_review.firing.errors import FiringReviewError
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_preview import preview_log


def read_or_refuse(raw: bytes) -> None:
    for reading in (read_log_bytes, preview_log):
        said = "read"
        try:
            reading(raw, "log.csv")
        except FiringReviewError as error:
            said = str(error)
        assert said
        assert "\n" not in said


@pytest.mark.parametrize("sample", range(len(SAMPLES)))
def test_bytes_flipped_cut_repeated_or_shuffled_end_in_a_log_or_in_one_line(sample: int) -> None:
    for seed in range(150):
        read_or_refuse(damaged(SAMPLES[sample], seed))


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_end_in_a_log_or_in_one_line(raw: bytes) -> None:
    read_or_refuse(raw)


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet='0123456789.,;:- \t\n"/TZCFaeinpt°%', max_size=300))
def test_any_text_of_figures_ends_in_a_log_or_in_one_line(text: str) -> None:
    read_or_refuse(text.encode())


def test_one_damaged_time_ages_away_is_left_out_and_the_rest_is_reviewed(tmp_path, capsys) -> None:
    rows = FIXED.splitlines()
    rows[20] = rows[20].replace(rows[20].split()[0], "1e24", 1)
    log = read_log_bytes("\n".join(rows).encode(), "log.csv")
    assert log.elapsed_h[-1] == pytest.approx(39.0 / 60.0)
    assert len(log.elapsed_h) == 39
    assert log.rows_dropped == 1
    (tmp_path / "log.csv").write_text("\n".join(rows))
    assert main([str(tmp_path / "log.csv")]) == 0
    assert capsys.readouterr().err == ""


def test_moments_at_which_no_section_read_are_no_section_apart(tmp_path, capsys) -> None:
    rows = [
        f"{10 * i},{'' if i % 5 == 0 else 20 + 9 * i},{'' if i % 5 == 0 else 18 + 9 * i}"
        for i in range(120)
    ]
    (tmp_path / "log.csv").write_text("\n".join(["elapsed_min,top_C,bottom_C", *rows]))
    assert main([str(tmp_path / "log.csv")]) == 0
    assert capsys.readouterr().err == ""
