"""Flying geese by stitch and flip: a rectangle twice as wide as high, a square on each top corner.

Drawn with the point up. The seams meet at the middle of the top seam line: the tip is exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from pieceproof.methods.corners import CornerPatch, corner_patches, corner_recipe
from pieceproof.methods.method import Fault, Method, Recipe, Workroom
from pieceproof.model import FabricName, Measure, Size, Unit
from pieceproof.published import Patch
from pieceproof.steps import Corner


@dataclass(frozen=True)
class FlyingGeese(Unit):
    """A large triangle, the goose, between two small ones, the sky."""

    size: Annotated[Size, "Finished width x height; the width is twice the height"]
    goose: Annotated[FabricName, "The large triangle"]
    sky: Annotated[FabricName, "The two small triangles"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.goose, self.sky)


def _corners(unit: FlyingGeese) -> tuple[CornerPatch, ...]:
    places = (Corner.TOP_LEFT, Corner.TOP_RIGHT)
    return tuple(CornerPatch(where, unit.sky, unit.size.height) for where in places)


def _patches(unit: FlyingGeese) -> tuple[Patch, ...]:
    return corner_patches(unit.size, unit.goose, _corners(unit))


def _recipe(unit: FlyingGeese, room: Workroom) -> Recipe:
    return corner_recipe(unit.size, unit.goose, _corners(unit), room)


def _fault(unit: FlyingGeese, measure: Measure, _seam: Fraction) -> Fault | None:
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


METHOD = Method("flying geese", FlyingGeese, lambda u: u.size, _patches, _recipe, _fault)
