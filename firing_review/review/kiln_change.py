"""Cones, readings and answers name shelves and sections; here they are held to those there are."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from firing_review.firing.kiln import Kiln, Shelf
from firing_review.firing.sheet import Given, Readings
from firing_review.io.known_words import plain


def with_kiln(given: Given, kiln: Kiln | None) -> Given:
    """Return the firing with another kiln, in which everything still names what is there.

    A section or shelf that was renamed takes its cones, readings and answers along. Cones of a
    shelf that is no more stay on a shelf of their old name; readings of a section that is no more
    go (undo brings them back). Otherwise what is saved could not be read again.
    """
    if kiln is None:
        return replace(given, kiln=None)
    old = given.kiln or Kiln()
    sections = _moves([s.name for s in old.sections], [s.name for s in kiln.sections])
    kiln = replace(
        kiln,
        shelves=tuple(replace(s, section=sections.get(s.section or "")) for s in kiln.shelves),
    )
    shelves = _moves(old.shelf_names, kiln.shelf_names)
    cones = tuple(replace(c, shelf=_moved(c.shelf, shelves, kiln)) for c in given.cones)
    given = replace(given, kiln=_with_shelves_of([c.shelf for c in cones], kiln), cones=cones)
    return _with_sections(given, sections) if kiln.sections else given


def naming_what_is_there(given: Given) -> Given:
    """Return the firing with cones, readings and answers that its kiln knows.

    Such as come by another way than the window, where only what is there can be chosen.
    """
    return with_kiln(given, given.kiln)


def _moves(old: Sequence[str], new: Sequence[str]) -> Mapping[str, str]:
    """Return the new name of each name: the same word, else the same place of as many."""
    known = {plain(name): name for name in new}
    moves = {name: name for name in new} | {n: known[plain(n)] for n in old if plain(n) in known}
    if len(old) == len(new):
        taken = {moves[name] for name in old if name in moves}
        moves |= {a: b for a, b in zip(old, new, strict=True) if a not in moves and b not in taken}
    return moves


def _moved(shelf: str, moves: Mapping[str, str], kiln: Kiln) -> str:
    names = kiln.shelf_names
    if shelf not in moves and shelf.isdecimal() and 1 <= int(shelf) <= len(names):
        return names[int(shelf) - 1]
    by_word = {plain(name): new for name, new in moves.items()}
    return moves.get(shelf) or by_word.get(plain(shelf), shelf)


def _with_shelves_of(wanted: Sequence[str], kiln: Kiln) -> Kiln:
    lost = [name for name in dict.fromkeys(wanted) if name not in kiln.shelf_names]
    if not lost or not kiln.shelf_names:
        return kiln
    there = kiln.shelves or tuple(Shelf(s.name, s.name) for s in kiln.sections)
    return replace(kiln, shelves=(*there, *(Shelf(name) for name in lost)))


def _with_sections(given: Given, moves: Mapping[str, str]) -> Given:
    readings, dark = given.readings, given.answers.sections_dark
    if dark is not None:
        dark = tuple(dict.fromkeys(moves[name] for name in dark if name in moves))
    return replace(
        given,
        answers=replace(given.answers, sections_dark=dark),
        readings=Readings(
            readings.volts_no_load,
            readings.volts_full_load,
            {moves[name]: amps for name, amps in readings.amps.items() if name in moves},
            {moves[name]: ohms for name, ohms in readings.cold_ohms.items() if name in moves},
        ),
    )
