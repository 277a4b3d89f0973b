"""What was typed and not taken yet, carried over when the window is made anew."""

from collections.abc import Mapping

from PySide6.QtWidgets import QLineEdit, QWidget

from firing_review.ui.text_table.model import Cells, TextTableModel


class TypedText:
    """Half-typed lines and the rows of every table, by the place they stand in.

    The places made anew have the same lines and tables in the same order.
    """

    def __init__(self, places: Mapping[str, QWidget]) -> None:
        self._lines = {
            key: [line.text() if line.isModified() else None for line in _lines(place)]
            for key, place in places.items()
        }
        self._rows = {
            key: [model.rows for model in _tables(place)] for key, place in places.items()
        }

    def places(self) -> tuple[str, ...]:
        """Return the places that were there."""
        return tuple(self._lines)

    def put_into(self, key: str, place: QWidget) -> None:
        """Type again what stood in a place and is not there."""
        lines, tables = _lines(place), _tables(place)
        if len(lines) == len(self._lines[key]):
            for line, text in zip(lines, self._lines[key], strict=True):
                if text is not None and text != line.text():
                    line.setText(text)
                    line.setModified(True)
        if len(tables) == len(self._rows[key]):
            for model, rows in zip(tables, self._rows[key], strict=True):
                if _plain(rows) != _plain(model.rows):
                    model.set_rows(rows)
                    model.edited.emit()


def _lines(place: QWidget) -> list[QLineEdit]:
    return list(place.findChildren(QLineEdit))


def _tables(place: QWidget) -> list[TextTableModel]:
    return list(place.findChildren(TextTableModel))


def _plain(rows: list[Cells]) -> list[Cells]:
    """Return rows with decimal points, whatever the language wrote."""
    return [tuple(cell.replace(",", ".") for cell in row) for row in rows]
