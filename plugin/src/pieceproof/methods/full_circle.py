"""Full circle: four quarter circles sewn into their grounds, then joined round the middle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.methods.method import Fault, Lesson, Method, Recipe, Workroom
from pieceproof.methods.patchwork import patches_of, patchwork_recipe
from pieceproof.methods.quarter_circle import QuarterCircle, quarter_and_ground, radius_fault
from pieceproof.methods.templates import Shaped
from pieceproof.model import FabricName, Measure, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import rectangle

_ORDER = (
    *((f"ground {i}", f"quarter {i}") for i in (1, 2, 3, 4)),
    ("ground 1", "ground 2"),
    ("ground 3", "ground 4"),
    ("ground 1", "ground 3"),
)


@dataclass(frozen=True)
class FullCircle(Unit):
    """A square with a circle in its middle."""

    size: Annotated[Fraction, "Finished side"]
    radius: Annotated[Fraction, "Finished radius"]
    quarters: Annotated[FabricName, "First and third quarter, from the lower right"]
    other_quarters: Annotated[FabricName, "Second and fourth quarter"]
    ground: Annotated[FabricName, "Around the circle"]

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((self.quarters, self.other_quarters, self.ground)))


def _shapes(unit: FullCircle) -> tuple[Shaped, ...]:
    half = unit.size / 2
    fabrics = (unit.quarters, unit.other_quarters) * 2
    return tuple(
        shape
        for turn, fabric in enumerate(fabrics)
        for shape in quarter_and_ground(
            QuarterCircle(half, unit.radius, fabric, unit.ground),
            (half, half),
            turn,
            f" {turn + 1}",
        )
    )


def _patches(unit: FullCircle) -> tuple[Patch, ...]:
    return patches_of(_shapes(unit))


def _recipe(unit: FullCircle, room: Workroom) -> Recipe:
    return patchwork_recipe(_shapes(unit), _ORDER, rectangle(unit.size, unit.size), room)


def _fault(unit: FullCircle, measure: Measure, seam: Fraction) -> Fault | None:
    return radius_fault(unit.radius, unit.size, 2, measure, seam)


_LESSON = Lesson(
    "A whole circle in one unit, its quarters of one fabric or of two in turn.",
    """\
size: 8
radius: 3
quarters: clay
other quarters: slate
ground: mist
""",
)

METHOD = Method(
    "full circle",
    FullCircle,
    lambda u: Size(u.size, u.size),
    _patches,
    _recipe,
    _fault,
    lesson=_LESSON,
)
