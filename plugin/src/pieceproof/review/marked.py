"""A drawing with what differs in it ringed, as SVG.

In: a picture and the items that differ. Out: one ``<svg>`` element. Shapes are outlined, texts,
measures and arrows get a ring; the ring is a dark line on a pale one, so that it shows on any
cloth and without colour.
"""

from __future__ import annotations

from collections.abc import Iterator

from pieceproof.drawing.frame import Frame, on_screen
from pieceproof.drawing.marks import measure_lines, text_block
from pieceproof.drawing.markup import path_data, tag
from pieceproof.drawing.scene import (
    Area,
    Arrow,
    Flat,
    Letter,
    Line,
    Measure,
    Note,
    Place,
    Point,
    TextKind,
    flat,
)
from pieceproof.drawing.style import TEXTS, Look, text_width
from pieceproof.drawing.svg import frame_of, to_svg
from pieceproof.review.drawn import Picture

_RING = 9
_INK, _HALO = "#b0006d", "#ffffff"
_END = "\n</svg>\n"


def marked_svg(picture: Picture, ident: str, width: int) -> str:
    """The drawing, ``width`` CSS pixels wide; ``ident`` is unique on the page."""
    drawn = to_svg(picture.scene, Look.COLOUR, ident, width, picture.colours)
    frame = frame_of(picture.scene, flat(picture.scene.items), width)
    marks = "".join(_marks(picture.differing, frame))
    rings = tag("g", {"class": "change", "fill": "none", "stroke-linejoin": "round"}, marks)
    return drawn.removesuffix(_END) + (f"\n{rings}" if marks else "") + _END


def _marks(items: tuple[Flat, ...], frame: Frame) -> Iterator[str]:
    """All pale lines first, so that no ring hides another's ink."""
    for ink, weight in ((_HALO, 5), (_INK, 2.2)):
        for item in items:
            pen: dict[str, str | float] = {"stroke": ink, "stroke-width": weight}
            yield _mark(item, frame, pen)


def _mark(item: Flat, frame: Frame, pen: dict[str, str | float]) -> str:
    match item:
        case Area():
            outline = [_on(point, frame) for point in item.points]
            return tag("path", {**pen, "d": path_data([outline], "Z")})
        case Line():
            run = [_on(point, frame) for point in item.points]
            return tag("path", {**pen, "d": path_data([run])})
        case Letter() | Note():
            block = text_block(item)
            x, y = _on(item.at, frame)
            return _around((x + block.dx, y + block.dy), block.width, block.height, pen)
        case Measure():
            lines = measure_lines(_on(item.start, frame), _on(item.end, frame), item)
            face = TEXTS[TextKind.MEASURE]
            return _around(lines.text_at, text_width(item.text, face), face.size, pen)
        case Arrow():
            (x, y), (u, v) = _on(item.start, frame), _on(item.end, frame)
            return _around(((x + u) / 2, (y + v) / 2), 0, 0, pen)


def _around(middle: Place, width: float, height: float, pen: dict[str, str | float]) -> str:
    """A ring, as wide as what it goes round."""
    across, down = max(width / 2 + 4, _RING), max(height / 2 + 3, _RING)
    box = {"x": middle[0] - across, "y": middle[1] - down, "width": 2 * across, "height": 2 * down}
    return tag("rect", {**pen, **box, "rx": down})


def _on(point: Point, frame: Frame) -> Place:
    return on_screen((float(point[0]), float(point[1])), frame)
