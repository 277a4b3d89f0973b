"""The rows of the segment table are as high as their words need, and no higher."""

import pytest

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs


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
