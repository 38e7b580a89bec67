"""Plane geometry that knows no patchwork: points, polygons, motions, straight cuts.

Points are pairs of exact numbers with x to the right and y down, as a quilt is drawn. A polygon
is a tuple of corners in order, clockwise as seen, without repeats and without straight corners
(`tidy` makes it so). Motions are exact affine maps that keep lengths. Nothing here rounds.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.lengths import Number, side_sign, sign

Point = tuple[Number, Number]
Polygon = tuple[Point, ...]


@dataclass(frozen=True)
class Box:
    """An upright rectangle by its left, top, right and bottom."""

    left: Number
    top: Number
    right: Number
    bottom: Number

    @property
    def width(self) -> Number:
        return self.right - self.left

    @property
    def height(self) -> Number:
        return self.bottom - self.top


@dataclass(frozen=True)
class Line:
    """The line a*x + b*y = c; its positive side is where a*x + b*y > c."""

    a: Number
    b: Number
    c: Number

    def at(self, point: Point) -> Number:
        """Positive, zero or negative as the point lies; the distance where a, b is unit."""
        return self.a * point[0] + self.b * point[1] - self.c

    def side(self, point: Point) -> int:
        """The sign of ``at``."""
        return side_sign(self.a, point[0], self.b, point[1], self.c)

    def flipped(self) -> Line:
        """The same line with its sides exchanged."""
        return Line(-self.a, -self.b, -self.c)


@dataclass(frozen=True)
class Motion:
    """x' = a*x + b*y + e, y' = c*x + d*y + f."""

    a: Number = Fraction(1)
    b: Number = Fraction(0)
    c: Number = Fraction(0)
    d: Number = Fraction(1)
    e: Number = Fraction(0)
    f: Number = Fraction(0)

    def point(self, p: Point) -> Point:
        """The image of a point."""
        return (self.a * p[0] + self.b * p[1] + self.e, self.c * p[0] + self.d * p[1] + self.f)

    def polygon(self, corners: Polygon) -> Polygon:
        """The image of a polygon, kept clockwise also when the motion mirrors."""
        moved = tuple(self.point(p) for p in corners)
        return moved if sign(self.a * self.d - self.b * self.c) > 0 else moved[::-1]

    def after(self, first: Motion) -> Motion:
        """The motion that does ``first`` and then this one."""
        return Motion(
            self.a * first.a + self.b * first.c,
            self.a * first.b + self.b * first.d,
            self.c * first.a + self.d * first.c,
            self.c * first.b + self.d * first.d,
            self.a * first.e + self.b * first.f + self.e,
            self.c * first.e + self.d * first.f + self.f,
        )


def rectangle(width: Number, height: Number, at: Point | None = None) -> Polygon:
    """A rectangle with its top left corner at ``at`` (the origin by default)."""
    left, top = at or (Fraction(0), Fraction(0))
    right, bottom = left + width, top + height
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def shift(dx: Number, dy: Number) -> Motion:
    """A move without a turn."""
    return Motion(e=dx, f=dy)


def quarter_turns(turns: int, width: Number, height: Number) -> Motion:
    """A clockwise turn by quarters of a width x height rectangle, back to the origin."""
    one, zero = Fraction(1), Fraction(0)
    return (
        Motion(),
        Motion(zero, -one, one, zero, height, zero),
        Motion(-one, zero, zero, -one, width, height),
        Motion(zero, one, -one, zero, zero, width),
    )[turns % 4]


def mirror_left_right(width: Number) -> Motion:
    """The mirror image of a rectangle of this width, in its own place."""
    return Motion(a=Fraction(-1), e=width)


def reflection(line: Line) -> Motion:
    """The mirror image across a line."""
    a, b, c = line.a, line.b, line.c
    n = a * a + b * b
    return Motion(
        1 - 2 * a * a / n, -2 * a * b / n, -2 * a * b / n, 1 - 2 * b * b / n,
        2 * a * c / n, 2 * b * c / n,
    )  # fmt: skip


def line_through(p: Point, q: Point) -> Line:
    """The line from p to q; its positive side is on the right hand of who walks p to q.

    With y down, the inside of a clockwise polygon is on the positive side of its edges.
    """
    a, b = p[1] - q[1], q[0] - p[0]
    return Line(a, b, a * p[0] + b * p[1])


def cut(polygon: Polygon, line: Line) -> Polygon:
    """The part of a polygon on the positive side of a line; () if there is none.

    Exact for convex polygons; a polygon that is not convex must meet the line in one stretch.
    """
    sides = [line.side(p) for p in polygon]
    if all(s >= 0 for s in sides):
        return polygon
    if all(s <= 0 for s in sides):
        return ()
    kept: list[Point] = []
    for i, p in enumerate(polygon):
        j = (i + 1) % len(polygon)
        if sides[i] >= 0:
            kept.append(p)
        if sides[i] * sides[j] < 0:
            kept.append(_crossing(p, polygon[j], line))
    return tuple(kept)


def overlap(p: Polygon, q: Polygon) -> Polygon:
    """What two convex polygons share; () if that has no area."""
    shared = p
    for i, corner in enumerate(q):
        if not shared:
            return ()
        shared = cut(shared, line_through(corner, q[(i + 1) % len(q)]))
    return shared


def area(polygon: Polygon) -> Number:
    """Area, positive for a clockwise polygon."""
    total: Number = Fraction(0)
    for i, (x, y) in enumerate(polygon):
        nx, ny = polygon[(i + 1) % len(polygon)]
        total = total + (x * ny - nx * y)
    return total / 2


def bounds(polygons: Iterable[Polygon]) -> Box:
    """The smallest upright rectangle around all corners."""
    points = [p for polygon in polygons for p in polygon]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def tidy(corners: Sequence[Point]) -> Polygon:
    """The same outline without repeated and straight corners; () if nothing is left."""
    kept = [p for i, p in enumerate(corners) if p != corners[i - 1] or len(corners) == 1]
    result = [
        p for i, p in enumerate(kept) if sign(_turn(kept[i - 1], p, kept[(i + 1) % len(kept)])) != 0
    ]
    return tuple(result) if len(result) >= 3 else ()


def canonical(polygon: Polygon) -> Polygon:
    """The same polygon started at its topmost, then leftmost corner, for comparing."""
    clean = tidy(polygon)
    if not clean:
        return ()
    first = min(range(len(clean)), key=lambda i: (clean[i][1], clean[i][0]))
    return clean[first:] + clean[:first]


def is_convex(polygon: Polygon) -> bool:
    """Whether every corner turns the same way."""
    n = len(polygon)
    return all(sign(_turn(polygon[i - 1], polygon[i], polygon[(i + 1) % n])) > 0 for i in range(n))


def apart(first: Box, second: Box) -> bool:
    """Whether two boxes share no area."""
    return (
        first.right <= second.left
        or second.right <= first.left
        or first.bottom <= second.top
        or second.bottom <= first.top
    )


def _turn(p: Point, q: Point, r: Point) -> Number:
    return (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0])


def _crossing(p: Point, q: Point, line: Line) -> Point:
    before, after = line.at(p), line.at(q)
    share = before / (before - after)
    return (p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1]))
