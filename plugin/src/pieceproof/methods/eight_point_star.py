"""Eight-point star: eight 45-degree diamonds, set with corner squares and side triangles.

Squares and diamonds have one side a, and so have the legs of the triangles: along a side of the
unit lie a square, a triangle's long side and a square. Finished side = a + a root 2 + a, so
a = side / (2 + root 2).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, square_root
from pieceproof.methods.method import Lesson, Method, Recipe, Workroom, no_fault
from pieceproof.methods.patchwork import patches_of, patchwork_recipe
from pieceproof.methods.star_points import EIGHTHS, diamonds, moved_by, star_order
from pieceproof.methods.templates import Shaped, turn_by
from pieceproof.model import FabricName, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import rectangle

_TURNS = tuple(turn_by(cos, sin) for cos, sin in EIGHTHS)


@dataclass(frozen=True)
class EightPointStar(Unit):
    """A star of eight diamonds in a square."""

    size: Annotated[Fraction, "Finished side"]
    points: Annotated[FabricName, "Every other diamond"]
    other_points: Annotated[FabricName, "The diamonds between them"]
    corners: Annotated[FabricName, "The four squares"]
    sides: Annotated[FabricName, "The four triangles"]

    def fabrics(self) -> tuple[str, ...]:
        parts = (self.points, self.other_points, self.corners, self.sides)
        return tuple(dict.fromkeys(parts))


def diamond_side(side: Fraction) -> Number:
    """Of the star in a square of this finished side."""
    return side / (2 + square_root(2))


def _shapes(unit: EightPointStar) -> tuple[Shaped, ...]:
    whole, a = unit.size, diamond_side(unit.size)
    centre = (whole / 2, whole / 2)
    zero, far = Fraction(0), whole - a
    right, low_right, low, low_left, left, up_left, up, up_right = (
        moved_by(centre, way, a) for way in EIGHTHS
    )
    corners = (
        ((zero, zero), (a, zero), up_left, (zero, a)),
        ((far, zero), (whole, zero), (whole, a), up_right),
        ((whole, far), (whole, whole), (far, whole), low_right),
        ((a, whole), (zero, whole), (zero, far), low_left),
    )
    sides = (
        ((a, zero), (far, zero), up),
        ((whole, a), (whole, far), right),
        ((far, whole), (a, whole), low),
        ((zero, far), (zero, a), left),
    )
    return (
        *diamonds(centre, a, EIGHTHS, (unit.points, unit.other_points)),
        *(Shaped(f"side {i}", unit.sides, outline) for i, outline in enumerate(sides, 1)),
        *(Shaped(f"corner {i}", unit.corners, outline) for i, outline in enumerate(corners, 1)),
    )


def _patches(unit: EightPointStar) -> tuple[Patch, ...]:
    return patches_of(_shapes(unit))


def _recipe(unit: EightPointStar, room: Workroom) -> Recipe:
    shapes = _shapes(unit)
    order = star_order(8, [shape.name for shape in shapes[8:]])
    return patchwork_recipe(shapes, order, rectangle(unit.size, unit.size), room, _TURNS)


_LESSON = Lesson(
    "One large star of diamonds at any size, for those who like set-in seams.",
    """\
size: 12
points: clay
other points: slate
corners: mist
sides: mist
""",
)

METHOD = Method(
    "eight-point star",
    EightPointStar,
    lambda u: Size(u.size, u.size),
    _patches,
    _recipe,
    no_fault,
    lesson=_LESSON,
)
