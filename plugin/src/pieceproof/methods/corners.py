"""Squares sewn across the corners of a rectangle, the common part of two methods.

A square of leg + 2s laid on a corner and sewn on its own diagonal covers, when folded back, a
finished triangle with that leg: the diagonal meets each raw edge leg + 2s from the corner, so it
meets each seam line leg from the finished corner.

A second seam 2s nearer to the corner, with the cut midway, turns the offcut into a half-square
triangle: a bonus.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.lengths import Number, floor_to, square_root
from pieceproof.methods.method import Cut, Fault, Recipe, Workroom, cut_by_ways, cut_finished
from pieceproof.methods.triangle_squares import trim_alike, two_triangles
from pieceproof.model import Measure, Size
from pieceproof.published import Patch, Picture
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
    Turn,
    Yield,
)
from pieceproof.ways import Way, allowances, exactly


@dataclass(frozen=True)
class CornerPatch:
    """A corner's place, fabric and finished leg."""

    corner: Corner
    fabric: str
    leg: Number
    bonus: Fraction | None = None
    """The finished side of a half-square triangle out of the offcut, if it is to be sewn."""


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
        steps += _corner_steps(corner, room.seam)
    kinds = _bonus_kinds(corners).items()
    extras = (Yield(tuple(map(_offcut, kind)), name) for name, kind in kinds)
    return Recipe(tuple(cuts), 1, (*steps, Yield(("base",)), *extras))


def corner_extras(base: str, corners: tuple[CornerPatch, ...]) -> tuple[Picture, ...]:
    """The half-square triangles out of the offcuts, the base's fabric top left."""
    return tuple(
        Picture(name, side, side, two_triangles(side, base, kind[0].fabric))
        for name, kind in _bonus_kinds(corners).items()
        if (side := kind[0].bonus) is not None
    )


def bonus_fault(
    size: Size, corners: tuple[CornerPatch, ...], key: str, measure: Measure, seam: Fraction
) -> Fault | None:
    """Why an offcut cannot give the half-square triangle that is asked for."""
    for number, corner in enumerate(corners):
        fault = _bonus_fault(size, corner, corners[:number], key, measure, seam)
        if fault is not None:
            return fault
    return None


def _bonus_fault(
    size: Size,
    corner: CornerPatch,
    before: tuple[CornerPatch, ...],
    key: str,
    measure: Measure,
    seam: Fraction,
) -> Fault | None:
    """The second seam shortens the offcut's legs by 2s * root 2."""
    if corner.bonus is None:
        return None
    show, lost = measure.show, 2 * seam * square_root(2)
    largest = floor_to(corner.leg + 2 * seam - lost, measure.step) - 2 * seam
    found = f"a bonus of {show(corner.bonus)} at the {corner.corner.value}"
    if corner.bonus > largest or ((corner.bonus + 2 * seam) / measure.step).denominator != 1:
        remedy = f"write {show(largest)}" if largest > 0 else "leave the bonus out"
        expected = f"at most {show(max(largest, Fraction(0)))}, in steps of {show(measure.step)}"
        return Fault(key, found, expected, remedy)
    for other in before:
        side = _shared_side(size, corner.corner, other.corner)
        if side is not None and corner.leg + other.leg > side + lost - 2 * seam:
            expected = f"an offcut clear of the corner sewn on before it, {other.corner.value}"
            return Fault(key, found, expected, "sew it on first, or leave the bonus out")
    return None


def _shared_side(size: Size, corner: Corner, other: Corner) -> Fraction | None:
    """The side between two corners, None where they are opposite."""
    level, upright = (set(c.value.split()) for c in (corner, other))
    shared = level & upright
    if not shared or len(shared) == 2:
        return None
    return size.width if shared & {"top", "bottom"} else size.height


def _bonus_kinds(corners: tuple[CornerPatch, ...]) -> dict[str, list[CornerPatch]]:
    """Corners whose offcuts give the same triangles, by the name of these."""
    kinds: dict[tuple[str, Fraction], list[CornerPatch]] = {}
    for corner in corners:
        if corner.bonus is not None:
            kinds.setdefault((corner.fabric, corner.bonus), []).append(corner)
    names = [" bonus" if n == 1 else f" bonus {n}" for n in range(1, len(kinds) + 1)]
    return dict(zip(names, kinds.values(), strict=True))


def _square(corner: CornerPatch, room: Workroom) -> Cut:
    way = Way((exactly("finished leg", corner.leg), allowances(2 * room.seam, room.seam)))
    return cut_by_ways(corner.corner.value, corner.fabric, (way, way), room)


def _corner_steps(corner: CornerPatch, seam: Fraction) -> Iterable[Step]:
    where = corner.corner
    square, bonus = where.value, "" if corner.bonus is None else _offcut(corner)
    slope = Slope.RISING if where in (Corner.TOP_LEFT, Corner.BOTTOM_RIGHT) else Slope.FALLING
    toward_top = where in (Corner.TOP_LEFT, Corner.TOP_RIGHT)
    outward = 1 if toward_top else -1
    second = (Sew("base", Diagonal(slope, 2 * seam * outward)),) if bonus else ()
    parts = (bonus, "base") if toward_top else ("base", bonus)
    return (
        Take(square, square),
        Layer("base", square, where),
        Sew("base", Diagonal(slope, Fraction(0))),
        *second,
        CutApart("base", Diagonal(slope, seam * outward), *parts),
        Open("base", where, Press.ONTO_ADDED),
        *_bonus_steps(corner, seam),
    )


def _bonus_steps(corner: CornerPatch, seam: Fraction) -> Iterable[Step]:
    """The offcut opened away from its corner, turned base top left, trimmed."""
    if corner.bonus is None:
        return ()
    item, side = _offcut(corner), corner.bonus + 2 * seam
    away, turn = _OPPOSITE[corner.corner]
    off = (corner.leg + 2 * seam - 2 * seam * square_root(2) - side) / 2
    turned = (Turn(item, turn),) if turn else ()
    opened = Open(item, away, Press.ONTO_ADDED)
    return (opened, *turned, trim_alike(item, side, off))


def _offcut(corner: CornerPatch) -> str:
    return f"bonus {corner.corner.value}"


_OPPOSITE = {
    Corner.TOP_LEFT: (Corner.BOTTOM_RIGHT, 0),
    Corner.TOP_RIGHT: (Corner.BOTTOM_LEFT, 3),
    Corner.BOTTOM_RIGHT: (Corner.TOP_LEFT, 2),
    Corner.BOTTOM_LEFT: (Corner.TOP_RIGHT, 1),
}
"""The opposite corner, and the turn that brings a corner to the top left."""


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
