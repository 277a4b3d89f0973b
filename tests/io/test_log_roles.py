"""What columns are taken for, and in which unit each is."""

import pytest
from log_files import read

CLIMB = [20.0 + 30.0 * i for i in range(30)]


def roles_of(*columns: str, **values: float) -> dict[str, str]:
    """Return the roles of columns; those not given a value climb."""
    rows = ""
    for i, t in enumerate(CLIMB):
        cells = (str(values.get(f"_{k}", t - k)) for k in range(len(columns)))
        rows += f"{10 * i}," + ",".join(cells) + "\n"
    log = read(",".join(("elapsed_min", *columns)) + "\n" + rows)
    return {c.name: c.role.value for c in log.channels}


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        (("SP", "PV"), ("set_point", "chamber")),
        (("SV", "PV"), ("set_point", "chamber")),
        (("Sollwert (°C)", "Istwert (°C)"), ("set_point", "chamber")),
        (("consigne (°C)", "température four (°C)"), ("set_point", "chamber")),
        (("target", "Kiln temp"), ("set_point", "chamber")),
        (("Kiln top", "Kiln bottom"), ("section", "section")),
        (("Kiln 1", "Kiln 2"), ("section", "section")),
        (("Probe A", "Probe B"), ("section", "section")),
        (("kiln_C", "TC1_C", "TC2_C"), ("chamber", "section", "section")),
        (("kiln_C", "flue_C"), ("chamber", "other")),
        (("kiln_C", "rate C/h"), ("chamber", "other")),
        (("kiln_C", "segment target"), ("chamber", "other")),
        (("kiln_C", "HF1 (kW/m2)"), ("chamber", "other")),
        (("kiln_C", "power_kW"), ("chamber", "other")),
        (("kiln_C", "power (W)"), ("chamber", "other")),
        (("a", "b"), ("section", "section")),
    ],
)
def test_a_column_is_taken_for_what_its_name_says(
    names: tuple[str, ...], expected: tuple[str, ...]
) -> None:
    assert tuple(roles_of(*names).values()) == expected


@pytest.mark.parametrize(
    ("name", "value", "role"),
    [
        ("OP", 55, "output"),
        ("power", 0.5, "output"),
        ("Leistung (%)", 60, "output"),
        ("%", 60, "output"),
        ("relay", 1, "output"),
        ("out1", 60, "output"),
        ("I3 (A)", 29.5, "amps"),
        ("amps L1", 29.5, "amps"),
        ("T_amb", 22.5, "cold_end"),
        ("board", 31.0, "cold_end"),
        ("tc mV", 12.5, "other"),
        ("volts", 229.5, "other"),
        ("battery", 3.6, "other"),
        ("alarm", 0, "other"),
    ],
)
def test_a_column_beside_the_temperature_is_known(name: str, value: float, role: str) -> None:
    assert roles_of("kiln_C", name, _1=value)[name] == role


def test_columns_in_two_units_are_each_read_in_their_own() -> None:
    rows = "".join(f"{10 * i},{t},{(t - 9) * 1.8 + 32:.2f}\n" for i, t in enumerate(CLIMB))
    log = read("elapsed_min,top_C,bottom_F\n" + rows)
    top, bottom = log.temperatures
    assert top.values.tolist() == CLIMB
    assert bottom.values.tolist() == pytest.approx([t - 9 for t in CLIMB])


def test_a_temperature_told_twice_in_two_units_counts_once() -> None:
    rows = "".join(f"{10 * i},{t},{t * 1.8 + 32:.2f}\n" for i, t in enumerate(CLIMB))
    log = read("elapsed_min,Temp (C),Temp (F)\n" + rows)
    assert [c.name for c in log.temperatures] == ["Temp (C)"]


def test_the_room_in_another_unit_does_not_change_the_kiln() -> None:
    rows = "".join(f"{10 * i},{t},70\n" for i, t in enumerate(CLIMB))
    log = read("elapsed_min,kiln_C,room_F\n" + rows)
    assert log.channels[0].values.tolist() == CLIMB
    assert log.channels[1].values[0] == pytest.approx(21.111, abs=0.001)


@pytest.mark.parametrize("name", ["T1 (℉)", "T1 ºF", "T1 (?F)", "T1(Degree F)", "T1 Â°F"])
def test_a_unit_with_a_broken_or_odd_degree_sign_is_known(name: str) -> None:
    rows = "".join(f"{10 * i},{t * 1.8 + 32:.2f}\n" for i, t in enumerate(CLIMB))
    log = read(f"elapsed_min,{name}\n{rows}")
    assert log.temperatures[0].values.tolist() == pytest.approx(CLIMB)


def test_tenths_said_in_the_name_are_divided() -> None:
    rows = "".join(f"{10 * i},{10 * t:.0f}\n" for i, t in enumerate(CLIMB))
    assert read("elapsed_min,kiln (0.1 C)\n" + rows).temperatures[0].values.tolist() == CLIMB


def test_columns_that_are_not_used_are_named() -> None:
    rows = "".join(f"{10 * i},{t},3.6,45\n" for i, t in enumerate(CLIMB))
    log = read("elapsed_min,kiln_C,battery,humidity\n" + rows)
    note = next(n for n in log.notes if n.kind == "column_ignored")
    assert note.said.figures == {"names": "battery, humidity"}
