"""Half-square triangles, eight at a time from two squares.

Two squares of side c, sewn s on both sides of both diagonals and cut into four squares, give four
pairs as if sewn from squares of side c/2 each: 2F + s*(4 + 2*root 2). The lines of the other
diagonal cross the seam allowance near the centre; they hold nothing else and come out.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pieceproof.lengths import square_root
from pieceproof.methods.method import (
    Method,
    Recipe,
    Workroom,
    cut_square,
    no_fault,
    press_to_darker,
)
from pieceproof.methods.triangle_squares import (
    TriangleSquare,
    square_patches,
    square_size,
    trim_alike,
)
from pieceproof.steps import (
    Corner,
    CutApart,
    Diagonal,
    Layer,
    Middle,
    Open,
    Press,
    Sew,
    Slope,
    Step,
    Take,
    Turn,
    Unpick,
    Way,
    Yield,
)


@dataclass(frozen=True)
class HalfSquareTrianglesEight(TriangleSquare):
    """A square of two triangles, its seam from bottom left to top right; eight at a time."""


def _recipe(unit: HalfSquareTrianglesEight, room: Workroom) -> Recipe:
    seam, root = room.seam, square_root(2)
    squares = tuple(
        cut_square(slot, fabric, 2 * unit.size, seam * (4 + 2 * root), room)
        for slot, fabric in (("top left", unit.top_left), ("bottom right", unit.bottom_right))
    )
    side = unit.size + 2 * seam
    off = (squares[0].width / 2 - seam * root - side) / 2
    press = press_to_darker(unit.top_left, unit.bottom_right, room)
    made = tuple(f"{corner.value} {half}" for corner in Corner for half in ("upper", "lower"))
    steps = (
        Take("top left", "top left"),
        Take("bottom right", "bottom right"),
        Layer("top left", "bottom right", Corner.TOP_LEFT),
        *(Sew("top left", Diagonal(slope, off)) for slope in Slope for off in (seam, -seam)),
        CutApart("top left", Middle(Way.LEVEL), "top", "bottom"),
        CutApart("top", Middle(Way.UPRIGHT), "top left", "top right"),
        CutApart("bottom", Middle(Way.UPRIGHT), "bottom left", "bottom right"),
        *(step for corner in Corner for step in _halved(corner, press)),
        *(trim_alike(item, side, off) for item in made),
        Yield(made),
    )
    return Recipe(squares, 8, steps)


def _halved(quarter: Corner, press: Press) -> tuple[Step, ...]:
    """A quarter of the layers cut on its diagonal and opened, the lower cloth top left."""
    rising = quarter in (Corner.TOP_RIGHT, Corner.BOTTOM_LEFT)
    slope = Slope.RISING if rising else Slope.FALLING
    upper, lower = f"{quarter.value} upper", f"{quarter.value} lower"
    above = Corner.TOP_LEFT if rising else Corner.TOP_RIGHT
    below = Corner.BOTTOM_RIGHT if rising else Corner.BOTTOM_LEFT
    upright = (0, 2) if rising else (3, 1)
    return (
        CutApart(quarter.value, Diagonal(slope, Fraction(0)), upper, lower),
        *_opened(upper, below, press, upright[0]),
        *_opened(lower, above, press, upright[1]),
    )


def _opened(item: str, toward: Corner, press: Press, turn: int) -> tuple[Step, ...]:
    steps = (Unpick(item, toward), Open(item, toward, press))
    return (*steps, Turn(item, turn)) if turn else steps


METHOD = Method(
    "half-square triangles eight at a time",
    HalfSquareTrianglesEight,
    square_size,
    square_patches,
    _recipe,
    no_fault,
)
