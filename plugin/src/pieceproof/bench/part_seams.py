"""Seams sewn in two goes: half of one now, the other half when its neighbour is in place.

In: flat rectangles and a `JoinPart`; then whatever is sewn on; then `CloseSeam`. Out: a thing
with an open seam, and in the end a flat rectangle.

While the seam is open, the thing is worked out in one position: the open seam at the top of the
first piece, its sewn end on the right, so that a corner at the bottom left is still missing. Faces
are laid as they will lie when the seam is closed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import (
    Face,
    Faces,
    Flat,
    cut_faces,
    is_rectangle,
    moved,
    pared,
    turned,
    turned_over,
)
from pieceproof.bench.words import excess, length
from pieceproof.lengths import Number
from pieceproof.shapes import Line, Point, bounds, quarter_turns
from pieceproof.steps import JoinPart, Side

_ROUND = (Side.LEFT, Side.TOP, Side.RIGHT, Side.BOTTOM)
"""Clockwise: a quarter turn brings each to the next."""

_ZERO, _ONE = Fraction(0), Fraction(1)


@dataclass(frozen=True)
class _Position:
    """How a thing is brought into the position it is worked out in: turned, then mirrored."""

    quarters: int
    mirrored: bool

    def brought(self, thing: Flat) -> Flat:
        there = turned(thing, self.quarters)
        return turned_over(there) if self.mirrored else there

    def back(self, thing: Flat) -> Flat:
        return turned(turned_over(thing) if self.mirrored else thing, -self.quarters % 4)

    def place(self, point: Point, width: Number, height: Number) -> Point:
        """Where a point of a thing of this size lies that was brought back."""
        x, y = point
        turn = quarter_turns(-self.quarters % 4, width, height)
        return turn.point((width - x, y) if self.mirrored else (x, y))

    def side(self, side: Side) -> Side:
        there = _ROUND[(_ROUND.index(side) + self.quarters) % 4]
        opposite = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
        return opposite.get(there, there) if self.mirrored else there


@dataclass(frozen=True)
class PartSewn:
    """A thing with an open seam, without its bottom left corner until that is ``filled``.

    ``notch`` is where the raw left edge of the body lies, ``slit`` where its raw top edge lies;
    ``left`` is the raw left edge of what was sewn into the missing corner.
    """

    faces: Faces
    width: Number
    height: Number
    notch: Number
    slit: Number
    allowance: Fraction
    position: _Position
    left: Number | None = None


def part_joined(item: Flat, added: Flat, step: JoinPart) -> PartSewn:
    """``added`` sewn to half of a side of ``item``."""
    position = _position(step)
    base, strip, a = position.brought(item), position.brought(added), step.allowance
    if not is_rectangle(base) or not is_rectangle(strip):
        raise CannotSew("two rectangles", "another outline")
    if strip.width <= base.width:
        by = excess(strip.width, base.width, "longer", "too short")
        expected = f"a piece longer than the edge it is sewn to, {length(base.width)}"
        raise CannotSew(expected, length(strip.width), by)
    if not 0 < 2 * a < base.width or a >= min(base.height, strip.height):
        raise CannotSew("half a seam that reaches past the next one", length(a))
    notch, slit = strip.width - base.width, strip.height - 2 * a
    faces = (
        *pared(strip, _ZERO, _ZERO, _ZERO, a),
        *moved(pared(base, _ZERO, a, _ZERO, _ZERO), notch, slit),
    )
    return PartSewn(faces, strip.width, slit + base.height, notch, slit, a, position)


def joined_to_part(thing: PartSewn, added: Flat, side: Side) -> PartSewn:
    """``added`` sewn to a whole edge of a thing whose seam is still open."""
    there, piece, a = thing.position.side(side), thing.position.brought(added), thing.allowance
    if there is Side.TOP or thing.left is not None:
        raise CannotSew("the open seam to be finished first", f"a seam on the {side.value}")
    if not is_rectangle(piece) or a >= min(piece.width, piece.height):
        raise CannotSew("a rectangle wider than the seam allowance", "another piece")
    if there is Side.RIGHT:
        _check_edge(piece.height, thing.height)
        kept = cut_faces(thing.faces, Line(-_ONE, _ZERO, a - thing.width))
        new = moved(pared(piece, a, _ZERO, _ZERO, _ZERO), thing.width - 2 * a, _ZERO)
        return replace(thing, faces=(*kept, *new), width=thing.width + piece.width - 2 * a)
    if there is Side.BOTTOM:
        _check_edge(piece.width, thing.width - thing.notch)
        kept = cut_faces(thing.faces, Line(_ZERO, -_ONE, a - thing.height))
        new = moved(pared(piece, _ZERO, a, _ZERO, _ZERO), thing.notch, thing.height - 2 * a)
        return replace(thing, faces=(*kept, *new), height=thing.height + piece.height - 2 * a)
    _check_edge(piece.height, thing.height - thing.slit)
    left = thing.notch + 2 * a - piece.width
    new = moved(pared(piece, _ZERO, a, a, _ZERO), left, thing.slit)
    return replace(thing, faces=(*_body_cut_back(thing), *new), left=left)


def closed(thing: PartSewn) -> Flat:
    """The seam finished: what hung over meets what was sewn into the corner, ends even."""
    if thing.left is None:
        raise CannotSew("its missing corner filled before the seam is finished", "a gap")
    _check_edge(thing.width - thing.left, thing.width)
    whole = Flat(thing.faces, thing.width, thing.height)
    if not is_rectangle(whole):
        raise CannotSew("a full rectangle", "another outline")
    return thing.position.back(whole)


def as_it_lies(thing: PartSewn) -> Flat:
    """What is to be seen of a thing with an open seam, in the position it was begun in."""
    return thing.position.back(Flat(thing.faces, thing.width, thing.height))


Seam: TypeAlias = tuple[Point, Point]
"""Where a seam starts and ends, finished, in a thing as it lies."""


def half_seam(thing: PartSewn) -> Seam:
    """The half that is sewn first."""
    level = thing.slit + thing.allowance
    middle = (thing.notch + thing.width) / 2
    return _placed(thing, (middle, level), (thing.width, level))


def seam_to_part(before: PartSewn, after: PartSewn, side: Side) -> Seam:
    """The seam of what was sewn to a thing while its first seam is open."""
    a = before.allowance
    match before.position.side(side):
        case Side.RIGHT:
            x = before.width - a
            return _placed(after, (x, _ZERO), (x, before.height))
        case Side.BOTTOM:
            y = before.height - a
            return _placed(after, (before.notch, y), (before.width, y))
        case _:
            x = before.notch + a
            return _placed(after, (x, before.slit), (x, before.height))


def last_half(thing: PartSewn) -> Seam:
    """The seam below what hung over, in the finished thing."""
    assert thing.left is not None
    level = thing.slit + thing.allowance
    return _placed(thing, (thing.left, level), (thing.notch, level))


def hanging_side(thing: PartSewn) -> Side:
    """The side of the first piece to which what hangs over was sewn."""
    return next(side for side in Side if thing.position.side(side) is Side.TOP)


def _placed(thing: PartSewn, start: Point, end: Point) -> Seam:
    back = thing.position.place
    size = thing.width, thing.height
    return back(start, *size), back(end, *size)


def _position(step: JoinPart) -> _Position:
    quarters = (1 - _ROUND.index(step.side)) % 4
    start = _Position(quarters, False).side(step.start)
    if start not in (Side.LEFT, Side.RIGHT):
        raise CannotSew("a seam that starts at one end", f"a start at the {step.start.value}")
    return _Position(quarters, start is Side.LEFT)


def _body_cut_back(thing: PartSewn) -> Faces:
    """All but the piece that hangs over, less the allowance along the body's left edge."""
    a = thing.allowance
    edge = Line(_ONE, _ZERO, thing.notch + a)
    kept: list[Face] = []
    for face in thing.faces:
        hangs_over = bounds([face.outline]).bottom <= thing.slit + a
        kept += (face,) if hangs_over else cut_faces((face,), edge)
    return tuple(kept)


def _check_edge(found: Number, expected: Number) -> None:
    if found != expected:
        raise CannotSew(
            f"edges of one length: {length(expected)}",
            length(found),
            excess(found, expected, "too long", "too short"),
        )
