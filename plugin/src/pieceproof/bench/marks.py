"""Seams from mark to mark along the seam lines of templates, and shapes laid on a ground.

In: template pieces where they lie. Out: the same sewn together, and flat things. A seam may be
curved, or turn at marks: what matters is that the seam lines of both sides lie on each other
exactly.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeVar

from quicktions import Fraction

from pieceproof.bench.allowances import showing
from pieceproof.bench.outlines import (
    Ending,
    Marked,
    NotMeasurable,
    Passing,
    Shape,
    arc_of,
    marked_carried,
    marks_of,
    walk,
)
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import Face, Flat, cloth, flat, moved
from pieceproof.bench.words import excess, length
from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.published import Piece
from pieceproof.shapes import Motion, Point, bounds
from pieceproof.steps import JoinMarks, LayOn, SeamEnd, Side, Stretch, TurnEdge

T = TypeVar("T")

_ALONG = {Side.TOP: (1, 0), Side.RIGHT: (0, 1), Side.BOTTOM: (-1, 0), Side.LEFT: (0, -1)}
"""Which way each side is walked, clockwise."""


@dataclass(frozen=True)
class _Edge:
    """One straight stretch of a seam line, as it is followed, on a corner-to-corner edge."""

    shape: str
    number: int
    start: Point
    end: Point
    circle: tuple[Point, Number] | None


def marks_joined(base: Marked, other: Marked, step: JoinMarks) -> Marked:
    """``other``, turned to fit, sewn to ``base`` along the stretches of the step."""
    if {s.name for s in base.shapes} & {s.name for s in other.shapes}:
        raise CannotSew("every template piece taken once", "one of them twice")
    seam, against = _seam(base, step, _clockwise), _seam(other, step, _anticlockwise)
    for marked, edges in ((base, seam), (other, against)):
        _check_free(marked, edges, step.allowance)
    motion = _onto(against, seam)
    there = marked_carried(other, motion)
    turns = {second.start for first, second in pairwise(seam) if _turns(first, second)}
    if len(turns) != step.turns:
        raise CannotSew(f"a seam that turns {step.turns} corners", f"{len(turns)} corners")
    passes = _passes(seam, step)
    return Marked(
        (
            *_sewn(base, seam, passes),
            *_sewn(there, against, [Passing(p.place, p.end, p.start) for p in passes]),
        ),
        (*_passed(base, turns), *_passed(there, turns), *_ends(seam, step)),
    )


def edge_turned(marked: Marked, step: TurnEdge) -> Marked:
    """The thing turned so that an edge that is not sewn becomes a side."""
    shape = _named(marked, step.piece)
    start, end = (_corner_at(shape, number) for number in (step.start, step.end))
    numbers = walk(shape.template, start, end)[:-1]
    if len(numbers) > 1:
        raise CannotSew("a straight edge from one mark to the next", "another stretch")
    if shape.sewn & set(numbers):
        raise CannotSew("an edge that is not sewn", "a seam")
    ends = [shape.template.seam_lines[i] for i in (start, end)]
    along = _direction(ends[0], ends[1])
    x, y = _ALONG[step.side]
    cos, sin = along[0] * x + along[1] * y, along[0] * y - along[1] * x
    return marked_carried(marked, Motion(cos, -sin, sin, cos))


def laid_on(item: Flat, marked: Marked, step: LayOn, seam: Fraction) -> Flat:
    """The shape, its allowance turned under, on the item; both keep the way they lie."""
    check_settled(marked)
    for shape in marked.shapes:
        free = len(shape.sewn) < len(shape.template.seam_lines)
        if free and shape.template.allowance != step.allowance:
            by = excess(shape.template.allowance, step.allowance, "too wide", "too narrow")
            found = length(shape.template.allowance)
            raise CannotSew(f"{length(step.allowance)} to turn under", found, by)
    box = bounds(shape.template.seam_lines for shape in marked.shapes)
    dx = item.width / 2 + step.across - (box.left + box.right) / 2
    dy = item.height / 2 + step.down - (box.top + box.bottom) / 2
    inside = (
        min(box.left + dx, box.top + dy) >= seam
        and box.right + dx <= item.width - seam
        and box.bottom + dy <= item.height - seam
    )
    if not inside:
        raise CannotSew("a shape inside the seam lines", "one that reaches over them")
    layer = 1 + max(face.layer for face in item.faces)
    faces = tuple(Face(s.fabric, s.letter, s.template.seam_lines, layer) for s in marked.shapes)
    return Flat((*item.faces, *moved(faces, dx, dy)), item.width, item.height)


def check_settled(marked: Marked) -> None:
    """Every seam that stops at a corner must have its neighbour by now."""
    for ending in marked.endings:
        if ending.kind is SeamEnd.CORNER and not ending.turned:
            raise CannotSew("a seam from raw edge to raw edge", "one that stops at the corner")


def laid_out(marked: Marked) -> Flat:
    """The cloth of all shapes, the top left of its extent at the origin."""
    try:
        outlines = showing(marked.shapes)
    except NotMeasurable:
        raise CannotSew("edges that can be measured", "one of irrational steepness") from None
    pairs = zip(marked.shapes, outlines, strict=True)
    return flat(tuple(Face(shape.fabric, shape.letter, outline) for shape, outline in pairs))


def straight_seam(
    base: Marked, other: Marked, step: JoinMarks
) -> tuple[Point, Point, Point] | None:
    """The longest straight stretch of the seam on the cloth laid out, and the way from ``base`` to
    ``other`` across it; None where all of it is curved.
    """
    joined = marks_joined(base, other, step)
    straight = [edge for edge in _seam(base, step, _clockwise) if edge.circle is None]
    if not straight:
        return None
    longest = max(straight, key=lambda edge: _dot(_way(edge), _way(edge)))
    box = bounds(showing(joined.shapes))
    start, end = (
        (place[0] - box.left, place[1] - box.top) for place in (longest.start, longest.end)
    )
    along = _way(longest)
    return start, end, (along[1], -along[0])


def cut_cloth(piece: Piece) -> Flat:
    """A piece as it is cut: a rectangle, or the shape of its template."""
    template = piece.template
    if template is None:
        return cloth(piece.fabric, piece.letter, piece.short, piece.long)
    shape = Shape(piece.letter, piece.fabric, piece.letter, template)
    box = bounds([template.cut])
    face = Face(piece.fabric, piece.letter, template.cut)
    return Flat((face,), box.width, box.height, Marked((shape,)))


def taken_as(marked: Marked, name: str) -> Marked:
    """A template piece under the name it goes by from now on."""
    return replace(marked, shapes=tuple(replace(shape, name=name) for shape in marked.shapes))


def _named(marked: Marked, name: str) -> Shape:
    shape = next((s for s in marked.shapes if s.name == name), None)
    if shape is None:
        raise CannotSew(f"“{name}” in it", "it is not there")
    return shape


def _corner_at(shape: Shape, mark: int) -> int:
    marks = marks_of(shape.template)
    if not 1 <= mark <= len(marks):
        raise CannotSew(f"a mark {mark} on “{shape.name}”", f"{len(marks)} marks")
    return marks[mark - 1]


def _seam(
    marked: Marked, step: JoinMarks, follow: Callable[[Marked, Stretch], Sequence[_Edge]]
) -> Sequence[_Edge]:
    edges = [edge for stretch in step.stretches for edge in follow(marked, stretch)]
    if not edges:
        raise CannotSew("a seam to sew", "none")
    if any(first.end != second.start for first, second in pairwise(edges)):
        raise CannotSew("stretches that go on where the last one ends", "a gap in the seam")
    return edges


def _clockwise(marked: Marked, stretch: Stretch) -> Sequence[_Edge]:
    shape = _named(marked, stretch.piece)
    start, end = (_corner_at(shape, mark) for mark in (stretch.start, stretch.end))
    return _followed(shape, walk(shape.template, start, end))


def _anticlockwise(marked: Marked, stretch: Stretch) -> Sequence[_Edge]:
    shape = _named(marked, stretch.added_piece)
    ends = (stretch.added_end, stretch.added_start)
    start, end = (_corner_at(shape, mark) for mark in ends)
    return [
        replace(edge, start=edge.end, end=edge.start)
        for edge in reversed(_followed(shape, walk(shape.template, start, end)))
    ]


def _followed(shape: Shape, corners: Sequence[int]) -> Sequence[_Edge]:
    places = shape.template.seam_lines
    arcs = [arc_of(shape.template, i) for i in corners[:-1]]
    return [
        _Edge(shape.name, i, places[i], places[j], (arc.centre, arc.radius) if arc else None)
        for (i, j), arc in zip(pairwise(corners), arcs, strict=True)
    ]


def _check_free(marked: Marked, edges: Sequence[_Edge], allowance: Fraction) -> None:
    for edge in edges:
        shape = _named(marked, edge.shape)
        if edge.number in shape.sewn:
            raise CannotSew("an edge that is not sewn yet", f"a seam in “{shape.name}”")
        if shape.template.allowance != allowance:
            raise CannotSew(
                f"a seam allowance of {length(allowance)} on “{shape.name}”",
                length(shape.template.allowance),
            )
    if len({(edge.shape, edge.number) for edge in edges}) < len(edges):
        raise CannotSew("every edge sewn once", "one of them twice")


def _onto(added: Sequence[_Edge], base: Sequence[_Edge]) -> Motion:
    """The motion that lays one seam line on the other, corner for corner."""
    if len(added) != len(base):
        raise CannotSew(f"a seam line of {len(base)} stretches", f"one of {len(added)}")
    u, v = _way(base[0]), _way(added[0])
    square, other = _dot(u, u), _dot(v, v)
    if square != other or square == 0:
        raise CannotSew("seam lines of one length", "another length", _by(other, square))
    cos, sin = _dot(u, v) / square, _cross(v, u) / square
    (x, y), (p, q) = base[0].start, added[0].start
    motion = Motion(cos, -sin, sin, cos, x - (cos * p - sin * q), y - (sin * p + cos * q))
    for there, here in zip(added, base, strict=True):
        if motion.point(there.end) != here.end:
            raise CannotSew("seam lines that lie on each other", "marks that do not meet")
    return motion


def _by(found: Number, expected: Number) -> str:
    if isinstance(found, Surd) or isinstance(expected, Surd):
        return ""
    return excess(square_root(found), square_root(expected), "too long", "too short")


def _turns(first: _Edge, second: _Edge) -> bool:
    """Whether the seam turns a corner; a circle that goes on does not."""
    if first.circle is not None and first.circle == second.circle:
        return False
    return _cross(_way(first), _way(second)) != 0


def _passed(marked: Marked, turns: set[Point]) -> Iterable[Ending]:
    """The endings of a thing, after a seam that turns at some places."""
    for ending in marked.endings:
        if ending.place in turns and ending.kind is SeamEnd.EDGE:
            raise CannotSew(
                "seams that stop at the corner where this one turns", "one sewn to the raw edge"
            )
        yield replace(ending, turned=ending.turned or ending.place in turns)


def _ends(seam: Sequence[_Edge], step: JoinMarks) -> Iterable[Ending]:
    yield Ending(seam[0].start, step.begin)
    yield Ending(seam[-1].end, step.end)


def _sewn(marked: Marked, edges: Sequence[_Edge], passes: Sequence[Passing]) -> Sequence[Shape]:
    sewn = {(edge.shape, edge.number) for edge in edges}
    return [
        replace(
            shape,
            sewn=shape.sewn | {number for name, number in sewn if name == shape.name},
            passed=(*shape.passed, *passes),
        )
        for shape in marked.shapes
    ]


def _passes(seam: Sequence[_Edge], step: JoinMarks) -> Sequence[Passing]:
    """How the seam runs where it goes through to the raw edge; the base is on its right."""
    if seam[0].start == seam[-1].end:
        return []
    first, last = seam[0], seam[-1]
    begin = Passing(first.start, first.start, _straight_on(first.start, first, 1))
    end = Passing(last.end, _straight_on(last.end, last, -1), last.end)
    kinds = ((step.begin, begin), (step.end, end))
    return [passing for kind, passing in kinds if kind is SeamEnd.EDGE]


def _straight_on(place: Point, edge: _Edge, ahead: int) -> Point:
    """Another place on the line that the seam follows at one of its ends, ahead or behind."""
    way = _way(edge)
    if edge.circle is not None:
        (x, y), _ = edge.circle
        across = (place[1] - y, x - place[0])
        way = across if sign(_dot(across, way)) > 0 else (-across[0], -across[1])
    return (place[0] + way[0] * ahead, place[1] + way[1] * ahead)


def _direction(start: Point, end: Point) -> Point:
    dx, dy = end[0] - start[0], end[1] - start[1]
    if dx == 0:
        return (Fraction(0), Fraction(sign(dy)))
    steepness = dy / dx
    square = steepness * steepness
    if isinstance(square, Surd):
        raise CannotSew("an edge that can be measured", "one of irrational steepness")
    along = sign(dx) / square_root(1 + square)
    return (Fraction(1) * along, steepness * along)


def _way(edge: _Edge) -> Point:
    return (edge.end[0] - edge.start[0], edge.end[1] - edge.start[1])


def _dot(p: Point, q: Point) -> Number:
    return p[0] * q[0] + p[1] * q[1]


def _cross(p: Point, q: Point) -> Number:
    return p[0] * q[1] - p[1] * q[0]
