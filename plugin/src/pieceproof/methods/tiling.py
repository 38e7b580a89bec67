"""Whether straight-sided patches fill a rectangle, and where their corners meet others' sides.

In: finished patches. Out: the same with a corner wherever another patch has one, and what is wrong.

Patches that go clockwise without crossing themselves fill the rectangle once, without gap or
overlap, exactly if each of their edges either lies against one edge of another patch, walked the
other way, or on the rectangle, and their areas add up to it: the edges then cancel out but for the
rectangle's own.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import combinations, pairwise

from quicktions import Fraction

from pieceproof.lengths import Number, sign
from pieceproof.methods.templates import Shaped
from pieceproof.model import Size
from pieceproof.shapes import Point, Polygon, area

Edge = tuple[Point, Point]


def clockwise(outline: Polygon) -> Polygon:
    """The outline the other way round if it went anticlockwise."""
    return outline if area(outline) > 0 else outline[::-1]


def with_meeting_corners(shapes: Sequence[Shaped]) -> tuple[Shaped, ...]:
    """All patches with a corner in each straight side where another patch has one."""
    corners = list(dict.fromkeys(p for shape in shapes for p in shape.outline))
    return tuple(
        replace(
            shape,
            outline=tuple(
                p for edge in _edges(shape.outline) for p in (edge[0], *_between(edge, corners))
            ),
        )
        for shape in shapes
    )


def crosses_itself(outline: Polygon) -> bool:
    """Whether two edges of an outline meet other than at the corner they share."""
    edges = _edges(outline)
    for (i, first), (j, second) in combinations(enumerate(edges), 2):
        if j - i in (1, len(edges) - 1):
            shared = first[1] if j - i == 1 else first[0]
            others = [p for p in (*first, *second) if p != shared]
            if any(_lies_on(p, edge) for p in others for edge in (first, second) if p not in edge):
                return True
        elif _meet(first, second):
            return True
    return False


def unmatched(shapes: Sequence[Shaped], size: Size) -> tuple[str, Edge] | None:
    """A patch and an edge of it with a gap or an overlap beside it; None if all is filled."""
    edges = [(shape.name, edge) for shape in shapes for edge in _edges(shape.outline)]
    known = [edge for _, edge in edges]
    for name, (p, q) in edges:
        against = known.count((q, p))
        if known.count((p, q)) > 1 or against > 1 or (against == 0 and not _on_rim(p, q, size)):
            return name, (p, q)
    return None


def filled(shapes: Iterable[Shaped]) -> Number:
    """The area of all patches together."""
    total: Number = Fraction(0)
    for shape in shapes:
        total = total + area(shape.outline)
    return total


def _edges(outline: Polygon) -> Sequence[Edge]:
    return list(pairwise((*outline, outline[0])))


def _between(edge: Edge, corners: Iterable[Point]) -> Sequence[Point]:
    start, end = edge
    found = [p for p in corners if p not in edge and _lies_on(p, edge)]
    return sorted(found, key=lambda p: _dot(start, end, p))


def _lies_on(p: Point, edge: Edge) -> bool:
    start, end = edge
    if _cross(start, end, p) != 0:
        return False
    return 0 <= _dot(start, end, p) <= _dot(start, end, end)


def _meet(first: Edge, second: Edge) -> bool:
    (p, q), (r, s) = first, second
    sides = (_side(p, q, r), _side(p, q, s), _side(r, s, p), _side(r, s, q))
    if sides[0] * sides[1] < 0 and sides[2] * sides[3] < 0:
        return True
    return any(_lies_on(a, second) for a in first) or any(_lies_on(a, first) for a in second)


def _on_rim(p: Point, q: Point, size: Size) -> bool:
    """Whether an edge runs along the rectangle, clockwise."""
    (x, y), (to_x, to_y) = p, q
    zero = Fraction(0)
    return (
        (y == to_y == zero and x < to_x)
        or (x == to_x == size.width and y < to_y)
        or (y == to_y == size.height and x > to_x)
        or (x == to_x == zero and y > to_y)
    )


def _side(p: Point, q: Point, r: Point) -> int:
    return sign(_cross(p, q, r))


def _cross(p: Point, q: Point, r: Point) -> Number:
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def _dot(p: Point, q: Point, r: Point) -> Number:
    return (q[0] - p[0]) * (r[0] - p[0]) + (q[1] - p[1]) * (r[1] - p[1])
