"""Stitched corners: squares sewn across corners of a rectangle and folded back.

Any leg up to the rectangle's shorter side will do. Legs that overlap, or stop short of the next
seam line, let the tips float clear of the seams.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import ceil_to, floor_to
from pieceproof.methods.alike import corner_triangles, middle_of
from pieceproof.methods.corners import (
    CornerPatch,
    bonus_fault,
    corner_extras,
    corner_patches,
    corner_recipe,
)
from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Remedy,
    Workroom,
)
from pieceproof.model import FabricName, Measure, Node, Size, Unit
from pieceproof.published import Patch, Picture
from pieceproof.steps import Corner


@dataclass(frozen=True)
class StitchedCorner(Node):
    """One corner: its fabric and the finished length it takes from each side."""

    fabric: Annotated[FabricName, "The corner's fabric"]
    leg: Annotated[Fraction, "Finished length along each side; the square is cut leg + 2 seams"]
    bonus: Annotated[
        Fraction | None, "Finished side of a spare half-square triangle to sew from the offcut"
    ] = None


@dataclass(frozen=True)
class StitchedCorners(Unit):
    """A rectangle with one to four corners, sewn on in the order given."""

    size: Annotated[Size, "Finished width x height"]
    fabric: Annotated[FabricName, "The rectangle's fabric"]
    corners: Annotated[Mapping[Corner, StitchedCorner], "Corners in sewing order"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.fabric, *(c.fabric for c in self.corners.values()))


def _corners(unit: StitchedCorners) -> tuple[CornerPatch, ...]:
    return tuple(CornerPatch(where, c.fabric, c.leg, c.bonus) for where, c in unit.corners.items())


def _patches(unit: StitchedCorners) -> tuple[Patch, ...]:
    return corner_patches(unit.size, unit.fabric, _corners(unit))


def _recipe(unit: StitchedCorners, room: Workroom) -> Recipe:
    return corner_recipe(unit.size, unit.fabric, _corners(unit), room)


def _extras(unit: StitchedCorners) -> tuple[Picture, ...]:
    return corner_extras(unit.fabric, _corners(unit))


def _fault(unit: StitchedCorners, measure: Measure, seam: Fraction) -> Fault | None:
    width, height, show = unit.size.width, unit.size.height, measure.show
    short = min(width, height)
    longest = max((c.leg for c in unit.corners.values()), default=Fraction(0))
    if longest <= short:
        return bonus_fault(unit.size, _corners(unit), "corners", measure, seam)
    return Fault(
        "corners",
        f"a corner with a leg of {show(longest)}",
        f"legs no longer than the unit's shorter side, {show(short)}",
        f"write a leg of {show(short)}, {show(longest - short)} less, or a unit of "
        f"{show(max(width, longest))} x {show(max(height, longest))}",
    )


def _floating(unit: StitchedCorners, measure: Measure, seam: Fraction, least: Fraction) -> Remedy:
    """Where two corners of leg k share an edge of length e, their seams meet k - e/2 above it.

    Where one corner stands alone on an edge, its outer tip ends e - k short of the next seam line.
    """
    width, height = unit.size.width, unit.size.height
    shared = [_edge(unit, pair) for pair in _EDGES if all(c in unit.corners for c in pair)]
    alone = [_edge(unit, (a, b)) for a, b in _EDGES if (a in unit.corners) != (b in unit.corners)]
    most = floor_to(min([width, height, *(e - least for e in alone)]), measure.step)
    fewest = ceil_to(max((e / 2 + least for e in shared), default=most), measure.step)
    if 0 < fewest <= most:
        return Remedy("corners", f"give its corners {_legs(fewest, seam, measure)}")
    if len(unit.corners) == 2 and shared:
        level = any(set(ends) == set(unit.corners) for ends in _EDGES[:2])
        sides = (width, fewest + least) if level else (fewest + least, height)
        size = " x ".join(measure.show(side) for side in sides)
        return Remedy("size", f"make it {size} and give it {_legs(fewest, seam, measure)}")
    return Remedy("size", "no leg gives this room at this size; make the unit larger")


def _edge(unit: StitchedCorners, ends: tuple[Corner, Corner]) -> Fraction:
    return unit.size.width if ends in _EDGES[:2] else unit.size.height


def _legs(leg: Fraction, seam: Fraction, measure: Measure) -> str:
    return f"legs of {measure.show(leg)}, squares cut {measure.show(leg + 2 * seam)}"


_EDGES = (
    (Corner.TOP_LEFT, Corner.TOP_RIGHT),
    (Corner.BOTTOM_LEFT, Corner.BOTTOM_RIGHT),
    (Corner.TOP_LEFT, Corner.BOTTOM_LEFT),
    (Corner.TOP_RIGHT, Corner.BOTTOM_RIGHT),
)
"""The ends of the level edges, then of the upright ones."""


def _alike(picture: Picture) -> tuple[StitchedCorners, ...]:
    """A rectangle with corner triangles; where all is corners, one of them is the ground."""
    found = corner_triangles(picture)
    corners = {
        c: StitchedCorner(f, leg) for c, (f, leg) in found.items() if isinstance(leg, Fraction)
    }
    size = Size(picture.width, picture.height)
    if len(corners) == len(picture.patches) == 2:
        first, second = corners
        corner, ground = corners[first], corners[second].fabric
        return (StitchedCorners(size, ground, {first: corner}),)
    return (StitchedCorners(size, middle_of(picture), corners),) if corners else ()


_LESSON = Lesson(
    "Star points, lanterns, octagons: corners of any size on squares and rectangles, "
    "from straight cuts only.",
    """\
size: 4 x 4
fabric: mist
corners:
  top left: {fabric: slate, leg: 2}
  bottom right: {fabric: clay, leg: 1 1/2}
""",
)

METHOD = Method(
    "stitched corners",
    StitchedCorners,
    lambda u: u.size,
    _patches,
    _recipe,
    _fault,
    _extras,
    floating=_floating,
    pressing=Pressing.LATER,
    alike=_alike,
    lesson=_LESSON,
)
