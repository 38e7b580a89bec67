"""Units of the triangle family, of any size and as single samples, for the tests of methods."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from hypothesis import assume
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import GROUND, HEART, WATER, WING

from pieceproof.methods.flying_geese import FlyingGeese
from pieceproof.methods.flying_geese_four import FlyingGeeseFour
from pieceproof.methods.half_rectangle_triangles import HalfRectangleTriangles
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.half_square_triangles_eight import HalfSquareTrianglesEight
from pieceproof.methods.half_square_triangles_four import HalfSquareTrianglesFour
from pieceproof.methods.plain_patch import PlainPatch
from pieceproof.methods.quarter_square_triangles import QuarterSquareTriangles
from pieceproof.methods.square_in_square import SquareInSquare
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import Cell, Measure, Size, Unit
from pieceproof.steps import Corner, Slope

F = Fraction

ONE = (Cell("unit"), Cell("unit", 2))
BOTH_HANDS = (Cell("unit"), Cell("unit", 0, True), Cell("unit", 2))

Sample = tuple[Unit, tuple[Cell, ...]]

SAMPLES: Mapping[str, Sample] = {
    "plain patch": (PlainPatch(Size(F(3), F(2)), GROUND), (Cell("unit"),) * 2),
    "half-square triangles": (HalfSquareTriangles(F(3), GROUND, WING), ONE),
    "half-square triangles four at a time": (HalfSquareTrianglesFour(F(3), GROUND, WING), ONE),
    "half-square triangles eight at a time": (HalfSquareTrianglesEight(F(3), GROUND, WING), ONE),
    "hourglass of two fabrics": (QuarterSquareTriangles(F(3), GROUND, WING, GROUND, WING), ONE),
    "hourglass of three fabrics": (QuarterSquareTriangles(F(3), GROUND, WING, HEART, WING), ONE),
    "half-square triangles with a plain half": (
        QuarterSquareTriangles(F(3), HEART, HEART, GROUND, WING), BOTH_HANDS
    ),
    "quarters of four fabrics": (
        QuarterSquareTriangles(F(3), GROUND, WING, HEART, WATER), BOTH_HANDS
    ),
    "flying geese four at a time": (FlyingGeeseFour(Size(F(4), F(2)), WING, GROUND), ONE),
    "square in square": (SquareInSquare(F(6), F(33, 8), WING, GROUND), ONE),
    "half-rectangle triangles": (
        HalfRectangleTriangles(Size(F(4), F(2)), GROUND, WING), ONE
    ),
    "half-rectangle triangles, upright and falling": (
        HalfRectangleTriangles(Size(F(2), F(3)), GROUND, WING, Slope.FALLING), ONE
    ),
    "half-square triangles cut large": (
        HalfSquareTriangles(F(3), GROUND, WING, oversize=F(1, 4)), ONE
    ),
    "half-square triangles with a plain half cut large": (
        QuarterSquareTriangles(F(3), HEART, HEART, GROUND, WING, oversize=F(1, 8)), ONE
    ),
    "flying geese four at a time cut large": (
        FlyingGeeseFour(Size(F(4), F(2)), WING, GROUND, oversize=F(1, 8)), ONE
    ),
    "square in square cut large": (
        SquareInSquare(F(6), F(33, 8), WING, GROUND, oversize=F(1, 4)), ONE
    ),
    "half-rectangle triangles cut large": (
        HalfRectangleTriangles(Size(F(6), F(4)), GROUND, WING, oversize=F(1, 4)), ONE
    ),
    "flying geese with a bonus": (
        FlyingGeese(Size(F(4), F(2)), WING, GROUND, bonus=F(5, 4)), ONE
    ),
    "stitched corners with a bonus": (
        StitchedCorners(Size(F(5), F(4)), GROUND, {
            Corner.BOTTOM_LEFT: StitchedCorner(WING, F(2), F(1)),
            Corner.TOP_RIGHT: StitchedCorner(HEART, F(3, 2)),
            Corner.BOTTOM_RIGHT: StitchedCorner(HEART, F(5, 2), F(3, 2)),
        }), (Cell("unit"), Cell("unit", 0, True)),
    ),
}  # fmt: skip

Lengths = st.SearchStrategy[Fraction]


def on_the_ruler(step: Fraction, least: int, most: int) -> Lengths:
    """Multiples of the ruler's step."""
    return st.integers(least, most).map(lambda n: n * step)


def _squares(lengths: Lengths) -> st.SearchStrategy[Unit]:
    kinds = (HalfSquareTriangles, HalfSquareTrianglesFour, HalfSquareTrianglesEight)
    return st.one_of([st.builds(kind, lengths, st.just(GROUND), st.just(WING)) for kind in kinds])


@st.composite
def _quarters(draw: st.DrawFn, lengths: Lengths) -> Unit:
    top, right, bottom, left = (
        draw(st.sampled_from((GROUND, WING, HEART, WATER))) for _ in range(4)
    )
    assume(not (top == right and bottom == left) and not (right == bottom and left == top))
    return QuarterSquareTriangles(draw(lengths), top, right, bottom, left)


def _geese(lengths: Lengths) -> st.SearchStrategy[Unit]:
    return lengths.map(lambda high: FlyingGeeseFour(Size(2 * high, high), WING, GROUND))


@st.composite
def _squares_in_squares(draw: st.DrawFn, lengths: Lengths) -> Unit:
    side, centre = sorted((draw(lengths), draw(lengths)), reverse=True)
    assume(2 * centre * centre <= side * side)
    return SquareInSquare(side, centre, WING, GROUND)


@st.composite
def _half_rectangles(draw: st.DrawFn, lengths: Lengths) -> Unit:
    across, down = draw(st.lists(st.integers(1, 8), min_size=2, max_size=2, unique=True))
    part, slant = draw(lengths), draw(st.sampled_from(Slope))
    return HalfRectangleTriangles(Size(part * across, part * down), GROUND, WING, slant)


@st.composite
def _stitch_and_flip(draw: st.DrawFn, lengths: Lengths) -> Unit:
    """Geese, or corners none of which reaches over the middle of a side."""
    leg = draw(lengths)
    if draw(st.booleans()):
        return FlyingGeese(Size(2 * leg, leg), WING, GROUND)
    places = draw(st.lists(st.sampled_from(Corner), min_size=1, unique=True))
    corners = {place: StitchedCorner(draw(st.sampled_from((WING, HEART))), leg) for place in places}
    return StitchedCorners(Size(2 * leg + draw(lengths), 3 * leg), GROUND, corners)


def _plain(lengths: Lengths) -> st.SearchStrategy[Unit]:
    return st.builds(PlainPatch, st.builds(Size, lengths, lengths), st.just(GROUND))


FAMILIES: Mapping[str, Callable[[Lengths], st.SearchStrategy[Unit]]] = {
    "plain patch": _plain,
    "stitch and flip": _stitch_and_flip,
    "half-square triangles": _squares,
    "quarter-square triangles": _quarters,
    "flying geese": _geese,
    "square in square": _squares_in_squares,
    "half-rectangle triangles": _half_rectangles,
}
"""Units with random sizes taken from a strategy of lengths."""

SEAMS: Mapping[Measure, Lengths] = {
    Measure.INCH: st.integers(2, 8).map(lambda n: F(n, 16)),
    Measure.CENTIMETRE: st.integers(6, 24).map(lambda n: F(n, 20)),
}
"""1/8 to 1/2 in by sixteenths, and 3 to 12 mm by half millimetres."""
