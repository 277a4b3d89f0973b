"""The style sheet of every control: flat, few lines, one visible focus ring."""

from string import Template

from firing_review.ui.look import Colors, Sizes

KNOB_EDGE_PX = 3
"""Line round the knob of a slider; Qt draws a square where a corner is more than half as wide."""

_SHEET = Template("""
QWidget { color: $ink; font-size: ${base}px; outline: 0; }
QMainWindow, QDialog, QWidget#page { background: $page; }
QWidget#panel, QFrame#panel { background: $panel; }
QLabel { background: transparent; }
QLabel[part="verdict"] { font-size: ${verdict}px; }
QLabel[part="heading"] { font-size: ${heading}px; font-weight: 600; }
QLabel[part="title"] { font-size: ${title}px; }
QLabel[part="muted"] { color: $muted; }
QLabel[part="readout"] { font-size: ${table}px; }
QLabel[part="quiet"] { color: $muted; font-size: ${small}px; }
QFrame[part="card"] { background: $panel; border-radius: 4px; }
QLabel[part="small"] { font-size: ${small}px; font-weight: 600; }
QLabel[part="caution"] { border: 2px solid $ink; padding: 6px 8px; font-weight: 600; }
QLabel[part="wrong"] { color: $ink; border-left: 4px solid $watch; padding: 4px 8px; }

QPushButton, QToolButton, QComboBox, QLineEdit {
  min-height: ${inner}px; border: 2px solid $line; border-radius: 4px; background: $field;
  padding: 0 ${pad}px;
}
QPushButton:hover, QToolButton:hover, QComboBox:hover { background: $chosen; }
QPushButton:pressed, QToolButton:pressed { background: $chosen; }
QPushButton:disabled, QToolButton:disabled { color: $line; border-color: transparent;
  background: transparent; }
QPushButton:focus, QToolButton:focus, QComboBox:focus, QLineEdit:focus {
  border: 2px solid $accent;
}
QPushButton[part="main"] { background: $accent; color: $on_accent; border-color: $accent; }
QPushButton[part="main"]:disabled { background: $page; color: $line; border-color: $line; }
QPushButton[part="main"]:focus { border: 2px solid $ink; }
QPushButton[part="quiet"], QToolButton[part="quiet"] { border-color: transparent;
  background: transparent; }
QPushButton[part="quiet"]:hover, QToolButton[part="quiet"]:hover { background: $chosen; }
QPushButton[part="quiet"]:focus, QToolButton[part="quiet"]:focus { border: 2px solid $accent; }
QPushButton[part="title"] { text-align: left; padding: 0; border: 2px solid transparent;
  background: transparent; }
QPushButton[part="title"]:hover { background: $chosen; }
QPushButton[part="title"]:focus { border: 2px solid $accent; }
QPushButton[part="half"] { border-radius: 0; padding: 0 ${halfpad}px; }
QPushButton[part="half"]:checked { background: $chosen; border-bottom: 4px solid $accent; }
QPushButton[part="half"]:checked:focus { border: 2px solid $accent;
  border-bottom: 4px solid $accent; }
QPushButton[part="tab"] { border: 2px solid transparent; border-bottom: 2px solid $line;
  border-radius: 0; background: transparent; padding: 0 ${halfpad}px; }
QPushButton[part="tab"]:checked { border-bottom: 4px solid $accent; background: transparent; }
QPushButton[part="tab"]:focus { border: 2px solid $accent; }
QPushButton[part="chart"] { border-width: 1px; padding: 0 ${halfpad}px;
  min-height: ${inner2}px; min-width: ${inner3}px; }
QPushButton[part="chart"]:checked { background: $chosen; border: 2px solid $accent;
  min-height: ${inner}px; }
QPushButton[part="chart"]:focus { border: 2px solid $accent; min-height: ${inner}px; }
QPushButton[part="chart"]::menu-indicator { image: none; width: 0; }
QPushButton[part="fold"] { text-align: left; min-height: ${inner1}px; padding: 0 0 0 ${fold}px;
  border: 2px solid transparent; border-top: 1px solid $line; border-radius: 0;
  background: $page; }
QPushButton[part="fold"]:hover { background: $chosen; }
QPushButton[part="fold"]:focus { border: 2px solid $accent; }
QPushButton[part="causefold"] { text-align: left; font-weight: 600; font-size: ${heading}px;
  padding: 0 0 0 ${fold}px; border: 2px solid transparent; background: transparent; }
QPushButton[part="causefold"]:hover { background: $chosen; }
QPushButton[part="causefold"]:focus { border: 2px solid $accent; }
QPushButton[part="sign"] { text-align: left; padding: 0; background: transparent;
  border: 2px solid transparent; }
QPushButton[part="sign"]:hover { background: $chosen; }
QPushButton[part="sign"]:focus { border: 2px solid $accent; }
QPushButton[part="card"] { text-align: left; padding: 0; background: $panel;
  border-color: $panel; }
QPushButton[part="card"]:hover { background: $chosen; border-color: $chosen; }
QPushButton[part="card"]:focus { border: 2px solid $accent; }
QToolButton::menu-indicator { image: none; }
QLineEdit[wrong="true"] { border: 2px solid $watch; border-left: 6px solid $watch; }

QDateEdit { border: 2px solid $line; border-radius: 4px; background: $field;
  padding-left: ${halfpad}px; }
QDateEdit:focus { border: 2px solid $accent; }
QDateEdit QLineEdit, QDateEdit QLineEdit:focus { border: 0; min-height: 0; }
QComboBox { padding-right: 0; }
QComboBox::drop-down, QDateEdit::drop-down { border: 0; width: ${arrow}px; }
QComboBox::down-arrow, QDateEdit::down-arrow { image: none; }
QComboBox:disabled { color: $line; border-color: $panel; background: $page; }
QComboBox QAbstractItemView { background: $field; border: 2px solid $line; outline: 0;
  selection-background-color: $chosen; selection-color: $ink; }
QMenu { background: $field; border: 2px solid $line; padding: 4px; menu-scrollable: 1; }
QMenu::item { padding: ${menupad}px ${pad2}px; border: 2px solid transparent; }
QMenu::item:selected { background: $chosen; color: $ink; border: 2px solid $accent; }
QMenu::item:disabled { color: $line; }
QMenu::separator { height: 1px; background: $line; margin: 4px 8px; }
QToolTip { background: $panel; color: $ink; border: 1px solid $line; padding: 6px; }

QAbstractItemView { background: $page; border: 2px solid transparent; outline: 0;
  font-size: ${table}px; }
QAbstractItemView:focus { border: 2px solid $accent; }
QListView::item { border: 0; }
QListView::item:selected { background: $chosen; color: $ink; }
QTableView { gridline-color: $panel; selection-background-color: $chosen;
  selection-color: $ink; }
QTableView::item { padding: 0 6px; }
QTableView QLineEdit { border: 2px solid $accent; border-radius: 0; padding: 0 4px;
  min-height: 0; }
QHeaderView { background: $page; border: 0; }
QHeaderView::section { background: $page; color: $muted; border: 0;
  border-bottom: 1px solid $line; padding: 4px 6px; font-size: ${small}px; }
QTableCornerButton::section { background: $page; border: 0;
  border-bottom: 1px solid $line; }
QHeaderView::section:vertical { border-bottom: 0; }
QListWidget#places { background: $panel; border: 2px solid transparent; padding-top: 8px; }
QListWidget#places:focus { border: 2px solid $accent; }
QListWidget#places::item { padding: 0 12px; border-left: 4px solid transparent; }
QListWidget#places::item:selected { background: $page; color: $ink;
  border-left: 4px solid $accent; }

QCheckBox { min-height: ${target}px; spacing: 10px; border: 2px solid transparent; }
QCheckBox:focus { border: 2px solid $accent; }
QCheckBox::indicator { width: ${box}px; height: ${box}px; border: 2px solid $line;
  background: $field; }
QSlider { border: 2px solid transparent; border-radius: 4px; }
QSlider:focus { border: 2px solid $accent; }
QSlider::groove:horizontal { height: 6px; border-radius: 3px; background: $line; }
QSlider::sub-page:horizontal { border-radius: 3px; background: $accent; }
QSlider::handle:horizontal { width: ${knob}px; margin: -${knobout}px 0;
  border-radius: ${knobhalf}px; background: $field;
  border: ${knobedge}px solid $accent; }
QSlider::handle:horizontal:hover { background: $chosen; }
QSlider:disabled, QSlider::sub-page:horizontal:disabled { background: transparent; }
QSlider::handle:horizontal:disabled { border-color: $line; }
QProgressBar { min-height: 10px; max-height: 10px; border: 2px solid $line; border-radius: 4px;
  background: $field; }
QProgressBar::chunk { background: $accent; }
QFrame#line { color: $line; background: $line; max-height: 1px; border: 0; }
QScrollArea { border: 0; background: transparent; }
QScrollArea#keys { border: 2px solid transparent; }
QScrollArea#keys:focus { border: 2px solid $accent; }
QScrollArea > QWidget > QWidget#page { background: $page; }
QScrollBar:vertical { background: $panel; width: 14px; margin: 0; }
QScrollBar:horizontal { background: $panel; height: 14px; margin: 0; }
QScrollBar::handle { background: $line; border-radius: 4px; min-height: 36px; min-width: 36px;
  margin: 3px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: $page; }
QSplitter::handle:vertical { height: 8px; }
QSplitter::handle:horizontal { width: 8px; }

QFrame#drop { border: 2px dashed $line; border-radius: 8px; background: $panel; }
QFrame#drop[over="true"] { border: 2px solid $accent; background: $chosen; }
QFrame#message { background: $panel; border: 2px solid $watch; border-left: 8px solid $watch; }
QFrame#guide { background: $panel; border: 0; border-top: 1px solid $line;
  border-left: 8px solid $accent; }
QFrame#danger { background: $page; border: 4px solid $ink; }
QFrame#verdict { background: $page; border: 0; border-bottom: 1px solid $line; }
QFrame#topbar { background: $panel; border: 0; }
QFrame#chartframe { border: 2px solid transparent; background: $page; }
QFrame#chartframe[focused="true"] { border: 2px solid $accent; }
""")


def style_sheet(colors: Colors, sizes: Sizes) -> str:
    """Return the style sheet for these colors and sizes."""
    names = ("page", "panel", "field", "ink", "muted", "accent", "on_accent", "chosen")
    found = {name: getattr(colors, name) for name in (*names, "line", "watch")}
    return _SHEET.substitute(
        found,
        base=sizes.base,
        small=sizes.small,
        table=sizes.table,
        verdict=sizes.verdict,
        heading=sizes.px(18),
        title=sizes.px(30),
        inner=sizes.target - 4,
        inner1=sizes.target - 3,
        inner2=sizes.target - 2,
        inner3=sizes.target - 2 - 2 * sizes.px(10),
        pad=sizes.px(14),
        pad2=sizes.px(28),
        halfpad=sizes.px(10),
        menupad=sizes.px(8),
        arrow=sizes.px(26),
        fold=sizes.px(34),
        target=sizes.target,
        knob=sizes.px(18),
        knobedge=KNOB_EDGE_PX,
        knobhalf=(sizes.px(18) + 2 * KNOB_EDGE_PX) // 2,
        knobout=sizes.px(9),
        box=sizes.px(22),
    )
