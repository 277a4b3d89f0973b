"""Text as it is shown: what belongs together stays on one line."""

import pytest

from firing_review.report.shown_text import kept_together


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ran 200 °C colder", "ran 200_°C colder"),
        ("(61 % to 68 %)", "(61_% to 68_%)"),
        ("at 60 °C/h, look only, 10 min)", "at 60_°C/h, look only, 10_min)"),
        ("after 3 h 05 min", "after 3_h_05_min"),
        ("33.3 kWh, 74 L, 64 mm, 21.7 Ω", "33.3_kWh, 74_L, 64_mm, 21.7_Ω"),
        ("about cone 04 + 0.3", "about cone 04_+_0.3"),
        ("2 hours, 3 hands, 4 minutes", "2 hours, 3 hands, 4 minutes"),
        ("shelf 2 Vase", "shelf 2 Vase"),
    ],
)
def test_a_figure_stays_with_its_unit(text, expected):
    assert kept_together(text).replace("\u2060", "") == expected.replace("_", "\u00a0")


def test_a_rate_is_not_parted_at_its_stroke():
    assert kept_together("mit 234 °F/h stieg") == "mit 234\u00a0°F/\u2060h stieg"
