"""What shows of template pieces that are sewn together: finished patches and raw allowances.

In: shapes where they lie. Out: the outline of the cloth that shows of each. The allowance along
an edge that is not sewn is a strip, cut off by the seams that run out through it, as all cloth is
that lies beyond a seam.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from pieceproof.bench.outlines import (
    Passing,
    Shape,
    arc_of,
    beside,
    corner_before,
    moved_corner,
    outward,
)
from pieceproof.lengths import Number, sign
from pieceproof.shapes import Line, Point, Polygon, area, cut, line_through, tidy


def showing(shape: Shape, others: Sequence[Shape]) -> Polygon:
    """The cloth that shows: the finished patch, and the allowance along edges that are not sewn.

    The allowance ends at the seams that pass it and, where the whole has a corner, at the raw
    edges of the pieces beside it: tips that stick out are trimmed as one sews.
    """
    template = shape.template
    if not shape.sewn:
        return template.cut
    corners: list[Point] = []
    for i, place in enumerate(template.seam_lines):
        free = (corner_before(template, i) not in shape.sewn, i not in shape.sewn)
        corners += [] if all(free) else [place]
        corners += _strip(shape, others, i) if free[1] else []
    return tidy(corners)


def _strip(shape: Shape, others: Sequence[Shape], edge: int) -> Sequence[Point]:
    """What shows beyond an edge, from its start to its end and without these."""
    template = shape.template
    count = len(template.seam_lines)
    start, end = (template.seam_lines[i % count] for i in (edge, edge + 1))
    first = [*_at_corner(shape, edge)][-1]
    last = next(iter(_at_corner(shape, (edge + 1) % count)))
    strip: Polygon = (start, first, last, end)
    arc = arc_of(template, edge)
    if arc is not None:
        ways = (outward(template, edge, i % count) for i in (edge, edge + 1))
        middle = [beside(p, w, template.allowance) for p, w in zip((start, end), ways, strict=True)]
        return (first, *middle, last)
    lines = [line_through(p.start, p.end) for p in shape.passed if p.place in (start, end)]
    lines += [line for other in others for line in _raw_lines_beside(other, start, end)]
    for line in lines:
        strip = cut(strip, line)
    for passing in shape.passed:
        if passing.place not in (start, end) and _runs_through(passing, strip, (shape, *others)):
            strip = cut(strip, line_through(passing.start, passing.end))
    from_start = strip.index(start) if start in strip else 0
    return tuple(p for p in (*strip[from_start:], *strip[:from_start]) if p not in (start, end))


def _at_corner(shape: Shape, corner: int) -> Iterable[Point]:
    template = shape.template
    edges = (corner_before(template, corner), corner)
    out = [Fraction(0) if edge in shape.sewn else template.allowance for edge in edges]
    ways = [outward(template, edge, corner) for edge in edges]
    return moved_corner(template.seam_lines[corner], (ways[0], ways[1]), (out[0], out[1]))


def _raw_lines_beside(other: Shape, start: Point, end: Point) -> Iterable[Line]:
    """Raw edges of another piece that meet an edge in a corner of the whole."""
    template = other.template
    count = len(template.seam_lines)
    along = (end[0] - start[0], end[1] - start[1])
    for i, (p, q) in enumerate(
        zip(template.seam_lines, _rotated(template.seam_lines), strict=True)
    ):
        if i in other.sewn or not (q == start or p == end) or arc_of(template, i) is not None:
            continue
        way = (q[0] - p[0], q[1] - p[1])
        turn = _cross(way, along) if q == start else _cross(along, way)
        if sign(turn) > 0:
            out = outward(template, i, i % count)
            yield line_through(*(beside(place, out, template.allowance) for place in (p, q)))


def _rotated(corners: Polygon) -> Polygon:
    return (*corners[1:], corners[0])


def _runs_through(passing: Passing, strip: Polygon, shapes: Sequence[Shape]) -> bool:
    """Whether a seam, on its way to the raw edge, runs through the inside of a strip."""
    if not strip or area(strip) <= 0:
        return False
    way = passing.beyond()
    low: Number = Fraction(0)
    high = max((_reach(shape, passing.place, way) for shape in shapes), default=low)
    for p, q in zip(strip, _rotated(strip), strict=True):
        inside = line_through(p, q)
        here, slope = inside.at(passing.place), inside.a * way[0] + inside.b * way[1]
        if slope == 0:
            if here <= 0:
                return False
        elif slope > 0:
            low = max(low, -here / slope)
        else:
            high = min(high, -here / slope)
    return low < high


def _reach(shape: Shape, place: Point, way: Point) -> Number:
    """How often the way has to be gone from a corner to come to the raw edge beside it."""
    template = shape.template
    longest: Number = Fraction(0)
    for i, corner in enumerate(template.seam_lines):
        if corner != place:
            continue
        for edge in (corner_before(template, i), i):
            out = outward(template, edge, i)
            speed = out[0] * way[0] + out[1] * way[1]
            if edge not in shape.sewn and speed > 0:
                longest = max(longest, template.allowance / speed)
    return longest


def _cross(p: Point, q: Point) -> Number:
    return p[0] * q[1] - p[1] * q[0]
