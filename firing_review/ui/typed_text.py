"""What was typed and not taken yet, and what lay open, carried into a window that is made anew."""

from collections.abc import Mapping
from typing import Protocol, TypeVar, runtime_checkable

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QLineEdit, QWidget

from firing_review.ui.text_table.model import Cells, TextTableModel

Part = TypeVar("Part", bound=QObject)
Path = tuple[str, ...]


@runtime_checkable
class Turning(Protocol):
    """A place of several pages, one of which lies open."""

    @property
    def turned_to(self) -> object:
        """Which page lies open."""

    def turn_to(self, page: object) -> None:
        """Open a page."""


class TypedText:
    """Half-typed lines, the rows of every table and the open page, by the place they stand in.

    A line or table is known again by the kinds of what it stands in: a page beside others is
    moved among its neighbors whenever it is shown, so their order tells nothing.
    """

    def __init__(self, places: Mapping[str, QWidget]) -> None:
        self._lines = {
            key: {
                path: [line.text() if line.isModified() else None for line in lines]
                for path, lines in _by_path(place, QLineEdit).items()
            }
            for key, place in places.items()
        }
        self._rows = {
            key: {
                path: [model.rows for model in models]
                for path, models in _by_path(place, TextTableModel).items()
            }
            for key, place in places.items()
        }

        self._pages = {k: p.turned_to for k, p in places.items() if isinstance(p, Turning)}

    def places(self) -> tuple[str, ...]:
        """Return the places that were there."""
        return tuple(self._lines)

    def put_into(self, key: str, place: QWidget) -> None:
        """Type again what stood in a place and is not there; open the page that lay open."""
        if isinstance(place, Turning):
            place.turn_to(self._pages[key])
        lines, models = _by_path(place, QLineEdit), _by_path(place, TextTableModel)
        for path, texts in self._lines[key].items():
            for line, text in zip(lines.get(path, ()), texts, strict=False):
                if text is not None and text != line.text():
                    line.setText(text)
                    line.setModified(True)
        for path, tables in self._rows[key].items():
            for model, rows in zip(models.get(path, ()), tables, strict=False):
                if _plain(rows) != _plain(model.rows):
                    model.set_rows(rows)
                    model.edited.emit()


def _by_path(place: QWidget, kind: type[Part]) -> dict[Path, list[Part]]:
    """Return the parts of a kind by the kinds of all they stand in, up to the place."""
    parts: dict[Path, list[Part]] = {}
    for part in place.findChildren(kind):
        names, owner = [], part.parent()
        while owner is not None and owner is not place:
            names.append(type(owner).__name__)
            owner = owner.parent()
        parts.setdefault(tuple(names), []).append(part)
    return parts


def _plain(rows: list[Cells]) -> list[Cells]:
    """Return rows with decimal points, whatever the language wrote."""
    return [tuple(cell.replace(",", ".") for cell in row) for row in rows]
