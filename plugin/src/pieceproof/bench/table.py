"""Cloth on the table: flat things, stacks of two layers, and lines across them.

In: polygons as they lie. Out: the same cut, moved, turned over. Nothing here knows a step, a
seam allowance or what a pattern says.

A face is the visible cloth of one piece: convex where cloth is only ever cut along straight lines
that cross the whole thing, else of any shape that such cuts leave in one part. The faces of a flat
thing do not overlap, but for shapes laid on it, and together reach to its raw edge; cloth hidden
in seams is left out.

Turning over: a thing is turned over as the page of a book, its left and right exchanged and its
top staying at the top. Faces of an upper layer are kept where they lie, seen through the cloth.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.bench.outlines import Marked
from pieceproof.lengths import Number, square_root
from pieceproof.shapes import (
    Box,
    Line,
    Motion,
    Point,
    Polygon,
    area,
    bounds,
    cut,
    mirror_left_right,
    quarter_turns,
    rectangle,
    shift,
)
from pieceproof.steps import Corner, Diagonal, Edge, Middle, SeamLine, Side, Slope, Way


@dataclass(frozen=True)
class Face:
    """The visible cloth of one piece; ``letter`` is "" where no single piece is meant.

    Faces of layer 0 do not overlap; one of a higher layer lies on those below it. ``grain`` is
    the way a thread of the cloth runs; the other threads cross it at a right angle.
    """

    fabric: str
    letter: str
    outline: Polygon
    layer: int = 0
    grain: Point = field(default=(Fraction(1), Fraction(0)), compare=False)

    def outlined(self, outline: Polygon) -> Face:
        """The same cloth with another outline."""
        return Face(self.fabric, self.letter, outline, self.layer, self.grain)


Faces: TypeAlias = tuple[Face, ...]


@dataclass(frozen=True)
class Flat:
    """One layer of cloth, face up, with the top left of its extent at the origin.

    ``marked`` is what was just cut by a template.
    """

    faces: Faces
    width: Number
    height: Number
    marked: Marked | None = None


@dataclass(frozen=True)
class Stack:
    """An upper layer, face down, on a lower one, face up, and the lines sewn through both."""

    lower: Faces
    upper: Faces
    seams: tuple[Line, ...]


Thing: TypeAlias = Flat | Stack


def cloth(fabric: str, letter: str, width: Number, height: Number) -> Flat:
    """A rectangle of cloth, face up."""
    return Flat((Face(fabric, letter, rectangle(width, height)),), width, height)


def flat(faces: Faces) -> Flat:
    """Faces laid with the top left of their extent at the origin; at least one face."""
    box = extent(faces)
    return Flat(moved(faces, -box.left, -box.top), box.width, box.height)


def extent(faces: Iterable[Face]) -> Box:
    """The smallest upright rectangle around some faces."""
    return bounds(face.outline for face in faces)


def moved(faces: Faces, dx: Number, dy: Number) -> Faces:
    """Faces moved without a turn."""
    if dx == 0 and dy == 0:
        return faces
    return tuple(f.outlined(tuple([(x + dx, y + dy) for x, y in f.outline])) for f in faces)


def carried(faces: Faces, motion: Motion) -> Faces:
    """Faces after any motion."""
    return tuple(
        Face(f.fabric, f.letter, motion.polygon(f.outline), f.layer, _direction(f.grain, motion))
        for f in faces
    )


def _direction(way: Point, motion: Motion) -> Point:
    x, y = way
    return (motion.a * x + motion.b * y, motion.c * x + motion.d * y)


def turned(thing: Flat, turns: int) -> Flat:
    """A flat thing turned clockwise by quarters."""
    if turns % 4 == 0:
        return thing
    faces = carried(thing.faces, quarter_turns(turns, thing.width, thing.height))
    swaps = turns % 2 == 1
    return Flat(faces, *((thing.height, thing.width) if swaps else (thing.width, thing.height)))


def turned_by_eighths(thing: Flat, eighths: int) -> Flat:
    """A flat thing turned clockwise by eighths."""
    quarters, odd = divmod(eighths, 2)
    upright = turned(thing, quarters)
    if not odd:
        return upright
    half = square_root(Fraction(1, 2))
    return flat(carried(upright.faces, Motion(half, -half, half, half)))


def turned_over(thing: Flat) -> Flat:
    """A flat thing turned over as the page of a book: left and right exchanged."""
    return Flat(carried(thing.faces, mirror_left_right(thing.width)), thing.width, thing.height)


def cut_faces(faces: Faces, line: Line) -> Faces:
    """What lies on the positive side of a line."""
    parts = [(f, cut(f.outline, line)) for f in faces]
    return tuple([f if p is f.outline else f.outlined(p) for f, p in parts if p])


def pared(thing: Flat, left: Number, top: Number, right: Number, bottom: Number) -> Faces:
    """What is left of a flat thing when this much is taken off its sides, not moved."""
    window = Box(left, top, thing.width - right, thing.height - bottom)
    kept: list[Face] = []
    for face in thing.faces:
        kept += _cut_by_all(face, _sides_crossed(face.outline, window))
    return tuple(kept)


def _sides_crossed(outline: Polygon, window: Box) -> Iterator[Line]:
    """The sides of a window that an outline reaches beyond; their insides are positive."""
    one, zero = Fraction(1), Fraction(0)
    if any(x < window.left for x, _ in outline):
        yield Line(one, zero, window.left)
    if any(y < window.top for _, y in outline):
        yield Line(zero, one, window.top)
    if any(x > window.right for x, _ in outline):
        yield Line(-one, zero, -window.right)
    if any(y > window.bottom for _, y in outline):
        yield Line(zero, -one, -window.bottom)


def _cut_by_all(face: Face, lines: Iterable[Line]) -> Faces:
    faces: Faces = (face,)
    for line in lines:
        faces = cut_faces(faces, line)
    return faces


def laid_at(upper: Flat, lower: Flat, corner: Corner) -> Faces:
    """The faces of ``upper``, as it lies, with this corner even with that of ``lower``."""
    right = corner in (Corner.TOP_RIGHT, Corner.BOTTOM_RIGHT)
    low = corner in (Corner.BOTTOM_LEFT, Corner.BOTTOM_RIGHT)
    zero = Fraction(0)
    return moved(
        upper.faces,
        lower.width - upper.width if right else zero,
        lower.height - upper.height if low else zero,
    )


def covered(faces: Iterable[Face]) -> Number:
    """The area of some faces, without those that lie on others."""
    total: Number = Fraction(0)
    for face in faces:
        if face.layer == 0:
            total = total + area(face.outline)
    return total


def is_rectangle(thing: Flat) -> bool:
    """Whether the faces fill their extent."""
    return covered(thing.faces) == thing.width * thing.height


def line_on(thing: Thing, place: SeamLine) -> Line | None:
    """A line on a thing; its positive side is the part toward the top, then left.

    A diagonal is that of the upper layer's extent as it lies, an edge or middle is that of the
    lower layer's extent; a flat thing is its own upper and lower layer. The line is not scaled to
    unit length. None for an offset from a diagonal whose steepness is irrational: its length
    would be a root of a root.
    """
    if isinstance(place, Edge | Middle):
        box = extent(thing.faces if isinstance(thing, Flat) else thing.lower)
        return _along_edge(box, place) if isinstance(place, Edge) else _through_middle(box, place)
    return _diagonal(extent(thing.faces if isinstance(thing, Flat) else thing.upper), place)


def _along_edge(box: Box, edge: Edge) -> Line:
    one, zero = Fraction(1), Fraction(0)
    if edge.side in (Side.LEFT, Side.RIGHT):
        x = box.left + edge.inset if edge.side is Side.LEFT else box.right - edge.inset
        return Line(-one, zero, -x)
    y = box.top + edge.inset if edge.side is Side.TOP else box.bottom - edge.inset
    return Line(zero, -one, -y)


def _through_middle(box: Box, middle: Middle) -> Line:
    one, zero = Fraction(1), Fraction(0)
    if middle.way is Way.UPRIGHT:
        return Line(-one, zero, -(box.left + box.right) / 2)
    return Line(zero, -one, -(box.top + box.bottom) / 2)


def _diagonal(box: Box, diagonal: Diagonal) -> Line | None:
    """The steepness is scaled so that only the offset needs a root."""
    steepness = box.height / box.width
    offset: Number = Fraction(0)
    if diagonal.offset != 0:
        if not isinstance(steepness, Fraction):
            return None
        offset = diagonal.offset * square_root(steepness * steepness + 1)
    if diagonal.slope is Slope.RISING:
        a, corner = -steepness, (box.left, box.bottom)
    else:
        a, corner = steepness, (box.left, box.top)
    return Line(a, Fraction(-1), a * corner[0] - corner[1] + offset)


def framed(faces: Faces, width: Number, height: Number, margin: Fraction) -> Flat:
    """Faces of a width x height rectangle with a margin of unnamed cloth around them."""
    wide, tall = width + 2 * margin, height + 2 * margin
    strips = (
        rectangle(wide, margin),
        rectangle(wide, margin, (Fraction(0), tall - margin)),
        rectangle(margin, height, (Fraction(0), margin)),
        rectangle(margin, height, (wide - margin, margin)),
    )
    inner = carried(faces, shift(margin, margin))
    return Flat((*inner, *(Face("", "", strip) for strip in strips)), wide, tall)
