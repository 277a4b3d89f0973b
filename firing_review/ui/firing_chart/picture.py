"""The chart as a picture: in points for a message, in lines for print."""

from pathlib import Path

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtSvg import QSvgGenerator

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.view import ChartView

MARGIN, HEAD = 12, 30
FINER = 2
"""Points of a picture for each point of the screen, so that it can be printed."""
SVG = ".svg"


def picture_of(view: ChartView, heading: str, appearance: Appearance) -> QImage:
    """Return the chart as it stands on the screen, twice as fine, with a heading."""
    size = _size(view)
    image = QImage(size * FINER, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(FINER)
    for lane in view.lanes.all:
        lane.refine(FINER)
    painter = QPainter(image)
    _paint(painter, view, heading, appearance)
    painter.end()
    for lane in view.lanes.all:
        lane.refine(1.0)
    return image


def save_picture(path: Path, view: ChartView, heading: str, appearance: Appearance) -> None:
    """Write the chart as SVG where the name ends in ``.svg``, otherwise as PNG.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    if path.suffix.lower() == SVG:
        is_written = _save_svg(path, view, heading, appearance)
    else:
        is_written = picture_of(view, heading, appearance).save(str(path), "PNG")
    if not is_written:
        remedy = tr("Choose a folder you may write to, with room left.")
        raise InputError(str(path), tr("a place to write to"), tr("no picture written"), remedy)


def _save_svg(path: Path, view: ChartView, heading: str, appearance: Appearance) -> bool:
    size = _size(view)
    drawing = QSvgGenerator(QSvgGenerator.SvgVersion.Svg11)
    drawing.setFileName(str(path))
    drawing.setSize(size)
    drawing.setViewBox(QRect(QPoint(0, 0), size))
    drawing.setTitle(heading)
    painter = QPainter()
    if not painter.begin(drawing):
        return False
    _paint(painter, view, heading, appearance)
    return painter.end()


def _size(view: ChartView) -> QSize:
    parts = _parts(view)
    height = sum(part.height() for part in parts) + HEAD + 2 * MARGIN
    return QSize(view.lanes.width() + 2 * MARGIN, height)


def _parts(view: ChartView) -> list[object]:
    return [part for part in (view.strip, view.lanes, view.note_strip) if part.isVisible()]


def _paint(painter: QPainter, view: ChartView, heading: str, appearance: Appearance) -> None:
    size = _size(view)
    painter.fillRect(QRect(QPoint(0, 0), size), QColor(appearance.colors.page))
    painter.setPen(QColor(appearance.colors.ink))
    painter.setFont(appearance.font(appearance.sizes.base, bold=True))
    room = QRectF(MARGIN, MARGIN, size.width() - 2 * MARGIN, HEAD)
    painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, heading)
    top = MARGIN + HEAD
    for part in _parts(view):
        if part is view.lanes:
            target = QRectF(MARGIN, top, part.width(), part.height())
            part.render(painter, target, part.viewport().rect())
        else:
            painter.save()
            painter.translate(MARGIN, top)
            part.paint_on(painter)
            painter.restore()
        top += part.height()
