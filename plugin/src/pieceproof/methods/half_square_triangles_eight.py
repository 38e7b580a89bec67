"""Half-square triangles, eight at a time from two squares.

Two squares of side c, sewn s on both sides of both diagonals and cut into four squares, give four
pairs as if sewn from squares of side c/2 each: 2F + s*(4 + 2*root 2). The lines of the other
diagonal cross the seam allowance near the centre; they hold nothing else and come out.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from quicktions import Fraction

from pieceproof.lengths import square_root
from pieceproof.methods.method import (
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
    no_fault,
    press_to_darker,
)
from pieceproof.methods.triangle_squares import (
    TriangleSquare,
    square_cuts,
    square_patches,
    square_size,
    squares_alike,
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
    squares = square_cuts(unit, 2 * unit.size, seam * (4 + 2 * root), room, "two finished sides")
    side = unit.size + 2 * seam
    off = (squares[0].width / 2 - seam * root - side) / 2
    press = press_to_darker(unit.top_left, unit.bottom_right, room)
    made = tuple(half for corner in Corner for half in _halves(corner))
    steps = (
        Take("top left", "top left"),
        Take("bottom right", "bottom right"),
        Layer("top left", "bottom right", Corner.TOP_LEFT),
        *(Sew("top left", Diagonal(slope, off)) for slope in Slope for off in (seam, -seam)),
        CutApart("top left", Middle(Way.LEVEL), "top", "bottom"),
        CutApart("top", Middle(Way.UPRIGHT), "top left", "top right"),
        CutApart("bottom", Middle(Way.UPRIGHT), "bottom left", "bottom right"),
        *(CutApart(c.value, Diagonal(_slope(c), Fraction(0)), *_halves(c)) for c in Corner),
        *(step for corner in Corner for step in _both_opened(corner, press)),
        *(trim_alike(item, side, off) for item in made),
        Yield(made),
    )
    return Recipe(squares, 8, steps)


def _slope(quarter: Corner) -> Slope:
    """Of the line drawn on a quarter of the layers: it runs to the middle of the whole."""
    rising = quarter in (Corner.TOP_RIGHT, Corner.BOTTOM_LEFT)
    return Slope.RISING if rising else Slope.FALLING


def _halves(quarter: Corner) -> tuple[str, str]:
    return f"{quarter.value} upper", f"{quarter.value} lower"


def _both_opened(quarter: Corner, press: Press) -> tuple[Step, ...]:
    """Both halves opened and turned, the lower cloth top left."""
    upper, lower = _halves(quarter)
    if _slope(quarter) is Slope.RISING:
        return (
            *_opened(upper, Corner.BOTTOM_RIGHT, press, 0),
            *_opened(lower, Corner.TOP_LEFT, press, 2),
        )
    return (
        *_opened(upper, Corner.BOTTOM_LEFT, press, 3),
        *_opened(lower, Corner.TOP_RIGHT, press, 1),
    )


def _opened(item: str, toward: Corner, press: Press, turn: int) -> tuple[Step, ...]:
    steps = (Unpick(item, toward), Open(item, toward, press))
    return (*steps, Turn(item, turn)) if turn else steps


_LESSON = Lesson(
    "Many units of the same two fabrics from the fewest pieces, with outer edges that "
    "do not stretch.",
    """\
size: 3
top left: mist
bottom right: slate
""",
)

METHOD = Method(
    "half-square triangles eight at a time",
    HalfSquareTrianglesEight,
    square_size,
    square_patches,
    _recipe,
    no_fault,
    pressing=Pressing.DARKER,
    alike=partial(squares_alike, HalfSquareTrianglesEight),
    lesson=_LESSON,
)
