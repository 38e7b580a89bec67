"""Cut sizes of the triangle family against published values. The source stands beside each value.

NHQ: North Hampshire Quilters (guild). APQ: American Patchwork & Quilting (magazine pages).
HST8: two teachers' pages on eight half-square triangles at a time. FIN: Finnish teacher's metric
triangles, 2012. BEV: a quilter's page on four geese at a time. ALINE: geese chart, 2011 (personal
page). METR: metric geese, 2012 (personal page). HOHN: M. Hohn, charts and setting triangles, 2002.
TANI: on-point cutting chart. MOON: Moonlight Quilters (guild). DBAY: handout on yardage and on
point. DARW: K. Darwin's triangle note, 2005. Values without a source are common practice.
"""

from dataclasses import replace

import pytest
from quicktions import Fraction

from pieceproof.lengths import parse_length, square_root
from pieceproof.methods import method_of
from pieceproof.methods.flying_geese_four import FlyingGeeseFour
from pieceproof.methods.half_rectangle_triangles import HalfRectangleTriangles
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.half_square_triangles_eight import HalfSquareTrianglesEight
from pieceproof.methods.half_square_triangles_four import HalfSquareTrianglesFour
from pieceproof.methods.method import Recipe, Workroom
from pieceproof.methods.quarter_square_triangles import QuarterSquareTriangles
from pieceproof.methods.square_in_square import SquareInSquare
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


def _hourglass(side: int, oversize: Fraction) -> QuarterSquareTriangles:
    return QuarterSquareTriangles(Fraction(side), LIGHT, DARK, LIGHT, DARK, oversize=oversize)


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


@pytest.mark.parametrize(
    ("unit", "cut"),
    [
        (HalfSquareTriangles(Fraction(3), LIGHT, DARK, oversize=Fraction(1, 4)), "4 1/8"),  # NHQ
        (_hourglass(3, Fraction(1, 4)), "4 1/2"),  # NHQ
        # F + 1, 2F + 2 and F + 1 1/2, to be trimmed: common practice
        (HalfSquareTriangles(Fraction(4), LIGHT, DARK, oversize=Fraction(1, 8)), "5"),
        (HalfSquareTrianglesEight(Fraction(4), LIGHT, DARK, oversize=Fraction(1, 4)), "10"),
        (_hourglass(4, Fraction(1, 4)), "5 1/2"),
    ],
)
def test_oversize_to_trim(unit: Unit, cut: str) -> None:
    """What the seams ask for stays the same, and the trim takes the surplus off again."""
    made = recipe(unit)
    assert set(sides(made)) == {length(cut)}
    assert {c.needed_width for c in made.cuts} == {
        c.needed_width for c in recipe(replace(unit, oversize=Fraction(0))).cuts
    }


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
    ("unit", "printed"),
    [
        (HalfSquareTriangles(Fraction(3), LIGHT, DARK), "4 1/8"),
        (QuarterSquareTriangles(Fraction(3), DARK, LIGHT, DARK, LIGHT), "4 1/2"),
    ],
)
def test_room_to_trim_is_a_quarter_more(unit: Unit, printed: str) -> None:
    """[7] NHQ cuts 3 in units with 1/4 in extra to trim; ours are the least on the ruler."""
    assert {side + Fraction(1, 4) for side in sides(recipe(unit))} == {length(printed)}


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


@pytest.mark.parametrize(
    ("centre", "cut"),
    [
        ("4", "3 3/4"),  # HOHN
        ("6", "5 1/8"),  # HOHN, TANI, MOON, DBAY
        ("8", "6 5/8"),  # HOHN, TANI
        ("9", "7 1/4"),  # HOHN, TANI
        ("11", "8 3/4"),  # TANI
        ("13", "10 1/8"),  # TANI
        ("14", "10 7/8"),  # HOHN, TANI
        ("16", "12 1/4"),  # HOHN, TANI
    ],
)
def test_corner_triangles_of_a_square_on_point(centre: str, cut: str) -> None:
    """Centre / 1.414 + 7/8, cut once, where the tips of the centre are exact: the published charts
    give the corners of a block on point, which is the same seam geometry."""
    side = length(centre)
    unit = SquareInSquare(side * square_root(2), side, DARK, LIGHT)
    made = recipe(unit)
    assert sides(made) == [side + Fraction(1, 2), length(cut)]
    assert sum(isinstance(s, Take) and s.source == "corner" for s in made.steps) == 2


def test_a_triangle_cut_once() -> None:
    """DARW: a long side of 2 wants a square of 2.29, cut once; the seams alone take 2.268."""
    side = Fraction(2)
    corner = recipe(SquareInSquare(side * square_root(2), side, DARK, LIGHT)).cuts[1]
    assert abs(float(corner.needed_width) - 2.268) < 0.0005
    assert corner.width == length("2 3/8")  # 2.29 up to the ruler's eighth


@pytest.mark.parametrize(
    ("finished", "cut"),
    [
        (("2", "4"), ("2 3/4", "5 1/2")),  # closed form below, 2.655 x 5.309, up in proportion
        (("3", "2"), ("4 1/8", "2 3/4")),  # 3.954 x 2.636
    ],
)
def test_half_rectangles_keep_the_slant(finished: tuple[str, str], cut: tuple[str, str]) -> None:
    """The incircle: a right triangle whose sides all lie s inside a larger one's is its image from
    the common incentre, larger by s in the radius r = W*H / (W + H + D). No outside source."""
    width, height = map(length, finished)
    made = recipe(HalfRectangleTriangles(Size(width, height), LIGHT, DARK))
    for piece in made.cuts:
        assert (piece.width, piece.height) == tuple(map(length, cut))
        assert piece.width / piece.height == width / height
        radius = float(width * height) / float(width + height + (width**2 + height**2) ** 0.5)
        assert abs(float(piece.needed_width) - float(width) * (radius + 0.25) / radius) < 1e-9
        assert abs(float(piece.needed_height) - float(height) * (radius + 0.25) / radius) < 1e-9
