"""Cut sizes of the triangle family against published values. The source stands beside each value.

NHQ: North Hampshire Quilters (guild). APQ: American Patchwork & Quilting (magazine pages).
HST8: two teachers' pages on eight half-square triangles at a time. FIN: Finnish teacher's metric
triangles, 2012. Values without a source are common practice of the trade.
"""

from fractions import Fraction

import pytest

from pieceproof.lengths import parse_length
from pieceproof.methods import method_of
from pieceproof.methods.half_square_triangles_eight import HalfSquareTrianglesEight
from pieceproof.methods.half_square_triangles_four import HalfSquareTrianglesFour
from pieceproof.methods.method import Recipe, Workroom
from pieceproof.model import FabricName, Unit, Value

LIGHT, DARK = FabricName("light"), FabricName("dark")
VALUES = {"light": Value.LIGHT, "medium": Value.MEDIUM, "dark": Value.DARK}
INCH = Workroom(Fraction(1, 4), Fraction(1, 8), VALUES)
METRIC = Workroom(Fraction(3, 4), Fraction(1, 10), VALUES)


def length(text: str) -> Fraction:
    value = parse_length(text)
    assert value is not None
    return value


def recipe(unit: Unit, room: Workroom = INCH) -> Recipe:
    return method_of(unit).recipe(unit, room)


def sides(made: Recipe) -> list[Fraction]:
    """The sides of the squares a recipe cuts."""
    assert all(cut.width == cut.height for cut in made.cuts)
    return [cut.width for cut in made.cuts]


@pytest.mark.parametrize(
    ("finished", "cut"),
    [("1", "3 3/4"), ("2", "5 3/4"), ("3", "7 3/4"), ("4 1/2", "10 3/4")],  # 2F + 1 3/4: HST8
)
def test_eight_at_a_time(finished: str, cut: str) -> None:
    made = recipe(HalfSquareTrianglesEight(length(finished), LIGHT, DARK))
    assert sides(made) == [length(cut)] * 2
    assert made.each == 8


@pytest.mark.parametrize("finished", ["1", "2", "3", "4", "6", "7 1/2"])
def test_four_at_a_time(finished: str) -> None:
    """1.414F + 1.21: common practice."""
    made = recipe(HalfSquareTrianglesFour(length(finished), LIGHT, DARK))
    assert made.each == 4
    for cut in made.cuts:
        rule = 1.414 * float(length(finished)) + 1.21
        assert abs(float(cut.needed_width) - rule) < 0.01
        assert 0 <= float(cut.width) - rule + 0.01 < 0.25
