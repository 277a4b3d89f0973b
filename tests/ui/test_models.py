"""Item models keep Qt's own rules, and show plain rows."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester

from firing_review.firing.aligned import Stretch, StretchKind
from firing_review.report.segment_rows import segment_rows
from firing_review.report.wording import Show
from firing_review.ui.findings_list.model import ROW_ROLE, FindingsModel, finding_rows
from firing_review.ui.segment_table.model import SegmentsModel
from firing_review.ui.segment_table.panel import summary
from firing_review.ui.text_table.model import WRONG_ROLE, TextTableModel

STRICT = QAbstractItemModelTester.FailureReportingMode.Warning


@pytest.fixture
def table(qapp) -> TextTableModel:
    model = TextTableModel(("Rate", "Target", "Hold"))
    model.tester = QAbstractItemModelTester(model, STRICT)
    return model


def test_findings_are_rows_with_number_sentence_and_time(review, qapp):
    model = FindingsModel()
    tester = QAbstractItemModelTester(model, STRICT)
    model.set_rows(finding_rows(review.findings, Show.CELSIUS))
    model.set_rows(finding_rows(review.findings, Show.FAHRENHEIT))
    assert model.rowCount() == 3
    assert model.index(0).data() == "Reading stopped at 2192 °F."
    assert model.index(2).data(ROW_ROLE).about == "Note · 3 h 00 min to 3 h 30 min"
    model.set_rows([])
    assert model.rowCount() == 0
    del tester


def test_a_finding_is_read_out_whole(review, qapp):
    model = FindingsModel()
    model.set_rows(finding_rows(review.findings, Show.CELSIUS))
    spoken = model.index(0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "1. Reading stopped at 1200 °C. Fault · 7 h 00 min to 7 h 54 min"


def test_segments_stand_as_asked_and_got(review, qapp):
    model = SegmentsModel()
    tester = QAbstractItemModelTester(model, STRICT)
    model.set_rows(segment_rows(review.firing.stretches, Show.CELSIUS, lambda _hour: "5.4"))
    first = [model.index(0, column).data() for column in range(6)]
    assert first == [
        "1 climb",
        "150 °C per hour, to 1220 °C",
        "150 °C per hour, to 1200 °C",
        "12 min",
        "5.4",
        "short of target",
    ]
    assert [model.index(1, column).data() for column in range(6)] == [
        "1 hold", "10 min", "", "", "", "not reached",
    ]  # fmt: skip
    del tester


def test_a_segment_that_was_quicker_is_said_to_be_sooner():
    quick = Stretch(
        2, StretchKind.CLIMB, 60.0, 900.0, None, start_h=1.0, reached_c=900.0, behind_min=-7.0
    )
    assert segment_rows((quick,), Show.CELSIUS)[0].cells[3] == "7 min sooner"


def test_typing_in_the_last_row_makes_room_for_another(table):
    assert table.rowCount() == 1
    assert table.setData(table.index(0, 0), " 100 ")
    assert table.rowCount() == 2
    assert table.rows == [("100", "", "")]


def test_a_cell_keeps_whatever_was_typed_and_carries_its_sentence(table):
    table.setData(table.index(0, 1), "abc")
    table.set_wrong({(0, 1): "Row 1, target: expected a temperature."})
    assert table.index(0, 1).data() == "abc"
    assert table.index(0, 1).data(WRONG_ROLE) == "Row 1, target: expected a temperature."
    spoken = table.index(0, 1).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "row 1, Target: abc. Row 1, target: expected a temperature."


def test_a_block_is_laid_from_the_cell_on_and_told_once(table, qtbot):
    told = []
    table.edited.connect(lambda: told.append(1))
    table.put(0, 0, [["100", "600", "20"], ["full", "1220"]])
    table.put(1, 2, [["15", "too far"]])
    assert table.rows == [("100", "600", "20"), ("full", "1220", "15")]
    assert told == [1, 1]


def test_a_row_is_taken_away_but_never_the_blank_one(table):
    table.set_rows([("100", "600", "20"), ("150", "1220", "")])
    table.remove_row(0)
    table.remove_row(1)
    assert table.rows == [("150", "1220", "")]
    assert table.rowCount() == 2


def test_rows_set_by_the_program_are_no_edit(table):
    told = []
    table.edited.connect(lambda: told.append(1))
    table.set_rows([("100", "600", "20")])
    table.insert_row(0)
    assert told == []


def test_segments_of_a_log_without_a_schedule_are_found_and_not_as_asked(review):
    rows = segment_rows(review.firing.stretches, Show.CELSIUS)
    assert summary(rows, asked=False) == f"{len(rows)} segments, found in the log"
