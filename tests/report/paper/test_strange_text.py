"""Text a stranger put into a file stays text on every page."""

import re
from dataclasses import replace
from html.parser import HTMLParser
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.sheet import Answers
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.report.paper.html_page import page_html
from firing_review.report.paper.make import make_page
from firing_review.report.paper.page import Picture, Reader
from firing_review.report.paper.page_text import page_text
from firing_review.report.paper.svg import Svg
from firing_review.report.shown_text import shown
from firing_review.report.text import review_text
from firing_review.report.wording import Show
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review

EVIL = (
    "<script>alert('x')</script>",
    "\"><img src=x onerror='go()'>",
    "Tom & Jerry <b>&amp;</b>",
    "]]></svg><script>1</script>",
    "red\x1b[31m\x07bell\x00nul\r\nnew line\u2028para",
    "left\u202eright\u2066isolate\u200fmark\ufeff",
    "lone \ud800 half",
    "{0.__class__} {evil} %s %(x)s",
)
TAGS = {
    "html", "head", "meta", "title", "style", "body", "header", "main", "footer", "p", "h1", "h2",
    "ul", "li", "span", "strong", "div", "table", "col", "tr", "th", "td", "figure",
    "svg", "line", "polyline", "polygon", "rect", "circle", "text",
}  # fmt: skip


class Strict(HTMLParser):
    """Remember every tag, and refuse what could run or load anything."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []

    def handle_starttag(self, tag, attrs):
        assert tag in TAGS, tag
        for name, value in attrs:
            assert not name.startswith("on"), (tag, name)
            assert name not in {"src", "href", "xlink:href", "style"} or (
                tag == "col" and re.fullmatch(r"width:\d+%", value)
            ), (tag, name, value)

    def handle_data(self, data):
        self.words.append(data)


def strange(evil: str) -> Review:
    """Return a review with strange text wherever a person or a logger may put text."""
    found = gather(next(demo_logs().glob("3_*")))
    log = found.log
    channels = tuple(
        replace(c, name=f"{evil}{k}" if c.is_temperature else c.name)
        for k, c in enumerate(log.channels)
    )
    kiln = Kiln(name=evil, sections=(Section(evil), Section("top")), thermocouple=evil[:3])
    cones = (ShelfCone(evil, evil, ConeNumber("04"), ConeKind.LARGE, 45.0),)
    answers = Answers(ware=evil, load_place=evil, changed=evil, sections_dark=(evil,))
    given_ = replace(
        found,
        title=evil,
        log=replace(log, source=evil, channels=channels),
        kiln=kiln,
        cones=cones,
        answers=answers,
    )
    return review_firing(given_, load_tables())


@pytest.mark.parametrize("evil", EVIL, ids=range(len(EVIL)))
def test_strange_text_is_only_text_on_every_page(evil):
    review = strange(evil)
    for reader in Reader:
        page = make_page(review, reader, Show.BOTH)
        document = page_html(page)
        parser = Strict()
        parser.feed(document)
        document.encode()
        for block in page.blocks:
            if isinstance(block, Picture):
                ET.fromstring(block.svg)  # noqa: S314 - made by this program
        for text in (document, page_text(page)):
            assert not [s for s in text if not s.isprintable() and s not in "\n\u00a0"]
    text = review_text(review)
    assert not [s for s in text if not s.isprintable() and s != "\n"]


def test_markup_in_a_title_is_shown_as_it_was_typed():
    parser = Strict()
    parser.feed(page_html(make_page(strange(EVIL[0]), Reader.MAKER, Show.CELSIUS)))
    assert any("<script>alert('x')</script>" in words for words in parser.words)


def test_no_page_can_run_or_load_anything():
    document = page_html(make_page(strange("plain"), Reader.MAKER, Show.CELSIUS))
    assert "default-src 'none'" in document
    assert "<script" not in document
    assert "http" not in document.replace("http-equiv", "").replace(
        "http://www.w3.org/2000/svg", ""
    )


@given(st.text())
def test_shown_text_is_one_printable_line(text):
    line = shown(text)
    assert line.replace("\u200c", "").replace("\u200d", "").isprintable()
    assert line == line.strip()
    line.encode()


def test_words_of_other_scripts_are_left_as_they_are():
    for word in ("Töpferei Grün", "窯焚き", "תנור", "نار‌ها"):
        assert shown(word) == word


@given(st.text())
def test_a_drawing_is_sound_xml_whatever_its_words(text):
    svg = Svg(10.0, 10.0)
    svg.words((1.0, 1.0), text)
    root = ET.fromstring(svg.text())  # noqa: S314 - made by this program
    assert (root[0].text or "") == shown(text)


def test_a_long_title_ends_in_an_ellipsis():
    assert shown("x" * 200, 90) == "x" * 89 + "…"
