"""Flying geese by stitch and flip: a rectangle twice as wide as high, a square on each top corner.

The seams meet at the middle of the top seam line: the tip is exact.
"""

from __future__ import annotations

from dataclasses import dataclass

from pieceproof.methods.corners import corner_recipe
from pieceproof.methods.geese import Geese, geese_fault, geese_patches, sky_corners
from pieceproof.methods.method import Method, Recipe, Workroom


@dataclass(frozen=True)
class FlyingGeese(Geese):
    """A large triangle, the goose, between two small ones, the sky; one at a time."""


def _recipe(unit: FlyingGeese, room: Workroom) -> Recipe:
    return corner_recipe(unit.size, unit.goose, sky_corners(unit), room)


METHOD = Method("flying geese", FlyingGeese, lambda u: u.size, geese_patches, _recipe, geese_fault)
