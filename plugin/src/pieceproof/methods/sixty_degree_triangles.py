"""Sixty-degree triangles in rows, tips up and down in turn, with cut-off triangles at the ends.

A row of height h holds triangles of side 2 h / root 3. They are laid out from the middle of the
unit, with a tip in it or midway between two, so that both ends are cut off straight as near to half
a triangle as the width allows. Rows are mirror images of their neighbours, so that six tips meet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, floor_to, square_root
from pieceproof.methods.method import Fault, Lesson, Method, Recipe, Workroom
from pieceproof.methods.patchwork import patches_of, patchwork_recipe
from pieceproof.methods.star_points import TWELFTHS
from pieceproof.methods.templates import Shaped, turn_by
from pieceproof.model import AtLeast, AtMost, FabricName, Measure, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import Line, Polygon, area, cut, rectangle

_TURNS = tuple(turn_by(cos, sin) for cos, sin in TWELFTHS)

_LEAST_SHARE = Fraction(1, 8)
"""Of a whole triangle; smaller pieces at the ends are all seam allowance."""


@dataclass(frozen=True)
class SixtyDegreeTriangles(Unit):
    """Rows of equal triangles in a rectangle."""

    size: Annotated[Size, "Finished width x height; the rows are equally high"]
    rows: Annotated[
        tuple[
            Annotated[tuple[FabricName, ...], "Fabrics from the left", AtLeast(1), AtMost(60)], ...
        ],
        "Rows from the top; the fabrics of a row are repeated to its end",
        AtLeast(1),
        AtMost(40),
    ]

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(fabric for row in self.rows for fabric in row))


def triangle_side(height: Fraction) -> Number:
    """Of a triangle with equal sides and this height."""
    return 2 * height / square_root(3)


def _row(unit: SixtyDegreeTriangles, number: int) -> list[Shaped]:
    height = unit.size.height / len(unit.rows)
    half = triangle_side(height) / 2
    top, bottom = number * height, (number + 1) * height
    reach = floor_to(unit.size.width / 2 / half, Fraction(1)).numerator + 2
    halves = floor_to(unit.size.width / half + Fraction(1, 2), Fraction(1))
    middle = unit.size.width / 2 + (half / 2 if halves % 2 else Fraction(0))
    shapes: list[Shaped] = []
    for place in range(-reach, reach + 1):
        x = middle + place * half
        tip_up = (place + number) % 2 == 0
        base, tip = (bottom, top) if tip_up else (top, bottom)
        corners: Polygon = ((x, tip), (x + half, base), (x - half, base))
        outline = _cut_off(corners if tip_up else corners[::-1], unit.size.width)
        if outline:
            fabric = unit.rows[number][len(shapes) % len(unit.rows[number])]
            shapes.append(Shaped(f"row {number + 1} patch {len(shapes) + 1}", fabric, outline))
    return shapes


def _cut_off(outline: Polygon, width: Fraction) -> Polygon:
    one, zero = Fraction(1), Fraction(0)
    left = cut(outline, Line(one, zero, zero))
    return cut(left, Line(-one, zero, -width)) if left else ()


def _rows(unit: SixtyDegreeTriangles) -> list[list[Shaped]]:
    return [_row(unit, number) for number in range(len(unit.rows))]


def _shapes(unit: SixtyDegreeTriangles) -> tuple[Shaped, ...]:
    return tuple(shape for row in _rows(unit) for shape in row)


def _patches(unit: SixtyDegreeTriangles) -> tuple[Patch, ...]:
    return patches_of(_shapes(unit))


def _recipe(unit: SixtyDegreeTriangles, room: Workroom) -> Recipe:
    rows = _rows(unit)
    along = [(row[0].name, shape.name) for row in rows for shape in row[1:]]
    down = [(rows[0][0].name, row[0].name) for row in rows[1:]]
    edge = rectangle(unit.size.width, unit.size.height)
    return patchwork_recipe(_shapes(unit), (*along, *down), edge, room, _TURNS)


def _fault(unit: SixtyDegreeTriangles, measure: Measure, _seam: Fraction) -> Fault | None:
    height = unit.size.height / len(unit.rows)
    half = triangle_side(height) / 2
    whole = height * half
    count = [len(row) for row in _rows(unit)]
    if all(area(s.outline) >= whole * _LEAST_SHARE for s in _shapes(unit)) and min(count) > 1:
        return None
    halves = floor_to(unit.size.width / half, Fraction(1))
    low, high = (floor_to(n * half, measure.step) for n in (max(halves, Fraction(2)), halves + 1))
    show = measure.show
    return Fault(
        "size",
        f"a width of {show(unit.size.width)}, which cuts slivers off triangles {show(height)} high",
        "a width near a whole number of half triangles",
        f"write {show(low)} x {show(unit.size.height)} or {show(high)} x "
        f"{show(unit.size.height)}, or change the height of the rows",
    )


_LESSON = Lesson(
    "Pennants, pyramids and hexagons of six: rows of equal triangles from straight strips.",
    """\
size: 8 5/8 x 6
rows: [[slate, mist], [clay, mist, night]]
""",
)

METHOD = Method(
    "sixty-degree triangles",
    SixtyDegreeTriangles,
    lambda u: u.size,
    _patches,
    _recipe,
    _fault,
    lesson=_LESSON,
)
