"""Template pieces as they lie on the table: seam lines, marks, raw edges.

In: published templates. Out: shapes that know which of their seam lines are sewn, and the cloth
that shows of them. Nothing here knows a step.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.published import Arc, Numbering, Template
from pieceproof.shapes import Motion, Point, Polygon, tidy
from pieceproof.steps import SeamEnd


@dataclass(frozen=True)
class Passing:
    """Where a seam runs out through the seam allowance, and the line it follows there.

    ``place`` is ``start`` or ``end``, and the seam runs on from the other one over it. The cloth
    in question lies on the right hand of who walks from ``start`` to ``end``.
    """

    place: Point
    start: Point
    end: Point

    def beyond(self) -> Point:
        """The direction in which the seam runs on."""
        other = self.start if self.place == self.end else self.end
        return (self.place[0] - other[0], self.place[1] - other[1])


@dataclass(frozen=True)
class Shape:
    """One template piece under the name it was taken; ``sewn`` are numbers of seam edges.

    Edge i of the seam lines goes from corner i to the next one. ``passed`` are the ends of seams
    that were sewn along what the piece is part of.
    """

    name: str
    fabric: str
    letter: str
    template: Template
    sewn: frozenset[int] = frozenset()
    passed: tuple[Passing, ...] = ()


@dataclass(frozen=True)
class Ending:
    """Where a seam starts or ends, and how; ``turned`` if a later seam turns there."""

    place: Point
    kind: SeamEnd
    turned: bool = False


@dataclass(frozen=True)
class Marked:
    """What a flat thing knows of its template pieces."""

    shapes: tuple[Shape, ...]
    endings: tuple[Ending, ...] = ()


def marked_carried(marked: Marked, motion: Motion) -> Marked:
    """All shapes and endings after a motion that does not mirror."""
    return Marked(
        tuple(shape_carried(shape, motion) for shape in marked.shapes),
        tuple(replace(end, place=motion.point(end.place)) for end in marked.endings),
    )


def shape_carried(shape: Shape, motion: Motion) -> Shape:
    """One shape after a motion that does not mirror."""
    template = shape.template
    moved = replace(
        template,
        cut=motion.polygon(template.cut),
        seam_lines=motion.polygon(template.seam_lines),
        arcs=tuple(replace(arc, centre=motion.point(arc.centre)) for arc in template.arcs),
    )
    passed = tuple(
        Passing(motion.point(p.place), motion.point(p.start), motion.point(p.end))
        for p in shape.passed
    )
    return replace(shape, template=moved, passed=passed)


def marks_of(template: Template) -> Sequence[int]:
    """Corners of the seam lines by the number of their mark, from 1 at index 0."""
    inside = {i for arc in template.arcs for i in _inside(template, arc)}
    marks = [i for i in range(len(template.seam_lines)) if i not in inside]
    return marks if template.numbering is Numbering.CLOCKWISE else marks[::-1]


def walk(template: Template, start: int, end: int) -> Sequence[int]:
    """Corners passed clockwise from corner to corner, both included."""
    count = len(template.seam_lines)
    steps = (end - start) % count or count
    return [(start + i) % count for i in range(steps + 1)]


def raw_outline(template: Template) -> Polygon:
    """The raw edge that the seam lines and the allowance ask for, sharp tips cut off."""
    beyond = [template.allowance for _ in template.seam_lines]
    return tidy(tuple(_widened(template, beyond)))


def arc_of(template: Template, edge: int) -> Arc | None:
    """The arc that an edge of the seam lines belongs to."""
    count = len(template.seam_lines)
    return next((a for a in template.arcs if (edge - a.first) % count < a.last - a.first), None)


class NotMeasurable(Exception):  # noqa: N818
    """An edge of irrational steepness. Raised by outlines, caught where steps are sewn."""


def _inside(template: Template, arc: Arc) -> Iterable[int]:
    count = len(template.seam_lines)
    return (i % count for i in range(arc.first + 1, arc.last))


def _widened(template: Template, beyond: Sequence[Number]) -> Iterable[Point]:
    """The seam lines with each edge moved outward by its own distance."""
    for i, place in enumerate(template.seam_lines):
        arriving, leaving = (arc_of(template, edge) for edge in (corner_before(template, i), i))
        out = (beyond[i - 1], beyond[i])
        if arriving is not None and arriving is leaving:
            yield beside(place, outward(template, i, i), out[1])
            continue
        ways = (outward(template, corner_before(template, i), i), outward(template, i, i))
        if arriving is not None:
            yield beside(place, ways[0], out[0])
        yield from moved_corner(place, ways, out)
        if leaving is not None:
            yield beside(place, ways[1], out[1])


def corner_before(template: Template, corner: int) -> int:
    return (corner - 1) % len(template.seam_lines)


def moved_corner(
    place: Point, ways: tuple[Point, Point], out: tuple[Number, Number]
) -> Iterable[Point]:
    """Where two edges meet that have been moved outward; two places where a tip is cut off."""
    first, second = ways
    turn = _cross(first, second)
    if turn == 0:
        yield from (beside(place, first, out[0]), beside(place, second, out[1]))
    elif sign(turn) > 0 and out[0] == out[1] and _dot(first, second) <= Fraction(-1, 2):
        zero = Fraction(0)
        yield _meeting(place, ways, (out[0], zero))
        yield _meeting(place, ways, (zero, out[1]))
    else:
        yield _meeting(place, ways, out)


def _meeting(place: Point, ways: tuple[Point, Point], out: tuple[Number, Number]) -> Point:
    """The point that lies ``out[0]`` off the first and ``out[1]`` off the second edge."""
    (ax, ay), (bx, by) = ways
    whole = _cross(*ways)
    dx, dy = out[0] * by - out[1] * ay, out[1] * ax - out[0] * bx
    return (place[0] + dx / whole, place[1] + dy / whole)


def outward(template: Template, edge: int, corner: int) -> Point:
    """The unit direction square to an edge, or to its circle at a corner, away from the cloth."""
    corners = template.seam_lines
    start, end = corners[edge], corners[(edge + 1) % len(corners)]
    way = (end[0] - start[0], end[1] - start[1])
    arc = arc_of(template, edge)
    if arc is None:
        along = _unit(way)
        return (along[1], -along[0])
    if arc.radius == 0:
        raise NotMeasurable
    place = corners[corner]
    from_centre = ((place[0] - arc.centre[0]), (place[1] - arc.centre[1]))
    inward = _cross(way, (arc.centre[0] - start[0], arc.centre[1] - start[1]))
    radius = arc.radius if sign(inward) > 0 else -arc.radius
    return (from_centre[0] / radius, from_centre[1] / radius)


def _unit(way: Point) -> Point:
    dx, dy = way
    if dx == 0:
        return (Fraction(0), Fraction(sign(dy)))
    steepness = dy / dx
    square = steepness * steepness
    if isinstance(square, Surd):
        raise NotMeasurable
    along = sign(dx) / square_root(1 + square)
    return (Fraction(1) * along, steepness * along)


def beside(place: Point, way: Point, distance: Number) -> Point:
    return (place[0] + way[0] * distance, place[1] + way[1] * distance)


def _dot(p: Point, q: Point) -> Number:
    return p[0] * q[0] + p[1] * q[1]


def _cross(p: Point, q: Point) -> Number:
    return p[0] * q[1] - p[1] * q[0]
