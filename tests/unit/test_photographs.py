"""Photographs of cloth in drawings: at true scale in SVG and PNG, and nobody else's pictures.

The photograph is a card of invented colour bars, so that every place of a drawing says by its
colour which part of which repeat it is. Chromium is the outside reference.
"""

from __future__ import annotations

import os
import subprocess
import sys
from base64 import b64encode
from io import BytesIO
from itertools import product

import pytest
from chromium import drawn_by_chromium
from PIL import Image, ImageChops, ImageStat
from small_shop import PLAIN

from pieceproof.compile import compile_pattern
from pieceproof.drawing.frame import Frame
from pieceproof.drawing.photographs import Photograph
from pieceproof.drawing.raster import to_png
from pieceproof.drawing.scene import Area, AreaKind, Box, Scene, flat
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import frame_of, to_svg
from pieceproof.pages.shop import CLOSED, INDEX, publish_shop
from pieceproof.prose import Prose
from pieceproof.shelf import Shelved

WIDE, HIGH = 57.5, 20.0
CARD_WIDE, CARD_HIGH = 2.3, 1.7
BARS = ("#c03030", "#30a040", "#3050c0", "#e0c020")
COLOURS = {"print": "#777777", "plain": "#f0e8d8", "dark": "#1d2a44"}


def card(kind: str = "PNG") -> bytes:
    """Two bars across by two down."""
    picture = Image.new("RGB", (92, 68))
    for at, colour in enumerate(BARS):
        picture.paste(colour, (at % 2 * 46, at // 2 * 34, at % 2 * 46 + 46, at // 2 * 34 + 34))
    out = BytesIO()
    picture.save(out, kind)
    return out.getvalue()


def address(data: bytes, kind: str = "png") -> str:
    return f"data:image/{kind};base64,{b64encode(data).decode()}"


PRINTS = {"print": Photograph(address(card()), CARD_WIDE, CARD_HIGH)}


def area(x: float, y: float, width: float, height: float, cloth: str) -> Area:
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Area(corners, cloth, 3, AreaKind.TOP)


RUNNER = Scene(
    "A runner",
    "",
    Box(0, 0, WIDE, HIGH),
    (
        area(0, 0, WIDE, 3, "dark"),
        area(0, 3, 40, 14, "print"),
        area(40, 3, WIDE - 40, 14, "plain"),
        area(0, 17, WIDE, 3, "print"),
    ),
)


def drawn(width: int, prints: dict[str, Photograph] = PRINTS) -> str:
    return to_svg(RUNNER, Look.COLOUR, "top", width, COLOURS, prints)


def frame(width: int) -> Frame:
    return frame_of(RUNNER, flat(RUNNER.items), width)


def opened(png: bytes) -> Image.Image:
    return Image.open(BytesIO(png)).convert("RGB")


def rgb(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[at : at + 2], 16) for at in (1, 3, 5))


def near(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return sum(abs(a - b) for a, b in zip(one, other, strict=True)) < 24


@pytest.mark.parametrize(("width", "picture_px"), [(900, 900), (360, 1200), (700, 1000)])
def test_every_repeat_is_where_its_length_of_cloth_says(width: int, picture_px: int) -> None:
    """The middle of every bar of every repeat, the last as true as the first: nothing drifts."""
    png, problems = to_png(drawn(width), picture_px)
    assert not problems
    image, placed = opened(png), frame(width)
    seen = 0
    for column, row in product(range(int(40 / CARD_WIDE)), range(int(14 / CARD_HIGH))):
        for at, colour in enumerate(BARS):
            x = (column + (0.25, 0.75)[at % 2]) * CARD_WIDE
            y = 3 + (row + (0.25, 0.75)[at // 2]) * CARD_HIGH
            pixel = tuple(
                int((place * placed.scale + start) * picture_px / placed.width)
                for place, start in ((x, placed.left), (y, placed.top))
            )
            assert near(image.getpixel(pixel), rgb(colour)), (column, row, at)
            seen += 1
    assert seen == 17 * 8 * 4


def test_other_cloth_keeps_its_exact_colour() -> None:
    image = opened(to_png(drawn(900), 900)[0])
    assert image.getpixel((450, 30)) == rgb(COLOURS["dark"])
    assert image.getpixel((760, 150)) == rgb(COLOURS["plain"])


def test_chromium_shows_the_same_cloth_at_the_same_scale() -> None:
    """Half a pixel at the edges of bars is a difference; one hundredth of the scale is far more."""
    true, off = [_difference(drawn(900, _cards(share))) for share in (1.0, 1.01)]
    assert true < 4
    assert off > 12


def _cards(share: float) -> dict[str, Photograph]:
    return {"print": Photograph(address(card()), CARD_WIDE * share, CARD_HIGH)}


def _difference(shown: str) -> float:
    """Between our PNG of the true scale and Chromium's picture of what is shown, out of 255."""
    ours = opened(to_png(drawn(900), 900)[0])
    theirs = drawn_by_chromium(shown, ours.size)
    return sum(ImageStat.Stat(ImageChops.difference(ours, theirs)).mean) / 3


def test_a_jpeg_is_drawn_as_well() -> None:
    prints = {"print": Photograph(address(card("JPEG"), "jpeg"), CARD_WIDE, CARD_HIGH)}
    image = opened(to_png(drawn(900, prints), 900)[0])
    other = opened(to_png(drawn(900), 900)[0])
    assert sum(ImageStat.Stat(ImageChops.difference(image, other)).mean) / 3 < 4


def test_the_same_bytes_twice_and_in_another_process() -> None:
    svg = drawn(900)
    script = (
        "import sys; from pieceproof.drawing.raster import to_png;"
        "sys.stdout.buffer.write(to_png(sys.stdin.buffer.read().decode(), 900)[0])"
    )
    other = subprocess.run(
        [sys.executable, "-c", script],
        input=svg.encode(),
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONHASHSEED": "7"},
    )
    assert to_png(svg, 900) == to_png(svg, 900) == (other.stdout, ())


def test_repeats_smaller_than_a_pixel_are_drawn_at_once() -> None:
    prints = {"print": Photograph(address(card()), 0.001, 0.001)}
    assert opened(to_png(drawn(900, prints), 900)[0]).size == (900, 324)


@pytest.mark.parametrize(
    "href",
    [
        "https://example.org/cloth.png",
        "file:///etc/hostname",
        "cloth.png",
        address(b"<svg xmlns='http://www.w3.org/2000/svg'/>", "svg+xml"),
    ],
)
def test_only_pictures_within_the_drawing_are_painted(href: str) -> None:
    with pytest.raises(PermissionError):
        to_png(drawn(900, {"print": Photograph(href, 2, 2)}), 900)


def test_ink_and_outlines_show_no_photograph() -> None:
    for look in (Look.INK, Look.OUTLINE):
        assert "<image" not in to_svg(RUNNER, look, "top", 900, COLOURS, PRINTS)


def test_cloth_left_over_shows_no_photograph() -> None:
    corners = ((0, 0), (4, 0), (4, 4), (0, 4))
    scene = Scene("An offcut", "", Box(0, 0, 4, 4), (Area(corners, "print", 3, AreaKind.OFFCUT),))
    assert "<image" not in to_svg(scene, Look.COLOUR, "top", 360, COLOURS, PRINTS)


RUN = "runs:\n  - {pattern: eddy-runner, size: large, colourway: low-water, kits: 2}\n"
SWAPPED = RUN.replace("kits: 2}", "kits: 2, instead: [{of: Wet Slate, use: Ferry Ochre}]}")


@pytest.mark.parametrize(("run", "shows"), [(RUN, True), (SWAPPED, False)])
def test_a_kit_shows_the_photograph_of_a_cloth_that_is_in_it(run: str, shows: bool) -> None:
    """On the labels and in the picture of the top; none of a cloth that another stands in for."""
    text = PLAIN.replace(
        'colour: "#3b5166"}', 'colour: "#3b5166", swatch: {file: card.png, width: 2}}'
    )
    files = {"pattern.yaml": text.encode(), "card.png": card()}
    shelved = Shelved(files, compile_pattern("eddy-runner", files), Prose(), ())
    shop, problems = publish_shop({"eddy-runner": shelved}, "kits.yaml", run.encode(), CLOSED, "")
    assert not problems
    (page,) = (page for path, page in shop.pages.items() if path != INDEX)
    folder = next(path for path in shop.files if path.endswith("/top.svg")).rpartition("/")[0]
    (found,) = shelved.pattern.prints.values()
    labels = next(html for html in page.fragments if "kit-piles" in html)
    assert (f'<img src="{found.file}"' in labels) is shows
    assert (f"{folder}/{found.file}" in shop.files) is shows
    assert (b"<pattern" in shop.files[f"{folder}/top.svg"]) is shows
