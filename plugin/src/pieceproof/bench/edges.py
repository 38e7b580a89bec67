"""Seams and cuts along one straight edge of a flat thing that need not be a rectangle.

In: flat things, and edges named for the side or corner they face. Out: flat things. An edge whose
steepness is irrational cannot be measured exactly and is refused.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from quicktions import Fraction

from pieceproof.bench.facing import TOWARD
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.stitching import stretches_inside
from pieceproof.bench.table import Faces, Flat, carried, cut_faces, flat
from pieceproof.bench.words import excess, length
from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.shapes import Line, Motion, Point, line_through
from pieceproof.steps import Corner, JoinEdges, Meeting, Side


@dataclass(frozen=True)
class RawEdge:
    """A straight raw edge, walked clockwise around its thing: the cloth is on the right hand."""

    start: Point
    end: Point

    @property
    def along(self) -> Point:
        return (self.end[0] - self.start[0], self.end[1] - self.start[1])


@dataclass(frozen=True)
class _Hem:
    """An edge made ready to be sewn: its seam line, its direction, the middle of what meets."""

    seam: Line
    way: Point
    middle: Point
    reach: Number


def edges_joined(item: Flat, added: Flat, step: JoinEdges) -> Flat:
    """``added``, turned to fit, sewn to ``item``; both are cut back to the seam line."""
    base = _hem(item, step.edge, step)
    other = _hem(added, step.added_edge, step)
    if step.meeting is Meeting.SEAM_POINTS and base.reach != other.reach:
        by = excess(other.reach, base.reach, "too far apart", "too near to each other")
        raise CannotSew(f"seam points {length(base.reach)} apart", length(other.reach), by)
    fitted = carried(added.faces, _onto(other, base))
    kept, new = cut_faces(item.faces, base.seam), cut_faces(fitted, base.seam.flipped())
    if not _share_the_seam(item.faces, fitted, base.seam) or not kept or not new:
        raise CannotSew("edges that lie on each other", "edges side by side")
    return flat((*kept, *new))


def seam_along(item: Flat, step: JoinEdges) -> Line:
    """The seam line of the thing that stays as it lies; its positive side is the thing."""
    return _hem(item, step.edge, step).seam


def tips_trimmed(thing: Flat, edge: Side | Corner) -> Flat:
    """What is left when everything beyond one straight edge is cut off; at least something."""
    raw = facing_edge(thing, edge)
    line = line_through(raw.start, raw.end)
    if not _sticks_out(thing.faces, line):
        raise CannotSew(f"something beyond the {edge.value} edge", "nothing to cut off")
    return flat(cut_faces(thing.faces, line))


def facing_edge(thing: Flat, toward: Side | Corner) -> RawEdge:
    """The straight edge whose outward direction is nearest; the outermost of several alike."""
    outline = raw_edges(thing.faces)
    best = max(_facing(edge, toward) for edge in outline)
    nearest = [edge for edge in outline if _facing(edge, toward) == best]
    if any(_cross(edge.along, nearest[0].along) != 0 for edge in nearest):
        raise CannotSew(f"one edge that faces the {toward.value}", "two that face it alike")
    inside = line_through(nearest[0].start, nearest[0].end)
    outermost = min(inside.at(edge.start) for edge in nearest)
    found = [edge for edge in nearest if inside.at(edge.start) == outermost]
    if len(found) > 1:
        raise CannotSew(f"one edge that faces the {toward.value}", "an edge with a gap")
    return found[0]


def raw_edges(faces: Faces) -> Sequence[RawEdge]:
    """The outline of faces that do not overlap, as straight edges; none repeats or goes on."""
    sides = [
        RawEdge(p, face.outline[(i + 1) % len(face.outline)])
        for face in faces
        if face.layer == 0
        for i, p in enumerate(face.outline)
    ]
    if len(faces) == 1:
        return sides
    return _straightened([part for side in sides for part in _uncovered(side, sides)])


def _uncovered(side: RawEdge, others: Iterable[RawEdge]) -> Iterable[RawEdge]:
    """The parts of a face's side where no other face lies against it."""
    along = side.along
    line, square = line_through(side.start, side.end), _dot(along, along)
    hidden = []
    for other in others:
        if line.at(other.start) == 0 == line.at(other.end) and _dot(other.along, along) < 0:
            ends = [_dot(_from(side.start, p), along) / square for p in (other.end, other.start)]
            hidden.append((max(ends[0], Fraction(0)), min(ends[1], Fraction(1))))
    free: Number = Fraction(0)
    for start, end in sorted((h for h in hidden if h[0] < h[1]), key=lambda h: h[0]):
        if free < start:
            yield RawEdge(_at(side, free), _at(side, start))
        free = max(free, end)
    if free < 1:
        yield RawEdge(_at(side, free), side.end)


def _straightened(edges: Sequence[RawEdge]) -> Sequence[RawEdge]:
    """Edges that go straight on made one."""
    left = list(edges)
    whole = []
    while left:
        edge = left.pop()
        again = True
        while again:
            again = False
            for other in left:
                if _cross(edge.along, other.along) == 0 and _dot(edge.along, other.along) > 0:
                    if other.start == edge.end:
                        edge, again = RawEdge(edge.start, other.end), True
                    elif other.end == edge.start:
                        edge, again = RawEdge(other.start, edge.end), True
                if again:
                    left.remove(other)
                    break
        whole.append(edge)
    return whole


def _facing(edge: RawEdge, toward: Side | Corner) -> Number:
    """Grows as the outward direction comes nearer; the square of the cosine with its sign."""
    dx, dy = edge.along
    right, down = TOWARD[toward]
    turned = dy * right - dx * down
    return turned * _size(turned) / (dx * dx + dy * dy)


def _hem(thing: Flat, toward: Side | Corner, step: JoinEdges) -> _Hem:
    edge = facing_edge(thing, toward)
    if _sticks_out(thing.faces, line_through(edge.start, edge.end)):
        raise CannotSew(f"nothing beyond the {toward.value} edge", "cloth that sticks out")
    way = _unit(edge.along)
    long = _dot(edge.along, way)
    first: Number = Fraction(0)
    last = long
    if step.meeting is Meeting.SEAM_POINTS:
        first, last = _seam_points(thing, edge, way, step.allowance)
    inward = (-way[1], way[0])
    middle = (first + last) / 2
    seam = Line(*inward, _dot(inward, edge.start) + step.allowance)
    place = (
        edge.start[0] + way[0] * middle + inward[0] * step.allowance,
        edge.start[1] + way[1] * middle + inward[1] * step.allowance,
    )
    return _Hem(seam, way, place, last - first)


def _seam_points(
    thing: Flat, edge: RawEdge, way: Point, allowance: Fraction
) -> tuple[Number, Number]:
    """How far along the edge its two seam points lie: allowance * cot(half the corner's angle)."""
    outline = raw_edges(thing.faces)
    before = [other for other in outline if other.end == edge.start]
    behind = [other for other in outline if other.start == edge.end]
    if len(before) != 1 or len(behind) != 1:
        raise CannotSew("an edge between two corners", "edges that touch in a point")
    first = allowance * _cot_half(_unit(before[0].along), way)
    last = allowance * _cot_half(way, _unit(behind[0].along))
    return first, _dot(edge.along, way) - last


def _cot_half(arriving: Point, leaving: Point) -> Number:
    """Of the inner angle between two unit edges: (1 + cos) / sin, cos being -(arriving.leaving)."""
    return (1 - _dot(arriving, leaving)) / _cross(arriving, leaving)


def _onto(added: _Hem, base: _Hem) -> Motion:
    """Turns ``added`` so that its seam line runs back along that of ``base``, middles together."""
    cos, sin = -_dot(base.way, added.way), -_cross(added.way, base.way)
    turn = Motion(cos, -sin, sin, cos)
    x, y = turn.point(added.middle)
    return Motion(cos, -sin, sin, cos, base.middle[0] - x, base.middle[1] - y)


def _share_the_seam(first: Faces, second: Faces, seam: Line) -> bool:
    stretches = sorted((*stretches_inside(first, seam), *stretches_inside(second, seam)))
    return any(later[0] < earlier[1] for earlier, later in pairwise(stretches))


def _sticks_out(faces: Faces, edge: Line) -> bool:
    return any(edge.at(p) < 0 for face in faces for p in face.outline)


def _unit(way: Point) -> Point:
    """A direction scaled to length 1."""
    dx, dy = way
    if dx == 0:
        return (Fraction(0), dy / _size(dy))
    steepness = dy / dx
    if isinstance(steepness, Surd):
        raise CannotSew("an edge that can be measured exactly", "one of irrational steepness")
    whole = _size(dx) * square_root(1 + steepness * steepness)
    return (dx / whole, dy / whole)


def _size(value: Number) -> Number:
    return -value if sign(value) < 0 else value


def _at(edge: RawEdge, share: Number) -> Point:
    return (edge.start[0] + share * edge.along[0], edge.start[1] + share * edge.along[1])


def _from(start: Point, end: Point) -> Point:
    return (end[0] - start[0], end[1] - start[1])


def _dot(p: Point, q: Point) -> Number:
    return p[0] * q[0] + p[1] * q[1]


def _cross(p: Point, q: Point) -> Number:
    return p[0] * q[1] - p[1] * q[0]
