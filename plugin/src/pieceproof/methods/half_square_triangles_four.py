"""Half-square triangles, four at a time from two squares sewn together all round.

Two squares of side c, sewn s inside all four edges and cut on both diagonals, give four triangles
with the long edge c and the height c/2. Less the allowance they open to squares with the diagonal
c - 2s, on point. For an unfinished side of F + 2s the squares need F*root 2 + s*(2 + 2*root 2).
All outer edges are on the bias. The lines along the other edges cross the seam allowance at both
ends of each seam; they hold nothing else and come out.
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
    Edge,
    Layer,
    Open,
    Press,
    Sew,
    Side,
    Slope,
    Step,
    Take,
    TurnEighths,
    Unpick,
    Yield,
)

_EIGHTHS = {Side.TOP: 3, Side.LEFT: 5, Side.RIGHT: 1, Side.BOTTOM: 7}
"""The turn that brings the lower square's cloth to the top left, by the edge that was sewn."""


@dataclass(frozen=True)
class HalfSquareTrianglesFour(TriangleSquare):
    """A square of two triangles, its seam from bottom left to top right; four at a time."""


def _recipe(unit: HalfSquareTrianglesFour, room: Workroom) -> Recipe:
    seam, root = room.seam, square_root(2)
    squares = square_cuts(unit, unit.size * root, seam * (2 + 2 * root), room, "finished diagonal")
    side = unit.size + 2 * seam
    off = ((squares[0].width - 2 * seam) / root - side) / 2
    press = press_to_darker(unit.top_left, unit.bottom_right, room)
    steps = (
        Take("top left", "top left"),
        Take("bottom right", "bottom right"),
        Layer("top left", "bottom right", Corner.TOP_LEFT),
        *(Sew("top left", Edge(edge, seam)) for edge in Side),
        CutApart("top left", Diagonal(Slope.RISING, Fraction(0)), "upper", "lower"),
        CutApart("upper", Diagonal(Slope.FALLING, Fraction(0)), "top", "left"),
        CutApart("lower", Diagonal(Slope.FALLING, Fraction(0)), "right", "bottom"),
        *(step for edge in _EIGHTHS for step in _opened(edge, press)),
        *(trim_alike(edge.value, side, off) for edge in _EIGHTHS),
        Yield(tuple(edge.value for edge in _EIGHTHS)),
    )
    return Recipe(squares, 4, steps)


def _opened(edge: Side, press: Press) -> tuple[Step, ...]:
    item = edge.value
    return (Unpick(item, edge), Open(item, edge, press), TurnEighths(item, _EIGHTHS[edge]))


_LESSON = Lesson(
    "Many units of the same two fabrics with few seams to sew. All outer edges "
    "stretch: press, do not push, and trim with care.",
    """\
size: 3
top left: mist
bottom right: slate
""",
)

METHOD = Method(
    "half-square triangles four at a time",
    HalfSquareTrianglesFour,
    square_size,
    square_patches,
    _recipe,
    no_fault,
    pressing=Pressing.DARKER,
    alike=partial(squares_alike, HalfSquareTrianglesFour),
    lesson=_LESSON,
)
