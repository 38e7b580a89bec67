"""Geometry of what keeps its size on the screen: texts, measures and arrows.

Goes in: flat items (and, for arrows and measures, their ends on the screen). Comes out: how far
they reach, and plain lines, polygons and text places in screen units. It writes no SVG.
"""

from dataclasses import dataclass
from math import hypot

from . import style
from .frame import Reach
from .scene import (
    Area,
    Arrow,
    ArrowKind,
    Flat,
    Letter,
    Line,
    Measure,
    Note,
    Place,
    Point,
    Side,
    TextKind,
)
from .style import TEXTS, Face


@dataclass(frozen=True)
class TextBlock:
    """Lines of text and the middle of their block, from the place they hang on.

    `flush` is the horizontal end of the block that the lines share: -1 left, 0 middle, 1 right.
    """

    lines: tuple[str, ...]
    face: Face
    flush: int
    dx: float
    dy: float
    width: float
    height: float


@dataclass(frozen=True)
class MeasureLines:
    """A dimension line with its two end bars."""

    stretches: tuple[tuple[Place, Place], ...]
    text_at: Place


@dataclass(frozen=True)
class ArrowShape:
    """A shaft and its heads."""

    shaft: tuple[Place, Place]
    heads: tuple[tuple[Place, ...], ...]


def reaches(item: Flat) -> list[Reach]:
    """Return what must be visible of an item, hung on places in cloth units."""
    match item:
        case Area() | Line():
            return [Reach(float(x), float(y)) for x, y in item.points]
        case Arrow():
            half = style.HEAD_HALF
            ends = (item.start, item.end)
            return [Reach(float(x), float(y), half, half, half, half) for x, y in ends]
        case Measure():
            return _measure_reaches(item)
        case Letter(room=room) if room is not None:
            return []
        case Letter() | Note():
            return [_hung(_floats(item.at), text_block(item))]


def text_block(item: Letter | Note) -> TextBlock:
    """Return the lines of a text and where their block stands from its place."""
    lines = tuple(" ".join(line.split()) for line in item.text.splitlines())
    face = TEXTS[item.kind]
    if isinstance(item, Letter) and item.kind is TextKind.STEP:
        return TextBlock(lines, face, 0, 0, 0, 2 * style.DISC, 2 * style.DISC)
    width = max((style.text_width(line, face) for line in lines), default=0.0)
    height = face.size * (1 + style.LINE_STEP * (len(lines) - 1))
    side = item.side if isinstance(item, Note) else Side.HERE
    right, down = _DIRECTION[side]
    dx = right * (width / 2 + style.TEXT_GAP)
    dy = down * (height / 2 + style.TEXT_GAP)
    return TextBlock(lines, face, -right, dx, dy, width, height)


def measure_lines(start: Place, end: Place, measure: Measure) -> MeasureLines:
    """Return a measure between two places on the screen."""
    nx, ny = _left_hand(start, end)
    away = _away(nx, ny, measure.tier)
    tip = away + style.MEASURE_CLEAR
    near = style.MEASURE_CLEAR
    dx, dy = _text_away(nx, ny, measure)
    return MeasureLines(
        stretches=(
            (_moved(start, nx * away, ny * away), _moved(end, nx * away, ny * away)),
            (_moved(start, nx * near, ny * near), _moved(start, nx * tip, ny * tip)),
            (_moved(end, nx * near, ny * near), _moved(end, nx * tip, ny * tip)),
        ),
        text_at=((start[0] + end[0]) / 2 + dx, (start[1] + end[1]) / 2 + dy),
    )


def arrow_shape(start: Place, end: Place, kind: ArrowKind) -> ArrowShape:
    """Return an arrow between two places on the screen; a short arrow gets a short head."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    if length == 0:
        return ArrowShape((start, end), ())
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    both = kind in style.TWO_HEADED
    head = min(style.HEAD_LENGTH, length * (0.45 if both else 0.6))
    inset = head * 0.8
    tail = _moved(start, ux * inset, uy * inset) if both else start
    heads = [_head(end, ux, uy, head)] + ([_head(start, -ux, -uy, head)] if both else [])
    return ArrowShape((tail, _moved(end, -ux * inset, -uy * inset)), tuple(heads))


_DIRECTION = {
    Side.HERE: (0, 0),
    Side.ABOVE: (0, -1),
    Side.BELOW: (0, 1),
    Side.LEFT: (-1, 0),
    Side.RIGHT: (1, 0),
}


def _head(tip: Place, ux: float, uy: float, length: float) -> tuple[Place, ...]:
    half = style.HEAD_HALF * length / style.HEAD_LENGTH
    back = _moved(tip, -ux * length, -uy * length)
    return (tip, _moved(back, -uy * half, ux * half), _moved(back, uy * half, -ux * half))


def _measure_reaches(measure: Measure) -> list[Reach]:
    start, end = _floats(measure.start), _floats(measure.end)
    nx, ny = _left_hand(start, end)
    tip = _away(nx, ny, measure.tier) + style.MEASURE_CLEAR
    dx, dy = _text_away(nx, ny, measure)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    face = TEXTS[TextKind.MEASURE]
    width = style.text_width(measure.text, face)
    block = TextBlock((measure.text,), face, 0, dx, dy, width, face.size)
    bars = [Reach(x, y, -nx * tip, -ny * tip, nx * tip, ny * tip) for x, y in (start, end)]
    return [*bars, _hung(middle, block)]


def _hung(place: Place, block: TextBlock) -> Reach:
    across, up = block.width / 2, block.height / 2
    return Reach(
        place[0],
        place[1],
        left=across - block.dx,
        up=up - block.dy,
        right=across + block.dx,
        down=up + block.dy,
    )


def _away(nx: float, ny: float, tier: int) -> float:
    """Return how far a dimension line stands off; the texts of nearer tiers need their room."""
    return style.MEASURE_FIRST + (tier - 1) * (
        abs(nx) * style.TIER_WIDE + abs(ny) * style.TIER_HIGH
    )


def _text_away(nx: float, ny: float, measure: Measure) -> Place:
    face = TEXTS[TextKind.MEASURE]
    width = style.text_width(measure.text, face)
    far = _away(nx, ny, measure.tier) + style.MEASURE_TEXT_GAP
    far += abs(nx) * width / 2 + abs(ny) * face.size / 2
    return nx * far, ny * far


def _left_hand(start: Place, end: Place) -> Place:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    return (dy / length, -dx / length) if length else (0.0, -1.0)


def _moved(place: Place, dx: float, dy: float) -> Place:
    return place[0] + dx, place[1] + dy


def _floats(point: Point) -> Place:
    return float(point[0]), float(point[1])
