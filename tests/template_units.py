"""Units of the template family, of any size and as single samples, for the tests of methods."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from hypothesis import assume
from hypothesis import strategies as st
from whole_path import GROUND, HEART, WATER, WING

from pieceproof.methods import method_of
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


SAMPLES: dict[str, Sample] = {
    "an inner corner": (inner_corner(Size(F(6), F(6)), at(3, 2)), BOTH_HANDS),
    "a sail": (sail(Size(F(4), F(6)), F(5), F(3)), (Cell("unit"), Cell("unit", 2))),
    "a fan": (fan(Size(F(5), F(5)), F(2), F(3)), BOTH_HANDS),
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


FAMILIES: dict[str, Callable[[Lengths], st.SearchStrategy[Unit]]] = {"template patches": _patches}
"""Units with random sizes taken from a strategy of lengths."""

SEAMS: Mapping[Measure, Lengths] = {
    Measure.INCH: st.integers(1, 4).map(lambda n: F(n, 8)),
    Measure.CENTIMETRE: st.integers(3, 12).map(lambda n: F(n, 10)),
}
"""1/8 to 1/2 in by eighths, and 3 to 12 mm."""
