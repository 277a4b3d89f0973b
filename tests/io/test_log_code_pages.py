"""Older code pages, in which names and the degree sign are still to be read."""

import subprocess
import sys

import pytest
from log_files import read

ROWS = "".join(f"{10 * i};{20 + 90 * i}\n" for i in range(9))


@pytest.mark.parametrize(
    ("name", "page"),
    [
        ("kiln °F", "cp1252"),
        ("kiln °F", "cp437"),
        ("kiln °F", "mac_roman"),
        ("kiln °F", "utf-8"),
        ("kiln °F", "utf-8-sig"),
        ("kiln °F", "utf-16"),
        ("Ofentür außen °F", "cp1252"),
        ("Температура печи, верхняя секция °F", "cp1251"),
        ("窯の温度 F", "shift_jis"),
    ],
)
def test_a_name_in_an_older_code_page_is_read_with_its_unit(name: str, page: str) -> None:
    log = read(f"min;{name}\n{ROWS}".encode(page))
    assert [c.name for c in log.channels] == [name]
    assert log.temperatures[0].values[1] == pytest.approx((110 - 32) / 1.8)


def test_a_degree_sign_settles_the_page_whatever_else_stands_there() -> None:
    text = f"Titel µ§ ____\n t        Ts       Tr\n[min]   [°F]    [°F]\n0 20 21\n{ROWS}"
    raw = text.replace(";", "   ").encode("latin-1")
    log = read(raw)
    assert log.unit_read == "F"
    assert "Ts" in log.channels[0].name


def test_reading_a_plain_log_loads_nothing_it_does_not_need() -> None:
    code = (
        "import sys; from firing_review.io.log_csv import read_log_bytes;"
        "read_log_bytes(b'min,kiln_C\\n0,20\\n10,95\\n20,180\\n', 'log.csv');"
        "print({'charset_normalizer', 'PySide6', 'scipy', 'pyqtgraph'} & set(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"
