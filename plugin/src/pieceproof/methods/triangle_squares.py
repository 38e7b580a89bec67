"""Squares of two triangles and the ways they are sewn: the common part of several methods.

Layers sewn s on both sides of a diagonal and cut on it open to two things; two squares of side c
give squares of side c - s*root 2, as the seam lies s from the long edge of a right isosceles
triangle and shortens its legs by s*root 2.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeVar

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.methods.alike import fabrics_in
from pieceproof.methods.method import Cut, Workroom, cut_square
from pieceproof.methods.oversize import Oversized, larger
from pieceproof.model import FabricName, Size
from pieceproof.published import Patch, Picture
from pieceproof.shapes import rectangle
from pieceproof.steps import (
    Corner,
    CutApart,
    Diagonal,
    Layer,
    Open,
    Press,
    Sew,
    Slope,
    Step,
    Take,
    Trim,
    Turn,
)


@dataclass(frozen=True)
class TriangleSquare(Oversized):
    """A square of two triangles, its seam from bottom left to top right."""

    size: Annotated[Fraction, "Finished side"]
    top_left: Annotated[FabricName, "The upper triangle"]
    bottom_right: Annotated[FabricName, "The lower triangle"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.top_left, self.bottom_right)


_Kind = TypeVar("_Kind", bound=TriangleSquare)


def square_size(unit: TriangleSquare) -> Size:
    """The finished size."""
    return Size(unit.size, unit.size)


def squares_alike(kind: type[_Kind], picture: Picture) -> tuple[_Kind, ...]:
    """A square of two fabrics may be one of two triangles."""
    fabrics = fabrics_in(picture)
    if picture.width != picture.height or len(fabrics) != 2:
        return ()
    return (kind(picture.width, *fabrics),)


def square_patches(unit: TriangleSquare) -> tuple[Patch, ...]:
    """The two triangles."""
    return two_triangles(unit.size, unit.top_left, unit.bottom_right)


def square_cuts(
    unit: TriangleSquare, finished: Number, addition: Number, room: Workroom, words: str
) -> tuple[Cut, Cut]:
    """A square of each fabric, of ``finished``, told in ``words``, plus ``addition``."""
    slots = (("top left", unit.top_left), ("bottom right", unit.bottom_right))
    first, second = (
        larger(cut_square(slot, fabric, finished, addition, room, words), unit.oversize, room)
        for slot, fabric in slots
    )
    return first, second


def two_triangles(
    side: Fraction, top_left_fabric: str, bottom_right_fabric: str
) -> tuple[Patch, ...]:
    """A square's patches, its seam from bottom left to top right."""
    top_left, top_right, bottom_right, bottom_left = rectangle(side, side)
    return (
        Patch(top_left_fabric, (top_left, top_right, bottom_left)),
        Patch(bottom_right_fabric, (top_right, bottom_right, bottom_left)),
    )


def two_by_the_diagonal(
    item: str, slope: Slope, seam: Fraction, press: Press, names: tuple[str, str]
) -> tuple[Step, ...]:
    """Sew on both sides of a diagonal, cut on it, open; the first is the upper part."""
    upper, lower = _PARTS[slope]
    return (
        Sew(item, Diagonal(slope, seam)),
        Sew(item, Diagonal(slope, -seam)),
        CutApart(item, Diagonal(slope, Fraction(0)), *names),
        Open(names[0], lower, press),
        Open(names[1], upper, press),
    )


def pair(
    base: str, added: str, seam: Fraction, press: Press, names: tuple[str, str]
) -> tuple[Step, ...]:
    """Two squares from the cuts ``base`` and ``added``; ``base`` ends up top left in both."""
    return (
        Take(base, base),
        Take(added, added),
        Layer(base, added, Corner.TOP_LEFT),
        *two_by_the_diagonal(base, Slope.RISING, seam, press, names),
        Turn(names[1], 2),
    )


def trim_alike(item: str, side: Fraction, off: Number) -> Trim:
    """A square trimmed by the same on all sides."""
    return Trim(item, side, side, off, off, off, off)


_PARTS = {
    Slope.RISING: (Corner.TOP_LEFT, Corner.BOTTOM_RIGHT),
    Slope.FALLING: (Corner.TOP_RIGHT, Corner.BOTTOM_LEFT),
}
"""The corners on either side of a diagonal, the upper one first."""
