"""A kiln that is changed later takes along what names its sections and shelves."""

from firings import GOOD, log_of

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section, Shelf
from firing_review.firing.sheet import Answers, Given, Readings
from firing_review.review.kiln_change import with_kiln


def kiln(*names, shelves=()):
    return Kiln(sections=tuple(Section(name) for name in names), shelves=shelves)


def firing(old, *shelves):
    return Given(
        log_of(GOOD),
        kiln=old,
        cones=tuple(
            ShelfCone(s, "", ConeNumber("06"), ConeKind.SELF_SUPPORTING, 45.0) for s in shelves
        ),
        answers=Answers(sections_dark=("top",)),
        readings=Readings(240.0, None, {"bottom": 9.0, "top": 8.0}, {"top": 16.0}),
    )


def stand_on(given):
    return [cone.shelf for cone in given.cones]


def test_a_section_that_is_renamed_takes_its_cones_readings_and_answers_along():
    after = with_kiln(firing(kiln("bottom", "top"), "bottom", "top"), kiln("bottom", "upper"))
    assert stand_on(after) == ["bottom", "upper"]
    assert after.answers.sections_dark == ("upper",)
    assert after.readings == Readings(240.0, None, {"bottom": 9.0, "upper": 8.0}, {"upper": 16.0})


def test_cones_of_a_shelf_that_is_no_more_stay_on_a_shelf_of_that_name():
    after = with_kiln(firing(kiln("bottom", "middle", "top"), "middle"), kiln("bottom", "top"))
    assert stand_on(after) == ["middle"]
    assert after.kiln.shelf_names == ("bottom", "top", "middle")


def test_readings_of_a_section_that_is_no_more_go():
    after = with_kiln(firing(kiln("bottom", "top")), kiln("bottom"))
    assert after.readings == Readings(240.0, None, {"bottom": 9.0}, {})
    assert after.answers.sections_dark == ()


def test_numbers_of_shelves_find_their_names_when_the_kiln_is_named_later():
    after = with_kiln(firing(None, "2", "Top", "attic"), kiln("bottom", "top"))
    assert stand_on(after) == ["top", "top", "attic"]
    assert after.kiln.shelf_names == ("bottom", "top", "attic")


def test_a_shelf_follows_the_new_name_of_its_section():
    shelves = (Shelf("floor", "bottom"), Shelf("lid", "top"))
    old = kiln("bottom", "top", shelves=shelves)
    after = with_kiln(firing(old, "lid"), kiln("bottom", "upper", shelves=shelves))
    assert [shelf.section for shelf in after.kiln.shelves] == ["bottom", "upper"]
    assert stand_on(after) == ["lid"]


def test_without_a_kiln_every_name_stays():
    after = with_kiln(firing(kiln("bottom", "top"), "top"), None)
    assert stand_on(after) == ["top"]
    assert after.readings.amps == {"bottom": 9.0, "top": 8.0}
