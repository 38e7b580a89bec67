"""Photographs of cloth laid out pixel by pixel, for a painter that cannot repeat them exactly.

Goes in: the text of an SVG that `svg.to_svg` wrote with pictures in it, and how large it is to be
painted. Comes out: the same SVG with one picture as large as the drawing for every photographed
cloth, clipped to the cloth. It fetches nothing.

Repeats start on whole pixels, each as near to its place as that allows, so that they keep in step
over the whole drawing and a picture has no more colours than `TILE_COLOURS` for every photograph.
"""

import re
from base64 import b64decode, b64encode
from collections.abc import Sequence
from functools import partial
from io import BytesIO
from math import ceil

from PIL import Image

from .markup import tag

TILE_COLOURS = 64
_REPEATED = re.compile(
    r'<g transform="translate\((\S+) (\S+)\)"><defs>'
    r'<pattern id="([^"]+)" patternUnits="userSpaceOnUse" width="([^"]+)" height="([^"]+)">'
    r'<image href="data:image/(?:png|jpeg);base64,([^"]+)"[^>]*/></pattern></defs>'
    r'<path ([^>]*)fill="url\(#\3\)"([^>]*) d="([^"]+)"/></g>'
)
_BOX = re.compile(r'viewBox="0 0 (\S+) (\S+)"')


def laid_out(svg: str, width_px: int, height_px: int) -> str:
    """Return the SVG without patterns, for painting so many pixels wide and high."""
    box = _BOX.search(svg)
    if box is None or "<pattern " not in svg:
        return svg
    return _REPEATED.sub(
        partial(_clipped, (float(box[1]), float(box[2])), (width_px, height_px)), svg
    )


def _clipped(box: tuple[float, float], size: tuple[int, int], found: re.Match[str]) -> str:
    left, top, ident, width, height, picture, before, after, data = found.groups()
    across, down = (pixels / length for pixels, length in zip(size, box, strict=True))
    with Image.open(BytesIO(b64decode(picture)), formats=("PNG", "JPEG")) as photograph:
        tile = _few(photograph.convert("RGB"), float(width) * across, float(height) * down)
    row = _row(tile, float(left) * across, float(width) * across, size[0])
    whole = _rows(row, float(top) * down, float(height) * down, size[1])
    place = {"x": -float(left), "y": -float(top), "width": box[0], "height": box[1]}
    image = tag("image", {"href": _address(whole), **place, "preserveAspectRatio": "none"})
    clip = tag("clipPath", {"id": ident}, tag("path", {"d": data}))
    clipped = tag("g", {"clip-path": f"url(#{ident})"}, image)
    return tag(
        "g",
        {"transform": f"translate({left} {top})"},
        tag("defs", {}, clip) + clipped + f'<path {before}fill="none"{after} d="{data}"/>',
    )


def _few(tile: Image.Image, width: float, height: float) -> Image.Image:
    """The photograph at the size of one repeat, rounded up so that repeats leave no gap."""
    small = tile.resize((max(1, ceil(width)), max(1, ceil(height))), Image.Resampling.LANCZOS)
    return small.quantize(TILE_COLOURS, Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE).convert(
        "RGB"
    )


def _row(tile: Image.Image, start: float, step: float, width: int) -> Image.Image:
    row = Image.new("RGB", (width, tile.height))
    for at in _places(start, step, width):
        row.paste(tile, (at, 0))
    return row


def _rows(row: Image.Image, start: float, step: float, height: int) -> Image.Image:
    whole = Image.new("RGB", (row.width, height))
    for at in _places(start, step, height):
        whole.paste(row, (0, at))
    return whole


def _places(start: float, step: float, length: int) -> Sequence[int]:
    """Where repeats start, from the one that reaches over the near end; at most one a pixel."""
    step = max(step, 1.0)
    first = start - ceil(start / step) * step
    return [round(first + k * step) for k in range(ceil((length - first) / step))]


def _address(picture: Image.Image) -> str:
    out = BytesIO()
    picture.save(out, "PNG", compress_level=1)
    return f"data:image/png;base64,{b64encode(out.getvalue()).decode()}"
