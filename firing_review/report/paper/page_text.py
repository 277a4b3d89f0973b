"""A page as plain text, for a message, a list or the clipboard."""

import textwrap
from collections.abc import Iterator

from firing_review.report.paper.page import (
    Block,
    Framed,
    Heading,
    Marks,
    Page,
    Picture,
    Point,
    Points,
    Table,
    Words,
)

WIDTH = 88
BLANK = "____"


def page_text(page: Page) -> str:
    """Return the page as text in lines that fit a message."""
    lines = [f"{page.kind.upper()} · {page.title}"]
    lines += textwrap.wrap(page.under, WIDTH)
    for block in page.blocks:
        lines += _block(block)
    lines += ["", *textwrap.wrap(page.foot, WIDTH)]
    return "\n".join(lines) + "\n"


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading(text):
            yield from ("", text)
        case Words(text=text):
            yield from textwrap.wrap(text, WIDTH)
        case Points(points):
            for point in points:
                yield from _point(point)
        case Marks(marks):
            yield from (f"  {mark.name}: {mark.text}" for mark in marks)
        case Table():
            yield from _table(block)
        case Framed(title, text):
            yield from ("", f"!! {title}")
            yield from textwrap.wrap(text, WIDTH)
        case Picture(said=said):
            yield from ("", *textwrap.wrap(f"[{said}]", WIDTH))


def _point(point: Point) -> Iterator[str]:
    mark = "[ ]" if point.mark == "□" else point.mark.replace("–", "-")
    first = f"  {mark} " if mark else "  "
    words = f"{point.bold} {point.text}".strip()
    wrapped = textwrap.wrap(words, WIDTH, initial_indent=first, subsequent_indent=" " * len(first))
    yield from wrapped or [first.rstrip()]


def _table(table: Table) -> Iterator[str]:
    """Yield each row as its first cell and what the others are called."""
    for row in table.rows:
        cells = [
            f"{name} {cell or BLANK}".strip()
            for name, cell in zip(table.head[1:], row[1:], strict=True)
        ]
        yield from _point(Point("–", ", ".join(cells), f"{row[0]}:"))
