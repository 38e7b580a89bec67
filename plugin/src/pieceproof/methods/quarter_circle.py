"""Quarter circle: a quarter sewn into the inner curve of its ground, with match marks.

The quarter is cut with radius R + s, the ground with radius R - s: both have their seam line at
R. Seam lines are shared polygons with corners exactly on the circle (see `arcs`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import ceil_to, floor_to
from pieceproof.methods.arcs import bows, quarter
from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
)
from pieceproof.methods.patchwork import patches_of, patchwork_recipe
from pieceproof.methods.templates import Shaped
from pieceproof.model import FabricName, Measure, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import Point, rectangle


@dataclass(frozen=True)
class QuarterCircle(Unit):
    """A square with a quarter of a circle in its top left corner."""

    size: Annotated[Fraction, "Finished side"]
    radius: Annotated[Fraction, "Finished radius"]
    quarter: Annotated[FabricName, "The quarter of a circle"]
    ground: Annotated[FabricName, "The rest of the square"]

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((self.quarter, self.ground)))


def quarter_and_ground(
    unit: QuarterCircle, corner: Point, quarters: int, suffix: str = ""
) -> tuple[Shaped, Shaped]:
    """The two patches, the square turned clockwise by quarters about the circle's centre."""
    curve = quarter(corner, unit.radius, quarters)
    back = curve[::-1]
    (ax, ay), (bx, by) = (
        ((x - corner[0]) / unit.radius, (y - corner[1]) / unit.radius)
        for x, y in (curve[0], curve[-1])
    )
    far = unit.size
    first = (corner[0] + ax * far, corner[1] + ay * far)
    opposite = (first[0] + bx * far, first[1] + by * far)
    last = (corner[0] + bx * far, corner[1] + by * far)
    return (
        Shaped(
            f"quarter{suffix}", unit.quarter, (corner, *curve), bows(curve, corner, unit.radius)
        ),
        Shaped(
            f"ground{suffix}",
            unit.ground,
            (*back, first, opposite, last),
            bows(back, corner, unit.radius),
        ),
    )


def radius_fault(
    radius: Fraction, size: Fraction, quarters: int, measure: Measure, seam: Fraction
) -> Fault | None:
    """A radius must leave some ground, and more than the seam allowance of its inner curve.

    ``quarters`` are those of a circle side by side in a unit of this ``size``, 1 or 2.
    """
    show, step, room = measure.show, measure.step, size / quarters
    least = ceil_to(2 * seam, step)
    if 2 * seam <= radius < room:
        return None
    nearest = max(least, min(radius, ceil_to(room, step) - step))
    larger = quarters * (floor_to(max(radius, least), step) + step)
    ways = [f"write a radius of {show(nearest)}"] if nearest < room else []
    ways += [f"write a unit {show(larger)} wide"] if larger > size else []
    return Fault(
        "radius",
        f"a radius of {show(radius)} where {show(room)} of ground begin",
        f"a radius from {show(2 * seam)}, two seam allowances, to less than {show(room)}",
        ", or ".join(ways),
    )


def _shapes(unit: QuarterCircle) -> tuple[Shaped, ...]:
    return quarter_and_ground(unit, (Fraction(0), Fraction(0)), 0)


def _patches(unit: QuarterCircle) -> tuple[Patch, ...]:
    return patches_of(_shapes(unit))


def _recipe(unit: QuarterCircle, room: Workroom) -> Recipe:
    edge = rectangle(unit.size, unit.size)
    return patchwork_recipe(_shapes(unit), (("ground", "quarter"),), edge, room)


def _fault(unit: QuarterCircle, measure: Measure, seam: Fraction) -> Fault | None:
    return radius_fault(unit.radius, unit.size, 1, measure, seam)


_LESSON = Lesson(
    "Curves that run on from block to block: paths, rings and waves.",
    """\
size: 5
radius: 3 1/2
quarter: slate
ground: mist
""",
)

METHOD = Method(
    "quarter circle",
    QuarterCircle,
    lambda u: Size(u.size, u.size),
    _patches,
    _recipe,
    _fault,
    pressing=Pressing.DARKER,
    lesson=_LESSON,
)
