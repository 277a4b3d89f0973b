"""What stands on the page for each reader."""

from dataclasses import replace

import pytest

from firing_review.firing.findings import FindingKind
from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.results import ElementsJudged, SectionElements
from firing_review.firing.sheet import Answers, Readings, TimeNote
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.report.paper import parts
from firing_review.report.paper.blank import BlankSheet, blank_page
from firing_review.report.paper.make import make_page
from firing_review.report.paper.page import Framed, Heading, Page, Picture, Reader, Table
from firing_review.report.paper.page_text import page_text
from firing_review.report.paper.technician import plate, power, rated_amps_text, readings_table
from firing_review.report.wording import Show
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review


def demo(name: str, **given: object) -> Review:
    found = gather(next(demo_logs().glob(f"{name}_*")))
    return review_firing(replace(found, **given), load_tables())


@pytest.fixture(scope="module")
def worn() -> Review:
    return demo("2")


@pytest.fixture(scope="module")
def dead() -> Review:
    return demo("3")


@pytest.fixture(scope="module")
def dangerous() -> Review:
    answers = gather(next(demo_logs().glob("3_*"))).answers
    return demo("3", answers=replace(answers, safety=("hot_plug",)))


def heads(page: Page) -> list[str]:
    return [block.text for block in page.blocks if isinstance(block, Heading)]


@pytest.mark.parametrize("reader", list(Reader))
def test_every_page_carries_the_caution_with_local_codes_first(dead, reader):
    framed = [b for b in make_page(dead, reader, Show.CELSIUS).blocks if isinstance(b, Framed)]
    assert any(b.text.startswith("Local codes") for b in framed)


@pytest.mark.parametrize("reader", list(Reader))
def test_a_sign_of_danger_is_said_and_no_next_firing_is_planned(dangerous, reader):
    page = make_page(dangerous, reader, Show.CELSIUS)
    text = page_text(page)
    assert "Switch off at the breaker and do not fire" in " ".join(text.split())
    assert "Next firing" not in heads(page)
    assert "Refire those pieces" not in text


def test_in_danger_the_pages_begin_with_it(dangerous):
    for reader in (Reader.MAKER, Reader.TECHNICIAN, Reader.CASE):
        first = make_page(dangerous, reader, Show.CELSIUS).blocks[0]
        assert isinstance(first, Framed)
        assert first.title == "Stop"


def test_the_maker_reads_the_load_before_the_causes(dead):
    said = heads(make_page(dead, Reader.MAKER, Show.CELSIUS))
    order = ["This load", "The next check", "What was found", "Most likely behind it"]
    assert [head for head in said if head in order] == order
    assert "Gaps in what is known" in said


def test_only_ways_that_spoil_no_shelf_have_a_box_to_tick():
    told = demo("8")
    (_, points) = parts.next_firing(told, Show.CELSIUS)
    assert [one.mark for one in points.points if "far hotter" in one.text] == ["–"] * 3
    mild = replace(told.next_firing.options[0], far_over=())
    plan = replace(told.next_firing, options=(mild,))
    (_, points) = parts.next_firing(replace(told, next_firing=plan), Show.CELSIUS)
    assert points.points[-1].mark == "□"


def test_a_check_begins_with_who_may_do_it(worn):
    text = page_text(make_page(worn, Reader.MAKER, Show.CELSIUS))
    check = text[text.index("The next check") :]
    assert check.splitlines()[1].strip().startswith(("[ ] Electrician", "[ ] Look only"))


def test_the_office_is_asked_for_cost_and_date_and_told_whether_it_is_safe(worn):
    page = make_page(worn, Reader.OFFICE, Show.CELSIUS)
    assert heads(page)[0] == "Is it safe?"
    table = next(b for b in page.blocks if isinstance(b, Table))
    assert table.head == ("", "Cost", "By when")
    assert all(row[1:] == ("", "") for row in table.rows)


def test_safety_that_was_not_asked_is_never_called_safe():
    review = demo("1", answers=Answers())
    text = page_text(make_page(review, Reader.OFFICE, Show.CELSIUS))
    assert "Not asked yet" in text
    assert "No sign of danger" not in text


def test_the_pictures_have_words_for_who_cannot_see_them(dead):
    pictures = [
        b for b in make_page(dead, Reader.MAKER, Show.BOTH).blocks if isinstance(b, Picture)
    ]
    assert len(pictures) == 2
    assert "1054 °C / 1930 °F" in pictures[0].said
    assert "bottom: cooler than meant" in pictures[1].said


def test_both_units_stand_on_a_page_that_shows_both(dead):
    text = page_text(make_page(dead, Reader.TECHNICIAN, Show.BOTH))
    assert "cone 04 (about 1063 °C / 1945 °F)" in " ".join(text.split())


def test_a_log_without_a_firing_still_makes_every_page():
    found = gather(next(demo_logs().glob("1_*")))
    log = found.log
    flat = tuple(
        replace(c, values=c.values * 0.0 + 20.0) if c.is_temperature else c for c in log.channels
    )
    review = review_firing(replace(found, log=replace(log, channels=flat)), load_tables())
    assert [f.kind for f in review.findings] == [FindingKind.NOT_A_FIRING]
    for reader in Reader:
        assert page_text(make_page(review, reader, Show.CELSIUS))


# the case sheet


def test_the_case_sheet_follows_the_order_in_which_people_ask(worn):
    said = heads(make_page(worn, Reader.CASE, Show.CELSIUS))
    assert [head.split(".")[0] for head in said[:12]] == [str(n) for n in range(12)]
    words = ("Danger", "fired", "cones", "Times", "ended", "usual", "load", "kiln", "elements")
    assert all(word in head for word, head in zip(words, said, strict=False))


def test_the_case_sheet_names_its_gaps(worn):
    bare = demo("1", readings=Readings(), kiln=None, cones=())
    text = " ".join(page_text(make_page(bare, Reader.CASE, Show.CELSIUS)).split())
    assert "not known: volts at rest, volts under load, amps by section" in text
    assert "not known: cones by shelf" in text
    full = page_text(make_page(worn, Reader.CASE, Show.CELSIUS))
    assert "volts under load: 238 V" in full
    assert "not known: glow" in full


def test_the_case_sheet_has_no_name_and_no_day(worn):
    named = replace(
        worn,
        given=replace(
            worn.given,
            title="Zenobia's mugs",
            kiln=replace(worn.given.kiln, name="Old Quentin"),
            log=replace(worn.given.log, source="zenobia kitchen.csv"),
        ),
    )
    text = page_text(make_page(named, Reader.CASE, Show.CELSIUS))
    for word in ("Zenobia", "zenobia", "Quentin", "2026", "Sep"):
        assert word not in text


# the technician's sums


def test_the_current_of_the_plate_is_power_over_volts_and_over_root_three_a_line():
    plain = Kiln(rated_kw=9.6, rated_volts=240.0, supply=Supply.SINGLE_PHASE)
    assert rated_amps_text(plain) == "40.0 A"
    three = Kiln(rated_kw=12.0, rated_volts=400.0, supply=Supply.THREE_PHASE_STAR)
    # 12,000 W / (1.732 x 400 V), common practice, no source
    assert rated_amps_text(three) == "17.3 A a line"
    assert rated_amps_text(Kiln(rated_kw=9.6)) is None


def test_what_the_plate_does_not_say_is_named():
    words = plate(Kiln(rated_volts=240.0))[1].text
    assert words.startswith("volts 240 V. Not known: supply, power")


def test_supply_and_resistance_are_worked_out_beside_the_readings():
    kiln = Kiln(rated_volts=240.0, sections=(Section("Bottom", 2.0, 20.0), Section("top", 2.0)))
    readings = Readings(240.0, 208.0, {"bottom": 9.5}, {"bottom": 23.0, "top": float("inf")})
    judged = ElementsJudged(per_section=(SectionElements("Bottom", 0.65, None, None, 1.15),))
    _, words, table = readings_table(kiln, readings, judged)
    # (208/240)^2 = 75 %, and 1 - 208/240 = 13.3 %
    assert "sag 13.3 %" in words.text
    assert "leaves 75 % of rated power" in words.text
    assert table.rows[0] == ("Bottom", "2.00", "20.00", "23.00", "+15 %", "9.5", "about 65 %")
    assert table.rows[1] == ("top", "2.00", "", "open", "", "", "")


def test_heat_that_came_to_the_probe_of_a_dead_section_is_not_called_its_power(dead):
    by_curve = {one.section: one.power_ratio for one in dead.elements.per_section}
    assert 0.3 < by_curve["Bottom"] < 0.9
    _, _, table, *_ = readings_table(dead.given.kiln, dead.given.readings, dead.elements)
    assert [row[-1] for row in table.rows] == ["", "", ""]
    words = power(dead.elements, Show.CELSIUS)[1].text
    assert "By the probes, of the heat of then: Bottom 61 %" in words
    assert "a dead one shows less than the others, not none" in words


# blank sheets


def test_a_blank_cone_sheet_has_the_kilns_shelves_from_the_top_down():
    kiln = Kiln(name="Heron", sections=(Section("low"), Section("high")))
    page = blank_page(BlankSheet.CONES, kiln)
    rows = [b for b in page.blocks if isinstance(b, Table)][-1].rows
    assert [row[0] for row in rows if row[0]] == ["high", "low"]
    assert page.title == "Kiln Heron"


def test_a_blank_sheet_of_readings_says_first_who_may_read_what():
    page = blank_page(BlankSheet.READINGS, None)
    assert isinstance(page.blocks[0], Framed)
    assert "only a licensed electrician" in page.blocks[0].text
    assert "Local codes come first" in page.blocks[0].text


def test_listed_values_stand_on_the_sheet_of_readings():
    kiln = Kiln(rated_volts=240.0, sections=(Section("low", 2.5, 21.7), Section("high")))
    tables = [b for b in blank_page(BlankSheet.READINGS, kiln).blocks if isinstance(b, Table)]
    assert ("low", "2.50 kW", "21.70 Ω", "", "", "") in tables[2].rows


def test_notes_stand_with_their_time_but_not_on_the_case_sheet(worn):
    noted = replace(worn, given=replace(worn.given, notes=(TimeNote(2.5, "lid closed by Zoe"),)))
    for reader in (Reader.MAKER, Reader.TECHNICIAN):
        assert "2 h 30 min (9:35 AM): lid closed by Zoe" in page_text(
            make_page(noted, reader, Show.CELSIUS)
        )
    assert "Zoe" not in page_text(make_page(noted, Reader.CASE, Show.CELSIUS))
