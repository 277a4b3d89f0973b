"""A page as one HTML file: all in it, no script, black and white safe, ready to print."""

from html import escape

from firing_review.firing.results import Light
from firing_review.firing.wording import language
from firing_review.report.paper.page import (
    Block,
    Framed,
    Heading,
    Mark,
    Marks,
    Page,
    Paper,
    Picture,
    Point,
    Points,
    Table,
    Words,
)
from firing_review.report.paper.svg import INK, Svg
from firing_review.report.shown_text import kept_together, shown

STYLE = """
:root { color-scheme: light }
body { font: 16px/1.4 system-ui, "Segoe UI", Helvetica, Arial, "DejaVu Sans", sans-serif;
  color: #211d19; background: #fff; max-width: 760px; margin: 24px auto; padding: 0 16px }
header { border-bottom: 2px solid #211d19; margin-bottom: 12px; padding-bottom: 6px }
header p { margin: 0 } .kind { text-transform: uppercase; letter-spacing: .06em; font-size: 14px }
h1 { font-size: 24px; line-height: 1.2; margin: 2px 0 } h2 { font-size: 18px; margin: 16px 0 4px }
p { margin: 4px 0 } .strong { font-size: 20px; line-height: 1.35 } .quiet { font-size: 14px }
ul { list-style: none; margin: 4px 0; padding: 0 } li { display: flex; gap: 8px; margin: 3px 0 }
li > .mark { flex: none; min-width: 22px; text-align: center; font-weight: bold }
.number { border: 1.5px solid #211d19; border-radius: 2px; padding: 0 4px }
.marks { display: flex; flex-wrap: wrap; gap: 6px 24px; margin: 8px 0 }
.marks div { display: flex; gap: 8px; align-items: center } .marks svg { width: 22px; flex: none }
table { border-collapse: collapse; width: 100%; margin: 6px 0; font-variant-numeric: tabular-nums }
th, td { border: 1px solid #5c554c; padding: 3px 6px; text-align: left; font-size: 15px }
.tall td { height: 30px } .framed { border: 3px solid #211d19; padding: 8px 12px; margin: 12px 0 }
figure { margin: 10px 0 } figure svg { width: 100%; height: auto; display: block }
footer { border-top: 1px solid #5c554c; margin-top: 16px; padding-top: 4px; font-size: 14px }
@media print {
  body { max-width: none; margin: 0; padding: 0; font-size: 10.5pt }
  h1 { font-size: 16pt } h2 { font-size: 12pt; break-after: avoid } .strong { font-size: 13pt }
  th, td { font-size: 10pt } .quiet, footer, .kind { font-size: 9pt }
  figure, .framed, tr, li { break-inside: avoid }
}
"""
SIZES = {Paper.A4: "A4", Paper.LETTER: "letter"}


def page_html(page: Page, paper: Paper = Paper.A4) -> str:
    """Return the page as an HTML document; every text in it is escaped."""
    body = "\n".join(_block(block) for block in page.blocks)
    style = STYLE + f"@page {{ size: {SIZES[paper]}; margin: 14mm }}\n"
    spoken = language().value.replace("_", "-")
    return (
        f'<!DOCTYPE html>\n<html lang="{spoken}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta http-equiv="Content-Security-Policy" '
        "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>{_text(f'{page.kind}: {page.title}')}</title>\n<style>{style}</style>\n</head>\n"
        f'<body>\n<header><p class="kind">{_text(page.kind)}</p><h1>{_text(page.title)}</h1>'
        f"<p>{_text(page.under)}</p></header>\n<main>\n{body}\n</main>\n"
        f"<footer>{_text(page.foot)}</footer>\n</body>\n</html>\n"
    )


def _text(text: str) -> str:
    return escape(kept_together(shown(text)))


def _block(block: Block) -> str:
    match block:
        case Heading(text):
            return f"<h2>{_text(text)}</h2>"
        case Words(text, strong, quiet):
            kind = ' class="strong"' if strong else ' class="quiet"' if quiet else ""
            return f"<p{kind}>{_text(text)}</p>"
        case Points(points):
            return f"<ul>{''.join(_point(point) for point in points)}</ul>"
        case Marks(marks):
            return f'<div class="marks">{"".join(_mark(mark) for mark in marks)}</div>'
        case Table():
            return _table(block)
        case Framed(title, text):
            return f'<div class="framed"><strong>{_text(title)}.</strong> {_text(text)}</div>'
        case Picture():
            return _figure(block)


def _figure(picture: Picture) -> str:
    named = picture.svg.replace("<svg ", f'<svg role="img" aria-label="{_text(picture.said)}" ', 1)
    return f"<figure>{named}</figure>"


def _point(point: Point) -> str:
    number = " number" if point.mark.isdigit() else ""
    mark = f'<span class="mark"><span class="{number.strip()}">{_text(point.mark)}</span></span>'
    bold = f"<strong>{_text(point.bold)}</strong> " if point.bold else ""
    return f"<li>{mark}<span>{bold}{_text(point.text)}</span></li>"


def _mark(mark: Mark) -> str:
    return (
        f"<div>{light_svg(mark.light)}<span><strong>{_text(mark.name)}:</strong> "
        f"{_text(mark.text)}</span></div>"
    )


def _table(table: Table) -> str:
    tall = ' class="tall"' if table.tall else ""
    columns = "".join(f'<col style="width:{100 * share:.0f}%">' for share in table.shares)
    head = "".join(f"<th>{_text(cell)}</th>" for cell in table.head)
    rows = "".join(
        "<tr>" + "".join(f"<td>{_text(cell)}</td>" for cell in row) + "</tr>" for row in table.rows
    )
    return f"<table{tall}>{columns}<tr>{head}</tr>{rows}</table>"


def light_svg(light: Light) -> str:
    """Return the mark of a light: its shape says what it is, without color."""
    svg = Svg(20.0, 20.0)
    match light:
        case Light.FINE:
            svg.curve([(2.5, 11), (8, 16.5), (18, 3.5)], INK, 2.6)
        case Light.WATCH:
            svg.shape([(10, 2), (19, 18), (1, 18)], "none", INK, 2.2)
            svg.line((10, 8), (10, 13), INK, 2.2)
        case Light.STOP:
            svg.box((2.5, 2.5), (15, 15), "none", INK, 4.0)
            svg.line((6.5, 10), (13.5, 10), INK, 3.0)
        case Light.UNKNOWN:
            svg.round((10, 10), 8.0)
            svg.line((7, 10), (13, 10), INK, 2.0)
        case Light.NOT_ASKED:
            svg.shape([(10, 1), (19, 10), (10, 19), (1, 10)], "none", INK, 2.0)
            svg.round((10, 10), 2.0, INK)
    return svg.text()
