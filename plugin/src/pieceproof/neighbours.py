"""Which fabrics lie beside which in a quilt, and where.

In: a publication and its drawing. Out: each pair of fabrics that share a stretch of seam on the
finished top, once, with the make in which they first meet. Exact; corners that only touch do not
count. What is sewn onto other patches meets those that the rectangle around it reaches.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.methods.method import SET_B
from pieceproof.published import Drawing, Patch, Picture, Publication
from pieceproof.shapes import Point

Span = tuple[Number, Number, str]
Way = tuple[Number, Number, Number]


@dataclass(frozen=True)
class Meeting:
    """Two fabrics, in the order in which the patches come, and the make where they meet."""

    one: str
    other: str
    make: str


def meetings(publication: Publication, drawing: Drawing) -> tuple[Meeting, ...]:
    """All pairs of different fabrics, in sewing order of where they first meet."""
    found: dict[frozenset[str], Meeting] = {}
    for make in publication.makes:
        picture = drawing.pictures[make.name]
        shown = make.name.removesuffix(SET_B)
        laid = _lying(picture) if make.method else ()
        for one, other in (*_pairs(picture), *laid):
            found.setdefault(frozenset((one, other)), Meeting(one, other, shown))
    return tuple(found.values())


def _pairs(picture: Picture) -> Iterator[tuple[str, str]]:
    """Pairs of fabrics with a stretch of edge in common."""
    lines: dict[Way, list[Span]] = defaultdict(list)
    for patch in picture.patches:
        for way, span in _edges(patch):
            lines[way].append(span)
    seen: dict[frozenset[str], tuple[str, str]] = {}
    for spans in lines.values():
        for one, other in _overlapping(spans):
            seen.setdefault(frozenset((one, other)), (one, other))
    yield from seen.values()


def _edges(patch: Patch) -> Iterator[tuple[Way, Span]]:
    """Each edge as the line it lies on and its stretch of that line."""
    for start, end in zip(patch.outline, (*patch.outline[1:], patch.outline[0]), strict=True):
        if start == end:
            continue
        way = _way(start, end)
        along = 1 if way[0] == 0 else 0
        first, last = sorted((start[along], end[along]))
        yield way, (first, last, patch.fabric)


def _way(start: Point, end: Point) -> Way:
    """A line as upright or not, slope and place, the same for every stretch of it."""
    across, down = end[0] - start[0], end[1] - start[1]
    if across == 0:
        return Fraction(0), Fraction(0), start[0]
    slope = down / across
    return Fraction(1), slope, start[1] - slope * start[0]


def _overlapping(spans: list[Span]) -> Iterator[tuple[str, str]]:
    """Different fabrics of stretches that overlap, swept along the line."""
    active: list[Span] = []
    for span in sorted(spans):
        active = [other for other in active if other[1] > span[0]]
        yield from ((other[2], span[2]) for other in active if other[2] != span[2])
        active.append(span)


def _lying(picture: Picture) -> Iterator[tuple[str, str]]:
    """What is sewn onto others, and all that the rectangle around it reaches."""
    for upper in picture.patches:
        if upper.layer:
            below = (p for p in picture.patches if p.layer < upper.layer)
            for patch in below:
                if patch.fabric != upper.fabric and _touches(patch, upper):
                    yield patch.fabric, upper.fabric


def _touches(lower: Patch, upper: Patch) -> bool:
    """Whether the rectangles around two patches overlap."""
    return all(
        min(p[axis] for p in lower.outline) < max(p[axis] for p in upper.outline)
        and min(p[axis] for p in upper.outline) < max(p[axis] for p in lower.outline)
        for axis in (0, 1)
    )
