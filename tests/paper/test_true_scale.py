"""What is printed at true scale measures what it says, with another program's eyes.

Pages are drawn by pypdfium2 at 1200 pixels per inch and measured there: 0.1 mm are 4.7 pixels. What
a square and a template measure comes from the facts: 1 in, and the published cut size.
"""

from __future__ import annotations

import re
from itertools import pairwise
from math import hypot
from typing import Any

import pypdfium2
import pytest
from booklet_samples import order, printed
from PIL import Image

from pieceproof.booklet.editions import Edition, Paper
from pieceproof.booklet.true_scale import Ink, Shape, shapes_of
from pieceproof.published import Piece

DPI = 1200
NEAR_MM = 0.1
INK = 100
SHEETS_MM = {Paper.LETTER: (215.9, 279.4), Paper.A4: (210.0, 297.0)}  # ANSI Y14.1; ISO 216
MARGIN_MM, HEAD_MM = 12.0, 31.0


def drawn(page: Any, left: float, top: float, width: float, height: float) -> Image.Image:
    """A part of a page in grey, places in millimetres from the top left."""
    scale = 72 / 25.4
    page_width, page_height = page.get_size()
    crop = (
        left * scale,
        page_height - (top + height) * scale,
        page_width - (left + width) * scale,
        top * scale,
    )
    return page.render(scale=DPI / 72, crop=crop).to_pil().convert("L")


def lines_along(image: Image.Image, at: float, upright: bool) -> list[float]:
    """Middles, in millimetres, of the dark stretches met on the way right (or down) at a place."""
    pixel = int(at * DPI / 25.4)
    length = image.height if upright else image.width
    run = [image.getpixel((pixel, i) if upright else (i, pixel)) < INK for i in range(length)]
    edges = [i for i, (a, b) in enumerate(pairwise([False, *run, False])) if a != b]
    starts_and_ends = zip(edges[::2], edges[1::2], strict=True)
    return [(start + end) / 2 * 25.4 / DPI for start, end in starts_and_ends]


def pages(pdf: bytes) -> list[Any]:
    return list(pypdfium2.PdfDocument(pdf))


def sheet_pages(pdf: bytes) -> list[Any]:
    marked = "Print at actual size."
    return [page for page in pages(pdf) if marked in page.get_textpage().get_text_range()]


def piece(slug: str, size: str, letter: str) -> Piece:
    pieces = order(slug, size).work.sized.publication.pieces
    return next(p for p in pieces if p.letter == letter)


@pytest.mark.parametrize("paper", list(Paper))
def test_the_paper_has_its_size(paper: Paper) -> None:
    for page in pages(printed("pilot-star", "tray", Edition.SHEETS, paper)):
        size = [side * 25.4 / 72 for side in page.get_size()]
        assert size == pytest.approx(SHEETS_MM[paper], abs=0.01)


@pytest.mark.parametrize("paper", list(Paper))
def test_every_sheet_has_a_square_of_one_inch(paper: Paper) -> None:
    found = sheet_pages(printed("pilot-star", "tray", Edition.SHEETS, paper))
    assert found
    for page in found:
        image = drawn(page, MARGIN_MM - 2, MARGIN_MM - 2, 30, 30)
        for upright in (False, True):
            first, *_, last = lines_along(image, 2 + 6.0, upright)
            assert last - first == pytest.approx(25.4, abs=NEAR_MM)


@pytest.mark.parametrize("paper", list(Paper))
def test_a_template_measures_what_is_published(paper: Paper) -> None:
    """Piece B of Pilot Star is a square cut by template; its raw edges are the outermost lines."""
    square = piece("pilot-star", "tray", "B")
    assert square.template is not None
    wide, tall = (float(side) * 25.4 for side in square.template.cut[2])
    page = next(
        page
        for page in sheet_pages(printed("pilot-star", "tray", Edition.SHEETS, paper))
        if re.search("B: ?cut", page.get_textpage().get_text_range())
    )
    width, height = SHEETS_MM[paper]
    area = (
        MARGIN_MM,
        MARGIN_MM + HEAD_MM,
        width - 2 * MARGIN_MM,
        height - MARGIN_MM - HEAD_MM - 20,
    )
    image = drawn(page, *area)
    across = lines_along(image, 30.0, upright=False)
    assert across[-1] - across[0] == pytest.approx(wide, abs=NEAR_MM)
    down = lines_along(image, 60.0, upright=True)  # clear of the caption
    assert down[-1] - down[0] == pytest.approx(tall, abs=NEAR_MM)


def shape(slug: str, size: str, name: str) -> Shape:
    sized = order(slug, size).work.sized
    return next(s for s in shapes_of(sized.design, sized.publication) if s.name == name)


def test_a_foundation_is_printed_as_the_mirror_image_of_its_unit() -> None:
    """Last Ferry's file: the wave is 3 in wide, its crest 1 in from the left at the top. Turned
    over and with 1/4 in around it, the crest is printed 1/4 in down and 3 - 1 + 1/4 in across."""
    wave = shape("last-ferry", "one", "wave")
    assert (wave.width, wave.height) == pytest.approx((3.5 * 25.4, 2 * 25.4))
    places = [place for run in wave.runs if run.ink is Ink.SEW for place in run.places]
    crest = (2.25 * 25.4, 0.25 * 25.4)
    assert any(place == pytest.approx(crest) for place in places)
    assert not any(place == pytest.approx((1.25 * 25.4, crest[1])) for place in places)
    assert {word.text.split()[0] for word in wave.words} == {"1", "2", "3"}


def test_curves_have_the_radius_that_the_trade_states() -> None:
    """Raw edges: convex R + s, concave R - s (common practice); Oxbow's R is 4 1/2 in."""
    sized = order("oxbow", "sideboard").work.sized
    shapes = shapes_of(sized.design, sized.publication)
    assert [s.name for s in shapes] == ["A", "B, C, D, E"]
    found = set()
    for piece in sized.publication.pieces:
        if piece.template is None:
            continue
        (shown,) = (s for s in shapes if piece.letter in s.name.split(", "))
        cut = next(run.places for run in shown.runs if run.ink is Ink.CUT)
        arc = piece.template.arcs[0]
        x, y = (float(n) * 25.4 for n in arc.centre)
        away = [hypot(px - x, py - y) for px, py in cut]
        found |= {round(r / 25.4, 2) for r in away if sum(abs(r - o) < 0.05 for o in away) > 8}
    assert found == {4.75, 4.25}
