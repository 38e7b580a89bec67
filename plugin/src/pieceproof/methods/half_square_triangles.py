"""Half-square triangles, a pair from two squares.

Two squares of side c, sewn s on both sides of a diagonal and cut on it, open to squares of side
c - s*root 2. For an unfinished side of F + 2s the squares need F + s*(2 + root 2).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

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
    pair,
    square_cuts,
    square_patches,
    square_size,
    squares_alike,
    trim_alike,
)
from pieceproof.steps import Yield


@dataclass(frozen=True)
class HalfSquareTriangles(TriangleSquare):
    """A square of two triangles, its seam from bottom left to top right; two at a time."""


def _recipe(unit: HalfSquareTriangles, room: Workroom) -> Recipe:
    seam, root = room.seam, square_root(2)
    squares = square_cuts(unit, unit.size, seam * (2 + root), room, "finished side")
    side = unit.size + 2 * seam
    off = (squares[0].width - seam * root - side) / 2
    press = press_to_darker(unit.top_left, unit.bottom_right, room)
    made = ("first", "second")
    steps = (
        *pair("top left", "bottom right", seam, press, made),
        *(trim_alike(item, side, off) for item in made),
        Yield(made),
    )
    return Recipe(squares, 2, steps)


_LESSON = Lesson(
    "A few units, or pairs of many different fabrics: every two squares give two units.",
    """\
size: 3
top left: mist
bottom right: slate
""",
)

METHOD = Method(
    "half-square triangles",
    HalfSquareTriangles,
    square_size,
    square_patches,
    _recipe,
    no_fault,
    pressing=Pressing.DARKER,
    alike=partial(squares_alike, HalfSquareTriangles),
    lesson=_LESSON,
)
