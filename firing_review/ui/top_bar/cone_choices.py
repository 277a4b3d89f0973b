"""The goal cones to choose from, each with its temperature."""

from firing_review.firing.cones import CONE_SCALE, ConeNumber
from firing_review.firing.wording import tr
from firing_review.report.wording import Show, cone_temperature_c, temperature


def cone_choices(show: Show) -> list[tuple[ConeNumber | None, str]]:
    """Return every cone of the chart as ``cone 06, about 999 °C``, and none before them."""
    cones = [ConeNumber(number) for number in CONE_SCALE]
    return [(None, tr("no goal cone")), *((cone, cone_text(cone, show)) for cone in cones)]


def cone_text(cone: ConeNumber, show: Show) -> str:
    """Return a cone with its temperature at 60 °C an hour, where the chart has one."""
    value_c = cone_temperature_c(cone.text)
    if value_c is None:
        return tr("cone {number}").format(number=cone.text)
    return tr("cone {number}, about {temperature}").format(
        number=cone.text, temperature=temperature(value_c, show)
    )
