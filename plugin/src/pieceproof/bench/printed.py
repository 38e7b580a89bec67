"""Printed foundations: what their sections ask of the cloth and of the order of sewing.

In: a `Foundation` as printed. Out: its sections seen from the side that takes the cloth, the seam
of each, how a section lies to its seam. A snag where sections do not fill the foundation or cannot
be sewn in their order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.bench.snags import CannotSew
from pieceproof.bench.words import counted, size
from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.shapes import (
    Box,
    Point,
    Polygon,
    area,
    bounds,
    cut,
    is_convex,
    line_through,
    mirror_left_right,
    overlap,
    rectangle,
)
from pieceproof.steps import Foundation

SeamEdge: TypeAlias = tuple[Point, Point]
"""Where a section meets those before it, walked with the section on the right hand."""

_ZERO = Fraction(0)


@dataclass(frozen=True)
class Printed:
    """A foundation's sections in sewing order, turned over, and the seams of all but the first."""

    width: Fraction
    height: Fraction
    sections: tuple[Polygon, ...]
    edges: tuple[SeamEdge, ...]

    def edge(self, number: int) -> SeamEdge:
        """The seam of a section, for section 1 that of section 2."""
        return self.edges[max(number - 2, 0)]


@dataclass(frozen=True)
class Lie:
    """How a section with its seam allowances lies to its seam, section 1 to that of section 2.

    ``start`` and ``way`` give the seam line, walked with the later section on the right hand;
    ``way`` is of unit length. What is needed of cloth reaches from ``low`` to ``high`` along it
    and from ``near`` to ``far`` square to it, both measured from ``start``.
    """

    start: Point
    way: Point
    low: Number
    high: Number
    near: Number
    far: Number

    @property
    def long(self) -> Number:
        return self.high - self.low

    @property
    def deep(self) -> Number:
        return self.far - self.near


def printed_of(step: Foundation) -> Printed:
    """A foundation, turned over; its sections must fill it and lie in a sewable order."""
    mirror = mirror_left_right(step.width)
    sections = tuple(mirror.polygon(section) for section in step.sections)
    if len(sections) < 2 or not all(len(s) > 2 and is_convex(s) for s in sections):
        raise CannotSew("two or more sections with straight sides", "other outlines")
    box = bounds(sections)
    if box != Box(_ZERO, _ZERO, step.width, step.height):
        expected = f"sections that fill {size(step.width, step.height)}"
        raise CannotSew(expected, size(box.width, box.height))
    if total_area(sections) != step.width * step.height or _overlapping(sections):
        raise CannotSew("sections that fill the foundation side by side", "gaps or overlaps")
    edges = (_seam_edge(sections, number) for number in range(2, len(sections) + 1))
    return Printed(step.width, step.height, sections, tuple(edges))


def lie_of(printed: Printed, number: int, seam: Fraction) -> Lie:
    """How a section and the allowances that its cloth gives to seams lie to its own seam."""
    start, end = printed.edge(number)
    way = _unit(end[0] - start[0], end[1] - start[1])
    needed = [*printed.sections[number - 1], *_given(printed, number, seam)]
    from_start = [(x - start[0], y - start[1]) for x, y in needed]
    along = [x * way[0] + y * way[1] for x, y in from_start]
    across = [y * way[0] - x * way[1] for x, y in from_start]
    near = min(across) if number == 1 else -seam
    return Lie(start, way, min(along), max(along), near, max(across))


def allowance_beyond(edge: SeamEdge, seam: Fraction) -> Polygon:
    """The strip beyond a seam, on the side of the section that is sewn on there."""
    start, end = edge
    way = _unit(end[0] - start[0], end[1] - start[1])
    dx, dy = -way[1] * seam, way[0] * seam
    return (start, end, (end[0] + dx, end[1] + dy), (start[0] + dx, start[1] + dy))


def total_area(outlines: Iterable[Polygon]) -> Number:
    """The areas of some outlines added up."""
    total: Number = _ZERO
    for outline in outlines:
        total = total + area(outline)
    return total


def _given(printed: Printed, number: int, seam: Fraction) -> Iterable[Point]:
    """Corners of what lies under later seams: the cloth shown there until then, one allowance."""
    shown = rectangle(printed.width, printed.height)
    if number > 1:
        shown = cut(shown, line_through(*printed.edge(number)))
    for later in range(number + 1, len(printed.sections) + 1):
        edge = printed.edge(later)
        yield from overlap(shown, allowance_beyond(edge, seam)) if shown else ()
        shown = cut(shown, line_through(*edge).flipped()) if shown else ()


def _seam_edge(sections: Sequence[Polygon], number: int) -> SeamEdge:
    """The edge along which a section meets the ones before it; they all lie beyond its line."""
    section, before = sections[number - 1], sections[: number - 1]
    for i, start in enumerate(section):
        end = section[(i + 1) % len(section)]
        line = line_through(start, end)
        beyond = all(line.at(p) <= 0 for other in before for p in other)
        if beyond and any(_shares(start, end, other) for other in before):
            return start, end
    expected = f"one line between section {number} and {counted(number - 1, 'section')} before it"
    raise CannotSew(expected, "another place")


def _shares(start: Point, end: Point, other: Polygon) -> bool:
    """Whether an edge has a stretch in common with an outline on its other side."""
    line = line_through(start, end)

    def place(p: Point) -> Number:
        return (p[0] - start[0]) * (end[0] - start[0]) + (p[1] - start[1]) * (end[1] - start[1])

    places = [place(p) for p in other if line.at(p) == 0]
    return len(places) > 1 and max(_ZERO, min(places)) < min(place(end), max(places))


def _unit(dx: Number, dy: Number) -> Point:
    """A direction scaled to length 1."""
    if dx == 0:
        return (_ZERO, Fraction(sign(dy)))
    steepness = dy / dx
    if isinstance(steepness, Surd):
        raise CannotSew("a line that can be measured exactly", "one of irrational steepness")
    whole = sign(dx) * square_root(1 + steepness * steepness)
    return (1 / whole, steepness / whole)


def _overlapping(sections: Sequence[Polygon]) -> bool:
    return any(overlap(a, b) for i, a in enumerate(sections) for b in sections[:i])
