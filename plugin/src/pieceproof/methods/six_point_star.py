"""Six-point star: six 60-degree diamonds, the ground around them in six patches that are set in.

Two tips point up and down, 2 a root 3 apart for diamonds of side a; the other four lie 3 a apart
from side to side. The ground is parted where lines from the tips meet the unit's edge: upright ones
from the upper and lower tip, level ones from the others.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import ceil_to, floor_to
from pieceproof.methods.method import Fault, Lesson, Method, Recipe, Workroom
from pieceproof.methods.patchwork import patches_of, patchwork_recipe
from pieceproof.methods.star_points import SIXTH, SIXTHS, TWELFTHS, diamonds, moved_by, star_order
from pieceproof.methods.templates import Shaped, turn_by
from pieceproof.model import FabricName, Measure, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import rectangle

_TURNS = tuple(turn_by(cos, sin) for cos, sin in TWELFTHS)


@dataclass(frozen=True)
class SixPointStar(Unit):
    """A star of six diamonds in the middle of a rectangle."""

    size: Annotated[Size, "Finished width x height; the star and some ground all round"]
    side: Annotated[Fraction, "Finished side of a diamond"]
    points: Annotated[FabricName, "Every other diamond"]
    other_points: Annotated[FabricName, "The diamonds between them"]
    ground: Annotated[FabricName, "The six patches around them"]

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((self.points, self.other_points, self.ground)))


def _shapes(unit: SixPointStar) -> tuple[Shaped, ...]:
    wide, tall = unit.size.width, unit.size.height
    zero, middle = Fraction(0), wide / 2
    centre = (middle, tall / 2)
    star = diamonds(centre, unit.side, SIXTHS, (unit.points, unit.other_points))
    low_right, low, low_left, up_left, up, up_right = (shape.outline[2] for shape in star)
    notches = [moved_by(centre, way, unit.side) for way in SIXTHS]
    top, bottom = (middle, zero), (middle, tall)
    across = {tip: (side, tip[1]) for tip, side in (
        (up_right, wide), (low_right, wide), (up_left, zero), (low_left, zero)
    )}  # fmt: skip
    outlines = (
        (across[up_right], across[low_right], low_right, notches[0], up_right),
        (across[low_right], (wide, tall), bottom, low, notches[1], low_right),
        (bottom, (zero, tall), across[low_left], low_left, notches[2], low),
        (across[low_left], across[up_left], up_left, notches[3], low_left),
        (across[up_left], (zero, zero), top, up, notches[4], up_left),
        (top, (wide, zero), across[up_right], up_right, notches[5], up),
    )
    return (
        *star,
        *(Shaped(f"ground {i}", unit.ground, outline) for i, outline in enumerate(outlines, 1)),
    )


def _patches(unit: SixPointStar) -> tuple[Patch, ...]:
    return patches_of(_shapes(unit))


def _recipe(unit: SixPointStar, room: Workroom) -> Recipe:
    shapes = _shapes(unit)
    order = star_order(6, [shape.name for shape in shapes[6:]])
    edge = rectangle(unit.size.width, unit.size.height)
    return patchwork_recipe(shapes, order, edge, room, _TURNS)


def _fault(unit: SixPointStar, measure: Measure, _seam: Fraction) -> Fault | None:
    least = Size(3 * unit.side, ceil_to(4 * SIXTH * unit.side, measure.step))
    width, height, show, step = unit.size.width, unit.size.height, measure.show, measure.step
    if width > least.width and height > 4 * SIXTH * unit.side:
        return None
    side = min(ceil_to(width / 3, step) - step, floor_to(height / (4 * SIXTH), step))
    return Fault(
        "size",
        f"{show(width)} x {show(height)} around diamonds with sides of {show(unit.side)}",
        f"more than {show(least.width)} x {show(least.height)}, so that there is ground all round",
        f"write {show(max(width, least.width + step))} x {show(max(height, least.height))}, or "
        f"diamonds with sides of {show(side)}",
    )


_LESSON = Lesson(
    "A star of diamonds on a ground of any size, or six diamonds as a flower.",
    """\
size: 10 x 11
side: 3
points: clay
other points: slate
ground: mist
""",
)

METHOD = Method(
    "six-point star", SixPointStar, lambda u: u.size, _patches, _recipe, _fault, lesson=_LESSON
)
