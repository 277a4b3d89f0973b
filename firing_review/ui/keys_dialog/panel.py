"""The page "Keys": what each key does, for those who use no mouse."""

from html import escape

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QDialog, QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.ui.layouts import fill_dialog, size_within_screen

EVERYWHERE = (
    (N_("Tab, Shift+Tab"), N_("to the next control, and back")),
    (N_("F6, Shift+F6"), N_("to the next part of the window, and back")),
    (N_("Ctrl+1, Ctrl+2 …"), N_("to the first place at the left, the second …")),
    (N_("Alt and a letter"), N_("press the button whose letter is underlined")),
    (N_("Space, Enter"), N_("press the button that has the frame; Space ticks a box")),
    (N_("Arrows"), N_("to the neighbour in a list, a table or a row of buttons")),
    (N_("Ctrl+V"), N_("paste rows into a table; on the start page, open a copied log")),
)
CHART = (
    (N_("Left, Right"), N_("move the line in small steps; Page Up and Page Down in large ones")),
    (N_("Shift+Left, Shift+Right"), N_("move the hours in view")),
    (N_("+, −"), N_("closer, farther")),
    (N_("0, Home"), N_("the whole firing")),
    (N_("Ctrl+Home, End"), N_("to the first and the last moment in view")),
    ("M", N_("measure between two points; Enter sets each")),
    ("N", N_("pin a note to the moment at the line")),
    (N_("Enter"), N_("choose the finding at the line")),
    (N_("Esc"), N_("end measuring, or put the line away")),
)
SHELVES = (
    ("Tab", N_("from cone to cone in the picture of the chamber")),
    (N_("Left, Right"), N_("bend the cone")),
    (N_("1 to 7"), N_("choose one of the seven drawings")),
)
LETTERS_WIDE, LINES_HIGH = 70, 34


class KeysDialog(QDialog):
    """Keys of the menu, of every place, and of the chart."""

    def __init__(self, actions: list[QAction], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Keys"))
        self.text = QLabel(self._words(actions))
        self.text.setTextFormat(Qt.TextFormat.RichText)
        self.text.setWordWrap(True)
        self.text.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.text.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByKeyboard
            | Qt.TextInteractionFlag.TextSelectableByMouse
        )
        self.text.setAccessibleName(tr("Keys"))
        self.close_button = QPushButton(tr("&Close"))
        self.close_button.clicked.connect(self.accept)
        page = QWidget()
        inside = QVBoxLayout(page)
        inside.addWidget(self.text)
        fill_dialog(self, page, self.close_button).read_with_keys(tr("Keys"))
        letters = self.fontMetrics()
        wanted = QSize(LETTERS_WIDE * letters.averageCharWidth(), LINES_HIGH * letters.height())
        size_within_screen(self, wanted)

    def _words(self, actions: list[QAction]) -> str:
        menu = [
            (", ".join(map(_native, action.shortcuts())), _plain(action.text()))
            for action in actions
            if action.shortcuts()
        ]
        parts = (
            (tr("Everywhere"), [(tr(keys), tr(what)) for keys, what in EVERYWHERE]),
            (tr("In the chart"), [(tr(keys), tr(what)) for keys, what in CHART]),
            (tr("At the cones of a shelf"), [(tr(keys), tr(what)) for keys, what in SHELVES]),
            (tr("Menu"), menu),
        )
        return "".join(_table(heading, rows) for heading, rows in parts)


def _table(heading: str, rows: list[tuple[str, str]]) -> str:
    cells = "".join(
        f'<tr><td width="210" style="padding: 3px 24px 3px 0"><b>{escape(keys)}</b></td>'
        f'<td style="padding: 3px 0">{escape(what)}</td></tr>'
        for keys, what in rows
    )
    return f"<h3>{escape(heading)}</h3><table>{cells}</table>"


def _native(keys: QKeySequence) -> str:
    """Return keys as the system and the language write them."""
    return keys.toString(QKeySequence.SequenceFormat.NativeText)


def _plain(text: str) -> str:
    return text.replace("&", "").removesuffix("…")
