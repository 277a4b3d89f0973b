"""Every change a person can make, with anything in it, for tests of any path of edits."""

from hypothesis import strategies as st

from firing_review.firing.cones import CONE_SCALE, ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section, Shelf, Supply
from firing_review.firing.log import ChannelRole, ReadingChoices
from firing_review.firing.schedule import ClockCurve, Schedule, Segment
from firing_review.firing.sheet import OPEN_CIRCUIT, Answers, Given, Picture, Readings
from firing_review.firing.units import TemperatureUnit
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.tables import load_tables
from firing_review.review import edits

TABLES = load_tables()
LOG = "elapsed_min,bottom,top\n" + "".join(
    f"{10 * i},{20 + 12 * i},{21 + 12 * i}\n" for i in range(60)
)
SHELVES = ("bottom", "top")
NAMES = (*SHELVES, "lower", "upper", "1", "2")

words = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=12)
above_0 = st.floats(0.01, 1e5)
cones_numbers = st.sampled_from(CONE_SCALE).map(ConeNumber)
kilns = st.builds(
    Kiln,
    name=words,
    rated_kw=st.none() | above_0,
    supply=st.none() | st.sampled_from(Supply),
    thermocouple=st.none() | st.sampled_from("KSN"),
    tariff_per_kwh=st.none() | above_0,
    sections=st.lists(st.sampled_from(NAMES).map(Section), max_size=3, unique=True).map(tuple),
    shelves=st.just(()) | st.just(tuple(Shelf(name, None, 10.0) for name in SHELVES)),
)
segments = st.builds(
    Segment, st.none() | st.floats(1.0, 900.0), st.floats(20.0, 1400.0), st.floats(0.0, 3000.0)
)
schedules = st.lists(segments, min_size=1, max_size=5).map(lambda rows: Schedule(tuple(rows)))
curves = st.just(ClockCurve((0.0, 2.0, 9.25), (20.0, 100.5, 1000.0)))
witnesses = st.builds(
    ShelfCone,
    st.sampled_from(SHELVES),
    st.sampled_from(["", "left", "far back"]),
    cones_numbers,
    st.sampled_from(ConeKind),
    st.floats(0.0, 130.0),
    st.sampled_from([5.0, 9.5]),
)
by_section = st.dictionaries(st.sampled_from(SHELVES), above_0)
readings = st.builds(
    Readings,
    st.none() | above_0,
    st.none() | above_0,
    by_section,
    st.dictionaries(st.sampled_from(SHELVES), above_0 | st.just(OPEN_CIRCUIT)),
)
answers = st.builds(
    Answers,
    safety=st.none() | st.sampled_from([("none",), ("burning_smell", "hot_plug")]),
    onset=st.none() | st.sampled_from(["sudden", "gradual", "comes_and_goes"]),
    ware=st.none() | words.filter(str.strip),
    ware_rated_cone=st.none() | cones_numbers,
    usual_hours=st.none() | above_0,
    firings_since_elements=st.none() | st.integers(0, 500),
    probe_touched=st.none() | st.booleans(),
    sections_dark=st.none() | st.lists(st.sampled_from(SHELVES), unique=True).map(tuple),
)
choices = st.builds(
    ReadingChoices,
    unit=st.sampled_from(TemperatureUnit),
    roles=st.just({}) | st.just({"top": ChannelRole.OTHER}),
)
pictures = st.lists(st.binary(min_size=1, max_size=9), max_size=2).map(
    lambda many: tuple(Picture(f"{n} cones.jpg", data) for n, data in enumerate(many))
)


def log(choice: ReadingChoices):
    return read_log_bytes(LOG.encode(), "last night.csv", choices=choice)


changes = st.one_of(
    words.map(edits.set_title),
    kilns.map(edits.set_kiln),
    (st.none() | cones_numbers).map(edits.set_goal_cone),
    (st.none() | schedules | curves).map(edits.set_schedule),
    st.lists(witnesses, max_size=4).map(edits.set_cones),
    st.builds(edits.set_bends, st.lists(witnesses, max_size=2), pictures),
    answers.map(edits.set_answers),
    readings.map(edits.set_readings),
    st.sampled_from([0.25, 0.5, 1.0]).map(edits.set_tolerance),
    choices.map(log).map(edits.set_log),
    st.lists(choices.map(log).map(Given), max_size=2).map(edits.set_earlier),
)
