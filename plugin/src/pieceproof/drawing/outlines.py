"""Where the outlines of polygons run together.

Goes in: the corners of polygons. Comes out: the straight stretches that two or more share.
It knows no cloth and no ink.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from .hatch import Stretch
from .scene import Place

FINENESS = 20
"""Outlines within about a twentieth of a unit of each other count as one."""


@dataclass(frozen=True, order=True)
class _Edge:
    """From where to where along a line: its direction, and its distance from (0, 0)."""

    start: float
    end: float
    ux: float
    uy: float
    away: float


def shared_stretches(polygons: Iterable[Sequence[Place]]) -> list[Stretch]:
    """Return the stretches that two or more outlines share, also where only a part is shared.

    >>> shared_stretches([[(0, 0), (2, 0), (2, 2)], [(1, 0), (3, 0), (3, -1)]])
    [((1.0, 0.0), (2.0, 0.0))]
    """
    by_line: dict[tuple[int, int, int], list[_Edge]] = {}
    for corners in polygons:
        for start, end in zip(corners, [*corners[1:], *corners[:1]], strict=True):
            for edge in _edge(start, end):
                by_line.setdefault(_line(edge), []).append(edge)
    return [stretch for line in sorted(by_line) for stretch in _doubled(sorted(by_line[line]))]


def _edge(start: Place, end: Place) -> Iterator[_Edge]:
    """Yield the edge, read from left to right; nothing for two corners in one place."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    if length < 1e-9:
        return
    ux, uy = dx / length, dy / length
    if ux < -1e-9 or (abs(ux) <= 1e-9 and uy < 0):
        ux, uy = -ux, -uy
    first, last = sorted(x * ux + y * uy for x, y in (start, end))
    yield _Edge(first, last, ux, uy, start[1] * ux - start[0] * uy)


def _line(edge: _Edge) -> tuple[int, int, int]:
    """Return the line an edge lies on, rounded off the places where round numbers fall."""
    numbers = (edge.ux * 1000, edge.uy * 1000, edge.away * FINENESS)
    along, across, away = (round(number + 0.1234) for number in numbers)
    return along, across, away


def _doubled(edges: Sequence[_Edge]) -> Iterator[Stretch]:
    reached = edges[0].start
    for edge in edges:
        end = min(edge.end, reached)
        if end - edge.start > 1 / FINENESS:
            yield _at(edge, edge.start), _at(edge, end)
        reached = max(reached, edge.end)


def _at(edge: _Edge, along: float) -> Place:
    return along * edge.ux - edge.away * edge.uy, along * edge.uy + edge.away * edge.ux
