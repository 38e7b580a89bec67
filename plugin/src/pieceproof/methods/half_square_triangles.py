"""Half-square triangles, a pair from two squares.

Two squares of side c, sewn s on both sides of a diagonal and cut on it, open to squares of side
c - s*sqrt(2): the seam lies s from the long edge of a right isosceles triangle, which shortens its
legs by s*sqrt(2). For an unfinished side of F + 2s the squares need F + s*(2 + sqrt(2)).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from pieceproof.lengths import square_root
from pieceproof.methods.method import (
    Method,
    Recipe,
    Workroom,
    cut_square,
    no_fault,
    press_to_darker,
)
from pieceproof.model import FabricName, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import rectangle
from pieceproof.steps import (
    Corner,
    CutApart,
    Diagonal,
    Layer,
    Open,
    Sew,
    Slope,
    Step,
    Take,
    Trim,
    Turn,
    Yield,
)


@dataclass(frozen=True)
class HalfSquareTriangles(Unit):
    """A square of two triangles, its seam from bottom left to top right."""

    size: Annotated[Fraction, "Finished side"]
    top_left: Annotated[FabricName, "The upper triangle"]
    bottom_right: Annotated[FabricName, "The lower triangle"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.top_left, self.bottom_right)


def _patches(unit: HalfSquareTriangles) -> tuple[Patch, ...]:
    top_left, top_right, bottom_right, bottom_left = rectangle(unit.size, unit.size)
    return (
        Patch(unit.top_left, (top_left, top_right, bottom_left)),
        Patch(unit.bottom_right, (top_right, bottom_right, bottom_left)),
    )


def _recipe(unit: HalfSquareTriangles, room: Workroom) -> Recipe:
    seam, root = room.seam, square_root(2)
    squares = tuple(
        cut_square(slot, fabric, unit.size, seam * (2 + root), room)
        for slot, fabric in (("top left", unit.top_left), ("bottom right", unit.bottom_right))
    )
    side = unit.size + 2 * seam
    off = (squares[0].width - seam * root - side) / 2
    press = press_to_darker(unit.top_left, unit.bottom_right, room)
    middle = Diagonal(Slope.RISING, Fraction(0))
    steps: tuple[Step, ...] = (
        Take("pair", "top left"),
        Take("upper", "bottom right"),
        Layer("pair", "upper", Corner.TOP_LEFT),
        Sew("pair", Diagonal(Slope.RISING, seam)),
        Sew("pair", Diagonal(Slope.RISING, -seam)),
        CutApart("pair", middle, "first", "second"),
        Open("first", Corner.BOTTOM_RIGHT, press),
        Open("second", Corner.TOP_LEFT, press),
        Turn("second", 2),
        *(Trim(item, side, side, off, off, off, off) for item in ("first", "second")),
        Yield(("first", "second")),
    )
    return Recipe(squares, 2, steps)


METHOD = Method(
    "half-square triangles",
    HalfSquareTriangles,
    lambda u: Size(u.size, u.size),
    _patches,
    _recipe,
    no_fault,
)
