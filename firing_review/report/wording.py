"""Sentences and figures as text, in °C or °F (or both) and in the reader's language."""

import math
from collections.abc import Callable
from datetime import date
from enum import StrEnum
from functools import cache

from firing_review.firing.cones import CONE_SCALE, ConeNumber
from firing_review.firing.said import Figure, Said
from firing_review.firing.units import fahrenheit_difference, fahrenheit_from_celsius
from firing_review.firing.wording import day, listed, tr, written
from firing_review.io.tables import load_tables
from firing_review.report.shown_text import shown


class Show(StrEnum):
    """Units a text is shown in."""

    CELSIUS = "C"
    FAHRENHEIT = "F"
    BOTH = "both"


NOT_KNOWN = "—"
MOST_SURE = 0.95
"""No cause is said to be surer: the knowledge behind the shares is partly an estimate."""


def temperature(value_c: float, show: Show) -> str:
    """Return a temperature as text, such as ``1222 °C``."""
    celsius, fahrenheit = f"{_whole(value_c)} °C", f"{_whole(fahrenheit_from_celsius(value_c))} °F"
    return _one_or_both(celsius, fahrenheit, show)


def difference(value_c: float, show: Show) -> str:
    """Return a temperature difference as text; 10 °C is 18 °F."""
    celsius, fahrenheit = _whole(value_c), _whole(fahrenheit_difference(value_c))
    return _one_or_both(f"{celsius} °C", f"{fahrenheit} °F", show)


def rate(value_c_per_h: float, show: Show) -> str:
    """Return a rate as text, such as ``60 °C per hour``."""
    celsius = _whole(value_c_per_h)
    fahrenheit = _whole(fahrenheit_difference(value_c_per_h))
    hourly = tr("{degrees} per hour")
    return _one_or_both(
        hourly.format(degrees=f"{celsius} °C"), hourly.format(degrees=f"{fahrenheit} °F"), show
    )


def _whole(value: float) -> str:
    """Return a whole number with a true minus sign and no minus zero."""
    return written(f"{round(value)}")


def _one_or_both(celsius: str, fahrenheit: str, show: Show) -> str:
    if show is Show.BOTH:
        return f"{celsius} / {fahrenheit}"
    return celsius if show is Show.CELSIUS else fahrenheit


def chance(share: float) -> str:
    """Return how probable a cause is, such as ``40 %``; near certainty is left open."""
    if share > MOST_SURE:
        return tr("over {share} %").format(share=round(100 * MOST_SURE))
    return f"{round(100 * share)} %"


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
    ("_pct", lambda v, _: written(f"{v:.0f} %")),
    ("_kwh", lambda v, _: written(f"{v:.1f} kWh")),
    ("_kw", lambda v, _: written(f"{v:.2f} kW")),
    ("_ohm", lambda v, _: written(f"{v:.2f} Ω")),
    ("_v", lambda v, _: written(f"{v:.0f} V")),
    ("_a", lambda v, _: written(f"{v:.1f} A")),
    ("_kg", lambda v, _: written(f"{v:.0f} kg")),
    ("_ratio", lambda v, _: written(f"{v:.2f}")),
)


def figure(name: str, value: Figure, show: Show) -> str:
    """Return a figure as text; the ending of its name says what it is."""
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return NOT_KNOWN
    if isinstance(value, tuple):
        return listed([shown(one) for one in value])
    if isinstance(value, str):
        if name.endswith("_word"):
            return tr(value)
        if name.endswith("_day"):
            return day(date.fromisoformat(value))
        return cone_label(value, show) if name.endswith("cone") else shown(value)
    for ending, write in _ENDINGS:
        if name.endswith(ending):
            return write(float(value), show)
    return str(value) if isinstance(value, int) else written(f"{value:g}")


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


def cone_temperature_c(label: str) -> float | None:
    """Return the published end point at 60 °C/h [°C] of a cone, or of tenths between two."""
    number, tenths = _number_and_tenths(label)
    chart = _chart()
    if number not in chart:
        return None
    following = CONE_SCALE[CONE_SCALE.index(number) + 1 :][:1]
    step = chart.get(following[0], chart[number]) - chart[number] if following else 0.0
    return chart[number] + tenths * step


def _number_and_tenths(label: str) -> tuple[str, float]:
    """Split ``04 + 0.3`` or ``5.4`` into the cone below and the share of the way to the next."""
    number, _, tenths = label.partition(" + ")
    if tenths or number in CONE_SCALE:
        return number, float(tenths or 0.0)
    value = float(number) if number.replace(".", "", 1).isdigit() else 0.0
    below = [c for c in CONE_SCALE if not c.startswith("0") and float(c) <= value]
    if not below:
        return number, 0.0
    index = CONE_SCALE.index(below[-1])
    upper = float(CONE_SCALE[index + 1]) if index + 1 < len(CONE_SCALE) else value + 1.0
    return below[-1], (value - float(below[-1])) / (upper - float(below[-1]))


@cache
def _chart() -> dict[str, float]:
    cells = load_tables().cones.of_kind("self_supporting")
    return {c.cone.text: c.temperature_c for c in cells if c.rate_c_per_h == USUAL_RATE_C_PER_H}


def cone_label(label: str, show: Show) -> str:
    """Return a cone number with its temperature, so that 06 and 6 cannot be mixed up."""
    value_c = cone_temperature_c(label)
    number = written(label)
    return number if value_c is None else f"{number} ({tr('about')} {temperature(value_c, show)})"


def cone_name(cone: ConeNumber, show: Show = Show.BOTH) -> str:
    """Return ``cone 06 (about 999 °C / 1830 °F)``."""
    return tr("cone {number}").format(number=cone_label(cone.text, show))


def heat_work_of(label: str, show: Show, *, at_least: bool) -> str:
    """Return the cone a curve came to; ``or more`` where its record is only a lower bound."""
    text = tr("heat work of cone {cone} or more") if at_least else tr("heat work of cone {cone}")
    return text.format(cone=cone_label(label, show))


def offset_text(offset_c: float, low_c: float, high_c: float, show: Show) -> str:
    """Return ``about 7 °C colder (2 °C to 12 °C)``; a range over zero names both sides."""
    word = tr("hotter") if offset_c >= 0 else tr("colder")
    if low_c * high_c > 0:
        near, far = sorted((abs(low_c), abs(high_c)))
        span = tr("{near} to {far}").format(near=difference(near, show), far=difference(far, show))
    else:
        span = tr("{low} colder to {high} hotter").format(
            low=difference(abs(low_c), show), high=difference(abs(high_c), show)
        )
    about = tr("about {offset} {word}").format(offset=difference(abs(offset_c), show), word=word)
    return f"{about} ({span})"
