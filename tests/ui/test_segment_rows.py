"""The segment table and what stands over it: as high as its words need, and no higher."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.ui.segment_table.fold import Fold
from firing_review.ui.segment_table.view import ROWS_SHOWN, SegmentView


@pytest.mark.parametrize("language", list(Language))
def test_where_every_cell_has_room_every_row_has_one_line(qtbot, window, language):
    window.choose_language(language)
    window.resize(1920, 1080)
    window.show()
    window.open_path(demo_logs() / "2_worn_heating_elements" / "firing.toml")
    table = window.firing.segments.view
    qtbot.waitUntil(table.isVisible)
    heights = {table.rowHeight(row) for row in range(table.model().rowCount())}
    assert len(heights) == 1


def test_the_words_over_a_part_break_between_words_and_never_before_a_unit(qtbot):
    fold = Fold()
    qtbot.addWidget(fold)
    fold.setText("Worn heating elements: very likely, over 95 %")
    fold.show()
    for width_px in range(120, 600, 7):
        fold.resize(width_px, 80)
        lines = QPushButton.text(fold).splitlines()
        assert " ".join(lines).replace("\u00a0", " ") == fold.text()
        assert lines[-1] != "%"


def test_at_no_width_do_bar_and_columns_of_the_segments_turn_each_other_over(
    qtbot, window, monkeypatch
):
    window.open_path(demo_logs() / "1_good_glaze_firing" / "firing.toml")
    table = SegmentView(window.tools.appearance)
    qtbot.addWidget(table)
    table.setModel(window.firing.segments.view.model())
    assert table.model().rowCount() > ROWS_SHOWN
    table.show()
    fits, fit = [], SegmentView.fit

    def count_and_fit(view):
        fits.append(view.width())
        assert len(fits) < 50
        fit(view)

    monkeypatch.setattr(SegmentView, "fit", count_and_fit)
    with_bar = set()
    for width_px in range(240, 560):
        fits.clear()
        table.resize(width_px, table.height())
        assert fits == [width_px]
        with_bar.add(table.verticalScrollBarPolicy() is Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
    assert with_bar == {True, False}
