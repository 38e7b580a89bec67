"""Seams between template patches: which edges two groups of patches share, in sewing order.

In: finished patches whose corners all meet, and the order of joining. Out: seams from corner to
corner, the corners at which each turns, and where it has to stop short of the raw edge; or what is
wrong with the order. Knows no allowance.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pieceproof.lengths import Number
from pieceproof.methods.templates import Bow, Shaped
from pieceproof.shapes import Point

Edge = tuple[Point, Point]


@dataclass(frozen=True)
class Side:
    """One edge of a patch, by the number of the corner it starts at, clockwise."""

    patch: str
    number: int


@dataclass(frozen=True)
class Seam:
    """``added`` is sewn to ``base``; both stand for all that is joined to them already.

    ``edges`` are pairs of sides that come to lie on each other, along the base clockwise.
    """

    base: str
    added: str
    edges: tuple[tuple[Side, Side], ...]
    start: Point
    end: Point
    turns: frozenset[Point]


def seams_in_order(
    patches: Sequence[Shaped], order: Sequence[tuple[str, str]]
) -> tuple[tuple[Seam, ...], str]:
    """The seam of each join, and "" or what is wrong with the first join that cannot be sewn."""
    sides = {
        edge: Side(p.name, i)
        for p in patches
        for i, edge in enumerate(pairwise((*p.outline, p.outline[0])))
    }
    shapes = {patch.name: patch for patch in patches}
    groups = {patch.name: frozenset({patch.name}) for patch in patches}
    seams: list[Seam] = []
    for base, added in order:
        if groups[base] is groups[added]:
            return tuple(seams), f"{base} and {added} are joined already"
        shared = _shared(sides, groups[base], groups[added])
        chain = _in_line(shared)
        if not chain:
            meet = "in several seams at once" if shared else "nowhere"
            return tuple(seams), f"{base} and {added} meet {meet} when they are to be joined"
        seams.append(_seam(shapes, sides, base, added, chain))
        whole = groups[base] | groups[added]
        groups |= dict.fromkeys(whole, whole)
    if len(next(iter(groups.values()))) < len(patches):
        return tuple(seams), "some patches are never joined to the others"
    return tuple(seams), ""


def stops_at(seams: Sequence[Seam], number: int, place: Point) -> bool:
    """Whether a later seam turns at the end of a seam, which must then stop at the corner."""
    return any(place in later.turns for later in seams[number + 1 :])


def _shared(sides: Mapping[Edge, Side], base: frozenset[str], added: frozenset[str]) -> list[Edge]:
    return [
        (p, q)
        for (p, q), side in sides.items()
        if side.patch in base and (q, p) in sides and sides[q, p].patch in added
    ]


def _in_line(edges: Sequence[Edge]) -> list[Edge]:
    """The edges one behind the other, () if they are not one line."""
    following = {p: (p, q) for p, q in edges}
    ends = {q for _, q in edges}
    starts = [edge for edge in edges if edge[0] not in ends] or list(edges[:1])
    if len(starts) != 1 or len(following) < len(edges):
        return []
    line = [starts[0]]
    while line[-1][1] in following and len(line) < len(edges):
        line.append(following[line[-1][1]])
    return line if len(set(line)) == len(edges) else []


def _seam(
    shapes: Mapping[str, Shaped],
    sides: Mapping[Edge, Side],
    base: str,
    added: str,
    chain: Sequence[Edge],
) -> Seam:
    pairs = tuple((sides[p, q], sides[q, p]) for p, q in chain)
    turns = set()
    for ((p, q), (_, r)), (one, two) in zip(pairwise(chain), pairwise(pairs), strict=True):
        bows = [_bow_at(shapes[side.patch], side.number) for side in (one[0], two[0])]
        smooth = bows[0] is not None and bows[0] == bows[1]
        if not smooth and _cross(p, q, r) != 0:
            turns.add(q)
    return Seam(base, added, pairs, chain[0][0], chain[-1][1], frozenset(turns))


def _bow_at(patch: Shaped, number: int) -> tuple[Point, Number] | None:
    """Centre and radius of the circle that an edge belongs to."""
    corners = len(patch.outline)
    for bow in patch.bows:
        first, last = (patch.outline.index(p) for p in (bow.start, bow.end))
        if (number - first) % corners < (last - first) % corners:
            return _circle(bow)
    return None


def _circle(bow: Bow) -> tuple[Point, Number]:
    return bow.centre, bow.radius


def _cross(p: Point, q: Point, r: Point) -> Number:
    return (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0])
