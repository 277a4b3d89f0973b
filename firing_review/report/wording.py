"""Sentences and figures as text, in °C or °F (or both) and in the reader's language."""

import math
from collections.abc import Callable
from enum import StrEnum

from firing_review.firing.cones import ConeNumber, ConeTable
from firing_review.firing.said import Figure, Said
from firing_review.firing.units import fahrenheit_difference, fahrenheit_from_celsius
from firing_review.firing.wording import tr


class Show(StrEnum):
    """Units a text is shown in."""

    CELSIUS = "C"
    FAHRENHEIT = "F"
    BOTH = "both"


NOT_KNOWN = "—"


def temperature(value_c: float, show: Show) -> str:
    """Return a temperature as text, such as ``1222 °C``."""
    celsius, fahrenheit = f"{value_c:.0f} °C", f"{fahrenheit_from_celsius(value_c):.0f} °F"
    return _one_or_both(celsius, fahrenheit, show)


def difference(value_c: float, show: Show) -> str:
    """Return a temperature difference as text; 10 °C is 18 °F."""
    return _one_or_both(f"{value_c:.0f} °C", f"{fahrenheit_difference(value_c):.0f} °F", show)


def rate(value_c_per_h: float, show: Show) -> str:
    """Return a rate as text, such as ``60 °C per hour``."""
    celsius, fahrenheit = f"{value_c_per_h:.0f}", f"{fahrenheit_difference(value_c_per_h):.0f}"
    hourly = tr("{degrees} per hour")
    return _one_or_both(
        hourly.format(degrees=f"{celsius} °C"), hourly.format(degrees=f"{fahrenheit} °F"), show
    )


def _one_or_both(celsius: str, fahrenheit: str, show: Show) -> str:
    if show is Show.BOTH:
        return f"{celsius} / {fahrenheit}"
    return celsius if show is Show.CELSIUS else fahrenheit


def minutes(value_min: float) -> str:
    """Return a length of time as ``12 min`` or ``3 h 05 min``."""
    whole = round(abs(value_min))
    sign = "−" if value_min < 0 and whole else ""
    if whole < 60:
        return f"{sign}{whole} min"
    return f"{sign}{whole // 60} h {whole % 60:02d} min"


def hours(value_h: float) -> str:
    """Return a time in hours as ``3 h 05 min``."""
    return minutes(value_h * 60.0)


_ENDINGS: tuple[tuple[str, Callable[[float, Show], str]], ...] = (
    ("_c_per_h", rate),
    ("_delta_c", difference),
    ("_c", temperature),
    ("_min", lambda v, _: minutes(v)),
    ("_h", lambda v, _: hours(v)),
    ("_pct", lambda v, _: f"{v:.0f} %"),
    ("_kwh", lambda v, _: f"{v:.1f} kWh"),
    ("_kw", lambda v, _: f"{v:.2f} kW"),
    ("_ohm", lambda v, _: f"{v:.2f} Ω"),
    ("_v", lambda v, _: f"{v:.0f} V"),
    ("_a", lambda v, _: f"{v:.1f} A"),
    ("_kg", lambda v, _: f"{v:.0f} kg"),
    ("_ratio", lambda v, _: f"{v:.2f}"),
)


def figure(name: str, value: Figure, show: Show) -> str:
    """Return a figure as text; the ending of its name says what it is."""
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return NOT_KNOWN
    if isinstance(value, str):
        return value
    for ending, write in _ENDINGS:
        if name.endswith(ending):
            return write(float(value), show)
    return str(value) if isinstance(value, int) else f"{value:g}"


class _Figures(dict[str, str]):
    """Figures as text; one that is missing shows as not known instead of failing."""

    def __missing__(self, key: str) -> str:
        return NOT_KNOWN


def render(said: Said, show: Show = Show.CELSIUS) -> str:
    """Return a sentence in the reader's language and units."""
    texts = _Figures({k: figure(k, v, show) for k, v in said.figures.items()})
    return tr(said.text).format_map(texts)


def render_all(sentences: tuple[Said, ...], show: Show = Show.CELSIUS) -> str:
    """Return sentences one after the other."""
    return " ".join(render(said, show) for said in sentences)


USUAL_RATE_C_PER_H = 60.0
"""The middle column of the chart, used where a cone is named with its temperature [°C/h]."""


def cone_temperature_c(cone: ConeNumber, table: ConeTable) -> float | None:
    """Return the published end point of a self-supporting cone at 60 °C/h [°C]."""
    for cell in table.of_kind("self_supporting"):
        if cell.cone == cone and cell.rate_c_per_h == USUAL_RATE_C_PER_H:
            return cell.temperature_c
    return None


def cone_name(cone: ConeNumber, table: ConeTable, show: Show = Show.BOTH) -> str:
    """Return a cone with its temperature, so that 06 and 6 cannot be mixed up."""
    value_c = cone_temperature_c(cone, table)
    if value_c is None:
        return tr("cone {number}").format(number=cone.text)
    return tr("cone {number} (about {temperature})").format(
        number=cone.text, temperature=temperature(value_c, show)
    )
