import csv
import math
from pathlib import Path

import numpy as np
import pytest
from scipy import integrate

from firing_review.firing.cones import ConeNumber
from firing_review.io.resource_path import resource
from firing_review.io.tables import load_tables
from firing_review.physics.cone_law import (
    GAS_CONSTANT,
    ConeLaw,
    degrees_per_log_rate,
    end_point_c,
    fit_laws,
    law_of,
    log_integral,
    with_iron_free,
)

LAWS = fit_laws(load_tables().cones)
SIX = law_of(LAWS, ConeNumber("6"))
RED = law_of(LAWS, ConeNumber("05.5"))
SOFT = law_of(LAWS, ConeNumber("014"))


@pytest.mark.parametrize("law", [SIX, RED, SOFT], ids=["6", "05.5", "014"])
@pytest.mark.parametrize("at_c", [600.0, 1000.0, 1300.0])
def test_the_closed_form_is_the_integral(law: ConeLaw, at_c: float) -> None:
    top = at_c + 273.15
    b = law.e_over_r_k
    scaled, _ = integrate.quad(lambda t: math.exp(b / top - b / t), 50.0, top, epsrel=1e-11)
    assert float(log_integral(at_c, b)) == pytest.approx(math.log(scaled) - b / top, abs=1e-8)


@pytest.mark.parametrize("law", LAWS, ids=[law.cone.text for law in LAWS])
@pytest.mark.parametrize("rate", [15.0, 60.0, 150.0])
def test_time_stepping_ends_where_the_closed_form_says(law: ConeLaw, rate: float) -> None:
    end_c = end_point_c(law, rate)
    hours = np.linspace(0.0, 400.0 / rate, 4001)
    share = np.exp(law.log_share_per_h(end_c - 400.0 + rate * hours))
    assert integrate.simpson(share, x=hours) == pytest.approx(1.0, abs=2e-3)


def test_an_end_point_at_60_an_hour_is_t60() -> None:
    assert end_point_c(SIX, 60.0) == pytest.approx(SIX.t60_c, abs=1e-6)


def test_a_faster_climb_ends_hotter_by_s_for_each_factor_of_e() -> None:
    step = end_point_c(SIX, 60.6) - end_point_c(SIX, 59.4)
    assert step / math.log(60.6 / 59.4) == pytest.approx(degrees_per_log_rate(SIX), rel=1e-3)


def test_the_fit_is_the_one_kept_beside_the_table() -> None:
    """Computed once with another program (smoothing off) and kept with the table."""
    with resource("cones", "fitted_law.csv").open(encoding="utf-8") as file:
        kept = {row["cone"]: row for row in csv.DictReader(file)}
    assert set(kept) == {law.cone.text for law in LAWS}
    for law in LAWS:
        assert law.t60_c == pytest.approx(float(kept[law.cone.text]["T60_c"]), abs=0.1)
        energy = float(kept[law.cone.text]["E_kj_per_mol"])
        assert law.energy_j_per_mol / 1e3 == pytest.approx(energy, abs=0.6)


# computed beforehand by time stepping in a separate program, to 0.1 °C
ENDS = [("06", 30, 989.8), ("06", 108, 1007.3), ("5", 30, 1172.6), ("6", 300, 1262.4)]


@pytest.mark.parametrize(("number", "rate", "end_c"), ENDS)
def test_end_points_between_and_beyond_the_columns(number, rate, end_c) -> None:
    assert end_point_c(law_of(LAWS, ConeNumber(number)), rate) == pytest.approx(end_c, abs=0.3)


def test_work_does_not_depend_on_the_unit_of_energy() -> None:
    law = ConeLaw(ConeNumber("6"), 1220.0, 700e3)
    assert law.e_over_r_k == pytest.approx(700e3 / GAS_CONSTANT)
    assert float(law.log_share_per_h(1220.0)) == pytest.approx(
        math.log(60.0 / degrees_per_log_rate(law)), abs=1e-9
    )


def test_every_resource_of_cones_names_its_source() -> None:
    folder = Path(str(resource("cones", "SOURCES.txt"))).parent
    text = (folder / "SOURCES.txt").read_text(encoding="utf-8")
    assert all(path.name in text for path in folder.glob("*.csv"))


def test_iron_free_cones_change_no_law_but_their_own() -> None:
    tables = load_tables()
    laws = fit_laws(with_iron_free(tables.cones, tables.cones_iron_free))
    assert law_of(laws, ConeNumber("6")) == law_of(LAWS, ConeNumber("6"))
    assert law_of(laws, ConeNumber("06")) != law_of(LAWS, ConeNumber("06"))
