"""SVG to PNG through CairoSVG.

Goes in: the text of an SVG that `svg.to_svg` wrote. Comes out: the bytes of a PNG, or why there is
none. It fetches nothing, reads no files, and keeps no date or program name in the picture.

CairoSVG needs the system's cairo library. Without it `to_png` says so and everything else works.
"""

from collections.abc import Callable
from importlib import import_module
from io import BytesIO
from typing import Any
from xml.etree import ElementTree

MOST_PIXELS = 16_000_000
COLOURS = 64
APART = 10

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
        bytestring=svg.encode(),
        url_fetcher=_refuse,
        output_width=width_px,
        output_height=height_px,
    )
    return _few_colours(drawn), ()


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


def _refuse(url: str, resource_type: str) -> bytes:
    raise PermissionError(f"a drawing asked for {resource_type} at {url}")


def _few_colours(png: bytes) -> bytes:
    """Return the picture in at most 64 of its own colours, the most frequent ones exact."""
    try:
        image: Any = import_module("PIL.Image")
    except ImportError:
        return png
    picture = image.open(BytesIO(png)).convert("RGB")
    palette = image.new("P", (1, 1))
    palette.putpalette([channel for colour in _frequent(picture) for channel in colour])
    small = BytesIO()
    reduced = picture.quantize(palette=palette, dither=image.Dither.NONE)
    reduced.save(small, "PNG", optimize=True)
    return small.getvalue()


def _frequent(picture: Any) -> list[tuple[int, int, int]]:
    """Return frequent colours, none near another: Pillow looks neighbours up coarsely."""
    counted = picture.getcolors(picture.width * picture.height)
    kept: list[tuple[int, int, int]] = []
    for _, colour in sorted(counted, key=lambda entry: (-entry[0], entry[1])):
        if len(kept) == COLOURS:
            break
        if all(_apart(colour, other) >= APART for other in kept):
            kept.append(colour)
    return kept


def _apart(one: tuple[int, int, int], other: tuple[int, int, int]) -> int:
    return max(abs(a - b) for a, b in zip(one, other, strict=True))
