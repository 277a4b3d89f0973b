"""The chart as a picture: in points for a message, in lines for print."""

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtSvg import QSvgGenerator

from firing_review.firing.wording import tr
from firing_review.io.whole_file import write_whole
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.view import ChartView
from firing_review.ui.side_process import Tell

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


def drawn_for(
    path: Path, view: ChartView, heading: str, appearance: Appearance
) -> QImage | QByteArray:
    """Return the chart as lines where the name ends in ``.svg``, otherwise in points."""
    if path.suffix.lower() == SVG:
        return _in_lines(view, heading, appearance)
    return picture_of(view, heading, appearance)


def write_picture(_tell: Tell, drawn: QImage | QByteArray, path: Path) -> None:
    """Write what was drawn, points as PNG; no widget is needed for it.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    remedy = tr("Choose a folder you may write to, with room left.")
    written = drawn
    if isinstance(drawn, QImage):
        written = QByteArray()
        buffer = QBuffer(written)
        buffer.open(QIODevice.OpenModeFlag.WriteOnly)
        drawn.save(buffer, "PNG")
        buffer.close()
    write_whole(path, written.data(), remedy)


def _in_lines(view: ChartView, heading: str, appearance: Appearance) -> QByteArray:
    size, written = _size(view), QByteArray()
    drawing = QSvgGenerator(QSvgGenerator.SvgVersion.Svg11)
    buffer = QBuffer(written)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    drawing.setOutputDevice(buffer)
    drawing.setSize(size)
    drawing.setViewBox(QRect(QPoint(0, 0), size))
    drawing.setTitle(heading)
    painter = QPainter(drawing)
    _paint(painter, view, heading, appearance)
    painter.end()
    buffer.close()
    return written


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
