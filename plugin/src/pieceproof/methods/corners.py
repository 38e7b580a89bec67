"""Squares sewn across the corners of a rectangle, the common part of two methods.

A square of leg + 2s laid on a corner and sewn on its own diagonal covers, when folded back, a
finished triangle with that leg: the diagonal meets each raw edge leg + 2s from the corner, so it
meets each seam line leg from the finished corner.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from pieceproof.lengths import Number, ceil_to
from pieceproof.methods.method import Cut, Recipe, Workroom, cut_finished
from pieceproof.model import Size
from pieceproof.published import Patch
from pieceproof.shapes import Line, Polygon, cut, rectangle
from pieceproof.steps import (
    Corner,
    CutApart,
    Diagonal,
    Layer,
    Open,
    Press,
    Sew,
    Slope,
    Step,
    Take,
    Yield,
)


@dataclass(frozen=True)
class CornerPatch:
    """A corner's place, fabric and finished leg."""

    corner: Corner
    fabric: str
    leg: Number


def corner_patches(size: Size, base: str, corners: tuple[CornerPatch, ...]) -> tuple[Patch, ...]:
    """The base less its corners, then each corner less the ones sewn on after it."""
    whole = rectangle(size.width, size.height)
    lines = [_finished_line(size, c) for c in corners]
    rest = _less(whole, lines)
    shown = [Patch(base, rest)] if rest else []
    for i, corner in enumerate(corners):
        outline = _less(cut(whole, lines[i]), lines[i + 1 :])
        shown += [Patch(corner.fabric, outline)] if outline else []
    return tuple(shown)


def corner_recipe(
    size: Size, base: str, corners: tuple[CornerPatch, ...], room: Workroom
) -> Recipe:
    """One base rectangle and one square for each corner; one unit a round."""
    cuts = [cut_finished("base", base, size, room)]
    steps: list[Step] = [Take("base", "base")]
    for corner in corners:
        cuts.append(_square(corner, room))
        steps += _corner_steps(corner.corner, room.seam)
    return Recipe(tuple(cuts), 1, (*steps, Yield(("base",))))


def _square(corner: CornerPatch, room: Workroom) -> Cut:
    needed = corner.leg + 2 * room.seam
    side = ceil_to(needed, room.step)
    return Cut(corner.corner.value, corner.fabric, needed, needed, side, side)


def _corner_steps(corner: Corner, seam: Fraction) -> Iterable[Step]:
    square = corner.value
    slope = Slope.RISING if corner in (Corner.TOP_LEFT, Corner.BOTTOM_RIGHT) else Slope.FALLING
    toward_top = corner in (Corner.TOP_LEFT, Corner.TOP_RIGHT)
    beyond = Diagonal(slope, seam if toward_top else -seam)
    parts = ("", "base") if toward_top else ("base", "")
    return (
        Take(square, square),
        Layer("base", square, corner),
        Sew("base", Diagonal(slope, Fraction(0))),
        CutApart("base", beyond, *parts),
        Open("base", corner, Press.ONTO_ADDED),
    )


def _finished_line(size: Size, corner: CornerPatch) -> Line:
    """The corner's seam; its positive side is the corner."""
    left = corner.corner in (Corner.TOP_LEFT, Corner.BOTTOM_LEFT)
    top = corner.corner in (Corner.TOP_LEFT, Corner.TOP_RIGHT)
    a, b = Fraction(-1 if left else 1), Fraction(-1 if top else 1)
    x = Fraction(0) if left else size.width
    y = Fraction(0) if top else size.height
    return Line(a, b, a * x + b * y - corner.leg)


def _less(outline: Polygon, lines: list[Line]) -> Polygon:
    for line in lines:
        outline = cut(outline, line.flipped()) if outline else ()
    return outline
