"""Square in square: a square on point with a triangle sewn to each of its sides.

The triangles come from squares cut once, so that the outer edges lie on the straight grain. Behind
a centre of side C in a unit of side F, a corner has the finished legs F - C/root 2; sewn on along
its long edge it is cut from a square of that plus s*(2 + root 2). Where the centre's tips touch
the seam line, C = F/root 2 and the legs are C/root 2, the handbooks' centre / 1.414 + 7/8.

No such centre can be cut exactly, its side being irrational. It is therefore stated in the design:
the nearest side on the ruler below it leaves its tips a little clear of the next seam. Opposite
corners are sewn on first and trimmed level with the centre; the other two lie across them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, floor_to, square_root
from pieceproof.methods.alike import corner_triangles, middle_of
from pieceproof.methods.corners import CornerPatch, corner_patches
from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Remedy,
    Workroom,
    cut_finished,
    cut_square,
)
from pieceproof.methods.oversize import Oversized, larger
from pieceproof.methods.triangle_squares import trim_alike
from pieceproof.model import FabricName, Measure, Size
from pieceproof.published import Patch, Picture
from pieceproof.steps import (
    Corner,
    CutApart,
    Diagonal,
    JoinEdges,
    Meeting,
    Press,
    Side,
    Slope,
    Step,
    Take,
    TrimTips,
    TurnEighths,
    Yield,
)

_IN_SEWING_ORDER = (Corner.TOP_LEFT, Corner.BOTTOM_RIGHT, Corner.TOP_RIGHT, Corner.BOTTOM_LEFT)


@dataclass(frozen=True)
class SquareInSquare(Oversized):
    """A square on point in a square."""

    size: Annotated[Fraction, "Finished side of the whole unit"]
    centre_side: Annotated[
        Fraction, "Finished side of the square on point; shorter than size / 1.414, its tips float"
    ]
    centre: Annotated[FabricName, "The square on point"]
    corners: Annotated[FabricName, "The four triangles"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.centre, self.corners)


def _leg(unit: SquareInSquare) -> Number:
    return unit.size - unit.centre_side / square_root(2)


def _patches(unit: SquareInSquare) -> tuple[Patch, ...]:
    corners = tuple(CornerPatch(c, unit.corners, _leg(unit)) for c in _IN_SEWING_ORDER)
    return corner_patches(Size(unit.size, unit.size), unit.centre, corners)


def _recipe(unit: SquareInSquare, room: Workroom) -> Recipe:
    """Sewn with the centre upright, its right and left side first, then turned on point."""
    centre = cut_finished("centre", unit.centre, Size(unit.centre_side, unit.centre_side), room)
    addition = room.seam * (2 + square_root(2))
    corner = cut_square("corner", unit.corners, _leg(unit), addition, room, "finished leg")
    corner = larger(corner, unit.oversize, room)
    off = (corner.width - corner.needed_width) / 2
    steps = (
        *_two_triangles("corner one", ("first", "second")),
        *_two_triangles("corner two", ("third", "fourth")),
        Take("centre", "centre"),
        *_on_both_sides((Side.RIGHT, Side.LEFT), ("first", "second"), room.seam),
        TrimTips("centre", Side.TOP),
        TrimTips("centre", Side.BOTTOM),
        *_on_both_sides((Side.TOP, Side.BOTTOM), ("third", "fourth"), room.seam),
        TurnEighths("centre", 1),
        trim_alike("centre", unit.size + 2 * room.seam, off),
        Yield(("centre",)),
    )
    return Recipe((centre, corner), 1, steps)


def _two_triangles(item: str, names: tuple[str, str]) -> tuple[Step, ...]:
    return (Take(item, "corner"), CutApart(item, Diagonal(Slope.RISING, Fraction(0)), *names))


def _on_both_sides(
    sides: tuple[Side, Side], names: tuple[str, str], seam: Fraction
) -> tuple[Step, ...]:
    """Triangles by their long edges, which the first has at its bottom right."""
    long_edges = (Corner.BOTTOM_RIGHT, Corner.TOP_LEFT)
    return tuple(
        JoinEdges("centre", name, side, edge, Meeting.MIDDLES, seam, Press.ONTO_ADDED)
        for side, name, edge in zip(sides, names, long_edges, strict=True)
    )


def _fault(unit: SquareInSquare, measure: Measure, seam: Fraction) -> Fault | None:
    show, seams = measure.show, 2 * seam
    largest = floor_to(unit.size / square_root(2) + seams, measure.step) - seams
    if unit.centre_side > largest:
        larger = ceil_to(unit.centre_side * square_root(2), measure.step)
        return Fault(
            "centre side",
            f"a centre of {show(unit.centre_side)} in a unit of {show(unit.size)}",
            f"a centre of at most {show(largest)}, so that the next seam misses its tips",
            f"write {show(largest)}, or a unit of {show(larger)}",
        )
    cut = unit.centre_side + seams
    if (cut / measure.step).denominator == 1:
        return None
    lower = floor_to(cut, measure.step) - seams
    return Fault(
        "centre side",
        f"a centre of {show(unit.centre_side)}, which would be cut at {show(cut)}",
        f"cut sizes in steps of {show(measure.step)}",
        f"write {show(lower)}",
    )


def _floating(unit: SquareInSquare, measure: Measure, seam: Fraction, least: Fraction) -> Remedy:
    """The tips of a centre of side C end (F - C * root 2) / 2 short of the next seam line."""
    seams = 2 * seam
    largest = floor_to((unit.size - 2 * least) / square_root(2) + seams, measure.step) - seams
    if largest > 0:
        return Remedy("centre side", f"give its centre a side of {measure.show(largest)} or less")
    return Remedy("size", "no centre has this room at this size; make the unit larger")


def _alike(picture: Picture) -> tuple[SquareInSquare, ...]:
    """A square with four equal corners of one fabric; what lies between them is the centre."""
    corners = set(corner_triangles(picture).values())
    if picture.width != picture.height or len(corners) != 1:
        return ()
    ((fabric, leg),) = corners
    side = (picture.width - leg) * square_root(2)
    if not isinstance(side, Fraction):
        return ()
    return (SquareInSquare(picture.width, side, middle_of(picture), fabric),)


_LESSON = Lesson(
    "A square on point that frames a motif. Its side is stated, because no ruler has "
    "the exact one; the tips float by what the page of the pattern says.",
    """\
size: 6
centre side: 4 1/8
centre: clay
corners: slate
""",
)

METHOD = Method(
    "square in square",
    SquareInSquare,
    lambda u: Size(u.size, u.size),
    _patches,
    _recipe,
    _fault,
    floating=_floating,
    pressing=Pressing.LATER,
    alike=_alike,
    lesson=_LESSON,
)
