"""The segment table and what stands over it: as high as its words need, and no higher."""

import pytest
from PySide6.QtWidgets import QPushButton

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.ui.segment_table.fold import Fold


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
