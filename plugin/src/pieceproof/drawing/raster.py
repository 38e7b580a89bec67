"""SVG to PNG through CairoSVG.

Goes in: the text of an SVG that `svg.to_svg` wrote. Comes out: the bytes of a PNG, or why there is
none. It fetches nothing, reads no files, and keeps no date or program name in the picture.

CairoSVG rounds a pattern to whole pixels and loses its place, so photographs of cloth are laid out
here, pixel by pixel, and clipped to their cloth.

CairoSVG needs the system's cairo library. Without it `to_png` says so and everything else works.
"""

from base64 import b64decode
from collections import Counter
from collections.abc import Callable
from importlib import import_module
from io import BytesIO
from sys import byteorder
from typing import Any
from xml.etree import ElementTree

from .laying_out import laid_out

MOST_PIXELS = 16_000_000
COLOURS = 64
COLOURS_WITH_PHOTOGRAPHS = 256
APART = 12
FLAT = 500
"""A colour of one pixel in so many counts as a flat area."""

Colour = tuple[int, int, int]

NO_CAIRO = (
    "PNG pictures need the cairo library, which is missing here; SVG drawings are not affected. "
    "Debian and Ubuntu: apt install libcairo2. macOS: brew install cairo."
)


def to_png(svg: str, width_px: int) -> tuple[bytes, tuple[str, ...]]:
    """Return (PNG, problems); the PNG is empty when there is a problem.

    Args:
        svg: an `<svg>` element with a viewBox, as `svg.to_svg` writes it.
        width_px: pixels across, at least 1; the height follows.

    The same SVG gives the same bytes on the same machine (fonts differ between machines).
    """
    height_px = _height(svg, width_px)
    if width_px * height_px > MOST_PIXELS:
        return b"", (f"a picture of {width_px} x {height_px} pixels is over {MOST_PIXELS:,}",)
    convert = _converter()
    if convert is None:
        return b"", (NO_CAIRO,)
    drawn = convert(
        bytestring=laid_out(svg, width_px, height_px).encode(),
        url_fetcher=_own_picture,
        output_width=width_px,
        output_height=height_px,
    )
    most = COLOURS_WITH_PHOTOGRAPHS if "<pattern " in svg else COLOURS
    return _few_colours(drawn, most), ()


def _height(svg: str, width_px: int) -> int:
    _, _, width, height = ElementTree.fromstring(svg).attrib["viewBox"].split()
    return max(1, round(width_px * float(height) / float(width)))


def _converter() -> Callable[..., bytes] | None:
    try:
        surface = import_module("cairosvg.surface")
    except (ImportError, OSError):  # cairocffi raises OSError where the library is missing
        return None
    convert: Callable[..., bytes] = surface.PNGSurface.convert
    return convert


_IN_THE_DRAWING = "data:image/png;base64,"


def _own_picture(url: str, resource_type: str) -> bytes:
    """The PNG that an address holds in itself; nothing is fetched."""
    if not url.startswith(_IN_THE_DRAWING):
        raise PermissionError(f"a drawing asked for {resource_type} at {url[:100]}")
    return b64decode(url.removeprefix(_IN_THE_DRAWING), validate=True)


def _few_colours(png: bytes, most: int) -> bytes:
    """Return the picture in at most so many of its own colours, frequent ones exact, no dither."""
    try:
        image: Any = import_module("PIL.Image")
    except ImportError:
        return png
    picture = image.open(BytesIO(png)).convert("RGBX")
    pixels = memoryview(picture.tobytes()).cast("I")
    counted = Counter(pixels)
    palette = _frequent(counted, most)
    nearest = {pixel: _nearest(_rgb(pixel), palette) for pixel in counted}
    reduced = image.frombytes("P", picture.size, bytes(map(nearest.__getitem__, pixels)))
    reduced.putpalette([channel for colour in palette for channel in colour])
    small = BytesIO()
    reduced.save(small, "PNG", optimize=True)
    return small.getvalue()


def _frequent(counted: Counter[int], most: int) -> list[Colour]:
    """Return the colours of flat areas and the most frequent others that differ from them."""
    flat = counted.total() / FLAT
    kept: list[Colour] = []
    for pixel, count in sorted(counted.items(), key=lambda entry: (-entry[1], _rgb(entry[0]))):
        colour = _rgb(pixel)
        if count >= flat or all(_apart(colour, other) >= APART for other in kept):
            kept.append(colour)
        if len(kept) == most:
            break
    return kept


def _nearest(colour: Colour, palette: list[Colour]) -> int:
    return min(range(len(palette)), key=lambda at: _apart(colour, palette[at]))


def _apart(one: Colour, other: Colour) -> int:
    return sum(abs(a - b) for a, b in zip(one, other, strict=True))


def _rgb(pixel: int) -> Colour:
    red, green, blue, _ = pixel.to_bytes(4, byteorder)
    return red, green, blue
