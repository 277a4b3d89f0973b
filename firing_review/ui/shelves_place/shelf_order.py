"""Shelves added, removed and moved, as changes of the kiln."""

from dataclasses import replace

from firing_review.firing.kiln import Kiln, Shelf
from firing_review.firing.wording import tr


def shelves_of(kiln: Kiln | None, names: list[str]) -> tuple[Shelf, ...]:
    """Return the shelves from the floor up; where none are given, those that are shown."""
    if kiln is not None and kiln.shelves:
        return kiln.shelves
    sections = {s.name for s in kiln.sections} if kiln is not None else set()
    return tuple(Shelf(name, name if name in sections else None) for name in names)


def added(kiln: Kiln | None, names: list[str]) -> Kiln:
    """Return the kiln with one shelf more at the top, in the section of the one below."""
    shelves = shelves_of(kiln, names)
    taken = {s.name for s in shelves}
    number = next(
        n for n in range(len(shelves) + 1, 100) if tr("shelf {n}").format(n=n) not in taken
    )
    section = shelves[-1].section if shelves else None
    new = Shelf(tr("shelf {n}").format(n=number), section)
    return replace(kiln or Kiln(), shelves=(*shelves, new))


def removed(kiln: Kiln | None, names: list[str], name: str) -> Kiln:
    """Return the kiln without a shelf."""
    kept = tuple(s for s in shelves_of(kiln, names) if s.name != name)
    return replace(kiln or Kiln(), shelves=kept)


def moved(kiln: Kiln | None, names: list[str], name: str, up: int) -> Kiln:
    """Return the kiln with a shelf one place higher (1) or lower (-1)."""
    shelves = list(shelves_of(kiln, names))
    place = next((i for i, s in enumerate(shelves) if s.name == name), None)
    if place is None or not 0 <= place + up < len(shelves):
        return replace(kiln or Kiln(), shelves=tuple(shelves))
    shelves[place], shelves[place + up] = shelves[place + up], shelves[place]
    return replace(kiln or Kiln(), shelves=tuple(shelves))
