"""What ways of sewing flying geese have in common: the design, its picture and its proportions.

Drawn with the point up; the tip lies exactly on the middle of the finished top edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeVar

from quicktions import Fraction

from pieceproof.methods.alike import fabrics_in
from pieceproof.methods.corners import CornerPatch, corner_patches
from pieceproof.methods.method import Fault, Remedy
from pieceproof.model import FabricName, Measure, Size, Unit
from pieceproof.published import Patch, Picture
from pieceproof.steps import Corner


@dataclass(frozen=True)
class Geese(Unit):
    """A large triangle, the goose, between two small ones, the sky."""

    size: Annotated[Size, "Finished width x height; the width is twice the height"]
    goose: Annotated[FabricName, "The large triangle"]
    sky: Annotated[FabricName, "The two small triangles"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.goose, self.sky)


_Kind = TypeVar("_Kind", bound=Geese)


def sky_corners(unit: Geese, bonus: Fraction | None = None) -> tuple[CornerPatch, ...]:
    """The two small triangles, as corners of the whole."""
    places = (Corner.TOP_LEFT, Corner.TOP_RIGHT)
    return tuple(CornerPatch(where, unit.sky, unit.size.height, bonus) for where in places)


def geese_patches(unit: Geese) -> tuple[Patch, ...]:
    """The goose and its sky."""
    return corner_patches(unit.size, unit.goose, sky_corners(unit))


def geese_alike(kind: type[_Kind], picture: Picture) -> tuple[_Kind, ...]:
    """A rectangle twice as long as wide, of two fabrics."""
    fabrics, sides = fabrics_in(picture), sorted((picture.width, picture.height))
    if len(fabrics) != 2 or sides[1] != 2 * sides[0]:
        return ()
    size = Size(sides[1], sides[0])
    return tuple(kind(size, goose, sky) for goose, sky in (fabrics, fabrics[::-1]))


def geese_fault(unit: Geese, measure: Measure, _seam: Fraction) -> Fault | None:
    """Geese are twice as wide as high."""
    width, height = unit.size.width, unit.size.height
    if width == 2 * height:
        return None
    return Fault(
        "size",
        f"{measure.show(width)} x {measure.show(height)}",
        "a width of twice the height",
        f"write {measure.show(2 * height)} x {measure.show(height)} or "
        f"{measure.show(width)} x {measure.show(width / 2)}, or use stitched corners",
    )


def geese_floating(unit: Geese, measure: Measure, seam: Fraction, least: Fraction) -> Remedy:
    """Corners with legs of half the width and ``least``, on a unit that is 2 ``least`` higher."""
    width, leg = unit.size.width, unit.size.width / 2 + least
    return Remedy(
        "size",
        f"tips of geese end on the seam lines; use stitched corners, {measure.show(width)} x "
        f"{measure.show(leg + least)} with legs of {measure.show(leg)}, squares cut "
        f"{measure.show(leg + 2 * seam)}",
    )
