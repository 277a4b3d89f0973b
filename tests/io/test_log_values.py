"""Values of a log: units, marks of an open probe, and what each column is."""

import numpy as np
import pytest
from log_files import chamber, read, said

from firing_review.firing.errors import DoubtError
from firing_review.firing.log import ChannelRole
from firing_review.firing.units import TemperatureUnit


def table(head: str, *columns: list[object]) -> str:
    rows = zip(range(0, 10 * len(columns[0]), 10), *columns, strict=True)
    return f"elapsed_min,{head}\n" + "".join(",".join(map(str, row)) + "\n" for row in rows)


CLIMB_C = [20 + 40 * i for i in range(31)]
CLIMB_F = [68 + 72 * i for i in range(31)]


@pytest.mark.parametrize(
    "text",
    [
        table("chamber_F", CLIMB_F),
        table("chamber (°F)", CLIMB_F),
        table("chamber [F]", CLIMB_F),
        table("chamber deg F", CLIMB_F),
        table("chamber Fahrenheit", CLIMB_F),
        table("chamber", [f"{v} F" for v in CLIMB_F]),
        table("chamber", [f"{v}°F" for v in CLIMB_F]),
        table("chamber,unit", CLIMB_F, ["F"] * 31),
        table("chamber", CLIMB_F).replace("chamber\n", "chamber\nmin,°F\n"),
        "Unit: °F\n" + table("chamber", CLIMB_F),
        table("chamber", CLIMB_F),
        table("chamber_K", [v + 273.15 for v in CLIMB_C]),
    ],
)
def test_a_log_in_another_unit_comes_out_in_celsius(text: str) -> None:
    assert np.allclose(chamber(read(text)), CLIMB_C, atol=1e-3)


def test_a_log_without_unit_that_starts_cold_and_ends_at_cone_heat_is_celsius() -> None:
    log = read(table("chamber", CLIMB_C))
    assert chamber(log) == CLIMB_C
    assert log.unit_read is TemperatureUnit.CELSIUS
    assert "unit_read" in said(log)


def test_a_unit_that_values_leave_open_is_asked_for_and_the_way_out_is_named() -> None:
    text = table("chamber", [60 + 30 * i for i in range(31)])
    with pytest.raises(DoubtError, match="--unit"):
        read(text)
    assert chamber(read(text, unit=TemperatureUnit.CELSIUS))[-1] == 960.0
    assert chamber(read(text, unit=TemperatureUnit.FAHRENHEIT))[-1] == 515.556


LIKE_F = [70 + 72 * i for i in range(31)]
"""Cold at 70 and up to 2230: cone 6 in °F, and 780 hotter than any kiln in °C."""


@pytest.mark.parametrize(
    "text",
    [
        table("chamber (°C)", LIKE_F),
        "Unit: °C\n" + table("chamber", LIKE_F),
        table("top_C,bottom_C", LIKE_F, [v - 20 for v in LIKE_F]),
        table("chamber_C", [*LIKE_F[:20], 9999, *LIKE_F[21:]]),
        table("chamber_C", [70 + 47 * i for i in range(31)]),
    ],
)
def test_a_log_that_names_celsius_and_climbs_beyond_any_kiln_is_in_doubt(text: str) -> None:
    with pytest.raises(DoubtError, match=r"°C named, but a climb to .*--unit F"):
        read(text)


def test_who_says_the_unit_of_a_log_in_doubt_gets_it() -> None:
    text = table("chamber (°C)", LIKE_F)
    assert chamber(read(text, unit=TemperatureUnit.FAHRENHEIT))[-1] == 1221.111
    insisted = read(text, unit=TemperatureUnit.CELSIUS)
    assert np.nanmax(chamber(insisted)) == 1438.0
    assert "open_probe" in said(insisted)


@pytest.mark.parametrize(
    "values",
    [
        [20 + 60 * i for i in range(31)],
        [*[40 + 40 * i for i in range(29)], 1500, 1900, 1460, 2000, 1300, 2100, 1240],
        [*[40 + 40 * i for i in range(30)], 9999],
        [40 + 46 * i for i in range(31)],
    ],
    ids=["starts cold in celsius only", "leaps about", "an open probe", "as hot as a kiln can be"],
)
def test_a_log_that_names_celsius_is_believed_while_it_may_be(values: list[int]) -> None:
    assert read(table("chamber (°C)", values)).unit_read is TemperatureUnit.CELSIUS


def test_whole_tenths_are_divided_by_ten() -> None:
    log = read(table("chamber", [205 + 401 * i for i in range(31)]))
    assert chamber(log)[0] == 20.5
    assert chamber(log)[-1] == 1223.5
    assert "tenths" in said(log)


@pytest.mark.parametrize(
    "mark",
    ["", "NaN", "---", "OL", "open", "ERR", "0", "-127", "-270", "1372", "2500", "9999", "2800.0"],
)
def test_marks_of_an_open_probe_are_gaps(mark: str) -> None:
    values: list[object] = list(CLIMB_C)
    values[10] = values[15] = mark
    read_back = np.array(chamber(read(table("chamber_C", values))))
    assert np.flatnonzero(np.isnan(read_back)).tolist() == [10, 15]
    assert read_back[[9, 11, 14, 16]].tolist() == [380.0, 460.0, 580.0, 660.0]


def test_a_value_jumped_to_and_back_is_a_mark_though_its_number_is_unknown() -> None:
    smooth = [20.0 + 4 * i for i in range(100)]
    values = [888.8 if 30 <= i < 34 or 60 <= i < 63 else v for i, v in enumerate(smooth)]
    log = read(table("chamber_C", values))
    gaps = np.flatnonzero(np.isnan(chamber(log))).tolist()
    assert gaps == [30, 31, 32, 33, 60, 61, 62]
    assert "open_probe" in said(log)


def test_a_probe_that_dies_keeps_what_it_read_before() -> None:
    smooth = [20.0 + 4 * i for i in range(100)]
    values = [999.9 if i >= 70 else v for i, v in enumerate(smooth)]
    read_back = chamber(read(table("chamber_C", values)))
    assert read_back[:70] == smooth[:70]
    assert np.isnan(read_back[70:]).all()


def test_a_kiln_that_cools_to_zero_in_winter_is_no_open_probe() -> None:
    values = [20 + 20 * i for i in range(20)] + [300, 200, 120, 70, 40, 20, 10, 4, 2, 1, 0, 0]
    log = read(table("chamber_C", values))
    assert chamber(log) == values
    assert "open_probe" not in said(log)


def test_columns_get_their_role_by_name() -> None:
    text = table(
        "top_C,bottom_C,setpoint_C,output_pct,amps,room_C,battery_V,segment,"
        "heat flux kW/m2,gas flow",
        CLIMB_C,
        [v - 3 for v in CLIMB_C],
        [v + 5 for v in CLIMB_C],
        [60] * 31,
        [33.5] * 31,
        [21 + i / 10 for i in range(31)],
        [3.6] * 31,
        [1] * 15 + [2] * 16,
        [v / 100 for v in CLIMB_C],
        [v / 2 for v in CLIMB_C],
    )
    roles = {c.name: c.role.value for c in read(text).channels}
    assert roles == {
        "top_C": "section",
        "bottom_C": "section",
        "setpoint_C": "set_point",
        "output_pct": "output",
        "amps": "amps",
        "room_C": "cold_end",
        "battery_V": "other",
        "segment": "other",
        "heat flux kW/m2": "other",
        "gas flow": "other",
    }


def test_a_cold_end_without_a_telling_name_is_no_section() -> None:
    log = read(
        table("T1_C,T2_C,T3_C", CLIMB_C, [v - 9 for v in CLIMB_C], [22 + i % 3 for i in range(31)])
    )
    assert [c.role.value for c in log.channels] == ["section", "section", "cold_end"]


def test_a_section_by_name_that_never_warms_stays_one_so_that_it_is_called_dead() -> None:
    log = read(table("top_C,bottom_C", CLIMB_C, [21.0] * 31))
    assert [c.role.value for c in log.channels] == ["section", "section"]


@pytest.mark.parametrize("values", [["0", "1"], ["OFF", "ON"], ["false", "true"], ["0", "100"]])
def test_output_on_and_off_is_nothing_and_all(values: list[str]) -> None:
    log = read(table("chamber_C,output", CLIMB_C, [values[i % 2] for i in range(31)]))
    output = log.first(ChannelRole.OUTPUT)
    assert output is not None
    assert output.values[:4].tolist() == [0.0, 100.0, 0.0, 100.0]


def test_output_from_zero_to_one_is_a_share() -> None:
    log = read(table("chamber_C,output", CLIMB_C, [0.25] * 31))
    output = log.first(ChannelRole.OUTPUT)
    assert output is not None
    assert output.values[0] == 25.0


def test_of_very_many_channels_no_more_than_sixteen_are_sections() -> None:
    curves = [[20 + (v - 20) * (1 + n / 1000) for v in CLIMB_C] for n in range(60)]
    log = read(table(",".join(f"CH{n}_C" for n in range(60)), *curves))
    assert len(log.temperatures) == 16


def test_a_role_can_be_chosen() -> None:
    text = table("T1_C,T2_C", CLIMB_C, [v + 5 for v in CLIMB_C])
    log = read(text, roles={"T2_C": ChannelRole.SET_POINT})
    assert [c.role.value for c in log.channels] == ["chamber", "set_point"]


def test_a_column_whose_name_tells_nothing_is_read_with_a_note() -> None:
    log = read(table("value", CLIMB_C))
    assert chamber(log) == CLIMB_C
    assert log.confidence < 0.6
    assert "doubtful" in said(log)


def test_a_table_without_a_temperature_is_read_without_one() -> None:
    log = read("Time (5-secs),Energy [kWh]\n" + "".join(f"{5 * i},{i / 100}\n" for i in range(50)))
    assert log.temperatures == ()
    assert log.hours == pytest.approx(245 / 3600)


def test_two_columns_of_one_name_are_told_apart() -> None:
    names = [c.name for c in read(table("T_C,T_C", CLIMB_C, CLIMB_C[::-1])).channels]
    assert names == ["T_C", "T_C (3)"]
