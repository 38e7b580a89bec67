"""Cut sizes of the triangle family against published values. The source stands beside each value.

NHQ: North Hampshire Quilters (guild). APQ: American Patchwork & Quilting (magazine pages).
HST8: two teachers' pages on eight half-square triangles at a time. FIN: Finnish teacher's metric
triangles, 2012. BEV: a quilter's page on four geese at a time. ALINE: geese chart, 2011 (personal
page). METR: metric geese, 2012 (personal page). Values without a source are common practice.
"""

from fractions import Fraction

import pytest

from pieceproof.lengths import parse_length
from pieceproof.methods import method_of
from pieceproof.methods.flying_geese_four import FlyingGeeseFour
from pieceproof.methods.half_square_triangles_eight import HalfSquareTrianglesEight
from pieceproof.methods.half_square_triangles_four import HalfSquareTrianglesFour
from pieceproof.methods.method import Recipe, Workroom
from pieceproof.methods.quarter_square_triangles import QuarterSquareTriangles
from pieceproof.model import FabricName, Size, Unit, Value
from pieceproof.steps import Take

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


@pytest.mark.parametrize(
    ("quarters", "cuts"),
    [
        ("dldl", ["4 1/4", "4 1/4"]),  # a 3 in quarter-square triangle square: NHQ, APQ
        ("dlml", ["4 1/4"] * 4),  # the same rule for three fabrics, common practice
        ("dlmd", ["4 1/4", "4 1/4", "3 7/8"]),  # a plain half: F + 7/8, common practice
    ],
)
def test_quarter_square_triangles(quarters: str, cuts: list[str]) -> None:
    named = {"d": DARK, "l": LIGHT, "m": FabricName("medium")}
    unit = QuarterSquareTriangles(Fraction(3), *(named[letter] for letter in quarters))
    assert sorted(sides(recipe(unit))) == sorted(map(length, cuts))


def test_quarter_square_triangle_addition_is_the_seams_own() -> None:
    """FIN rounds the addition to 5 seams; the exact factor is 2 + 2 root 2 = 4.828."""
    unit = QuarterSquareTriangles(Fraction(10), DARK, LIGHT, DARK, LIGHT)
    needed = recipe(unit, METRIC).cuts[0].needed_width
    assert abs(float(needed - 10) / 0.75 - 4.828) < 0.0005


@pytest.mark.parametrize(
    ("width", "large", "small"),
    [
        ("2", "3 1/4", "1 7/8"),  # this and all but the last: BEV, ALINE
        ("3", "4 1/4", "2 3/8"),
        ("4", "5 1/4", "2 7/8"),
        ("5", "6 1/4", "3 3/8"),
        ("6", "7 1/4", "3 7/8"),
        ("7", "8 1/4", "4 3/8"),  # BEV
        ("8", "9 1/4", "4 7/8"),  # BEV
    ],
)
def test_geese_four_at_a_time(width: str, large: str, small: str) -> None:
    unit = FlyingGeeseFour(Size(length(width), length(width) / 2), DARK, LIGHT)
    made = recipe(unit)
    assert sides(made) == [length(large), length(small)]
    assert made.each == 4
    assert sum(isinstance(s, Take) and s.source == "sky" for s in made.steps) == 4


def test_metric_geese_are_not_short() -> None:
    """METR cuts 13.5 and 7.5 cm for 10 x 5 cm; the seams take 13.621 and 7.561."""
    made = recipe(FlyingGeeseFour(Size(Fraction(10), Fraction(5)), DARK, LIGHT), METRIC)
    assert [
        abs(float(cut.needed_width) - need) < 0.0005
        for cut, need in zip(made.cuts, (13.621, 7.561), strict=True)
    ] == [True, True]
    assert sides(made) == [length("13.7"), length("7.6")]
