"""What measurements stand for: amps beside volts, shelves that are only bounded, a cold start."""

import pytest
from firings import GOOD, TO_1000, firing_of, log_of, sections_of

from firing_review.diagnosis.explain import weigh_causes
from firing_review.diagnosis.found import Found
from firing_review.diagnosis.heat_signs import shelf_observation
from firing_review.diagnosis.probe_signs import probe_observations
from firing_review.diagnosis.told_signs import answer_observations, reading_observations
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.results import ElementsJudged, ShelfHeat
from firing_review.firing.said import Said
from firing_review.firing.sheet import Answers, Readings
from firing_review.io.cause_files import load_knowledge
from firing_review.report.wording import render

KILN = Kiln(
    "a", rated_volts=240.0, sections=(Section("low", 4.8, 12.0), Section("top", 4.8, 12.0))
)
FIRING = firing_of(log_of(GOOD), TO_1000)


def amps(each: float, volts: float | None) -> str:
    readings = Readings(volts_full_load=volts, amps={"low": each, "top": each})
    return next(o for o in reading_observations(readings, KILN) if o.fact == "amps").seen


def test_current_that_is_low_only_with_the_volts_does_not_speak_against_the_wire() -> None:
    # rated 20 A a section at 240 V; a tenth less of both is a low supply alone
    assert amps(18.0, 216.0) == "as_expected"
    assert amps(18.0, 240.0) == "all_low"
    assert amps(18.0, None) == "all_low"


def bounded(*at_least: float) -> tuple[ShelfHeat, ...]:
    return tuple(
        ShelfHeat(f"{n}", None, None, None, None, None, "hot", figures={"at_least_delta_c": c})
        for n, c in enumerate(at_least)
    )


def test_shelves_that_are_all_bounded_to_the_hot_side_are_hot_together() -> None:
    together = shelf_observation(bounded(7.0, 3.0, 2.0), FIRING)
    assert together is not None
    assert together.seen == "all_hot"
    assert together.shares["all_far_hot"] > 0.1
    apart = shelf_observation(bounded(7.0, -20.0, -20.0), FIRING)
    assert apart is not None
    assert apart.shares["one_hot"] > together.shares.get("one_hot", 0.0)


def test_shelves_hotter_than_a_log_with_rows_far_apart_are_no_sign_of_the_probe() -> None:
    shelves = [ShelfHeat(n, 30.0, 25.0, 35.0, 25.0, "6", "even") for n in ("low", "top")]
    dense = shelf_observation(shelves, FIRING)
    by_hand = shelf_observation(shelves, firing_of(log_of(GOOD, 60.0), TO_1000))
    assert dense is not None
    assert dense.seen == "all_hot"
    assert by_hand is not None
    assert by_hand.seen == "even"


def shelf(name: str, at_c: float | None = None, **bound: float) -> ShelfHeat:
    figures = {f"{side}_delta_c": at for side, at in bound.items()}
    return ShelfHeat(name, at_c, at_c, at_c, at_c, None, "", figures=figures)


def told_of(*shelves: ShelfHeat, firing: AlignedFiring = FIRING) -> str:
    seen = shelf_observation(shelves, firing)
    assert seen is not None
    texts = load_knowledge().facts["shelves"].texts
    return render(Said(seen.text or texts[seen.seen], seen.figures))


LEFT_OPEN = "The cones of the other shelves leave it open."


@pytest.mark.parametrize(
    ("shelves", "told"),
    [
        (
            (shelf("bottom", at_most=-3.0), shelf("middle", -40.0), shelf("top", 1.0)),
            "Shelf middle was far colder than top, by about 41 °C.",
        ),
        (
            (shelf("bottom", at_most=-90.0), shelf("middle", -40.0), shelf("top", 1.0)),
            "Shelf bottom was far colder than top, by about 101 °C.",
        ),
        (
            (shelf("bottom", -2.0), shelf("middle", 0.0), shelf("top", at_least=30.0)),
            "Shelf top was far hotter than bottom, by about 42 °C.",
        ),
        (
            (shelf("bottom", -30.0), shelf("middle", 0.0), shelf("top", 30.0)),
            "Shelf bottom was colder and top hotter, 60 °C apart.",
        ),
        (
            (shelf("bottom", at_most=5.0), shelf("middle", -40.0), shelf("top", at_most=9.0)),
            f"Colder than the log says, by about 40 °C: middle. {LEFT_OPEN}",
        ),
        (
            (shelf("bottom", at_least=-5.0), shelf("middle", 40.0), shelf("top", 42.0)),
            f"Hotter than the log says, by about 41 °C: middle and top. {LEFT_OPEN}",
        ),
        (
            (shelf("bottom", -40.0), shelf("middle", -41.0), shelf("top", at_most=-2.0)),
            "Every shelf was colder than the log says, by about 40 °C.",
        ),
    ],
)
def test_shelves_are_compared_only_as_far_as_their_cones_tell(
    shelves: tuple[ShelfHeat, ...], told: str
) -> None:
    assert told_of(*shelves) == told


def test_shelves_held_against_their_own_sections_tell_nothing_of_one_against_another() -> None:
    colder = [(hour, at_c - 100.0) for hour, at_c in GOOD]
    by_section = firing_of(sections_of(bottom=colder, middle=GOOD, top=GOOD))
    near = (shelf("bottom", -1.0), shelf("middle", -11.0), shelf("top", at_least=-16.0))
    assert told_of(*near, firing=by_section) == (
        "Each shelf agrees with the logged curve of its own section; that does not tell how far "
        "the sections lie apart."
    )
    far = (shelf("bottom", -1.0), shelf("middle", -51.0), shelf("top", 0.0))
    assert told_of(*far, firing=by_section) == (
        "Held against the logged curves of their sections, shelf middle was far colder than top, "
        "by about 51 °C."
    )


@pytest.mark.parametrize(("warmer_c", "odd"), [(0.0, 0.0), (10.0, 0.1), (24.0, 0.55)])
def test_a_cold_kiln_is_held_against_its_own_earlier_start(warmer_c: float, odd: float) -> None:
    other = firing_of(log_of([(h, t + warmer_c) for h, t in GOOD]), TO_1000)
    seen = probe_observations(other, (FIRING,), Found(()), ElementsJudged())
    start = next(o for o in seen if o.fact == "start")
    assert start.shares["odd"] == pytest.approx(odd, abs=0.15)


@pytest.mark.parametrize(
    ("dark", "told"),
    [
        (("low",), "Section low stayed dark."),
        (("low", "top"), "Sections low and top stayed dark."),
    ],
)
def test_every_section_that_stayed_dark_is_named(dark: tuple[str, ...], told: str) -> None:
    causes = weigh_causes(answer_observations(Answers(sections_dark=dark)), load_knowledge())
    dead = next(cause for cause in causes if cause.id == "dead_section")
    assert told in [render(said) for said in dead.speaks_for]


def power(low: float) -> ElementsJudged:
    return ElementsJudged(low + 0.02, low, low + 0.04, figures={"power_from": "curve"})


def test_more_power_than_heating_elements_can_gain_is_a_stretched_reading() -> None:
    strong = probe_observations(FIRING, (), Found(()), power(1.1))[0]
    assert strong.seen == "wrong_slope"
    usual = probe_observations(FIRING, (), Found(()), power(0.98))[0]
    assert usual.seen == "sound"
