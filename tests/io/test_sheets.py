"""Firing sheets, folders of a firing, and opening whatever is given."""

import dataclasses
from datetime import datetime
from pathlib import Path

import numpy as np
import pytest
from same import same

from firing_review.firing.cones import ConeNumber
from firing_review.firing.errors import InputError
from firing_review.firing.log import ChannelRole, ReadingChoices
from firing_review.firing.sheet import OPEN_CIRCUIT, Answers, Readings
from firing_review.firing.units import TemperatureUnit, TimeUnit
from firing_review.io.firing_parts import parts_of
from firing_review.io.open_any import gather
from firing_review.io.sheets import read_firing_sheet, write_firing_folder

KILN = '[[sections]]\nname = "bottom"\n[[sections]]\nname = "top"\n'
SCHEDULE = "rate_f_per_h,target_f,hold_min\n180,1112,0\nfull,1832,10\n"
CONES = "shelf,position,cone,kind,bend_deg\n1,left,cone 06,self_supporting,half\n"
SHEET = """\
title = "March bisque"
log = "log.csv"
schedule = "schedule.csv"
cones = "cones.csv"
kiln = "kiln.toml"
goal_cone = "06"
earlier = ["good.csv"]

[answers]
safety = ["none"]
onset = "gradual"
ended = "by itself"
load = "heavy"
ware = "mugs"
ware_rated_cone = "cone 06"
usual_hours = 9.5
firings_since_elements = 92
probe_touched = false
sections_dark = ["Top"]

[readings]
volts_no_load = 240
volts_full_load = 228.5
[readings.amps]
bottom = 10.1
[readings.cold_ohms]
bottom = 24.2
top = "open"
"""


def log_text(top_c=1000.0, hours=10.0):
    minutes = np.arange(0.0, hours * 60.0 + 480.0, 2.0)
    up = 20.0 + (top_c - 20.0) * np.minimum(minutes / (hours * 60.0), 1.0)
    down = np.exp(-np.maximum(minutes - hours * 60.0, 0.0) / 400.0)
    rows = "".join(f"{m:.0f},{u * d:.1f}\n" for m, u, d in zip(minutes, up, down, strict=True))
    return "elapsed_min,chamber_C\n" + rows


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "log.csv").write_text(log_text())
    (tmp_path / "good.csv").write_text(log_text(hours=8.0))
    (tmp_path / "schedule.csv").write_text(SCHEDULE)
    (tmp_path / "cones.csv").write_text(CONES)
    (tmp_path / "kiln.toml").write_text(KILN)
    (tmp_path / "firing.toml").write_text(SHEET)
    return tmp_path


def refusal(folder, sheet):
    (folder / "firing.toml").write_text(sheet)
    with pytest.raises(InputError) as caught:
        read_firing_sheet(folder / "firing.toml")
    return caught.value


def test_a_firing_sheet_brings_everything_it_names(folder):
    given = read_firing_sheet(folder / "firing.toml")
    assert given.title == "March bisque"
    assert given.goal_cone == ConeNumber("06")
    assert given.intended.segments[1].rate_c_per_h is None
    assert given.cones[0].shelf == "bottom"
    assert len(given.earlier) == 1
    assert given.answers == Answers(
        safety=("none",),
        onset="gradual",
        ended="by_itself",
        load="heavy",
        ware="mugs",
        ware_rated_cone=ConeNumber("06"),
        usual_hours=9.5,
        firings_since_elements=92,
        probe_touched=False,
        sections_dark=("top",),
    )
    assert given.readings == Readings(
        240.0, 228.5, {"bottom": 10.1}, {"bottom": 24.2, "top": OPEN_CIRCUIT}
    )


def test_a_firing_written_as_a_folder_reads_back_the_same(folder, tmp_path):
    given = read_firing_sheet(folder / "firing.toml")
    sheet = write_firing_folder(given, tmp_path / "saved")
    assert same(read_firing_sheet(sheet), given)


def test_the_log_in_a_saved_folder_is_the_old_one_byte_for_byte(folder, tmp_path):
    messy = log_text().replace("\n", "\r\n").encode("utf-16")
    (folder / "log.csv").write_bytes(messy)
    given = read_firing_sheet(folder / "firing.toml")
    write_firing_folder(given, tmp_path / "saved")
    assert (tmp_path / "saved" / "log.csv").read_bytes() == messy


def test_a_folder_with_files_in_it_is_never_written_to(folder):
    given = read_firing_sheet(folder / "firing.toml")
    before = {p.name: p.read_bytes() for p in folder.iterdir()}
    with pytest.raises(InputError, match="written over"):
        write_firing_folder(given, folder)
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == before


def test_a_unit_the_person_told_is_kept_in_the_folder(tmp_path):
    rows = "".join(f"{m},{20 + m}\n" for m in range(0, 500, 2))
    (tmp_path / "log.csv").write_text("elapsed_min,chamber\n" + rows)
    told = gather(tmp_path / "log.csv", unit=TemperatureUnit.FAHRENHEIT)
    sheet = write_firing_folder(told, tmp_path / "saved")
    again = read_firing_sheet(sheet)
    assert again.log.unit_read is TemperatureUnit.FAHRENHEIT
    assert np.array_equal(again.log.channels[0].values, told.log.channels[0].values)


def test_how_a_log_was_settled_to_be_read_is_kept_in_the_folder(tmp_path):
    rows = "".join(
        f"{d:02d}/03/2024 {h:02d}:00,{20 + 30 * h},{30 * h}\n" for d in (4,) for h in range(20)
    )
    (tmp_path / "log.csv").write_text("time,T1 (C),T2 (C)\n" + rows)
    choices = ReadingChoices(day_first=True, roles={"T2 (C)": ChannelRole.SET_POINT})
    told = gather(tmp_path / "log.csv", choices=choices)
    again = read_firing_sheet(write_firing_folder(told, tmp_path / "saved"))
    assert again.log.choices == choices
    assert [c.role for c in again.log.channels] == [ChannelRole.CHAMBER, ChannelRole.SET_POINT]
    assert again.log.started_at == datetime(2024, 3, 4)  # noqa: DTZ001


SIGNS = [("\t", "tab"), (";", "semicolon"), (",", "comma"), ("|", "bar"), (" ", "space")]


@pytest.mark.parametrize(("delimiter", "word"), SIGNS)
def test_the_unit_of_time_and_the_signs_settled_are_kept_in_the_folder(tmp_path, delimiter, word):
    rows = "".join(f"{60 * m}{delimiter}{20 + m}\n" for m in range(0, 500, 10))
    (tmp_path / "log.csv").write_text(f"time{delimiter}chamber_C\n" + rows)
    choices = ReadingChoices(delimiter=delimiter, decimal=".", time_unit=TimeUnit.MINUTES)
    told = gather(tmp_path / "log.csv", choices=choices)
    sheet = write_firing_folder(told, tmp_path / "saved")
    lines = sheet.read_text().splitlines()
    assert 'log_time_unit = "minutes"' in lines
    assert f'log_delimiter = "{word}"' in lines
    assert 'log_decimal = "point"' in lines
    again = read_firing_sheet(sheet)
    assert again.log.choices == choices
    assert again.log.elapsed_h[:3].tolist() == [0.0, 10.0, 20.0]


def test_how_the_log_of_an_earlier_firing_was_settled_is_kept_with_it(tmp_path):
    (tmp_path / "log.csv").write_text(log_text())
    (tmp_path / "good").mkdir()
    (tmp_path / "good" / "log.csv").write_text(log_text().replace("elapsed_min", "time"))
    (tmp_path / "good" / "firing.toml").write_text('log = "log.csv"\nlog_time_unit = "seconds"\n')
    (tmp_path / "firing.toml").write_text('log = "log.csv"\nearlier = ["good/firing.toml"]\n')
    told = read_firing_sheet(tmp_path / "firing.toml")
    assert told.earlier[0].log.elapsed_h[30] == pytest.approx(60 / 3600)
    again = read_firing_sheet(write_firing_folder(told, tmp_path / "saved"))
    assert again.earlier[0].log.elapsed_h[30] == pytest.approx(60 / 3600)
    assert again.earlier[0].log.choices == ReadingChoices(time_unit=TimeUnit.SECONDS)


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ('log_time_unit = "weeks"', "minutes"),
        ('log_delimiter = ";"', "semicolon"),
        ('log_decimal = ","', "comma"),
    ],
)
def test_an_unknown_word_about_the_log_names_those_there_are(folder, line, part):
    assert part in str(refusal(folder, f'log = "log.csv"\n{line}\n'))


def test_which_firing_of_several_is_counted_from_1_in_the_sheet(tmp_path):
    (tmp_path / "firing.toml").write_text('log = "log.csv"\nlog_run = 2\n')
    assert parts_of(tmp_path).choices == ReadingChoices(run=1)


def test_an_earlier_firing_with_a_sheet_of_its_own_is_kept_with_its_schedule(folder, tmp_path):
    other = tmp_path / "february"
    other.mkdir()
    (other / "log.csv").write_text(log_text(hours=8.0))
    (other / "schedule.csv").write_text(SCHEDULE)
    (other / "firing.toml").write_text('log = "log.csv"\nschedule = "schedule.csv"\n')
    sheet = SHEET.replace("good.csv", "february/firing.toml")
    (folder / "firing.toml").write_text(sheet)
    given = read_firing_sheet(folder / "firing.toml")
    saved = write_firing_folder(given, tmp_path / "saved")
    assert read_firing_sheet(saved).earlier[0].intended == given.earlier[0].intended
    assert given.earlier[0].intended is not None


def test_a_sheet_that_names_itself_as_earlier_firing_ends(folder):
    (folder / "firing.toml").write_text(SHEET.replace("good.csv", "firing.toml"))
    assert read_firing_sheet(folder / "firing.toml").earlier[0].earlier == ()


@pytest.mark.parametrize(
    ("old", "new", "line", "part"),
    [
        ('goal_cone = "06"', "goal_cone = 06", 6, 'goal_cone = "06"'),
        ('goal_cone = "06"', "goal_cone = 6", 6, 'goal_cone = "6" or goal_cone = "06"'),
        ('goal_cone = "06"', 'goal_cone = "O6"', 6, "letter O"),
        ('goal_cone = "06"', 'gaol_cone = "06"', 6, "Did you mean goal_cone?"),
        ('"heavy"', '"havy"', 13, "Did you mean heavy?"),
        ('["none"]', '["none", "hot_plug"]', 10, 'Remove "none"'),
        ('["none"]', '["smoke"]', 10, "burning_smell"),
        ('["Top"]', '["Tip"]', 19, "Did you mean top?"),
        ("= false", '= "no"', 18, "true or false"),
        ("= 92", "= 92.5", 17, "whole number"),
        ('top = "open"', 'top = "none"', 28, '"open" for no continuity'),
        ("bottom = 10.1", "botom = 10.1", 25, "Did you mean bottom?"),
        ("bottom = 10.1", 'bottom = "open"', 25, "a number"),
        ('log = "log.csv"', 'lgo = "log.csv"', 2, "Did you mean log?"),
    ],
)
def test_a_slip_in_the_sheet_is_answered_at_its_line(folder, old, new, line, part):
    error = refusal(folder, SHEET.replace(old, new, 1))
    assert error.line == line
    assert part in str(error)
    assert error.where == str(folder / "firing.toml")


def test_a_sheet_without_a_log_says_what_is_missing(folder):
    assert refusal(folder, 'title = "x"\n').expected == 'a line log = "..."'


def test_a_kiln_sheet_given_as_a_firing_is_recognized(folder):
    with pytest.raises(InputError, match="found a kiln sheet"):
        gather(folder / "kiln.toml")


@pytest.mark.parametrize(
    ("name", "found"),
    [("schedule.csv", "a schedule"), ("cones.csv", "a table of witness cones")],
)
def test_a_schedule_or_cones_given_as_a_log_are_recognized(folder, name, found):
    with pytest.raises(InputError) as caught:
        gather(folder / name)
    assert caught.value.found == found
    assert "beside it" in caught.value.remedy


def test_what_is_named_beside_a_log_is_read_with_it(folder):
    given = gather(
        folder / "log.csv",
        schedule=folder / "schedule.csv",
        cones=folder / "cones.csv",
        kiln=folder / "kiln.toml",
        goal_cone=ConeNumber("06"),
        earlier=[folder / "good.csv"],
    )
    assert same(
        given,
        dataclasses.replace(
            read_firing_sheet(folder / "firing.toml"),
            title="",
            answers=Answers(),
            readings=Readings(),
        ),
    )


def test_what_is_named_goes_before_what_the_sheet_says(folder):
    assert gather(folder / "firing.toml", goal_cone=ConeNumber("6")).goal_cone.text == "6"


def test_a_folder_with_a_sheet_opens_like_the_sheet(folder):
    assert gather(folder).title == "March bisque"


def test_a_folder_without_a_sheet_is_refused(tmp_path):
    with pytest.raises(InputError, match=r"a folder with a firing\.toml"):
        gather(tmp_path)


def test_a_cone_whose_zero_was_lost_is_named_among_the_notes(folder):
    (folder / "cones.csv").write_text(CONES.replace("cone 06", "6"))
    notes = gather(folder).log.notes
    assert [n.count for n in notes if n.kind == "possible_lost_zero"] == [1]
    (folder / "cones.csv").write_text(CONES)
    assert "possible_lost_zero" not in [n.kind for n in gather(folder).log.notes]


@pytest.mark.parametrize(
    ("data", "found"),
    [
        (b"", "an empty file"),
        (b"\r\n \r\n", "an empty file"),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "a picture (PNG)"),
        (b"\xff\xd8\xff\xe0" + bytes(range(256)), "a picture (JPEG)"),
        (bytes(range(256)) * 20, "a binary file"),
        (b"PK\x03\x04" + bytes(200), "a zipped file or a spreadsheet workbook"),
    ],
)
def test_what_is_no_text_is_told_apart(folder, data, found):
    for name, option in (("log.csv", None), ("schedule.csv", "schedule"), ("cones.csv", "cones")):
        path = folder / f"other {name}"
        path.write_bytes(data)
        extra = {option: path} if option else {}
        with pytest.raises(InputError) as caught:
            gather(folder / "log.csv" if option else path, **extra)
        assert (caught.value.where, caught.value.found) == (str(path), found)


def test_a_missing_file_is_named(folder):
    with pytest.raises(InputError, match=r"nothing\.csv: expected the log .* no such file"):
        gather(folder / "nothing.csv")
