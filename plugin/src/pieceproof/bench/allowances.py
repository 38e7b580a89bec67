"""What shows of template pieces that are sewn together: finished patches and raw allowances.

In: shapes where they lie. Out: the outline of the cloth that shows of each. The allowance along
an edge that is not sewn is a strip, cut off by the seams that run out through it, as all cloth is
that lies beyond a seam.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from quicktions import Fraction

from pieceproof.bench.outlines import (
    Passing,
    Shape,
    arc_of,
    beside,
    corner_before,
    moved_corner,
    outward,
)
from pieceproof.lengths import Number
from pieceproof.shapes import Line, Point, Polygon, area, cut, line_through, tidy


def showing(shapes: Sequence[Shape]) -> Sequence[Polygon]:
    """The cloth that shows of each: its finished patch, and the allowance of edges not sewn.

    The allowance ends at the seams that pass it, and at the raw edges along which the whole lies
    on one side: tips that stick out beyond these are trimmed.
    """
    rims = _rims(shapes) if len(shapes) > 1 else ()
    return [_shown(shape, shapes, rims) for shape in shapes]


def _rims(shapes: Sequence[Shape]) -> Sequence[Line]:
    """Raw edges beside which all seam lines lie on one side, each once; inside is positive."""
    corners = list(dict.fromkeys(p for s in shapes for p in s.template.seam_lines))
    found: dict[Line, bool] = {}
    for shape in shapes:
        places = shape.template.seam_lines
        for i, (x, y) in enumerate(places):
            if i in shape.sewn or arc_of(shape.template, i) is not None:
                continue
            out = outward(shape.template, i, i)
            rim = Line(-out[0], -out[1], -out[0] * x - out[1] * y)
            if rim not in found:
                found[rim] = all(rim.at(p) >= 0 for p in corners)
    allowance = shapes[0].template.allowance
    return [Line(rim.a, rim.b, rim.c - allowance) for rim, is_rim in found.items() if is_rim]


def _shown(shape: Shape, shapes: Sequence[Shape], rims: Sequence[Line]) -> Polygon:
    template = shape.template
    if not shape.sewn:
        return template.cut
    corners: list[Point] = []
    for i, place in enumerate(template.seam_lines):
        free = (corner_before(template, i) not in shape.sewn, i not in shape.sewn)
        corners += [] if all(free) else [place]
        corners += _strip(shape, shapes, rims, i) if free[1] else []
    return tidy(corners)


def _strip(
    shape: Shape, shapes: Sequence[Shape], rims: Sequence[Line], edge: int
) -> Sequence[Point]:
    """What shows beyond an edge, from its start to its end and without these."""
    template = shape.template
    count = len(template.seam_lines)
    start, end = (template.seam_lines[i % count] for i in (edge, edge + 1))
    first = [*_at_corner(shape, edge)][-1]
    last = next(iter(_at_corner(shape, (edge + 1) % count)))
    if arc_of(template, edge) is not None:
        ways = (outward(template, edge, i % count) for i in (edge, edge + 1))
        middle = [beside(p, w, template.allowance) for p, w in zip((start, end), ways, strict=True)]
        return (first, *middle, last)
    strip: Polygon = (start, first, last, end)
    near = [line_through(p.start, p.end) for p in shape.passed if p.place in (start, end)]
    for line in (*near, *rims):
        strip = cut(strip, line)
    for passing in shape.passed:
        if passing.place not in (start, end) and _runs_through(passing, strip, shapes):
            strip = cut(strip, line_through(passing.start, passing.end))
    from_start = strip.index(start) if start in strip else 0
    return tuple(p for p in (*strip[from_start:], *strip[:from_start]) if p not in (start, end))


def _at_corner(shape: Shape, corner: int) -> Iterable[Point]:
    template = shape.template
    edges = (corner_before(template, corner), corner)
    out = [Fraction(0) if edge in shape.sewn else template.allowance for edge in edges]
    ways = [outward(template, edge, corner) for edge in edges]
    return moved_corner(template.seam_lines[corner], (ways[0], ways[1]), (out[0], out[1]))


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
