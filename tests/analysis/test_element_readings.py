import math

import pytest

from firing_review.analysis.element_readings import judge_readings
from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.said import Said
from firing_review.firing.sheet import OPEN_CIRCUIT, Readings

ALIKE = Kiln(
    rated_volts=240.0,
    sections=tuple(
        Section(name, rated_kw=3.84, rated_cold_ohms=15.0) for name in ("bottom", "middle", "top")
    ),
)
UNLIKE = Kiln(
    rated_volts=240.0,
    sections=(Section("bottom", rated_cold_ohms=12.0), Section("top", rated_cold_ohms=16.0)),
)


def ohms(bottom: float, middle: float, top: float) -> dict[str, float]:
    return {"bottom": bottom, "middle": middle, "top": top}


def texts(notes: tuple[Said, ...]) -> str:
    return " ".join(n.text for n in notes)


def test_nothing_read_says_nothing() -> None:
    judged = judge_readings(ALIKE, Readings())
    assert judged.power_ratio is None
    assert judged.notes == ()


def test_aged_and_low_supply_multiply_and_are_told_apart() -> None:
    # 10 % aged and 230 V on 240 V elements: 0.909 x 0.918 = 0.835
    judged = judge_readings(ALIKE, Readings(None, 230.0, {}, ohms(16.5, 16.5, 16.5)))
    assert judged.resistance_share == pytest.approx(1 / 1.1)
    assert judged.supply_share == pytest.approx((230 / 240) ** 2)
    assert judged.power_ratio == pytest.approx(0.835, abs=0.001)
    assert judged.low < 0.835 < judged.high


@pytest.mark.parametrize(
    ("read", "says"),
    [
        (15.3, "normal scatter"),
        (16.0, "watch it"),
        (16.8, "plan new ones"),
        (18.0, "due for new ones"),
        (13.5, "coils that touch"),
    ],
)
def test_bands_of_resistance(read: float, says: str) -> None:
    judged = judge_readings(ALIKE, Readings(cold_ohms={"bottom": read}))
    assert says in texts(judged.sections[0].notes)
    assert judged.sections[0].resistance_ratio == pytest.approx(read / 15.0)


def test_an_open_section_leaves_two_thirds() -> None:
    judged = judge_readings(ALIKE, Readings(cold_ohms=ohms(15.0, OPEN_CIRCUIT, 15.0)))
    assert judged.power_ratio == pytest.approx(2 / 3)
    middle = judged.sections[1]
    assert middle.power_ratio == 0.0
    assert middle.resistance_ratio == math.inf
    assert "no current can flow" in texts(middle.notes)


def test_an_open_section_in_a_star_without_neutral_leaves_half() -> None:
    star = Kiln(rated_volts=400.0, supply=Supply.THREE_PHASE_STAR, sections=ALIKE.sections)
    judged = judge_readings(star, Readings(cold_ohms=ohms(15.0, OPEN_CIRCUIT, 15.0)))
    assert judged.power_ratio == pytest.approx(1 / 2)


def test_zero_ohms_is_no_heating_element() -> None:
    judged = judge_readings(ALIKE, Readings(cold_ohms=ohms(0.0, 15.0, 15.0)))
    assert judged.sections[0].power_ratio is None
    assert "short" in texts(judged.sections[0].notes)
    assert judged.power_ratio == pytest.approx(1.0)


def test_swapped_sections_are_named() -> None:
    judged = judge_readings(UNLIKE, Readings(cold_ohms={"bottom": 16.2, "top": 12.1}))
    assert "swapped" in texts(judged.notes)
    right = judge_readings(UNLIKE, Readings(cold_ohms={"bottom": 12.1, "top": 16.2}))
    assert "swapped" not in texts(right.notes)


def test_sections_that_aged_unevenly_are_not_called_swapped() -> None:
    judged = judge_readings(UNLIKE, Readings(cold_ohms={"bottom": 13.5, "top": 16.1}))
    assert "swapped" not in texts(judged.notes)


def test_volts_above_rated_are_more_power() -> None:
    judged = judge_readings(ALIKE, Readings(volts_full_load=252.0))
    assert judged.power_ratio == pytest.approx(1.1025)
    assert "above the rated" in texts(judged.notes)


def test_amps_that_fit_volts_and_ohms_are_no_contradiction() -> None:
    judged = judge_readings(ALIKE, Readings(None, 238.0, ohms(15.5, 15.5, 15.5), ohms(15, 15, 15)))
    assert "Contradiction" not in "".join(texts(s.notes) for s in judged.sections)


@pytest.mark.parametrize("amps", [10.0, 19.0])
def test_amps_off_by_more_than_ten_percent_are_a_contradiction(amps: float) -> None:
    judged = judge_readings(ALIKE, Readings(None, 238.0, {"bottom": amps}, ohms(15.0, 15.0, 15.0)))
    assert "Contradiction" in texts(judged.sections[0].notes)


def test_whole_wire_without_current_is_a_relay_or_connection() -> None:
    amps = {"bottom": 0.0, "middle": 15.4, "top": 15.4}
    judged = judge_readings(ALIKE, Readings(None, 238.0, amps, ohms(15.0, 15.0, 15.0)))
    assert "relay, switch or connection" in texts(judged.sections[0].notes)
    assert judged.sections[0].power_ratio == 0.0
    assert judged.resistance_share == pytest.approx(2 / 3)


def test_a_supply_that_sinks_is_named() -> None:
    judged = judge_readings(ALIKE, Readings(240.0, 225.0))
    assert "sinks" in texts(judged.notes)
    assert judged.supply_share == pytest.approx((225 / 240) ** 2)
    assert "swapped" in texts(judge_readings(ALIKE, Readings(225.0, 240.0)).notes)


def test_readings_without_a_kiln_sheet_cannot_be_compared() -> None:
    judged = judge_readings(None, Readings(cold_ohms={"bottom": 12.0}))
    assert judged.power_ratio is None
    assert "kiln sheet" in texts(judged.notes)
