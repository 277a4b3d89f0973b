"""Dates and times of a log: the order of day and month, two-digit years, names of months."""

import re
import warnings

import numpy as np
import pandas as pd

from firing_review.firing.errors import DoubtError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.io.log_forms import DATED, MONTHS

_ZONE = re.compile(r":\d{2}(?:[.,]\d+)?\s*(Z|[+-]\d{2}:?\d{2})$")
_ZONE_END = re.compile(r"\s*(Z|[+-]\d{2}:?\d{2})$")
ORDERS = (N_("year first"), N_("day first"), N_("month first"))
EXAMPLES, MOST_ONE_BY_ONE = 5, 5_000
"""Stamps whose form is guessed, and stamps of still other forms that are read one by one."""
LONG_PAUSE = pd.Timedelta(hours=20)
"""Between two rows of one firing nothing as long as this; orders are told apart by it."""


def date_order(
    text: pd.Series, preamble: tuple[str, ...], day_first: bool | None, source: str
) -> str:
    """Tell the order of day and month from the column as a whole, then from the preamble.

    Raises
    ------
    DoubtError
        If two orders fit and would give different curves.
    """
    looked_at = _first_of_each_day(text)
    parts = looked_at.str.extract(DATED)
    a, b, c = (pd.to_numeric(parts[i], errors="coerce") for i in (0, 1, 2))
    if (a > 31).mean() > 0.5:
        return "year first"
    fitting = [o for o, fits in zip(ORDERS, _fits(parts, a, b, c), strict=True) if fits]
    if day_first is not None and {"day first", "month first"} & set(fitting):
        return "day first" if day_first else "month first"
    if len(fitting) == 1:
        return fitting[0]
    two = [o for o in fitting if o != "year first"] or ["month first"]
    if "." in str(looked_at.iloc[0])[:6] and "day first" in two:
        return "day first"
    hint = _from_preamble(preamble, a.iloc[0], b.iloc[0])
    if hint in two:
        return str(hint)
    return _by_flow(looked_at, fitting, source)


def _first_of_each_day(text: pd.Series) -> pd.Series:
    """Return the stamps at which the date changes, and the outer ones: all that orders need."""
    date = text.str.slice(0, 10)
    change = (date != date.shift()).to_numpy(copy=True)
    change[[0, -1]] = True
    change |= np.append(change[1:], True)
    return text[change].iloc[:5000]


def _fits(
    parts: pd.DataFrame, a: pd.Series, b: pd.Series, c: pd.Series
) -> tuple[bool, bool, bool]:
    """Tell which orders give valid days and months: year, day or month first."""
    most = 0.9
    years = parts[2].str.len()
    short_years = bool((parts[0].str.len() == 2).mean() > most and (years == 2).mean() > most)
    year = short_years and bool((b <= 12).mean() > most and (c <= 31).mean() > most)
    day = bool((a <= 31).mean() > most and (b <= 12).mean() > most)
    month = bool((a <= 12).mean() > most and (b <= 31).mean() > most)
    return year and bool((a >= 15).all()), day, month


def _from_preamble(preamble: tuple[str, ...], first: float, second: float) -> str | None:
    for line in preamble:
        words = re.findall(r"[A-Za-z]{3}", line.lower())
        months = [MONTHS.index(w) + 1 for w in words if w in MONTHS]
        if months and first != second:
            if months[0] == first:
                return "month first"
            if months[0] == second:
                return "day first"
    return None


def _by_flow(text: pd.Series, fitting: list[str], source: str) -> str:
    """Take the order under which the stamps run on from row to row."""
    flows = {order: parse(text, order) for order in fitting or ORDERS[1:]}
    breaks = {o: _breaks(s) for o, s in flows.items() if s.notna().any()}
    if not breaks:
        return "month first"
    best = [o for o, n in breaks.items() if n == min(breaks.values())]
    if len(best) == 1 or _same_curve([flows[o] for o in best]):
        return _likelier(best, str(text.iloc[0]))
    raise DoubtError(
        source,
        tr("dates that can be read in one way"),
        tr("{text!r}: day and month could be swapped").format(text=text.iloc[0]),
        tr(
            "Choose the order of day and month when opening the log, "
            "or export with the year first."
        ),
    )


def _likelier(orders: list[str], example: str) -> str:
    """Return the commoner of orders that give the same curve and differ in the date only."""
    dashed = ["year first"] if "-" in example[:5] else []
    return next(o for o in (*dashed, "month first", "day first", *ORDERS) if o in orders)


def _breaks(stamps: pd.Series) -> int:
    steps = stamps.diff().iloc[1:]
    return int(((steps > LONG_PAUSE) | (steps < pd.Timedelta(0)) | steps.isna()).sum())


def _same_curve(flows: list[pd.Series]) -> bool:
    first = flows[0] - flows[0].iloc[0]
    return all((first == flow - flow.iloc[0]).all() for flow in flows[1:])


def is_stamps(column: pd.Series) -> bool:
    """Tell whether a column was turned into times already."""
    return bool(pd.api.types.is_datetime64_any_dtype(column))


def year_first_form(example: str) -> str | None:
    """Return the form of a stamp that begins with a year of four digits, without a zone."""
    form = _form(example, "year first") if re.match(r"\d{4}\D", example) else None
    return None if form is None or "%z" in form else form


def year_first(text: pd.Series) -> pd.Series | None:
    """Return stamps that all begin with a year of four digits, of one form; else None."""
    form = year_first_form(str(text.iloc[0])) if len(text) else None
    if form is None or not text.notna().all():
        return None
    try:
        return pd.to_datetime(text, format=form, cache=False)
    except (ValueError, OverflowError):
        return None


def parse(text: pd.Series, order: str) -> pd.Series:
    """Return stamps as the clock showed them; what is no date becomes NaT.

    Where the zone changes in the record, as in a summer-time night, the clock of its first row
    goes on.
    """
    plain = text.str.strip()
    if not _ZONE.search(str(plain.iloc[0])):
        return _parse(plain, order)
    if plain.str.slice(-6).nunique() < 2:
        return _parse(plain, order)
    zones = plain.str.extract(_ZONE, expand=False)
    offsets = zones.map({z: _offset(z) for z in zones.dropna().unique()})
    bare = plain.str.replace(_ZONE_END, "", regex=True)
    shown: pd.Series = _parse(bare, order) - (offsets - offsets.iloc[0])
    return shown


def _offset(zone: str) -> pd.Timedelta:
    if zone == "Z":
        return pd.Timedelta(0)
    hours, minutes = int(zone[1:3]), int(zone[-2:])
    return pd.Timedelta(minutes=(60 * hours + minutes) * (-1 if zone[0] == "-" else 1))


def _parse(plain: pd.Series, order: str) -> pd.Series:
    form = _form(str(plain.iloc[0]), order)
    if form is not None:
        try:
            parsed = pd.to_datetime(plain, format=form, errors="coerce", cache=False)
        except (ValueError, OverflowError):
            parsed = pd.Series(pd.NaT, index=plain.index)
        if parsed.notna().mean() > 0.9:
            return _without_zone(parsed)
        if parsed.notna().mean() > 0.3:
            return _without_zone(parsed).combine_first(_slowly(plain[parsed.isna()], order))
    return _slowly(plain, order)


def _slowly(plain: pd.Series, order: str) -> pd.Series:
    """Read stamps of unusual or uneven form, keeping the clock of each as it is shown."""
    bare = plain.str.replace(r"\s*(Z|[+-]\d{2}:?\d{2})\s*$", "", regex=True)
    bare = bare.str.replace(r"([ap])\.m\.?", r"\1m", regex=True, case=False)
    bare = bare.str.replace(r"(\d:\d{2}(?::\d{2})?),(\d+)", r"\1.\2", regex=True)
    stamps = pd.Series(pd.NaT, index=plain.index, dtype="datetime64[us]")
    for place in np.linspace(0, len(bare) - 1, EXAMPLES).astype(int).tolist():
        open_still = stamps.isna()
        form = _guessed(str(bare.iloc[place]), order)
        if form is not None and open_still.any():
            stamps[open_still] = _in_form(bare[open_still], form)
    open_still = stamps.isna() & (stamps.isna().cumsum() <= MOST_ONE_BY_ONE)
    if open_still.any():
        stamps[open_still] = _one_by_one(bare[open_still], order)
    return stamps


def _guessed(example: str, order: str) -> str | None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # whether a guess is sure is seen by how many rows it fits
        form = pd.tseries.api.guess_datetime_format(example, dayfirst=order == "day first")
    return None if form is None or "%z" in form or "%Z" in form else str(form)


def _in_form(text: pd.Series, form: str) -> pd.Series:
    try:
        stamps = pd.to_datetime(text, format=form, errors="coerce", cache=False)
    except (ValueError, OverflowError):
        return pd.Series(pd.NaT, index=text.index, dtype="datetime64[us]")
    return _without_zone(stamps).astype("datetime64[us]")


def _one_by_one(text: pd.Series, order: str) -> pd.Series:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a form that is guessed is what is wanted here
        try:
            stamps = pd.to_datetime(
                text,
                dayfirst=order == "day first",
                yearfirst=order == "year first",
                errors="coerce",
                format="mixed",
            )
        except (ValueError, OverflowError, TypeError):
            return pd.Series(pd.NaT, index=text.index, dtype="datetime64[us]")
    return _without_zone(stamps).astype("datetime64[us]")


def _without_zone(stamps: pd.Series) -> pd.Series:
    if not pd.api.types.is_datetime64_any_dtype(stamps):
        return pd.Series(pd.NaT, index=stamps.index, dtype="datetime64[us]")
    return stamps.dt.tz_localize(None) if getattr(stamps.dt, "tz", None) is not None else stamps


def _form(example: str, order: str) -> str | None:
    """Return the strptime form of a stamp, or None if it is an unusual one."""
    match = DATED.match(example)
    if not match or match[4] == "":
        return None
    first, second = example[match.end(1)], example[match.end(2)]
    year = "%Y" if len(match[1] if order == "year first" else match[3]) == 4 else "%y"
    date = {
        "year first": f"{year}{first}%m{second}%d",
        "day first": f"%d{first}%m{second}{year}",
        "month first": f"%m{first}%d{second}{year}",
    }[order]
    clock = re.match(
        r"^\d{1,2}(:\d{2})?(:\d{2})?(\.\d{1,6})?(\s*[AaPp][Mm])?(Z|[+-]\d{2}:?\d{2})?$", match[4]
    )
    if clock is None:
        return None
    minutes, seconds, parts, half, zone = clock.groups()
    time = "%I" if half else "%H"
    time += (":%M" if minutes else "") + (":%S" if seconds else "") + (".%f" if parts else "")
    time += re.sub(r"\S+", "%p", half) if half else ""
    return date + example[match.end(3) : match.start(4)] + time + ("%z" if zone else "")
