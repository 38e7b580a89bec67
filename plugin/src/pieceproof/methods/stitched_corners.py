"""Stitched corners: squares sewn across corners of a rectangle and folded back.

Any leg up to the rectangle's shorter side will do. Legs that overlap, or stop short of the next
seam line, let the tips float clear of the seams.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from pieceproof.methods.corners import CornerPatch, corner_patches, corner_recipe
from pieceproof.methods.method import Fault, Method, Recipe, Workroom
from pieceproof.model import FabricName, Measure, Node, Size, Unit
from pieceproof.published import Patch
from pieceproof.steps import Corner


@dataclass(frozen=True)
class StitchedCorner(Node):
    """One corner: its fabric and the finished length it takes from each side."""

    fabric: Annotated[FabricName, "The corner's fabric"]
    leg: Annotated[Fraction, "Finished length along each side; the square is cut leg + 2 seams"]


@dataclass(frozen=True)
class StitchedCorners(Unit):
    """A rectangle with one to four corners, sewn on in the order given."""

    size: Annotated[Size, "Finished width x height"]
    fabric: Annotated[FabricName, "The rectangle's fabric"]
    corners: Annotated[Mapping[Corner, StitchedCorner], "Corners in sewing order"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.fabric, *(c.fabric for c in self.corners.values()))


def _corners(unit: StitchedCorners) -> tuple[CornerPatch, ...]:
    return tuple(CornerPatch(where, c.fabric, c.leg) for where, c in unit.corners.items())


def _patches(unit: StitchedCorners) -> tuple[Patch, ...]:
    return corner_patches(unit.size, unit.fabric, _corners(unit))


def _recipe(unit: StitchedCorners, room: Workroom) -> Recipe:
    return corner_recipe(unit.size, unit.fabric, _corners(unit), room)


def _fault(unit: StitchedCorners, measure: Measure, _seam: Fraction) -> Fault | None:
    short = min(unit.size.width, unit.size.height)
    longest = max((c.leg for c in unit.corners.values()), default=Fraction(0))
    if longest <= short:
        return None
    return Fault(
        "corners",
        f"a corner with a leg of {measure.show(longest)}",
        f"legs no longer than the unit's shorter side, {measure.show(short)}",
        f"shorten the leg by {measure.show(longest - short)} or make the unit larger",
    )


METHOD = Method("stitched corners", StitchedCorners, lambda u: u.size, _patches, _recipe, _fault)
