"""Hexagons: a centre and rings around it, sewn onto a ground or set into one of hexagons.

A hexagon of side a that stands on a tip is a root 3 wide and 2 a high; its area is
3/2 root 3 a a. Ring n holds 6 n hexagons. Each hexagon after the second is set in between its
neighbours. A ground of hexagons goes on to the edge of the unit, where they are cut straight.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, floor_to, square_root
from pieceproof.methods.laid_shapes import GROUND, lay_on, with_ground
from pieceproof.methods.method import Fault, Lesson, Method, Recipe, Workroom, cut_finished
from pieceproof.methods.patchwork import cut_of, joining_steps, patches_of, patchwork_recipe
from pieceproof.methods.seams import seams_in_order
from pieceproof.methods.star_points import SIXTH, TWELFTHS
from pieceproof.methods.templates import Shaped, fit_templates, turn_by
from pieceproof.model import AtLeast, AtMost, FabricName, Measure, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import Line, Point, Polygon, area, cut, rectangle
from pieceproof.steps import Take, Yield

_TURNS = tuple(turn_by(cos, sin) for cos, sin in TWELFTHS)
_WALK = ((-1, 1), (-1, 0), (0, -1), (1, -1), (1, 0), (0, 1))
"""Steps from hexagon to hexagon round a ring, clockwise from the one on the right."""

_LEAST_SHARE = Fraction(1, 12)
"""Of a whole hexagon; smaller pieces at the edge are all seam allowance."""


class HexagonGround(Enum):
    """What the rings lie on or in."""

    WHOLE = "one piece"
    HEXAGONS = "hexagons"


@dataclass(frozen=True)
class Hexagons(Unit):
    """Rings of hexagons in the middle of a rectangle."""

    size: Annotated[Size, "Finished width x height of the ground"]
    side: Annotated[Fraction, "Finished side of a hexagon"]
    rings: Annotated[
        tuple[FabricName, ...], "The hexagon in the middle, then ring by ring", AtLeast(1),
        AtMost(8),
    ]  # fmt: skip
    ground: Annotated[FabricName, "Around the rings"]
    ground_of: Annotated[
        HexagonGround, "Whether the rings are sewn onto one piece or set into hexagons"
    ] = HexagonGround.WHOLE

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.rings, self.ground)))


def hexagon(centre: Point, side: Fraction) -> Polygon:
    """A hexagon that stands on a tip, clockwise from its upper one."""
    x, y = centre
    wide, half = SIXTH * side, side / 2
    return (
        (x, y - side), (x + wide, y - half), (x + wide, y + half),
        (x, y + side), (x - wide, y + half), (x - wide, y - half),
    )  # fmt: skip


def ring(number: int) -> Iterator[tuple[int, int]]:
    """Steps right and steps down to the right, of all hexagons of a ring, clockwise."""
    if number == 0:
        yield 0, 0
    across, down = number, 0
    for way in _WALK:
        for _ in range(number):
            yield across, down
            across, down = across + way[0], down + way[1]


def _flower(unit: Hexagons) -> tuple[Shaped, ...]:
    places = [(fabric, place) for i, fabric in enumerate(unit.rings) for place in ring(i)]
    return tuple(
        Shaped(f"hexagon {number}", fabric, hexagon(_centre(unit, *place), unit.side))
        for number, (fabric, place) in enumerate(places, 1)
    )


def _centre(unit: Hexagons, across: int, down: int) -> Point:
    wide = 2 * SIXTH * unit.side
    return (
        unit.size.width / 2 + wide * (across + Fraction(down, 2)),
        unit.size.height / 2 + unit.side * Fraction(3, 2) * down,
    )


def _edge_pieces(unit: Hexagons) -> tuple[Shaped, ...]:
    """The hexagons of the ground that lie in the unit, cut off at its edge."""
    size, shapes, number = unit.size, list[Shaped](), len(unit.rings)
    inside = True
    while inside:
        inside = False
        for across, down in ring(number):
            outline = _cut_to(hexagon(_centre(unit, across, down), unit.side), size)
            if outline:
                inside = True
                shapes.append(Shaped(f"ground {len(shapes) + 1}", unit.ground, outline))
        number += 1
    return tuple(shapes)


def _cut_to(outline: Polygon, size: Size) -> Polygon:
    one, zero = Fraction(1), Fraction(0)
    for line in (
        Line(one, zero, zero), Line(zero, one, zero),
        Line(-one, zero, -size.width), Line(zero, -one, -size.height),
    ):  # fmt: skip
        outline = cut(outline, line) if outline else ()
    return outline


def _set_in(unit: Hexagons) -> tuple[Shaped, ...]:
    return (*_flower(unit), *_edge_pieces(unit))


def _patches(unit: Hexagons) -> tuple[Patch, ...]:
    if unit.ground_of is HexagonGround.HEXAGONS:
        return patches_of(_set_in(unit))
    return with_ground(unit.ground, unit.size, [_flower(unit)])


def _recipe(unit: Hexagons, room: Workroom) -> Recipe:
    if unit.ground_of is HexagonGround.HEXAGONS:
        shapes, edge = _set_in(unit), rectangle(unit.size.width, unit.size.height)
        return patchwork_recipe(shapes, _order(shapes), edge, room, _TURNS)
    flower = _flower(unit)
    fitted = fit_templates(flower, room.seam, _TURNS, ())
    joins, name = joining_steps(flower, _order(flower), fitted, room)
    cuts = (cut_of(shape.name, shape.fabric, fitted[shape.name], room) for shape in flower)
    ground = cut_finished(GROUND, unit.ground, unit.size, room)
    laid = lay_on(name, flower, unit.size, room.seam)
    steps = (*joins, Take(GROUND, GROUND), laid, Yield((GROUND,)))
    return Recipe((*cuts, ground), 1, steps)


def _order(shapes: Sequence[Shaped]) -> tuple[tuple[str, str], ...]:
    return tuple((shapes[0].name, shape.name) for shape in shapes[1:])


def flower_size(side: Fraction, rings: int) -> tuple[Number, Number]:
    """Width and height of so many rings around a hexagon: (2n + 1) a root 3 and (3n + 2) a."""
    return (2 * rings + 1) * side * square_root(3), (3 * rings + 2) * side


def _fault(unit: Hexagons, measure: Measure, _seam: Fraction) -> Fault | None:
    wide, tall = flower_size(unit.side, len(unit.rings) - 1)
    show, step = measure.show, measure.step
    if unit.size.width <= wide or unit.size.height <= tall:
        least = (ceil_to(side, step) for side in (wide, tall))
        return Fault(
            "size",
            f"{show(unit.size.width)} x {show(unit.size.height)} around {_told(unit)} with sides "
            f"of {show(unit.side)}",
            f"more than {' x '.join(map(show, least))}",
            ", or ".join(_nearest(unit, step, show)),
        )
    return _ground_fault(unit, measure) if unit.ground_of is HexagonGround.HEXAGONS else None


def _told(unit: Hexagons) -> str:
    rings = len(unit.rings) - 1
    return "1 ring" if rings == 1 else f"{rings} rings"


def _nearest(unit: Hexagons, step: Fraction, show: Callable[[Fraction], str]) -> Iterator[str]:
    """A larger ground, smaller hexagons, fewer rings: the nearest of each."""
    size, rings = unit.size, len(unit.rings) - 1
    wide, tall = flower_size(unit.side, rings)
    larger = (max(size.width, ceil_to(wide, step)), max(size.height, floor_to(tall, step) + step))
    yield f"write {' x '.join(map(show, larger))}"
    each, high = flower_size(Fraction(1), rings)
    side = min(floor_to(size.width / each, step), ceil_to(size.height / high, step) - step)
    if side > 0:
        yield f"sides of {show(side)}"
    for fewer in range(rings - 1, -1, -1):
        wide, tall = flower_size(unit.side, fewer)
        if size.width > wide and size.height > tall:
            yield f"{fewer + 1} fabric{'s' if fewer else ''} under `rings`, the middle one first"
            return


def _ground_fault(unit: Hexagons, measure: Measure) -> Fault | None:
    whole = area(hexagon((Fraction(0), Fraction(0)), unit.side))
    sliver = any(area(s.outline) < whole * _LEAST_SHARE for s in _edge_pieces(unit))
    shapes = _set_in(unit)
    _, wrong = seams_in_order(shapes, _order(shapes))
    if not sliver and not wrong:
        return None
    half = SIXTH * unit.side
    width = floor_to(floor_to(unit.size.width / half, Fraction(1)) * half, measure.step)
    return Fault(
        "size",
        wrong or "a ground whose edge cuts slivers off hexagons",
        "pieces of at least a twelfth of a hexagon along the edge",
        f"try {measure.show(width)}, just under a whole number of half hexagons, for the width, "
        "or use a ground of one piece",
    )


_LESSON = Lesson(
    "Flowers of hexagons, by hand or by machine: on one piece of ground, or among hexagons of it.",
    """\
size: 7 x 7
side: 1
rings: [clay, slate]
ground: mist
""",
)

METHOD = Method("hexagons", Hexagons, lambda u: u.size, _patches, _recipe, _fault, lesson=_LESSON)
