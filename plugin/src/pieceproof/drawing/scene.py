"""What a drawing shows, as plain data.

Goes in: nothing. Comes out: frozen values that a caller builds and `svg.to_svg` draws.
It does not say how anything looks; that is `style`.

Places are pairs of numbers in cloth units (inches or centimetres), x to the right and y *down*.
Any number that `float()` accepts will do, so lengths stay exact until they are drawn. Line
weights, letters and the distance of a measure from its shape are in screen units and the same in
every drawing, whatever its scale.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import SupportsFloat

Point = tuple[SupportsFloat, SupportsFloat]
Place = tuple[float, float]
Transform = tuple[
    SupportsFloat, SupportsFloat, SupportsFloat, SupportsFloat, SupportsFloat, SupportsFloat
]

MIRROR: Transform = (-1, 0, 0, 1, 0, 0)


class AreaKind(StrEnum):
    """What an area stands for; it decides the outline only."""

    PATCH = "patch"
    """An area of the finished work, seam to seam."""
    PIECE = "piece"
    """Something cut, with its raw edges: a heavier outline."""
    TOP = "top"
    """A patch in a picture of a whole top: the finest outline and a closer hatch."""
    CLOTH = "cloth"
    """Uncut cloth, behind the strips that are cut from it."""
    OFFCUT = "offcut"
    """Cloth left over: a broken outline, never filled."""
    GHOST = "ghost"
    """Something that is not there yet or not any more: a faint broken outline."""


class LineKind(StrEnum):
    """What a line stands for."""

    SEAM = "seam"
    """Stitching: dashed."""
    CUT = "cut"
    """A cut to make: heavy and solid."""
    DRAWN = "drawn"
    """A pencil line on the wrong side: dotted."""
    FOLD = "fold"
    """A fold or crease: dash and dot."""
    EDGE = "edge"
    """An outline that no area draws."""
    LEADER = "leader"
    """From a letter to the area that is too small to hold it."""


class TextKind(StrEnum):
    """How large a text is and what it stands for."""

    PIECE = "letter"
    """The letter of a piece."""
    STEP = "step"
    """The number of a step or stage, in a disc."""
    LABEL = "label"
    """A name beside a shape."""
    CAPTION = "caption"
    """A remark below or beside a shape."""
    MEASURE = "measure"
    """A length."""


class ArrowKind(StrEnum):
    """What an arrow says."""

    PRESS = "press"
    """Press the seam allowances the way the arrow points."""
    PRESS_OPEN = "press-open"
    """Press the seam allowances open."""
    NEXT = "next"
    """From one stage to the next."""
    GRAIN = "grain"
    """The straight grain runs along the arrow, which has two thin heads."""


class Side(StrEnum):
    """Where a text stands, seen from its point."""

    HERE = "here"
    ABOVE = "above"
    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True)
class Box:
    """An upright rectangle in cloth units: its top left corner and its size."""

    x: SupportsFloat
    y: SupportsFloat
    width: SupportsFloat
    height: SupportsFloat


@dataclass(frozen=True)
class Area:
    """A simple polygon of one cloth.

    Args:
        points: corners in order; the last joins the first.
        cloth: the part this cloth plays in the design, None for bare paper.
        value: 1 (lightest) to 5 (darkest), drawn as hatching without colour; None: no hatch.
        layer: areas of one layer may touch but not overlap; a higher layer covers a lower one.
    """

    points: Sequence[Point]
    cloth: str | None = None
    value: int | None = None
    kind: AreaKind = AreaKind.PATCH
    layer: int = 0


@dataclass(frozen=True)
class Line:
    """An open run of straight stretches. Lines lie above all areas."""

    points: Sequence[Point]
    kind: LineKind = LineKind.SEAM


@dataclass(frozen=True)
class Letter:
    """A short text centred on a place, upright however the shape is turned.

    `room` is the side of the upright square round that place which is free for it, in cloth units;
    where the drawing is too small for the letter to fit, it is left out. None: always drawn.
    """

    at: Point
    text: str
    kind: TextKind = TextKind.PIECE
    room: SupportsFloat | None = None


@dataclass(frozen=True)
class Note:
    """One or more lines of text (split at line ends) standing clear of a place.

    Texts to the left or right of it are flush with it, others are centred.
    """

    at: Point
    text: str
    side: Side = Side.BELOW
    kind: TextKind = TextKind.LABEL


@dataclass(frozen=True)
class Arrow:
    """A straight arrow from start to end."""

    start: Point
    end: Point
    kind: ArrowKind = ArrowKind.PRESS


@dataclass(frozen=True)
class Measure:
    """A dimension line from start to end with its text.

    It stands to the left of someone who walks from start to end, so that walking round a shape
    clockwise keeps all its measures outside. `tier` 1 is next to the shape, 2 beyond that.
    """

    start: Point
    end: Point
    text: str
    tier: int = 1


@dataclass(frozen=True)
class Group:
    """Items moved together; groups may hold groups.

    `transform` (a, b, c, d, e, f) takes (x, y) to (a x + c y + e, b x + d y + f), in the order of
    SVG 1.1 section 7.4. Texts stay upright and lines keep their weight.
    """

    items: Sequence["Item"]
    transform: Transform


Item = Area | Line | Letter | Note | Arrow | Measure | Group
Flat = Area | Line | Letter | Note | Arrow | Measure


@dataclass(frozen=True)
class Scene:
    """One drawing.

    Args:
        title: what it is, in a few words; also the alternative text.
        desc: the same drawing told in a sentence or two; may be empty.
        box: the cloth that must be shown; room for texts and measures is added to it.
    """

    title: str
    desc: str
    box: Box
    items: Sequence[Item]


def shifted(dx: SupportsFloat, dy: SupportsFloat) -> Transform:
    """Return the transform that moves by (dx, dy)."""
    return (1, 0, 0, 1, dx, dy)


def turned(quarters: int) -> Transform:
    """Return the transform that turns about (0, 0) by quarter turns, clockwise on the page."""
    cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarters % 4]
    return (cos, sin, -sin, cos, 0, 0)


def flat(items: Iterable[Item]) -> list[Flat]:
    """Return the items with all groups dissolved and all places as floats in the scene's units.

    >>> flat([Group([Letter((1, 0), "A")], turned(1))])[0].at
    (0.0, 1.0)
    """
    return _flat(items, (1.0, 0.0, 0.0, 1.0, 0.0, 0.0))


_Matrix = tuple[float, float, float, float, float, float]


def _flat(items: Iterable[Item], matrix: _Matrix) -> list[Flat]:
    placed: list[Flat] = []
    for item in items:
        if isinstance(item, Group):
            placed.extend(_flat(item.items, _inner_first(item.transform, matrix)))
        else:
            placed.append(_placed(item, matrix))
    return placed


def _placed(item: Flat, matrix: _Matrix) -> Flat:
    match item:
        case Area() | Line():
            return replace(item, points=tuple(_at(point, matrix) for point in item.points))
        case Letter() | Note():
            return replace(item, at=_at(item.at, matrix))
        case Measure() if _mirrors(matrix):
            return replace(item, start=_at(item.end, matrix), end=_at(item.start, matrix))
        case Measure() | Arrow():
            return replace(item, start=_at(item.start, matrix), end=_at(item.end, matrix))


def _at(point: Point, matrix: _Matrix) -> Place:
    x, y = float(point[0]), float(point[1])
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def _mirrors(matrix: _Matrix) -> bool:
    a, b, c, d, _, _ = matrix
    return a * d - b * c < 0


def _inner_first(inner: Transform, outer: _Matrix) -> _Matrix:
    a, b, c, d, e, f = (float(number) for number in inner)
    p, q, r, s, t, u = outer
    return (
        p * a + r * b,
        q * a + s * b,
        p * c + r * d,
        q * c + s * d,
        p * e + r * f + t,
        q * e + s * f + u,
    )
