"""Where seams end on the edges of what is sewn, and which way their allowances lie there.

In: finished pictures and sizes. Out: `Edges`, joined, turned and transposed as the things
themselves are. A direction is known as far as a seam's own is: each `End` names its seam.

Edges are read from the left and from the top. Where more than one seam ends at a place, the one
sewn last holds the others down and is the one that counts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.lengths import Number, magnitude
from pieceproof.published import Patch, Picture
from pieceproof.shapes import Point
from pieceproof.steps import Side

FIXED = ""
"""The seam whose direction is never turned round."""

OPEN = "open"
"""A seam that is pressed open."""


@dataclass(frozen=True)
class End:
    """Where a seam comes to an edge, finished.

    Its allowance lies toward the end of the edge if the seam's direction equals ``after``, else
    toward the start.
    """

    place: Number
    seam: str
    after: bool


Edges: TypeAlias = Mapping[Side, tuple[End, ...]]


@dataclass(frozen=True)
class Ended:
    """A thing's finished size and the seams that end on its edges."""

    width: Number
    height: Number
    edges: Edges


@dataclass(frozen=True)
class Meet:
    """Two seams that come to the same place of a third one, from both sides of it."""

    first: End
    second: End


def plain(width: Number, height: Number) -> Ended:
    """A thing without seams."""
    return Ended(width, height, dict.fromkeys(Side, ()))


def turned(thing: Ended, quarters: int) -> Ended:
    """The thing turned clockwise."""
    for _ in range(quarters % 4):
        edges = thing.edges
        thing = Ended(
            thing.height,
            thing.width,
            {
                Side.TOP: _reversed(edges[Side.LEFT], thing.height),
                Side.RIGHT: edges[Side.TOP],
                Side.BOTTOM: _reversed(edges[Side.RIGHT], thing.height),
                Side.LEFT: edges[Side.BOTTOM],
            },
        )
    return thing


def transposed(thing: Ended) -> Ended:
    """The thing with rows and columns exchanged."""
    edges = {_TRANSPOSED[side]: thing.edges[side] for side in Side}
    return Ended(thing.height, thing.width, edges)


_TRANSPOSED = {
    Side.TOP: Side.LEFT,
    Side.LEFT: Side.TOP,
    Side.BOTTOM: Side.RIGHT,
    Side.RIGHT: Side.BOTTOM,
}


def in_a_row(
    things: Sequence[Ended], seams: Sequence[tuple[End, End]]
) -> tuple[Ended, tuple[Meet, ...]]:
    """Things side by side, joined by seams whose ends at the top and bottom are given.

    The places of these ends are filled in.
    """
    starts = list(accumulate((t.width for t in things), initial=Fraction(0)))
    inner = starts[1:-1]
    edges: dict[Side, tuple[End, ...]] = {
        Side.LEFT: things[0].edges[Side.LEFT],
        Side.RIGHT: things[-1].edges[Side.RIGHT],
    }
    for number, side in enumerate((Side.TOP, Side.BOTTOM)):
        own = [replace(ends[number], place=place) for place, ends in zip(inner, seams, strict=True)]
        edges[side] = _with_seams(things, starts, side, own)
    met = (m for a, b in pairwise(things) for m in meets(a.edges[Side.RIGHT], b.edges[Side.LEFT]))
    return Ended(starts[-1], things[0].height, edges), tuple(met)


def meets(first: Sequence[End], second: Sequence[End]) -> Iterator[Meet]:
    """The ends that come together where two edges are sewn to each other."""
    there = {end.place: end for end in second}
    for end in first:
        if end.place in there:
            yield Meet(end, there[end.place])


def _with_seams(
    things: Sequence[Ended], starts: Sequence[Number], side: Side, own: Sequence[End]
) -> tuple[End, ...]:
    taken = {end.place for end in own}
    inside = (
        replace(end, place=end.place + start)
        for thing, start in zip(things, starts, strict=False)
        for end in thing.edges[side]
    )
    ends = {end.place: end for end in inside if end.place not in taken}
    ends |= {end.place: end for end in own}
    return tuple(ends[place] for place in sorted(ends))


def _reversed(ends: Sequence[End], length: Number) -> tuple[End, ...]:
    return tuple(End(length - e.place, e.seam, not e.after) for e in reversed(ends))


def ends_in_picture(
    picture: Picture, seam: str, holds: Callable[[Patch, Patch], bool | None]
) -> Ended:
    """The ends of a unit's seams; ``holds`` tells whether the second patch has the allowance.

    Where it cannot tell, there is no end.
    """
    edges = {}
    for side in Side:
        walked = [_along(p, picture, side) for p in picture.patches if p.layer == 0]
        edges[side] = tuple(_ends(picture, walked, side, seam, holds))
    return Ended(picture.width, picture.height, edges)


@dataclass(frozen=True)
class _Walked:
    """A patch with its corners as seen along an edge: how far along, how far inside."""

    patch: Patch
    corners: tuple[Point, ...]
    start: Number | None
    end: Number | None


def _along(patch: Patch, picture: Picture, side: Side) -> _Walked:
    seen: Mapping[Side, Callable[[Point], Point]] = {
        Side.TOP: lambda p: (p[0], p[1]),
        Side.BOTTOM: lambda p: (p[0], picture.height - p[1]),
        Side.LEFT: lambda p: (p[1], p[0]),
        Side.RIGHT: lambda p: (p[1], picture.width - p[0]),
    }
    corners = tuple(map(seen[side], patch.outline))
    on_edge = [along for along, inside in corners if inside == 0]
    return _Walked(patch, corners, min(on_edge, default=None), max(on_edge, default=None))


def _farthest(tips: Sequence[_Walked]) -> _Walked | None:
    """Of patches that reach a corner with their tips, the one farthest from the edge.

    The seam sewn last at the corner has it on its other side, whichever seam that is.
    """
    return max(tips, key=_steepness, default=None)


def _steepness(tip: _Walked) -> Number:
    """How steeply a tip leaves the edge on its flatter side, along the other edge infinitely."""
    count = len(tip.corners)
    at = tip.corners.index(next(p for p in tip.corners if p[1] == 0))
    x = tip.corners[at][0]
    beside = (tip.corners[(at + 1) % count], tip.corners[(at - 1) % count])
    return min(inside / magnitude(along - x) for along, inside in beside if along != x)


def _ends(
    picture: Picture,
    walked: Sequence[_Walked],
    side: Side,
    seam: str,
    holds: Callable[[Patch, Patch], bool | None],
) -> Iterator[End]:
    """Between patches that follow each other; and at a corner that a patch reaches with its tip."""
    length = picture.width if side in (Side.TOP, Side.BOTTOM) else picture.height
    touching = [w for w in walked if w.start is not None]
    row = sorted((w for w in touching if w.start != w.end), key=lambda w: w.start)  # type: ignore[arg-type,return-value]
    tips = [w for w in touching if w.start == w.end]
    pairs = [(a.end, a, b) for a, b in pairwise(row)]
    first, last = (_farthest([t for t in tips if t.start == place]) for place in (0, length))
    if first is not None and row:
        pairs.insert(0, (first.start, first, row[0]))
    if last is not None and row:
        pairs.append((last.start, row[-1], last))
    for place, before, behind in pairs:
        second = holds(before.patch, behind.patch)
        if second is not None and place is not None:
            yield End(place, seam, second)
