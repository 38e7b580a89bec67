"""Units of the template family, of any size and as single samples, for the tests of methods."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from hypothesis import assume
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import GROUND, HEART, WATER, WING

from pieceproof.lengths import ceil_to, floor_to
from pieceproof.methods import method_of
from pieceproof.methods.applique import Applique, AppliqueShape
from pieceproof.methods.eight_point_star import EightPointStar
from pieceproof.methods.full_circle import FullCircle
from pieceproof.methods.hexagons import HexagonGround, Hexagons, flower_size
from pieceproof.methods.quarter_circle import QuarterCircle
from pieceproof.methods.six_point_star import SixPointStar
from pieceproof.methods.sixty_degree_triangles import SixtyDegreeTriangles, triangle_side
from pieceproof.methods.template_patches import PatchShape, TemplatePatches
from pieceproof.model import Cell, Measure, Position, Size, Unit

F = Fraction

ONE = (Cell("unit"), Cell("unit", 1))
BOTH_HANDS = (Cell("unit"), Cell("unit", 0, True), Cell("unit", 1))

Sample = tuple[Unit, tuple[Cell, ...]]
Lengths = st.SearchStrategy[Fraction]


def at(across: Fraction | int, down: Fraction | int) -> Position:
    return Position(F(across), F(down))


def inner_corner(size: Size, heart: Position) -> TemplatePatches:
    """Two triangles, and a patch set in between them whose inner corner is the heart."""
    return TemplatePatches(
        size,
        {
            "north": PatchShape(GROUND, ("top left", "top right", "heart")),
            "east": PatchShape(WING, ("top right", "bottom right", "heart")),
            "west": PatchShape(HEART, ("top left", "heart", "bottom right", "bottom left")),
        },
        {"heart": heart},
    )


def sail(size: Size, foot: Fraction, tack: Fraction) -> TemplatePatches:
    """Whole straight seams only, one meeting another in the middle of a side."""
    return TemplatePatches(
        size,
        {
            "sea": PatchShape(WATER, ("foot left", "foot right", "bottom right", "bottom left")),
            "sail": PatchShape(WING, ("top left", "foot left", "tack")),
            "sky": PatchShape(GROUND, ("top left", "tack", "foot right", "top right")),
        },
        {"foot left": at(0, foot), "foot right": at(size.width, foot), "tack": at(tack, foot)},
        (("sail", "sky"), ("sea", "sail")),
    )


def fan(size: Size, top: Fraction, side: Fraction) -> TemplatePatches:
    """Three wedges that meet in a corner of the unit, at any angles."""
    return TemplatePatches(
        size,
        {
            "upper": PatchShape(GROUND, ("top left", "top point", "bottom right")),
            "upper end": PatchShape(WATER, ("top point", "top right", "bottom right")),
            "lower": PatchShape(WING, ("top left", "bottom right", "side point")),
            "lower end": PatchShape(HEART, ("side point", "bottom right", "bottom left")),
        },
        {"top point": at(top, 0), "side point": at(0, side)},
        (("upper", "upper end"), ("lower", "lower end"), ("lower", "upper")),
    )


def leaf_and_eye(size: Size, turn_under: Fraction | None) -> Applique:
    """A leaf off the middle, and a circle that covers part of it."""
    w, h = size.width / 8, size.height / 8
    return Applique(
        size,
        GROUND,
        {
            "stalk": at(w, h), "bend": at(5 * w, 2 * h), "tip": at(4 * w, 5 * h),
            "side": at(2 * w, 3 * h), "eye": at(5 * w, 5 * h),
        },
        {
            "leaf": AppliqueShape(WING, ("stalk", "bend", "tip", "side")),
            "eye": AppliqueShape(HEART, (), "eye", min(w, h)),
        },
        turn_under,
    )  # fmt: skip


SAMPLES: dict[str, Sample] = {
    "an inner corner": (inner_corner(Size(F(6), F(6)), at(3, 2)), BOTH_HANDS),
    "a sail": (sail(Size(F(4), F(6)), F(5), F(3)), (Cell("unit"), Cell("unit", 2))),
    "a fan": (fan(Size(F(5), F(5)), F(2), F(3)), BOTH_HANDS),
    "eight-point star": (EightPointStar(F(12), WING, HEART, GROUND, WATER), ONE),
    "six-point star": (SixPointStar(Size(F(10), F(11)), F(3), WING, HEART, GROUND), ONE[:1]),
    "a flower of hexagons": (Hexagons(Size(F(7), F(7)), F(1), (HEART, WING), GROUND), ONE),
    "hexagons set into hexagons": (
        Hexagons(Size(F(55, 8), F(8)), F(2), (HEART,), GROUND, HexagonGround.HEXAGONS),
        ONE[:1],
    ),
    "quarter circle": (QuarterCircle(F(5), F(7, 2), WING, GROUND), ONE),
    "full circle": (FullCircle(F(8), F(3), WING, HEART, GROUND), ONE),
    "fused shapes": (leaf_and_eye(Size(F(8), F(8)), None), BOTH_HANDS),
    "shapes turned under": (leaf_and_eye(Size(F(8), F(10)), F(1, 4)), (Cell("unit"),) * 2),
    "sixty-degree triangles": (
        SixtyDegreeTriangles(Size(F(69, 8), F(6)), ((WING, GROUND), (HEART, GROUND, WATER))),
        ONE[:1],
    ),
}


@st.composite
def _patches(draw: st.DrawFn, lengths: Lengths) -> Unit:
    size = Size(draw(lengths), draw(lengths))
    across, down = draw(lengths), draw(lengths)
    assume(across < size.width and down < size.height)
    unit = draw(
        st.sampled_from(
            (
                inner_corner(size, Position(across, down)),
                sail(size, down, across),
                fan(size, across, down),
            )
        )
    )
    assume(method_of(unit).fault(unit, Measure.INCH, F(1, 4)) is None)
    return unit


@st.composite
def _diamonds(draw: st.DrawFn, lengths: Lengths) -> Unit:
    side = draw(lengths)
    if draw(st.booleans()):
        return EightPointStar(side, WING, draw(st.sampled_from((WING, HEART))), GROUND, WATER)
    size = Size(3 * side + draw(lengths), 4 * side + draw(lengths))
    return SixPointStar(size, side, WING, HEART, GROUND)


@st.composite
def _hexagons(draw: st.DrawFn, lengths: Lengths) -> Unit:
    side, rings = draw(lengths), draw(st.integers(0, 2))
    wide, tall = (ceil_to(v, F(1)) for v in flower_size(side, rings))
    size = Size(wide + draw(lengths), tall + draw(lengths))
    return Hexagons(size, side, (HEART, WING, GROUND)[: rings + 1], GROUND)


@st.composite
def _circles(draw: st.DrawFn, lengths: Lengths) -> Unit:
    radius, more = draw(lengths), draw(lengths)
    assume(radius >= 1)
    if draw(st.booleans()):
        return QuarterCircle(radius + more, radius, WING, GROUND)
    return FullCircle(2 * (radius + more), radius, WING, HEART, GROUND)


@st.composite
def _applique(draw: st.DrawFn, lengths: Lengths) -> Unit:
    size = Size(8 * draw(lengths), 8 * draw(lengths))
    return leaf_and_eye(size, draw(st.sampled_from((None, F(1, 4), F(1, 2)))))


@st.composite
def _triangles(draw: st.DrawFn, lengths: Lengths) -> Unit:
    height, rows = 4 * draw(lengths), draw(st.integers(1, 3))
    width = floor_to(draw(st.integers(2, 8)) * triangle_side(height) / 2, F(1, 2))
    size = Size(width, rows * height)
    unit = SixtyDegreeTriangles(size, ((WING, GROUND), (HEART, GROUND, WATER), (WING,))[:rows])
    assume(method_of(unit).fault(unit, Measure.INCH, F(1, 4)) is None)
    return unit


FAMILIES: dict[str, Callable[[Lengths], st.SearchStrategy[Unit]]] = {
    "template patches": _patches,
    "diamonds": _diamonds,
    "hexagons": _hexagons,
    "circles": _circles,
    "applique": _applique,
    "triangles": _triangles,
}
"""Units with random sizes taken from a strategy of lengths."""

SEAMS: Mapping[Measure, Lengths] = {
    Measure.INCH: st.integers(1, 4).map(lambda n: F(n, 8)),
    Measure.CENTIMETRE: st.integers(3, 12).map(lambda n: F(n, 10)),
}
"""1/8 to 1/2 in by eighths, and 3 to 12 mm."""
