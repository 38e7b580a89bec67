"""Cut sizes against published handbook values. The source stands beside each value.

L1: Lesson 1, seam allowances (teaching handout). NHQ: North Hampshire Quilters (guild).
APQ: American Patchwork & Quilting (magazine pages). KY4H: Kentucky 4-H newspaper column.
METR: metric flying geese, 2012 (personal page). FIN: Finnish teacher's metric triangles, 2012.
"""

import pytest
from quicktions import Fraction

from pieceproof.lengths import parse_length, square_root
from pieceproof.methods import flying_geese, half_square_triangles, plain_patch, stitched_corners
from pieceproof.methods.flying_geese import FlyingGeese
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.method import Recipe, Workroom
from pieceproof.methods.plain_patch import PlainPatch
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import FabricName, Size, Value
from pieceproof.steps import Corner

LIGHT, DARK = FabricName("light"), FabricName("dark")
VALUES = {"light": Value.LIGHT, "dark": Value.DARK}
INCH = Workroom(Fraction(1, 4), Fraction(1, 8), VALUES)  # 1/4 in seams: L1, KY4H
METRIC = Workroom(Fraction(3, 4), Fraction(1, 10), VALUES)


def length(text: str) -> Fraction:
    value = parse_length(text)
    assert value is not None
    return value


def sizes(recipe: Recipe) -> list[tuple[Fraction, Fraction]]:
    return [(cut.width, cut.height) for cut in recipe.cuts]


@pytest.mark.parametrize(
    ("finished", "cut"),
    [
        (("3", "3"), ("3 1/2", "3 1/2")),  # L1, a 6 in four-patch
        (("2 1/2", "5"), ("3", "5 1/2")),  # L1, a 10 in block
        (("2", "2"), ("2 1/2", "2 1/2")),  # APQ, a 6 in nine-patch
        (("12", "12"), ("12 1/2", "12 1/2")),  # a guild's glossary: 12 in block before joining
    ],
)
def test_plain_patches(finished: tuple[str, str], cut: tuple[str, str]) -> None:
    unit = PlainPatch(Size(*map(length, finished)), LIGHT)
    assert sizes(plain_patch.METHOD.recipe(unit, INCH)) == [tuple(map(length, cut))]


@pytest.mark.parametrize(
    ("finished", "cut"),
    [("3", "3 7/8")]  # L1, NHQ, APQ
    + [(str(n), f"{n} 7/8") for n in (1, 2, 4, 5, 6, 8, 12)],  # the same rule, common practice
)
def test_half_square_triangles_add_seven_eighths(finished: str, cut: str) -> None:
    unit = HalfSquareTriangles(length(finished), LIGHT, DARK)
    recipe = half_square_triangles.METHOD.recipe(unit, INCH)
    assert sizes(recipe) == [(length(cut), length(cut))] * 2
    assert recipe.each == 2


def test_half_square_triangle_addition_is_the_seams_own() -> None:
    """FIN rounds the addition to 3.5 seams; the exact factor is 2 + root 2 = 3.414."""
    unit = HalfSquareTriangles(Fraction(3), LIGHT, DARK)
    needed = half_square_triangles.METHOD.recipe(unit, INCH).cuts[0].needed_width
    assert needed == 3 + Fraction(1, 4) * (2 + square_root(2))
    assert abs(float(needed - 3) / 0.25 - 3.414) < 0.0005


def test_metric_half_square_triangles_are_not_short() -> None:
    """METR adds 2.5 cm to a 0.75 cm seam's unit, 0.6 mm less than the seam takes: exact 2.561."""
    unit = HalfSquareTriangles(Fraction(10), LIGHT, DARK)
    cut = half_square_triangles.METHOD.recipe(unit, METRIC).cuts[0]
    assert cut.width == length("12.6")
    assert abs(float(cut.needed_width) - 12.561) < 0.0005


@pytest.mark.parametrize("height", ["1", "1 1/2", "2", "2 1/2", "3"])
def test_flying_geese_by_stitch_and_flip(height: str) -> None:
    """A rectangle and two squares, each finished + 1/2 in: common practice, no source."""
    high = length(height)
    unit = FlyingGeese(Size(2 * high, high), DARK, LIGHT)
    half = Fraction(1, 2)
    square = (high + half, high + half)
    assert sizes(flying_geese.METHOD.recipe(unit, INCH)) == [
        (2 * high + half, high + half), square, square
    ]  # fmt: skip


def test_stitched_corners_of_a_floating_star() -> None:
    """Side pieces 3 1/4 x 5 and 3 in squares for a 10 in block: common practice, no source."""
    corners = {
        Corner.BOTTOM_LEFT: StitchedCorner(DARK, length("2 1/2")),
        Corner.BOTTOM_RIGHT: StitchedCorner(DARK, length("2 1/2")),
    }
    unit = StitchedCorners(Size(length("4 1/2"), length("2 3/4")), LIGHT, corners)
    assert sizes(stitched_corners.METHOD.recipe(unit, INCH)) == [
        (length("5"), length("3 1/4")), (Fraction(3), Fraction(3)), (Fraction(3), Fraction(3))
    ]  # fmt: skip
    ground = next(p for p in stitched_corners.METHOD.patches(unit) if p.fabric == LIGHT)
    inner_tip = max(y for x, y in ground.outline if x == length("2 1/4"))
    assert length("2 3/4") - inner_tip == Fraction(1, 4)
    outer = max(y for x, y in ground.outline if x == 0)
    assert outer == Fraction(1, 4)
