"""What a picture shows, for methods that look whether they can make it.

In: the finished picture of a unit of any method. Out: its fabrics in places, its corner triangles,
its sides as fractions.
"""

from __future__ import annotations

from collections.abc import Mapping

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.model import FabricName
from pieceproof.published import Patch, Picture
from pieceproof.shapes import Point, rectangle
from pieceproof.steps import Corner

_CORNERS = (Corner.TOP_LEFT, Corner.TOP_RIGHT, Corner.BOTTOM_RIGHT, Corner.BOTTOM_LEFT)


def fabrics_in(picture: Picture) -> tuple[FabricName, ...]:
    """The fabrics that it shows, each once."""
    return tuple(FabricName(name) for name in dict.fromkeys(p.fabric for p in picture.patches))


def quarters_in(picture: Picture) -> tuple[FabricName, ...]:
    """The fabrics near the middles of its sides, from the top clockwise."""
    wide, tall, near = picture.width, picture.height, Fraction(1, 64)
    places = (
        (wide / 2, tall * near),
        (wide * (1 - near), tall / 2),
        (wide / 2, tall * (1 - near)),
        (wide * near, tall / 2),
    )
    return tuple(_fabric_at(picture, place) for place in places)


def middle_of(picture: Picture) -> FabricName:
    """The fabric in the middle; where patches meet there, that of the first."""
    return _fabric_at(picture, (picture.width / 2, picture.height / 2))


def corner_triangles(picture: Picture) -> Mapping[Corner, tuple[FabricName, Number]]:
    """Right triangles with equal legs in its corners: their fabrics and legs."""
    found = {}
    outline = rectangle(picture.width, picture.height)
    for corner, place in zip(_CORNERS, outline, strict=True):
        for patch in picture.patches:
            leg = _leg(patch, place)
            if leg is not None:
                found[corner] = (FabricName(patch.fabric), leg)
    return found


def _leg(patch: Patch, corner: Point) -> Number | None:
    """The leg of a patch that is such a triangle, its right angle at this corner."""
    if len(patch.outline) != 3 or corner not in patch.outline:
        return None
    others = [(x - corner[0], y - corner[1]) for x, y in patch.outline if (x, y) != corner]
    (across, _), (_, down) = sorted(others, key=lambda way: way[0] == 0)
    legs = {max(across, -across), max(down, -down)}
    level = all(x == 0 or y == 0 for x, y in others)
    return legs.pop() if level and len(legs) == 1 else None


def _fabric_at(picture: Picture, place: Point) -> FabricName:
    inside = (p.fabric for p in picture.patches if _holds(p, place))
    return FabricName(next(inside, picture.patches[0].fabric))


def _holds(patch: Patch, place: Point) -> bool:
    """Whether a convex clockwise outline holds a place, its edge included."""
    x, y = place
    corners = patch.outline
    return all(
        (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0
        for (ax, ay), (bx, by) in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
