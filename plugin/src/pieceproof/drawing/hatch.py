"""Parallel lines clipped to a polygon.

Goes in: the corners of a simple polygon (it may have hollows), an angle and a distance.
Comes out: straight stretches inside the polygon. It knows no screen, colour or value.

The lines of one angle and distance are the same for all polygons of a drawing: they pass through
multiples of the distance from (0, 0), so that hatching runs on across abutting polygons.
"""

from collections.abc import Iterator, Sequence
from math import ceil, cos, floor, radians, sin

from .scene import Place

Stretch = tuple[Place, Place]


def hatch_lines(corners: Sequence[Place], angle: float, spacing: float) -> list[Stretch]:
    """Return the stretches of the hatch inside the polygon, in order of line and place.

    Args:
        corners: places in order, in any unit; fewer than three give nothing.
        angle: of the lines with the x axis in degrees, from x towards y.
        spacing: distance of neighbouring lines, more than 0, in the unit of the corners.

    >>> hatch_lines([(0, 1), (4, 1), (4, 4), (0, 4)], 0, 2)
    [((0.0, 2.0), (4.0, 2.0))]
    """
    along, across = cos(radians(angle)), sin(radians(angle))
    level = [(x * along + y * across, y * along - x * across) for x, y in corners]
    return [
        (_back(start, height, along, across), _back(end, height, along, across))
        for height in _heights(level, spacing)
        for start, end in _inside(level, height)
        if end > start
    ]


def _heights(level: Sequence[Place], spacing: float) -> Iterator[float]:
    if len(level) < 3:
        return
    heights = [y for _, y in level]
    first = ceil(min(heights) / spacing)
    last = floor(max(heights) / spacing)
    for step in range(first, last + 1):
        yield step * spacing


def _inside(level: Sequence[Place], height: float) -> Iterator[tuple[float, float]]:
    """Yield from where to where a level line is inside, by the even-odd rule.

    A line along an outline belongs to the polygon that lies beyond it, never to both or neither.
    """
    crossings = []
    for (x1, y1), (x2, y2) in zip(level, [*level[1:], level[0]], strict=True):
        if (y1 <= height) != (y2 <= height):
            crossings.append(x1 + (height - y1) / (y2 - y1) * (x2 - x1))
    crossings.sort()
    yield from zip(crossings[::2], crossings[1::2], strict=True)


def _back(x: float, y: float, along: float, across: float) -> Place:
    return x * along - y * across, x * across + y * along
