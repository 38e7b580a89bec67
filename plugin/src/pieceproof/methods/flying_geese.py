"""Flying geese by stitch and flip: a rectangle twice as wide as high, a square on each top corner.

The seams meet at the middle of the top seam line: the tip is exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Annotated

from quicktions import Fraction

from pieceproof.methods.corners import bonus_fault, corner_extras, corner_recipe
from pieceproof.methods.geese import (
    Geese,
    geese_alike,
    geese_fault,
    geese_floating,
    geese_patches,
    sky_corners,
)
from pieceproof.methods.method import Fault, Lesson, Method, Pressing, Recipe, Workroom
from pieceproof.model import Measure
from pieceproof.published import Picture


@dataclass(frozen=True)
class FlyingGeese(Geese):
    """A large triangle, the goose, between two small ones, the sky; one at a time."""

    bonus: Annotated[
        Fraction | None, "Finished side of a spare half-square triangle to sew from each offcut"
    ] = None


def _recipe(unit: FlyingGeese, room: Workroom) -> Recipe:
    return corner_recipe(unit.size, unit.goose, sky_corners(unit, unit.bonus), room)


def _extras(unit: FlyingGeese) -> tuple[Picture, ...]:
    return corner_extras(unit.goose, sky_corners(unit, unit.bonus))


def _fault(unit: FlyingGeese, measure: Measure, seam: Fraction) -> Fault | None:
    return geese_fault(unit, measure, seam) or bonus_fault(
        unit.size, sky_corners(unit, unit.bonus), "bonus", measure, seam
    )


_LESSON = Lesson(
    "Any number of geese with sharp tips. The offcuts are large enough to become "
    "half-square triangles, if you ask for them.",
    """\
size: 4 x 2
goose: slate
sky: mist
""",
)

METHOD = Method(
    "flying geese",
    FlyingGeese,
    lambda u: u.size,
    geese_patches,
    _recipe,
    _fault,
    _extras,
    floating=geese_floating,
    pressing=Pressing.LATER,
    alike=partial(geese_alike, FlyingGeese),
    lesson=_LESSON,
)
