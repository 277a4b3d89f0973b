"""Pages on paper: vectors, type that can be searched, the right size, few sheets."""

import re
from dataclasses import replace

import pytest
from PySide6.QtGui import QFontMetricsF, QImage, QPainter

from firing_review.firing.wording import Language
from firing_review.io.languages import speak
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.report.paper.blank import BlankSheet, blank_page
from firing_review.report.paper.make import make_page
from firing_review.report.paper.page import (
    Heading,
    Page,
    Paper,
    Point,
    Points,
    Reader,
    Table,
    Words,
)
from firing_review.report.wording import Show
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review
from firing_review.ui.printing.pdf import pdf_bytes, write_pdf
from firing_review.ui.printing.pieces import POINT, font
from firing_review.ui.printing.sheets import MARGIN_PT, SIZES, SIZES_PT, TABLE_TYPE, set_page

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture(scope="module")
def dead() -> Review:
    return review_firing(gather(next(demo_logs().glob("3_*"))), load_tables())


@pytest.fixture(scope="module")
def worn() -> Review:
    return review_firing(gather(next(demo_logs().glob("2_*"))), load_tables())


@pytest.fixture(scope="module")
def healthy() -> Review:
    return review_firing(gather(next(demo_logs().glob("1_*"))), load_tables())


def boxes(pdf: bytes) -> list[tuple[float, float]]:
    found = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    return [(float(w), float(h)) for w, h in found]


@pytest.mark.parametrize("reader", list(Reader))
@pytest.mark.parametrize("paper", list(Paper))
def test_a_page_is_vectors_and_type_on_the_right_paper(dead, reader, paper, tmp_path):
    target = tmp_path / "page.pdf"
    write_pdf(make_page(dead, reader, Show.BOTH), target, paper)
    pdf = target.read_bytes()
    assert pdf.startswith(b"%PDF")
    assert b"/Subtype /Image" not in pdf
    assert b"/ToUnicode" in pdf
    assert len(pdf) < 700_000
    for size in boxes(pdf):
        assert size == pytest.approx(SIZES_PT[paper], abs=1.5)


def test_a_good_firing_and_the_office_take_one_sheet(healthy, dead):
    for paper in Paper:
        assert len(set_page(make_page(healthy, Reader.MAKER, Show.CELSIUS), paper).pieces) == 1
        assert len(set_page(make_page(dead, Reader.OFFICE, Show.CELSIUS), paper).pieces) == 1


def plain(count: int, shorter: Page | None = None) -> Page:
    blocks = tuple(Words("Some words on a line of their own.") for _ in range(count))
    return Page("Kind", "Title", "", blocks, "Foot.", shorter)


def test_what_fits_is_set_as_large_as_can_be():
    assert set_page(plain(5), Paper.A4).size == max(SIZES)
    tight = set_page(plain(50), Paper.A4)
    assert len(tight.pieces) == 1
    assert tight.size < max(SIZES)


def test_a_shorter_form_is_taken_only_where_it_saves_a_sheet():
    brief = plain(10)
    assert set_page(plain(80, brief), Paper.A4).page is brief
    assert set_page(plain(5, brief), Paper.A4).page.shorter is brief


def test_nothing_is_lost_over_several_sheets():
    sheets = set_page(plain(200), Paper.A4)
    assert len(sheets.pieces) > 1
    head = 3  # kind, title, line
    assert sum(len(sheet) for sheet in sheets.pieces) == 200 + head


def test_a_heading_stays_with_what_it_heads():
    blocks = []
    for number in range(60):
        blocks += [Heading(f"Head {number}"), Points((Point("–", "one"), Point("–", "two")))]
    sheets = set_page(Page("Kind", "Title", "", tuple(blocks), ""), Paper.LETTER)
    assert len(sheets.pieces) > 1
    assert not any(sheet[-1].sticks for sheet in sheets.pieces)


def ink_in(image: QImage, left: int, right: int) -> bool:
    return any(
        image.pixelColor(x, y).lightness() < 128
        for x in range(left, right)
        for y in range(0, image.height(), 2)
    )


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("reader", list(Reader))
def test_nothing_runs_over_the_edge_of_the_paper(dead, reader, paper):
    sheets = set_page(make_page(dead, reader, Show.BOTH), paper)
    width, height = (round(side) for side in SIZES_PT[paper])
    for number in range(len(sheets.pieces)):
        image = QImage(width + 60, height, QImage.Format.Format_RGB32)
        image.fill(0xFFFFFFFF)
        painter = QPainter(image)
        sheets.paint(painter, number)
        painter.end()
        assert ink_in(image, 40, width - 40)
        assert not ink_in(image, 0, 34)
        assert not ink_in(image, width - 34, width + 60)


@pytest.mark.parametrize("language", list(Language))
def test_no_word_at_the_head_of_a_table_is_broken(worn, language):
    speak(language)
    pages = [make_page(worn, reader, Show.CELSIUS) for reader in Reader]
    pages += [blank_page(sheet, worn.given.kiln) for sheet in BlankSheet]
    broken = []
    for page in pages:
        sheets = set_page(page, Paper.A4)
        size = TABLE_TYPE * sheets.size
        type_ = QFontMetricsF(font(size, bold=True))
        whole = (SIZES_PT[Paper.A4][0] - 2 * MARGIN_PT) * POINT
        for table in (block for block in page.blocks if isinstance(block, Table)):
            for words, share in zip(table.head, table.shares, strict=True):
                room = share * whole - 0.8 * size * POINT
                broken += [w for w in words.split() if type_.horizontalAdvance(w) > room]
    speak(Language.ENGLISH_US)
    assert broken == []


def test_strange_text_is_set_as_text(dead):
    given = replace(dead.given, title="<b>bold</b> &amp; <img src='x'>")
    page = make_page(replace(dead, given=given), Reader.MAKER, Show.CELSIUS)
    assert b"/Subtype /Image" not in pdf_bytes([set_page(page, Paper.A4)])


@pytest.mark.parametrize("sheet", list(BlankSheet))
def test_a_blank_sheet_takes_one_sheet_of_paper(healthy, sheet):
    for kiln in (None, healthy.given.kiln):
        for paper in Paper:
            assert len(set_page(blank_page(sheet, kiln), paper).pieces) == 1
