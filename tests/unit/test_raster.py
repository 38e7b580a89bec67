"""PNG through the real CairoSVG: colours, bytes, safety; and Chromium as the outside reference."""

import os
import subprocess
import sys
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from io import BytesIO
from itertools import pairwise
from threading import Thread

import pytest
from chromium import drawn_by_chromium
from PIL import Image, ImageChops, ImageStat

from pieceproof.drawing.raster import MOST_PIXELS, to_png
from pieceproof.drawing.scene import (
    Area,
    AreaKind,
    Arrow,
    Box,
    Letter,
    Line,
    Measure,
    Scene,
)
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg

COLOURS = {
    "ground": "#efe6d2",
    "dark": "#1d2a44",
    "near white": "#fdfcfe",
    "mid": "#c8553d",
}
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10" width="20" height="10">'


def square(x, y, cloth, value=1, layer=0):
    corners = ((x, y), (x + 2, y), (x + 2, y + 2), (x, y + 2))
    return Area(corners, cloth, value, AreaKind.PATCH, layer)


def sample(title="Four squares", extra=()):
    squares = [
        square(0, 0, "ground", 2),
        square(2, 0, "dark", 5),
        square(0, 2, "mid", 3),
        square(2, 2, "near white", 4),
    ]
    return Scene(title, "", Box(0, 0, 4, 4), (*squares, *extra))


def opened(png):
    return Image.open(BytesIO(png)).convert("RGB")


def rgb(colour):
    return tuple(int(colour[at : at + 2], 16) for at in (1, 3, 5))


def picture(scene, look=Look.COLOUR, width=360):
    png, problems = to_png(to_svg(scene, look, "s", width, COLOURS), width)
    assert problems == ()
    return opened(png)


def test_cloth_colours_are_exact():
    image = picture(sample())
    places = {
        "ground": (90, 90),
        "dark": (270, 90),
        "mid": (90, 270),
        "near white": (270, 270),
    }
    assert {cloth: image.getpixel(place) for cloth, place in places.items()} == {
        cloth: rgb(COLOURS[cloth]) for cloth in places
    }
    assert image.getpixel((1, 1)) == (255, 255, 255)


def test_size_follows_the_width():
    png, _ = to_png(to_svg(sample(), Look.INK, "s", 360, COLOURS), 720)
    assert opened(png).size == (720, 720)


def test_darker_values_are_darker_on_paper():
    tones = _tones(picture(sample(), Look.INK))
    assert all(lighter - darker > 15 for lighter, darker in pairwise(tones))


def test_letter_can_be_read_on_dark_cloth():
    image = picture(sample(extra=[Letter((3, 1), "I")]))
    # Along a line through the letter: dark cloth, its paper halo, then ink.
    row = [image.getpixel((x, 94)) for x in range(250, 275)]
    assert rgb("#1d2a44") in row
    assert (255, 255, 255) in row
    assert rgb("#29251f") in row


def test_identical_bytes_twice_and_in_another_process():
    svg = to_svg(sample(extra=[Letter((1, 1), "A")]), Look.INK, "s", 360, COLOURS)
    script = (
        "import sys; from pieceproof.drawing.raster import to_png;"
        "sys.stdout.buffer.write(to_png(sys.stdin.buffer.read().decode(), 360)[0])"
    )
    other = subprocess.run(
        [sys.executable, "-c", script],
        input=svg.encode(),
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONHASHSEED": "7"},
    )
    assert to_png(svg, 360) == to_png(svg, 360) == (other.stdout, ())


def test_no_more_than_needed_in_the_file():
    # PNG (third edition) section 11: header, palette, data, end; no time, text or profile.
    png, _ = to_png(to_svg(sample(), Look.COLOUR, "s", 360, COLOURS), 360)
    at, kinds = 8, []
    while at < len(png):
        kinds.append(png[at + 4 : at + 8])
        at += 12 + int.from_bytes(png[at : at + 4], "big")
    assert set(kinds) == {b"IHDR", b"PLTE", b"IDAT", b"IEND"}
    assert png[png.index(b"PLTE") - 4 :][:4] <= (64 * 3).to_bytes(4, "big")


def test_picture_that_is_too_large_is_a_problem():
    png, problems = to_png(HEAD + "</svg>", MOST_PIXELS)
    assert png == b""
    assert "pixels" in problems[0]


@pytest.mark.parametrize(
    "words",
    [
        "</title><script>alert(1)</script>",
        "&boom;",
        "]]>",
        "\x00\x1b[2J",
        "<!DOCTYPE x>",
    ],
)
def test_hostile_words_are_only_words(words):
    scene = sample(title=words, extra=[Letter((1, 1), words), Measure((0, 0), (4, 0), words)])
    assert picture(scene).size[0] == 360


def test_nothing_is_fetched():
    with _counting_server() as (address, requests):
        pictures = f'<image href="{address}/a.png" width="9" height="9"/>'
        used = f'<use href="{address}/b.svg#x"/>'
        for body in (pictures, used):
            with pytest.raises(PermissionError):
                to_png(HEAD + body + "</svg>", 20)
        with pytest.raises(PermissionError):
            to_png(
                HEAD + '<image href="file:///etc/hostname" width="9" height="9"/></svg>',
                20,
            )
    assert requests == []


@contextmanager
def _counting_server():
    requests = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self):
            requests.append(self.path)
            self.send_error(404)

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}", requests
    finally:
        server.shutdown()
        server.server_close()


def test_without_cairo_svg_works_and_png_says_what_is_missing(tmp_path):
    # What cairocffi does on import where the system library is missing: it raises OSError.
    (tmp_path / "cairocffi.py").write_text('raise OSError("no library called cairo was found")\n')
    script = (
        "from pieceproof.drawing.scene import Box, Scene;"
        "from pieceproof.drawing.svg import to_svg;"
        "from pieceproof.drawing.style import Look; from pieceproof.drawing.raster import to_png;"
        "svg = to_svg(Scene('t', '', Box(0, 0, 1, 1), ()), Look.INK, 'x', 99);"
        "print(to_png(svg, 99))"
    )
    path = os.pathsep.join([str(tmp_path), *filter(None, [os.environ.get("PYTHONPATH")])])
    done = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        check=True,
        text=True,
        env={**os.environ, "PYTHONPATH": path},
    )
    assert done.stdout.startswith("(b'', ('PNG pictures need the cairo library")


@pytest.mark.parametrize("look", [Look.COLOUR, Look.OUTLINE])
def test_chromium_draws_the_same_but_for_text(look):
    extra = [
        Line(((0, 0), (4, 4))),
        Arrow((1, 1), (3, 1)),
        square(1, 1, "mid", 3, layer=1),
        Measure((0, 0), (4, 0), " "),
    ]
    ours, theirs = _both(to_svg(sample(extra=extra), look, "s", 360, COLOURS))
    assert sum(ImageStat.Stat(ImageChops.difference(ours, theirs)).mean) / 3 < 1.0


def test_chromium_hatches_in_the_same_tone():
    # Thin slanting lines are smoothed differently, pixel by pixel (Chromium a little lighter);
    # what must agree is the tone of each value: within 3 % of 255, and darker from value to value.
    tones = [_tones(image) for image in _both(to_svg(sample(), Look.INK, "s", 360, COLOURS))]
    assert all(abs(ours - theirs) < 0.03 * 255 for ours, theirs in zip(*tones, strict=True))
    assert all(tone == sorted(tone, reverse=True) for tone in tones)


def _tones(image):
    """Return the mean grey of the patches of value 2, 3, 4 and 5."""
    corners = [(20, 20), (20, 190), (190, 190), (190, 20)]
    crops = [image.crop((x, y, x + 150, y + 150)).convert("L") for x, y in corners]
    return [ImageStat.Stat(crop).mean[0] for crop in crops]


def _both(svg):
    ours = opened(to_png(svg, 360)[0])
    return ours, drawn_by_chromium(svg, ours.size)
