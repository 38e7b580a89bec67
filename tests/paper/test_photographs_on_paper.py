"""Photographed cloth on a booklet's cover, read back from the PDF and seen by another program.

The scale of the print is worked out from the page: a finished top so wide in points is so wide in
inches, and the swatch in the pattern's file says how wide the cloth in the photograph is.
"""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise

import pikepdf
import pypdfium2
import pytest
from booklet_samples import order, printed
from PIL import Image

from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.booklet.press import Order, pressed

SLUG, SIZE = "heron-landing", "short"
PHOTOGRAPHED_IN = 2.0
TOP_IN = 37.0
"""The finished size of `heron-landing`, short, worked out on paper in its pattern's file."""
REED = (154, 168, 132)
DEEP = (34, 51, 71)
DPI = 300


def cover(edition: Edition, paper: Paper) -> Image.Image:
    page = pypdfium2.PdfDocument(printed(SLUG, SIZE, edition, paper))[0]
    return page.render(scale=DPI / 72).to_pil().convert("RGB")


def is_like(pixel: tuple[int, ...], colour: tuple[int, ...], within: int) -> bool:
    return max(abs(a - b) for a, b in zip(pixel, colour, strict=True)) <= within


def stretches(picture: Image.Image, y: int, colour: tuple[int, ...], within: int) -> list[int]:
    """The lengths of what is of about this colour in a row of pixels."""
    run = [is_like(picture.getpixel((x, y)), colour, within) for x in range(picture.width)]
    edges = [i for i, (a, b) in enumerate(pairwise([False, *run, False])) if a != b]
    return [end - start for start, end in zip(edges[::2], edges[1::2], strict=True)]


def width_of_the_top(picture: Image.Image) -> int:
    """The border's longest stretch in any row: the top from edge to edge, in pixels."""
    return max(max(stretches(picture, y, DEEP, 8), default=0) for y in range(0, picture.height, 9))


@pytest.mark.parametrize("paper", list(Paper))
def test_the_print_on_the_cover_is_at_true_scale(paper: Paper) -> None:
    pdf = printed(SLUG, SIZE, Edition.FULL, paper)
    points_per_inch = width_of_the_top(cover(Edition.FULL, paper)) * 72 / DPI / TOP_IN
    with pikepdf.open(BytesIO(pdf)) as opened:
        (pattern,) = opened.pages[0].Resources.Pattern.values()
        for step, scale in ((pattern.XStep, pattern.Matrix[0]), (pattern.YStep, pattern.Matrix[3])):
            repeat = abs(float(step) * float(scale))
            assert repeat == pytest.approx(PHOTOGRAPHED_IN * points_per_inch, rel=0.004)


def test_the_sashing_on_the_cover_shows_its_leaves() -> None:
    """Flat colour has one; the photograph has leaves lighter and darker than its ground."""
    picture = cover(Edition.FULL, Paper.LETTER)
    greens = {
        pixel
        for y in range(0, picture.height, 3)
        for x in range(0, picture.width, 3)
        if is_like(pixel := picture.getpixel((x, y)), REED, 60) and pixel[1] > pixel[0] > pixel[2]
    }
    assert min(green for _, green, _ in greens) < REED[1] - 20
    assert len(greens) > 100


def test_folded_and_large_covers_show_it_too() -> None:
    for edition in (Edition.LARGE, Edition.FOLDED):
        page = pypdfium2.PdfDocument(printed(SLUG, SIZE, edition, Paper.A4))
        pictures = [sheet.render(scale=2).to_pil().convert("RGB") for sheet in page]
        found = [_greens(picture) for picture in pictures]
        assert max(found) > 40, edition


def _greens(picture: Image.Image) -> int:
    colours = picture.getcolors(picture.width * picture.height)
    return sum(r < g > b + 12 and is_like((r, g, b), REED, 50) for _, (r, g, b) in colours)


def test_one_picture_serves_all_pages_and_stays_small() -> None:
    pdf = printed(SLUG, SIZE, Edition.FULL, Paper.LETTER)
    with pikepdf.open(BytesIO(pdf)) as opened:
        images = [item for item in opened.objects if _is_image(item)]
        assert sum(len(bytes(image.read_raw_bytes())) for image in images) < 10_000
        assert len(images) == 1
    assert len(pdf) < 300_000


def _is_image(item: object) -> bool:
    return isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image"


def test_the_same_booklet_twice() -> None:
    work = order(SLUG, SIZE).work
    copies = (Copy(Edition.FULL, Paper.LETTER),)
    (again,) = pressed(Order(work, copies, ""))[0].values()
    assert again == printed(SLUG, SIZE, Edition.FULL, Paper.LETTER)
