"""Write the demo firings: eight firings of Quillfern Pottery, a workshop that does not exist.

The kilns Heron, Wren and Otter, their logs, cones and troubles are invented with the model of
``firing_review/physics``; each folder is written anew from here, always the same.

    python demo_logs/make_demo_logs.py [FOLDER]
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np

from firing_review.firing.cones import ConeNumber
from firing_review.firing.schedule import Schedule, Segment
from firing_review.io.tables import load_tables
from firing_review.physics.bend_law import bend_deg
from firing_review.physics.cones import dwell_of, fit_laws, log_work_done
from firing_review.physics.heat_balance import Brickwork, KilnModel, cylinder
from firing_review.physics.kiln_controller import ControlSettings
from firing_review.physics.simulated_firing import Faults, Run, SimulatedFiring, simulate

SECTIONS = ("bottom", "middle", "top")
INVENTED = "Invented: Quillfern Pottery and its kilns do not exist."


@dataclass(frozen=True)
class DemoKiln:
    """A kiln of the workshop: what the model needs, and its sheet."""

    name: str
    volume_l: float
    wall_mm: float
    section_kw: tuple[float, float, float]
    volts: float
    thermocouple: str
    diameter_mm: float
    height_mm: float
    load_kg: float
    supply: str = "single_phase"
    tariff: float | None = None

    @property
    def model(self) -> KilnModel:
        wall = Brickwork(wall_mm=self.wall_mm, slices=10)
        return cylinder(
            self.diameter_mm, self.height_mm, self.section_kw, self.load_kg, wall, SECTIONS
        )

    def cold_ohms(self, kw: float) -> float:
        """Cold resistance [ohm]: hot resistance over 1.04, that of usual kiln wire."""
        return round(self.volts**2 / (1000.0 * kw) / 1.04, 1)

    def sheet(self) -> str:
        rows = [
            f"# {INVENTED}",
            f'name = "{self.name}"',
            f"volume_l = {self.volume_l}",
            f"wall_mm = {self.wall_mm}",
            f"rated_kw = {round(sum(self.section_kw), 2)}",
            f"rated_volts = {self.volts}",
            f'supply = "{self.supply}"',
            f'thermocouple = "{self.thermocouple}"',
        ]
        rows += [f"tariff_per_kwh = {self.tariff}"] if self.tariff else []
        for name, kw in zip(SECTIONS, self.section_kw, strict=True):
            rows += ["", "[[sections]]", f'name = "{name}"', f"rated_kw = {kw}"]
            rows += [f"rated_cold_ohms = {self.cold_ohms(kw)}", 'wiring = "parallel"']
            rows += ["elements = 2", 'alloy = "FeCrAl 22Cr-5.8Al"']
        return "\n".join(rows) + "\n"


HERON = DemoKiln("Heron", 184.0, 76.0, (4.15, 3.3, 4.15), 240.0, "K", 584, 686, 78.0, tariff=0.19)
WREN = DemoKiln("Wren", 74.0, 64.0, (2.55, 1.95, 2.55), 240.0, "K", 432, 500, 30.0, tariff=0.19)
OTTER = DemoKiln("Otter", 130.0, 76.0, (3.4, 2.65, 3.4), 230.0, "S", 500, 660, 55.0, tariff=0.31)


@dataclass(frozen=True)
class Logger:
    """How a logger writes: a row for each sample, and what stands above and below."""

    write: Callable[[datetime, SimulatedFiring, int, np.ndarray, np.ndarray], str]
    head: str
    step_c: float
    noise_c: float
    every_s: float = 60.0
    encoding: str = "utf-8"
    line_end: str = "\n"
    foot: str = ""


@dataclass(frozen=True)
class Story:
    """One demo firing: what was meant, what was wrong, how it was recorded."""

    folder: str
    title: str
    story: tuple[str, str]
    kiln: DemoKiln
    goal: str
    meant: Schedule
    logger: Logger
    begun: datetime
    cones: tuple[str, ...]
    typed: Schedule | None = None
    faults: Faults = field(default_factory=Faults)
    control: ControlSettings = field(default_factory=ControlSettings)
    spoil: Callable[[list[str]], list[str]] = lambda rows: rows
    schedule_f: bool = False
    more: str = ""
    probe: int | None = 1


def plan(*rows: tuple[float | None, float, float]) -> Schedule:
    return Schedule(tuple(Segment(*row) for row in rows))


def fahrenheit(values: np.ndarray) -> np.ndarray:
    return values * 1.8 + 32.0


def rounded(values: np.ndarray, logger: Logger, rng: np.random.Generator) -> np.ndarray:
    noisy = values + rng.normal(0.0, logger.noise_c, values.shape)
    return np.round(noisy / logger.step_c) * logger.step_c


def log_text(story: Story, fired: SimulatedFiring, begun: datetime, seed: int) -> str:
    rng = np.random.default_rng(seed)
    logger = story.logger
    reading = rounded(fired.reading_c, logger, rng)
    probes = rounded(fired.probes_c, logger, rng)
    rows = [
        logger.write(begun + timedelta(hours=float(hours)), fired, index, reading, probes)
        for index, hours in enumerate(fired.elapsed_h)
    ]
    return logger.head + "\n".join(rows) + "\n" + logger.foot


def write_file(path: Path, text: str, logger: Logger | None = None) -> None:
    encoding = logger.encoding if logger else "utf-8"
    ended = text.replace("\n", logger.line_end) if logger else text
    path.write_bytes(ended.encode(encoding))


def schedule_text(schedule: Schedule, *, in_f: bool) -> str:
    unit = "f" if in_f else "c"
    rows = [f"rate_{unit}_per_h,target_{unit},hold_min"]
    for one in schedule.segments:
        target = one.target_c * 1.8 + 32.0 if in_f else one.target_c
        rate = "full"
        if one.rate_c_per_h is not None:
            rate = f"{one.rate_c_per_h * (1.8 if in_f else 1.0):g}"
        rows.append(f"{rate},{target:g},{one.hold_min:g}")
    return "\n".join(rows) + "\n"


def cones_text(story: Story, fired: SimulatedFiring, seed: int) -> str:
    rng = np.random.default_rng(seed)
    laws = {law.cone: law for law in fit_laws(load_tables().cones)}
    rows = ["shelf,position,cone,kind,bend_deg"]
    ware_c = 0.6 * fired.chamber_c + 0.4 * fired.core_c
    for section, shelf in enumerate(SECTIONS):
        dwell = dwell_of(fired.elapsed_h, ware_c[:, section])
        for number in story.cones:
            law = laws[ConeNumber(number)]
            work = float(np.exp(log_work_done(dwell, law, float(rng.normal(0.0, 1.5)))))
            bend = float(bend_deg(work))
            bend += float(rng.normal(0.0, 3.0)) if 5.0 < bend < 108.0 else 0.0
            bend = 5.0 * round(min(max(bend, 0.0), 130.0) / 5.0)
            rows.append(f"{shelf},front,cone {number},self_supporting,{bend:.0f}")
    return "\n".join(rows) + "\n"


def sheet_text(story: Story) -> str:
    rows = [
        f"# {INVENTED}",
        f'title = "{story.title}"',
        'log = "log.csv"',
        'schedule = "schedule.csv"',
        'cones = "cones.csv"',
        'kiln = "kiln.toml"',
        f'goal_cone = "{story.goal}"',
        'earlier = ["earlier.csv"]',
    ]
    return "\n".join(rows) + "\n" + story.more


def write_demo(story: Story, place: Path) -> SimulatedFiring:
    folder = place / story.folder
    folder.mkdir(parents=True, exist_ok=True)
    seed = sum(story.folder.encode())
    run = Run(
        probe=story.probe, control=story.control, every_s=story.logger.every_s, until_c=150.0
    )
    fired = simulate(story.kiln.model, story.typed or story.meant, story.faults, run)
    usual = Faults(load_share=(1.02, 0.98, 1.0))
    good = simulate(story.kiln.model, story.meant, usual, replace(run, control=ControlSettings()))
    text = log_text(story, fired, story.begun, seed)
    lines = text.split("\n")
    head = story.logger.head.count("\n")
    spoilt = [*lines[:head], *story.spoil(lines[head:])]
    write_file(folder / "log.csv", "\n".join(spoilt), story.logger)
    earlier = log_text(story, good, story.begun - timedelta(days=16, hours=3), seed + 1)
    write_file(folder / "earlier.csv", earlier, story.logger)
    write_file(folder / "schedule.csv", schedule_text(story.meant, in_f=story.schedule_f))
    write_file(folder / "cones.csv", cones_text(story, fired, seed + 2))
    write_file(folder / "kiln.toml", story.kiln.sheet())
    write_file(folder / "firing.toml", sheet_text(story))
    write_file(folder / "story.txt", "\n".join(story.story) + "\n")
    return fired


# How the loggers of the workshop write


def asked(fired: SimulatedFiring, index: int) -> float:
    value = float(fired.set_point_c[index])
    return value if np.isfinite(value) else 0.0


def comma_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    return f"{when:%Y-%m-%d %H:%M:%S},{reading[i]:.0f},{asked(fired, i):.0f},{100 * fired.output[i]:.0f}"


def decimal_comma_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    numbers = f"{reading[i]:.1f};{asked(fired, i):.1f};{100 * fired.output[i]:.0f}"
    return f"{when:%d.%m.%Y %H:%M};" + numbers.replace(".", ",")


def tab_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    shown = "\t".join(f"{value:.0f}" for value in fahrenheit(probes[i]))
    return f"{60 * fired.elapsed_h[i]:.1f}\t{shown}\t{100 * fired.output[i]:.0f}"


def quoted_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    shown = float(fahrenheit(reading[i]))
    stamp = f"{when:%m/%d/%Y},{when:%I:%M:%S %p}"
    return f'{stamp},"{shown:.1f}","{100 * fired.output[i]:.0f}"'


def clock_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    minutes = round(60 * fired.elapsed_h[i])
    return f"{minutes // 60}:{minutes % 60:02d}:00;{reading[i]:.0f};{asked(fired, i):.0f}"


def unix_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    seconds = round((when - datetime(1970, 1, 1)).total_seconds())
    return f"{seconds},{reading[i]:.1f},{asked(fired, i):.0f},{100 * fired.output[i]:.0f}"


def two_column_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    return f"{when:%d/%m/%Y};{when:%H:%M};{reading[i]:.1f};{100 * fired.output[i]:.0f};24"


def unit_row(when: datetime, fired: SimulatedFiring, i: int, reading, probes) -> str:
    shown = ",".join(f"{value:.0f} C" for value in probes[i])
    return f"{when:%Y-%m-%dT%H:%M:%S},{shown},{100 * fired.output[i]:.0f} %"


PLAIN = Logger(comma_row, "time,chamber (°C),set point (°C),output (%)\n", 1.0, 0.6)
COMMA = Logger(
    decimal_comma_row,
    "Date Time;Temperature °C;Set point °C;Output %\n",
    0.1,
    0.5,
    encoding="latin-1",
    line_end="\r\n",
)
TABS = Logger(tab_row, "elapsed min\tBottom °F\tMiddle °F\tTop °F\tOutput %\n", 0.5, 0.6)
QUOTED = Logger(
    quoted_row,
    "Kiln log export\nKiln: Heron\nSample interval: 60 s\n\nDate,Time,Temp F,Output %\n",
    0.1,
    0.4,
    encoding="utf-8-sig",
    foot="End of log\n",
)
CLOCK = Logger(clock_row, "Elapsed;Chamber;Set point\nh:mm:ss;°C;°C\n", 1.0, 0.5)
UNIX = Logger(unix_row, "timestamp,temp_c,setpoint_c,duty_pct\n", 0.5, 0.4)
TWO_COLUMNS = Logger(
    two_column_row,
    "# Kiln: Wren\n# Channel 1: chamber, type K\nDate;Time;Chamber C;Output %;Cold end C\n",
    0.1,
    0.5,
    line_end="\r\n",
)
UNITS = Logger(unit_row, "Timestamp,bottom,middle,top,output\n", 1.0, 0.6)


# What happened to the files


def with_gaps(rows: list[str]) -> list[str]:
    """Leave out a few rows, and mark two samples of the probe as open."""
    kept = [row for number, row in enumerate(rows) if number not in {211, 212, 640}]
    for number in (388, 389):
        date, time, _, *others = kept[number].split(";")
        kept[number] = ";".join((date, time, "9999", *others))
    return kept


CUT_FROM_ROW, CUT_ROWS = 372, 55
SAFE = '\n[answers]\nsafety = ["none"]\n'

GLAZE_6 = plan((110, 120, 20), (200, 1000, 0), (120, 1120, 0), (60, 1211, 10))
BISQUE_04 = plan((60, 110, 60), (110, 650, 0), (150, 950, 0), (60, 1052, 15))
GLAZE_05 = plan((100, 120, 15), (180, 900, 0), (90, 1033, 12))

STORIES = (
    Story(
        "1_good_glaze_firing",
        "A glaze firing that went as meant",
        (
            "Quillfern Pottery (invented), kiln Heron: a glaze firing to cone 6.",
            "It kept its schedule and the cones came down on every shelf.",
        ),
        HERON,
        "6",
        GLAZE_6,
        PLAIN,
        datetime(2026, 3, 3, 6, 40),
        ("5", "6", "7"),
        faults=Faults(load_share=(1.0, 1.03, 0.97)),
        more=SAFE,
    ),
    Story(
        "2_worn_heating_elements",
        "Late and underfired: worn heating elements",
        (
            "Quillfern Pottery (invented), kiln Heron after 140 glaze firings: it left the"
            " schedule near the top.",
            "The heating elements have lost nearly a fifth of their power; the meter readings tell.",
        ),
        HERON,
        "6",
        GLAZE_6,
        COMMA,
        datetime(2026, 9, 21, 7, 5),
        ("3", "4", "5", "6"),
        faults=Faults(power_share=(0.80, 0.84, 0.81), load_share=(1.04, 1.0, 1.0)),
        control=ControlSettings(waits=False),
        more=SAFE
        + 'onset = "gradual"\nended = "by_itself"\nload = "usual"\n'
        + "firings_since_elements = 140\n"
        + "\n[readings]\nvolts_no_load = 241.0\nvolts_full_load = 238.0\n"
        + "\n[readings.cold_ohms]\nbottom = 16.7\nmiddle = 20.0\ntop = 16.5\n",
    ),
    Story(
        "3_dead_section",
        "A cold bottom shelf: a dead section",
        (
            "Quillfern Pottery (invented), kiln Wren with a probe in each section: bisque cone 04.",
            "The bottom section gave no heat; its shelf stayed far behind the others.",
        ),
        WREN,
        "04",
        BISQUE_04,
        TABS,
        datetime(2026, 4, 12, 20, 10),
        ("08", "06", "04", "02"),
        faults=Faults(dead={0: 0.0}),
        probe=None,
        schedule_f=True,
        more=SAFE + 'onset = "sudden"\nload = "usual"\n',
    ),
    Story(
        "4_low_supply",
        "Slow near the top: low supply voltage",
        (
            "Quillfern Pottery (invented), kiln Heron on a cold evening with every heater on.",
            "The supply sank to 212 volts; the heating elements are as good as new.",
        ),
        HERON,
        "6",
        GLAZE_6,
        QUOTED,
        datetime(2026, 1, 16, 17, 30),
        ("5", "6", "7"),
        faults=Faults(supply_share=212.0 / 240.0),
        schedule_f=True,
        more=SAFE
        + 'onset = "comes_and_goes"\nload = "usual"\nfirings_since_elements = 12\n'
        + "\n[readings]\nvolts_no_load = 221.0\nvolts_full_load = 212.0\n"
        + "\n[readings.cold_ohms]\nbottom = 13.4\nmiddle = 16.9\ntop = 13.3\n",
    ),
    Story(
        "5_probe_reads_high",
        "A perfect curve and cold cones: the probe reads high",
        (
            "Quillfern Pottery (invented), kiln Otter: the log follows the schedule to the minute.",
            "Every cone on every shelf stood too upright, so the kiln was colder than it showed.",
        ),
        OTTER,
        "6",
        GLAZE_6,
        CLOCK,
        datetime(2026, 5, 9, 8, 0),
        ("4", "5", "6"),
        faults=Faults(probe_error_share=0.027),
        more=SAFE + 'onset = "gradual"\nended = "by_itself"\nload = "usual"\n',
    ),
    Story(
        "6_mistyped_hold",
        "Overfired: a hold typed in hours",
        (
            "Quillfern Pottery (invented), kiln Wren: a hold of 12 minutes was typed as 12 hours.",
            "At seven in the morning it was found still hot and switched off; all cones were flat.",
        ),
        WREN,
        "05",
        GLAZE_05,
        UNIX,
        datetime(2026, 2, 7, 16, 45),
        ("05", "03", "01"),
        typed=plan((100, 120, 15), (180, 900, 0), (90, 1033, 720)),
        faults=Faults(stopped_h=14.25),
        more=SAFE + 'ended = "found_hot"\nload = "usual"\nusual_hours = 7.5\n',
    ),
    Story(
        "7_power_cut",
        "A power cut in the afternoon",
        (
            "Quillfern Pottery (invented), kiln Wren: the power failed for 55 minutes and came"
            " back.",
            "The kiln went on by itself afterwards; the logger ran on its battery all the time.",
        ),
        WREN,
        "05",
        GLAZE_05,
        TWO_COLUMNS,
        datetime(2026, 6, 18, 9, 20),
        ("06", "05", "04"),
        faults=Faults(cut_h=(CUT_FROM_ROW / 60.0 - 0.03, CUT_ROWS / 60.0)),
        spoil=with_gaps,
        more=SAFE + 'ended = "by_itself"\nload = "usual"\n',
    ),
    Story(
        "8_uneven_load",
        "Hot above, cold below: an uneven load",
        (
            "Quillfern Pottery (invented), kiln Otter with a probe in each section: thick tiles"
            " below, small cups above.",
            "Nothing is broken; the heavy shelf came late and the light one ran ahead.",
        ),
        OTTER,
        "6",
        GLAZE_6,
        UNITS,
        datetime(2026, 7, 2, 6, 15),
        ("5", "6", "7"),
        faults=Faults(load_share=(2.4, 0.9, 0.35)),
        probe=None,
        more=SAFE + 'load = "heavy"\nload_place = "bottom"\n',
    ),
)


def main() -> None:
    place = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parent
    for story in STORIES:
        fired = write_demo(story, place)
        top = int(np.argmax(fired.reading_c))
        print(story.folder, f"{fired.elapsed_h[top]:.1f} h", np.round(fired.chamber_c[top]))


if __name__ == "__main__":
    main()
