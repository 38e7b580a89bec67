"""Units sewn on a foundation: the common part of several methods.

Section 1 lies down first. Each later section is sewn on along a straight line and takes everything
beyond it: what was sewn before is trimmed there. So lines in sewing order, each with the side that
its section takes, say all: a point belongs to the last section that takes it, or to section 1.
Such sections fill the unit, are convex, and can be sewn in this order.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.lengths import Number, sign, square_root
from pieceproof.methods.method import Cut, Recipe, Workroom, cut_by_ways
from pieceproof.model import Size
from pieceproof.published import Patch
from pieceproof.shapes import (
    Line,
    Polygon,
    area,
    bounds,
    cut,
    mirror_left_right,
    overlap,
    rectangle,
    shift,
)
from pieceproof.steps import Cover, Foundation, Guide, Step, Take, TrimToFoundation, Yield
from pieceproof.ways import Way, exactly

_UNIT = "unit"


@dataclass(frozen=True)
class Spread:
    """A section and the piece for it.

    ``line`` is where it is sewn on, its positive side what the section takes; for section 1 it is
    that of section 2. ``extra`` is what the piece has more than what it must cover: the section,
    and one allowance beyond it at every seam. ``depth`` is its size square to the line where that
    is given.
    """

    slot: str
    fabric: str
    line: Line
    guide: Guide
    extra: Fraction
    depth: Fraction | None = None


def sections_in(whole: Polygon, spreads: Sequence[Spread]) -> tuple[Polygon, ...]:
    """What each section shows of an area in the end; () for one that shows nothing."""
    shown = []
    for number, spread in enumerate(spreads):
        outline = cut(whole, spread.line) if number > 0 else whole
        for later in spreads[max(number + 1, 1) :]:
            outline = cut(outline, later.line.flipped()) if outline else ()
        shown.append(outline)
    return tuple(shown)


def section_patches(size: Size, spreads: Sequence[Spread]) -> tuple[Patch, ...]:
    """The finished sections in sewing order."""
    outlines = sections_in(rectangle(size.width, size.height), spreads)
    return tuple(Patch(s.fabric, o) for s, o in zip(spreads, outlines, strict=True) if o)


def foundation_recipe(size: Size, spreads: Sequence[Spread], room: Workroom) -> Recipe:
    """A rectangle for each section, laid on the unfinished foundation; one unit a round."""
    seam = room.seam
    wide, tall = size.width + 2 * seam, size.height + 2 * seam
    outlines = sections_in(rectangle(wide, tall, (-seam, -seam)), spreads)
    there = shift(seam, seam)
    back = mirror_left_right(wide)
    printed = tuple(back.polygon(there.polygon(outline)) for outline in outlines)
    steps: list[Step] = [Foundation(_UNIT, wide, tall, printed)]
    cuts = []
    for number, spread in enumerate(spreads):
        along, across = _extents(_needed(outlines, spreads, number, seam), spread.line)
        deep = across + spread.extra if spread.depth is None else spread.depth
        cuts.append(_cut(spread, along, across, room))
        more = (spread.extra, deep - across)
        cover = Cover(_UNIT, spread.slot, number + 1, spread.guide, *more)
        steps += [Take(spread.slot, spread.slot), cover]
    return Recipe(tuple(cuts), 1, (*steps, TrimToFoundation(_UNIT), Yield((_UNIT,))))


def _cut(spread: Spread, along: Number, across: Number, room: Workroom) -> Cut:
    """A rectangle for what must be covered, measured along the seam line and square to it."""
    ample = exactly("to spare", spread.extra)
    long = Way((exactly("section with its allowances, along its seam line", along), ample))
    told = "section with its allowances, square to its seam line"
    wide = Way((exactly(told, across), ample))
    if spread.depth is not None:
        wide = Way((exactly("strip with its allowances", spread.depth),))
    return cut_by_ways(spread.slot, spread.fabric, (long, wide), room)


def _needed(
    outlines: Sequence[Polygon], spreads: Sequence[Spread], number: int, seam: Fraction
) -> Polygon:
    """Corners of a section and of one allowance beyond it at each seam of its own cloth.

    Beyond the line of a later section that is the part of the strip along that section's edge in
    which this section still shows until then.
    """
    corners = list(outlines[number])
    if number > 0:
        corners += _beyond(outlines[number], spreads[number].line.flipped(), seam)
    box = bounds(outlines)
    whole = rectangle(box.width, box.height, (box.left, box.top))
    for later in range(number + 1, len(spreads)):
        shown = overlap(whole, _beyond(outlines[later], spreads[later].line, seam))
        if number > 0:
            shown = cut(shown, spreads[number].line)
        for between in spreads[number + 1 : later]:
            shown = cut(shown, between.line.flipped()) if shown else ()
        corners += shown
    return tuple(corners)


def _beyond(outline: Polygon, line: Line, seam: Fraction) -> Polygon:
    """The strip, one allowance deep, on the positive side of the edge that lies on a line."""
    edge = [p for p in outline if line.at(p) == 0]
    norm = _norm(line)
    away = shift(line.a / norm * seam, line.b / norm * seam)
    strip = (edge[0], edge[1], away.point(edge[1]), away.point(edge[0]))
    return strip if sign(area(strip)) > 0 else strip[::-1]


def _extents(corners: Polygon, line: Line) -> tuple[Number, Number]:
    """How far corners reach along a line and square to it; the line's a, b are rational."""
    norm = _norm(line)
    turned = tuple((line.b * x - line.a * y, line.a * x + line.b * y) for x, y in corners)
    box = bounds([turned])
    return box.width / norm, box.height / norm


def _norm(line: Line) -> Number:
    square = line.a * line.a + line.b * line.b
    assert isinstance(square, Fraction)
    return square_root(square)
