"""Lines around and between the data, and what becomes of names and cells."""

import pytest
from log_files import minutes, read

from firing_review.firing.errors import InputError
from firing_review.firing.log import FiringLog

KILN = [20.0, 95.5, 180.25, 310.0, 450.5]
ROWS = "".join(f"{10 * i},{t}\n" for i, t in enumerate(KILN))


def kiln(log: FiringLog) -> list[float]:
    return next(c for c in log.channels if c.name.startswith("kiln_C")).values.tolist()


@pytest.mark.parametrize(
    "text",
    [
        "min,kiln_C,\n" + ROWS.replace("\n", ",\n"),
        "min,kiln_C\n" + ROWS.replace("\n", ",\n"),
        "min,kiln_C\n" + ROWS.replace("95.5\n", "95.5,\n").replace("310.0\n", "310.0,,\n"),
        "min,kiln_C\nDATA\n" + ROWS,
        "min,kiln_C\n---,------\n" + ROWS,
        "| min | kiln_C |\n|---|---|\n"
        + "".join(f"| {10 * i} | {t} |\n" for i, t in enumerate(KILN)),
        "sep=;\nmin;kiln_C\n" + ROWS.replace(",", ";"),
        "1,2\n3\n4.5,7\nmin,kiln_C\n" + ROWS,
        "Firing of Monday, with care\nmin,kiln_C\n" + ROWS,
        "Logger,XK,serial 5\nUser,somebody\nmin,kiln_C\n" + ROWS,
        "Serial,40008941\nStarted,2024-03-01 08:00:00\nmin,kiln_C\n" + ROWS,
        "".join(f"Setting {i}: value {i}\n" for i in range(60)) + "min,kiln_C\n" + ROWS,
        "min,kiln_C\n" + "".join(f"{10.0 * i:.4E},{t:.6E}\n" for i, t in enumerate(KILN)),
        "min,kiln_C\n" + "".join(f"{10 * i}\N{NO-BREAK SPACE},{t}\n" for i, t in enumerate(KILN)),
        "min,kiln_C\n" + "".join(f"{10 * i},+ {t}\n" for i, t in enumerate(KILN)),
        "    min   kiln_C\n ------ --------\n"
        + "".join(f"{10 * i:7d} {t:8.2f}\n" for i, t in enumerate(KILN)),
        "t [min];kiln_C\n"
        + "".join(f"{10 * i},0;{t}\n".replace(".", ",") for i, t in enumerate(KILN)),
        "min,kiln_C\n# looked in\n" + ROWS + "End\n",
    ],
)
def test_lines_around_the_data_and_odd_cells_change_no_reading(text: str) -> None:
    log = read(text)
    assert kiln(log) == KILN
    assert minutes(log) == [0, 10, 20, 30, 40]


def test_words_beside_the_readings_drop_no_row() -> None:
    rows = "".join(f"{10 * i},{t},RAMP {i},OK\n" for i, t in enumerate(KILN))
    log = read("min,kiln_C,step name,status\n" + rows)
    assert kiln(log) == KILN
    assert log.rows_dropped == 0


def test_names_of_fixed_width_may_hold_blanks() -> None:
    rows = "".join(f"{10 * i:10d} {t:16.2f} {t - 5:16.2f}\n" for i, t in enumerate(KILN))
    log = read("Time (min)     Kiln top (C)   Kiln bottom (C)\n" + rows)
    assert [c.name for c in log.channels] == ["Kiln top (C)", "Kiln bottom (C)"]
    assert log.channels[0].values.tolist() == KILN


@pytest.mark.parametrize(
    "unit_row",
    ["min,°F,%", "[min],[°F],[%]", "(min),(F),(%)", "Minutes,Deg. F,%", "min,degF,%"],
)
def test_a_row_of_units_is_known_in_every_dress(unit_row: str) -> None:
    log = read(f"Time,Kiln,Output\n{unit_row}\n0,68,0\n10,212,50\n20,392,100\n")
    assert [c.name for c in log.channels] == ["Kiln", "Output"]
    assert log.channels[0].values.tolist() == pytest.approx([20, 100, 200])


def test_names_that_are_units_are_names() -> None:
    log = read("min,kiln_C,%\n0,20,0\n10,95,50\n20,180,100\n")
    assert [c.name for c in log.channels] == ["kiln_C", "%"]


def test_date_and_time_above_their_columns_are_names() -> None:
    log = read("Date,Time,kiln_C\n03/14/2024,04:25:00 PM,20\n03/14/2024,04:35:00 PM,95\n")
    assert [c.name for c in log.channels] == ["kiln_C"]


def test_a_line_of_channels_above_the_names_goes_with_them() -> None:
    log = read("CH0,CH1,CH2\nTime,Top,Bottom\nmin,°C,°C\n0,20,21\n10,95,80\n20,180,150\n")
    assert [c.name for c in log.channels] == ["CH1 Top", "CH2 Bottom"]


@pytest.mark.parametrize(
    "number", ["1,{t:03d}.5", "1.{t:03d},5", "1 {t:03d},5", "1'{t:03d}.5", "1 {t:03d}.5"]
)
def test_a_sign_that_parts_thousands_is_taken_out(number: str) -> None:
    values = [20, 60, 110, 170, 240]
    rows = "".join(f"{10 * i};{number.format(t=t)}\n" for i, t in enumerate(values))
    assert kiln(read("min;kiln_C\n" + rows)) == [1000.5 + t for t in values]


@pytest.mark.parametrize("sign", [" ", "\u202f", "\u00a0", "'", ","])
def test_thousands_parted_at_the_top_only_are_not_lost(sign: str) -> None:
    cells = ["20.0", "310.5", *(f"{900 + n}.5" for n in range(40)), f"1{sign}005.5", "998.0"]
    rows = "".join(f"{10 * i};{cell}\n" for i, cell in enumerate(cells))
    assert kiln(read("min;kiln_C\n" + rows))[-2:] == [1005.5, 998.0]


def test_zeros_that_fill_the_card_behind_the_last_line_are_cut() -> None:
    assert kiln(read(("min,kiln_C\n" + ROWS).encode() + bytes(4096))) == KILN


def test_a_probe_after_the_other_becomes_columns_side_by_side() -> None:
    top = "".join(f"top,{10 * i},{t}\n" for i, t in enumerate(KILN))
    bottom = "".join(f"bottom,{10 * i + 1},{t - 5}\n" for i, t in enumerate(KILN) if i != 2)
    log = read("sensor,time_min,temp_C\n" + top + bottom)
    assert [c.name for c in log.channels] == ["top", "bottom"]
    assert minutes(log) == [0, 10, 20, 30, 40]
    assert str(log.channels[1].values.tolist()) == "[15.0, 90.5, nan, 305.0, 445.5]"


@pytest.mark.parametrize(
    "text",
    [
        "name,volume_l,kw\nbig,180,9\nsmall,60,4\n",
        "shelf,cone,bend\nbottom,6,90\nmiddle,6,45\n",
        "<html><body><table><tr><td>0</td><td>20</td></tr></table></body></html>",
        '{"t":0,"v":20}\n{"t":1,"v":30}\n',
    ],
)
def test_tables_of_other_things_are_refused(text: str) -> None:
    with pytest.raises(InputError):
        read(text)
