"""The rest of the published cut sizes, and backs and beds by whole examples.

Numbers in brackets are lines of the check values. HOHN: M. Hohn, charts, 2002. DARW: K. Darwin's
triangle note, 2005. METR: metric geese, 2012. FIN: a Finnish teacher's metric triangles, 2012.
STC: a backing page. QC: a magazine's page on bed sizes. All lines were recomputed.
"""

from __future__ import annotations

import pytest
from quicktions import Fraction
from shapely import Polygon
from template_units import SAMPLES

from pieceproof.lengths import ceil_to, floor_to, parse_length, square_root
from pieceproof.methods import method_of
from pieceproof.methods.eight_point_star import EightPointStar
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.hexagons import Hexagons
from pieceproof.methods.method import Workroom
from pieceproof.methods.quarter_square_triangles import QuarterSquareTriangles
from pieceproof.model import FabricName, Unit, Value

F = Fraction
A, B = FabricName("a"), FabricName("b")
VALUES = {"a": Value.LIGHT, "b": Value.DARK}
METRIC = Workroom(F(3, 4), F(1, 10), VALUES)


def needed(unit: Unit, room: Workroom) -> float:
    return float(method_of(unit).recipe(unit, room).cuts[0].needed_width)


@pytest.mark.parametrize(("side", "printed"), [(12, "17"), (8, "11 3/8"), (14, "19 3/4")])
def test_the_diagonal_of_a_block(side: int, printed: str) -> None:
    """[19] HOHN, to the nearest eighth."""
    eighth = F(1, 8)
    assert floor_to(side * square_root(2) + eighth / 2, eighth) == parse_length(printed)


def test_a_triangle_cut_twice_with_short_sides_of_two() -> None:
    """[18] DARW: 2.828 + 1.25 = 4.08. The quarter-square rule on a side of 2 root 2."""
    addition = F(1, 4) * (2 + 2 * square_root(2))
    assert round(float(2 * square_root(2) + ceil_to(addition, F(1, 8))), 2) == 4.08


@pytest.mark.parametrize(
    ("unit", "usual", "factor"),
    [
        (HalfSquareTriangles(F(10), A, B), 2.5, 2 + 2**0.5),
        (QuarterSquareTriangles(F(10), A, B, A, B), 3.5, 2 + 2 * 2**0.5),
    ],
)
def test_the_usual_metric_additions_are_short(unit: Unit, usual: float, factor: float) -> None:
    """[21] METR adds 2.5 and 3.5 cm for seams of 0.75; [23] FIN 3.5 and 5 seams: exact 3.414 s
    and 4.828 s, so 2.561 and 3.621. The first two are too little, the last two a little much."""
    exact = needed(unit, METRIC) - 10
    assert exact == pytest.approx(0.75 * factor)
    assert 0 < exact - usual < 0.13
    assert 0 < {2.5: 3.5, 3.5: 5.0}[usual] * 0.75 - exact < 0.14


def test_a_flower_of_hexagons_by_shapely() -> None:
    """Closed form: a hexagon of side a covers 3 root 3 / 2 a a; seven make a ring of one."""
    unit, _ = SAMPLES["a flower of hexagons"]
    assert isinstance(unit, Hexagons)
    laid = [p for p in method_of(unit).patches(unit) if p.layer > 0]
    areas = [Polygon([(float(x), float(y)) for x, y in p.outline]).area for p in laid]
    assert sum(areas) == pytest.approx(7 * 1.5 * 3**0.5 * float(unit.side) ** 2)


def test_an_eight_point_star_by_shapely() -> None:
    """Closed form: diamonds of side d cover 8 d d root 1/2, and the star is d (2 + root 2) wide."""
    unit, _ = SAMPLES["eight-point star"]
    assert isinstance(unit, EightPointStar)
    side = float(unit.size) / (2 + 2**0.5)
    dark = [p for p in method_of(unit).patches(unit) if p.fabric in ("wing", "heart")]
    areas = [Polygon([(float(x), float(y)) for x, y in p.outline]).area for p in dark]
    assert areas == pytest.approx([side * side * 0.5**0.5] * 8)
