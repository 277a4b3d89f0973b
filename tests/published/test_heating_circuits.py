"""Sums of heating circuits: worked examples, two wrong published sums, three-phase faults.

Each example names where it was published; "wrong" ones are traps that are answered rightly.
The three-phase rows are checked against the textbook results for equal loads (delta with a line
lost: 1/2; star: 1/2; star with neutral: 2/3), which follow from the phasors.
"""

import math

import pytest
from outside import outside

from firing_review.firing.kiln import Supply
from firing_review.io.physical_tables import load_wire
from firing_review.physics.circuits import (
    Branch,
    in_parallel,
    in_series,
    kiln_power,
    loaded_volts,
    named_steps_within,
    power_share,
    power_w,
    section_volts,
    solve,
    supply_ohms,
)
from firing_review.physics.element_wire import (
    find_alloy,
    hot_over_cold,
    ohm_per_m,
    strip_for,
    surface_cm2_per_m,
    surface_load_w_per_cm2,
    wire_length_m,
)

SOURCES = {
    "heating page": "a practitioner's public page on electric heating of kilns",
    "trade": "trade pages on kiln circuits",
    "book": "Chakrabarti, Soni, Gupta, Bhatnagar: Power System Engineering, example 2.2",
    "archived": "an archived public page on element design",
    "textbook": "textbook results for equal loads: from the phasors, Ohm and Kirchhoff",
    "alloys": "trade tables of heating alloys, see resources/wire/SOURCES.txt",
}

WIRE = load_wire()
EQUAL = {"bottom": 12.0, "middle": 12.0, "top": 12.0}


@outside("heating page", "0.005 Ω: printed to two places")
def test_230_volts_and_30_amps_are_6_9_kilowatts_and_7_67_ohms() -> None:
    # a practitioner's page on electric heating of kilns
    assert 230.0 * 30.0 == 6900.0
    assert power_w(230.0, 230.0 / 30.0) == pytest.approx(6900.0)
    assert pytest.approx(7.67, abs=0.005) == 230.0 / 30.0


@outside("heating page", "0.1 %: printed to three places")
def test_the_same_kiln_aged_to_10_ohms_gives_5_29_kilowatts() -> None:
    assert power_w(230.0, 10.0) == pytest.approx(5290.0)
    assert power_share(230.0, 230.0, 10.0, 230.0 / 30.0) == pytest.approx(0.767, abs=0.001)


@outside("textbook", "0.1 %", "the page prints +6.5 %: it forgot that the current rises too")
def test_trap_245_volts_give_13_5_percent_more_and_not_6_5() -> None:
    # the same page prints 7.35 kW (+6.5 %): it forgot that the current rises too
    share = power_share(245.0, 230.0, 7.667, 7.667)
    assert share == pytest.approx(1.135, abs=0.001)
    assert power_w(245.0, 7.667) == pytest.approx(7830.0, abs=5.0)


@outside(
    "textbook",
    "5 W of 8650 W",
    "the guild newsletter of 2008 prints 86 %: it forgot that the current falls too",
)
def test_trap_240_volt_elements_on_208_volts_give_75_percent_and_not_86() -> None:
    # a guild newsletter of 2008 prints 9984 W, 86 %: it forgot that the current falls too
    ohms = 240.0 / 48.0
    assert power_w(208.0, ohms) == pytest.approx(8650.0, abs=5.0)
    assert power_share(208.0, 240.0, ohms, ohms) == pytest.approx(0.751, abs=0.0005)


@outside("trade", '0.15 A: "around"')
@pytest.mark.parametrize(("ohms", "amps"), [(10.4, 23.0), (14.2, 17.0)])
def test_a_circuit_for_208_volts_put_on_240(ohms: float, amps: float) -> None:
    # a trade page: "around 23 A", "around 17 A"
    assert 240.0 / ohms == pytest.approx(amps, abs=0.15)


@outside("trade", "1 W: sums of printed figures")
def test_three_versions_of_one_kiln_have_equal_power() -> None:
    # a trade table: 240 V 20.8 ohm, 220 V 17.6 ohm, 208 V 15.6 ohm
    watts = [power_w(v, r) for v, r in ((240.0, 20.8), (220.0, 17.6), (208.0, 15.6))]
    assert watts == pytest.approx([2769.0, 2750.0, 2773.0], abs=1.0)


@outside("trade", "0.15 V: printed to whole volts")
def test_25_and_30_ohms_in_series_on_240_volts() -> None:
    # a trade page: 109 V across the 25 ohm
    solved = solve(
        [Branch("25", "L", "M", 25.0), Branch("30", "M", "N", 30.0)], {"L": 240.0, "N": 0.0}
    )
    assert solved.volts["25"] == pytest.approx(109.0, abs=0.15)
    assert in_series(25.0, 30.0) == 55.0


@outside("book", "1 %: the book uses a rounder constant")
def test_the_book_example_of_a_heating_strip() -> None:
    # Chakrabarti et al., Power System Engineering, ex. 2.2: 15 kW, 220 V, 0.25 mm, 1000/600 °C,
    # e 0.9, k 0.6, ρ 1.016; re-computed 1.22 cm x 9.71 m with the book's rounder constant
    strip = strip_for(15000.0, 220.0, 0.25, 1.016, 1000.0, 600.0, 0.9, 0.6)
    assert strip.width_mm == pytest.approx(12.2, rel=0.01)
    assert strip.length_m == pytest.approx(9.71, rel=0.01)


@outside(
    "archived",
    "exact: the figures stand there; the range 1.6 to 2.2 is common practice, no source",
)
def test_installed_power_of_a_4_cubic_foot_kiln() -> None:
    # an archived page on element design: 4 cubic feet, cone 10, 7.2 kW; 1.8 kW per cubic foot
    assert pytest.approx(1.8) == 7.2 / 4.0
    assert 1.6 <= 7.2 / 4.0 <= 2.2  # the usual range for cones 8 to 10, common practice


@outside("textbook", "0.0006: three places")
@pytest.mark.parametrize(
    ("rise", "left"),
    [(3, 0.971), (5, 0.952), (8, 0.926), (10, 0.909), (12, 0.893), (15, 0.870), (20, 0.833)],
)
def test_power_left_when_resistance_rises(rise: float, left: float) -> None:
    got = power_share(240.0, 240.0, 10.0 * (1.0 + rise / 100.0), 10.0)
    assert got == pytest.approx(left, abs=0.0006)


@outside("textbook", "0.0006: three places")
@pytest.mark.parametrize(
    ("volts", "rated", "left"),
    [
        (245, 240, 1.042),
        (230, 240, 0.918),
        (220, 240, 0.840),
        (208, 240, 0.751),
        (200, 240, 0.694),
        (220, 230, 0.915),
        (200, 208, 0.925),
        (113, 120, 0.887),
    ],
)
def test_power_left_when_the_supply_sinks(volts: float, rated: float, left: float) -> None:
    assert power_share(volts, rated, 10.0, 10.0) == pytest.approx(left, abs=0.0006)


@outside("textbook", "0.001: product of rounded shares")
def test_causes_multiply() -> None:
    assert power_share(230.0, 240.0, 11.0, 10.0) == pytest.approx(
        0.834, abs=0.001
    )  # of rounded factors


@outside("textbook", "0.05 V, 5 W: rounded")
def test_supply_that_sags_under_load() -> None:
    # 240 V, 5.0 ohm, 0.15 ohm: 233.0 V, 10.86 kW in place of 11.52 (-5.7 %)
    left = loaded_volts(240.0, 5.0, 0.15)
    assert left == pytest.approx(233.0, abs=0.05)
    assert power_w(left, 5.0) == pytest.approx(10860.0, abs=5.0)
    assert power_w(left, 5.0) / power_w(240.0, 5.0) == pytest.approx(1.0 - 0.057, abs=0.0005)
    assert supply_ohms(240.0, left, 5.0) == pytest.approx(0.15)


@outside("textbook", "1e-6: exact fractions")
@pytest.mark.parametrize(
    ("supply", "total", "each"),
    [
        (Supply.THREE_PHASE_DELTA, 1 / 2, (0.25, 1.0, 0.25)),
        (Supply.THREE_PHASE_STAR, 1 / 2, (0.0, 0.75, 0.75)),
        (Supply.THREE_PHASE_STAR_NEUTRAL, 2 / 3, (0.0, 1.0, 1.0)),
    ],
)
def test_one_supply_line_lost(supply: Supply, total: float, each: tuple[float, ...]) -> None:
    healthy = kiln_power(supply, 400.0, EQUAL)
    lost = kiln_power(supply, 400.0, EQUAL, lost_line=0)
    assert lost.total_w / healthy.total_w == pytest.approx(total)
    shares = [lost.watts[name] / healthy.watts[name] for name in EQUAL]
    # in delta the element between the two live lines keeps all, the other two share one path
    assert shares == pytest.approx(list(each), abs=1e-9)


@outside("textbook", "1e-6: exact fractions")
@pytest.mark.parametrize(
    ("supply", "total", "others"),
    [
        (Supply.THREE_PHASE_DELTA, 2 / 3, 1.0),
        (Supply.THREE_PHASE_STAR, 1 / 2, 0.75),
        (Supply.THREE_PHASE_STAR_NEUTRAL, 2 / 3, 1.0),
    ],
)
def test_one_element_open(supply: Supply, total: float, others: float) -> None:
    healthy = kiln_power(supply, 400.0, EQUAL)
    broken = kiln_power(supply, 400.0, {**EQUAL, "middle": math.inf})
    assert broken.total_w / healthy.total_w == pytest.approx(total)
    assert broken.watts["middle"] == 0.0
    assert broken.watts["top"] / healthy.watts["top"] == pytest.approx(others)


@outside("textbook", "1e-6: exact")
def test_healthy_power_on_three_phases() -> None:
    assert kiln_power(Supply.THREE_PHASE_DELTA, 400.0, EQUAL).total_w == pytest.approx(
        3.0 * 400.0**2 / 12.0
    )
    assert kiln_power(Supply.THREE_PHASE_STAR, 400.0, EQUAL).total_w == pytest.approx(
        400.0**2 / 12.0
    )


@outside("textbook", "0.001: three places")
def test_star_with_one_aged_element_and_no_neutral() -> None:
    healthy = kiln_power(Supply.THREE_PHASE_STAR, 400.0, EQUAL)
    aged = kiln_power(Supply.THREE_PHASE_STAR, 400.0, {**EQUAL, "bottom": 14.4})
    assert aged.total_w / healthy.total_w == pytest.approx(0.941, abs=0.0005)
    shares = [aged.watts[n] / healthy.watts[n] for n in ("bottom", "middle", "top")]
    assert shares == pytest.approx([0.934, 0.944, 0.944], abs=0.001)


@outside("textbook", "1e-6: exact fraction")
def test_delta_wired_as_star_gives_a_third() -> None:
    delta = kiln_power(Supply.THREE_PHASE_DELTA, 400.0, EQUAL)
    star = kiln_power(Supply.THREE_PHASE_STAR, 400.0, EQUAL)
    assert star.total_w / delta.total_w == pytest.approx(1 / 3)
    assert section_volts(Supply.THREE_PHASE_STAR, 400.0) == pytest.approx(230.94, abs=0.01)


@outside("textbook", "exact")
def test_one_phase_with_a_line_lost_is_dead() -> None:
    assert kiln_power(Supply.SINGLE_PHASE, 240.0, EQUAL, lost_line=0).total_w == pytest.approx(0.0)


@outside("textbook", "1e-6: exact fractions")
@pytest.mark.parametrize(("alive", "share"), [((1, 1, 0), 2 / 3), ((1, 0, 0), 1 / 3)])
def test_sections_in_parallel_lose_their_own_share(alive: tuple[int, ...], share: float) -> None:
    ohms = {str(i): 12.0 if on else math.inf for i, on in enumerate(alive)}
    whole = kiln_power(Supply.SINGLE_PHASE, 240.0, {"0": 12.0, "1": 12.0, "2": 12.0})
    left = kiln_power(Supply.SINGLE_PHASE, 240.0, ohms)
    assert left.total_w / whole.total_w == pytest.approx(share)
    assert named_steps_within(share - 0.03, share + 0.03)


@outside("textbook", "1e-6: exact fractions")
def test_a_pair_wired_wrongly() -> None:
    # series in place of parallel: a quarter; parallel in place of series: four times
    parallel, series = in_parallel(20.0, 20.0), in_series(20.0, 20.0)
    assert power_w(240.0, series) / power_w(240.0, parallel) == pytest.approx(1 / 4)
    assert power_w(240.0, parallel) / power_w(240.0, series) == pytest.approx(4.0)


@outside("textbook", "1e-6: exact fraction")
def test_a_section_of_two_with_one_broken() -> None:
    assert power_w(240.0, in_series(10.0, math.inf)) == 0.0
    assert power_w(240.0, in_parallel(20.0, math.inf)) / power_w(
        240.0, in_parallel(20.0, 20.0)
    ) == pytest.approx(1 / 2)


@outside("textbook", "exact: no power is named for a short")
def test_zero_ohms_is_a_short_and_no_load() -> None:
    with pytest.raises(ValueError, match="short"):
        kiln_power(Supply.SINGLE_PHASE, 240.0, {"bottom": 0.0})


@outside(
    "textbook", "0.0006 Ω/m, 0.06 cm²/m: four and three places; ohm per metre is rho over area"
)
@pytest.mark.parametrize(
    ("wire_mm", "rho", "ohms", "surface"),
    [
        (1.024, 1.45, 1.761, 32.2),
        (1.628, 1.45, 0.697, 51.1),
        (1.628, 1.39, 0.668, 51.1),
        (2.053, 1.35, 0.408, 64.5),
        (2.588, 1.09, 0.207, 81.3),
    ],
)
def test_wire_table(wire_mm: float, rho: float, ohms: float, surface: float) -> None:
    # computed independently, ohm per metre = rho / (pi d2/4)
    assert ohm_per_m(rho, wire_mm) == pytest.approx(ohms, abs=0.0006)
    assert surface_cm2_per_m(wire_mm) == pytest.approx(surface, abs=0.06)


@outside("textbook", "0.01: two places")
def test_surface_load_of_a_7_5_ohm_element() -> None:
    assert wire_length_m(7.5, 1.45, 1.628) == pytest.approx(10.77, abs=0.01)
    assert surface_load_w_per_cm2(1920.0, 7.5, 1.45, 1.628) == pytest.approx(3.49, abs=0.01)


@outside("alloys", "exact: printed figures")
@pytest.mark.parametrize(
    ("name", "at_c", "ratio"),
    [
        ("FeCrAl 22Cr-5.8Al", 1000, 1.04),
        ("0Cr21Al6Nb", 1000, 0.990),
        ("NiCr 80/20", 500, 1.05),
        ("0Cr27Al7Mo2", 1300, 0.967),
        ("0Cr21Al6", 1050, 1.0535),
    ],
)
def test_hot_over_cold_of_published_alloys(name: str, at_c: float, ratio: float) -> None:
    alloy = find_alloy(WIRE, name)
    assert alloy is not None
    assert hot_over_cold(alloy, at_c).ratio == pytest.approx(ratio, abs=1e-6)


@outside(
    "alloys",
    "exact: the range spans the printed alloys",
    "two alloys sold under one resistivity differ by 5 % at 1000 °C",
)
def test_unknown_wire_is_known_within_three_percent_only() -> None:
    unknown = hot_over_cold(None, 1000.0)
    assert unknown.low <= 0.99 + 1e-3
    assert unknown.high >= 1.05
    assert find_alloy(WIRE, "something else entirely") is None
