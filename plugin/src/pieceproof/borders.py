"""Where borders lie in the finished top: strips, mitred strips, and rows of units that must fit.

In: a design, the finished size inside its borders, and the pictures of what it is made of. Out:
layouts of pieced borders, the patches of every border, or problems where units do not fill a
side, with what would make them fit. Knows nothing of seams; `sewing_borders` does.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import cycle, islice

from quicktions import Fraction

from pieceproof.border_fits import MOST_PLACES, SizeOf, counts, remedies
from pieceproof.cells import Laid, Layout
from pieceproof.model import (
    AnyBorder,
    Border,
    BorderOrder,
    Cell,
    Design,
    MitredBorder,
    PiecedBorder,
    Size,
)
from pieceproof.problems import Place, Problem
from pieceproof.published import Patch
from pieceproof.shapes import Polygon, rectangle
from pieceproof.wording import quoted


def side_name(number: int) -> str:
    """The make that is sewn to the left and right as border ``number`` from the inside."""
    return f"border {number} side"


def end_name(number: int) -> str:
    """The make that is sewn to the top and bottom, with the corners."""
    return f"border {number} end"


def border_number(name: str) -> int | None:
    """Which border a make of these names belongs to, None for other names."""
    words = name.split(" ")
    if len(words) == 3 and words[0] == "border" and words[1].isdecimal():
        return int(words[1]) if words[2] in ("side", "end") else None
    return None


def border_width(number: int, border: AnyBorder, layouts: Mapping[str, object]) -> Fraction:
    """The finished width of a border; a pieced one is as wide as it was laid."""
    if isinstance(border, PiecedBorder):
        layout = layouts[side_name(number)]
        assert isinstance(layout, Layout)
        return layout.size.height
    return border.width


def lay_borders(
    design: Design, centre: Size, size_of: SizeOf
) -> tuple[Mapping[str, Layout], list[Problem]]:
    """Layouts of pieced borders by the names of their makes, from the inside out."""
    layouts: dict[str, Layout] = {}
    inner = centre
    for number, border in enumerate(design.borders, start=1):
        if isinstance(border, PiecedBorder):
            problems = list(_unfit_units(design, border, size_of))
            motif = [size_of(cell) or Size(Fraction(1), Fraction(1)) for cell in border.units]
            problems = problems or _misfits(design, number, inner, motif, size_of)
            if problems:
                return layouts, problems
            layouts |= _laid(number, border, inner, motif)
        inner = _around(inner, border_width(number, border, layouts))
    return layouts, []


def border_patches(border: AnyBorder, inner: Size) -> Iterator[Patch]:
    """The patches of a plain border round the finished size inside it; none of a pieced one."""
    match border:
        case Border():
            yield from _butted_patches(border, inner)
        case MitredBorder():
            for outline in _mitred_outlines(border.width, inner):
                yield Patch(border.fabric, outline)
        case PiecedBorder():
            return


def pieced_places(number: int, inner: Size, width: Fraction) -> Iterator[tuple[str, int, Size]]:
    """Each side of a pieced border: its make, its quarter turns, how far right and down it lies."""
    zero = Fraction(0)
    yield side_name(number), 3, Size(zero, width)
    yield side_name(number), 1, Size(width + inner.width, width)
    yield end_name(number), 0, Size(zero, zero)
    yield end_name(number), 2, Size(zero, width + inner.height)


def _around(inner: Size, width: Fraction) -> Size:
    return Size(inner.width + 2 * width, inner.height + 2 * width)


def _butted_patches(border: Border, inner: Size) -> Iterable[Patch]:
    w, width, height = border.width, inner.width, inner.height
    corners = border.cornerstones is not None
    sides_first = border.order is BorderOrder.SIDES_FIRST or corners
    tall = height if sides_first else height + 2 * w
    long = width if corners or not sides_first else width + 2 * w
    x, y = (w if long == width else Fraction(0)), (w if tall == height else Fraction(0))
    for left in (Fraction(0), width + w):
        yield Patch(border.fabric, rectangle(w, tall, (left, y)))
    for top in (Fraction(0), height + w):
        yield Patch(border.fabric, rectangle(long, w, (x, top)))
    if border.cornerstones is not None:
        for left in (Fraction(0), width + w):
            for top in (Fraction(0), height + w):
                yield Patch(border.cornerstones, rectangle(w, w, (left, top)))


def _mitred_outlines(w: Fraction, inner: Size) -> Iterator[Polygon]:
    """Left, top, right, bottom: each a strip cut off on the diagonals of the corners."""
    zero, right, low = Fraction(0), inner.width + 2 * w, inner.height + 2 * w
    outer = ((zero, zero), (right, zero), (right, low), (zero, low))
    inside = ((w, w), (right - w, w), (right - w, low - w), (w, low - w))
    for start in (3, 0, 1, 2):
        end = (start + 1) % 4
        yield outer[start], outer[end], inside[end], inside[start]


def _unfit_units(design: Design, border: PiecedBorder, size_of: SizeOf) -> Iterator[Problem]:
    """Units without a size, of several heights, and corners that are not as wide as the border."""
    show = design.measure.show
    first = size_of(border.units[0])
    for cell in border.units:
        size = size_of(cell)
        if size is None:
            yield Problem(
                cell.place,
                "fabric-in-border",
                f"the fabric {quoted(cell.name)} among the units of a border",
                "units or blocks, because they say how long and how wide the border's places are",
                "make it a unit by the method `plain patch` with its size, and name that here",
            )
        elif first is not None and size.height != first.height:
            yield _wrong_size(
                cell,
                f"{quoted(cell.name)}, {show(size.height)} high",
                f"{show(first.height)}, as the first unit of this border",
            )
    corner = size_of(border.corners)
    if first is not None and corner is not None and corner != Size(first.height, first.height):
        yield _wrong_size(
            border.corners,
            f"{quoted(border.corners.name)} of {show(corner.width)} x {show(corner.height)} as a "
            "corner",
            f"{show(first.height)} square, because the border is {show(first.height)} wide",
        )


def _wrong_size(cell: Cell, found: str, expected: str) -> Problem:
    remedy = "change one of the two, or use another unit"
    return Problem(cell.place, "border-unit-size", found, expected, remedy)


def _laid(
    number: int, border: PiecedBorder, inner: Size, motif: Sequence[Size]
) -> Mapping[str, Layout]:
    width = motif[0].height
    corner = border.corners
    ends = [
        Laid(corner.name, (corner.turn + turn) % 4, corner.mirrored, Size(width, width), "corner")
        for turn in (0, 1)
    ]
    across = _row(border, motif, inner.width)
    return {
        side_name(number): Layout((_row(border, motif, inner.height),)),
        end_name(number): Layout(((ends[0], *across, ends[1]),)),
    }


def _row(border: PiecedBorder, motif: Sequence[Size], side: Fraction) -> tuple[Laid, ...]:
    count = counts([size.width for size in motif], side)[0].count
    return tuple(
        Laid(cell.name, cell.turn, cell.mirrored, size, f"place {place + 1}")
        for cell, size, place in islice(
            zip(cycle(border.units), cycle(motif), cycle(range(len(motif))), strict=False), count
        )
    )


def _misfits(
    design: Design, number: int, inner: Size, motif: Sequence[Size], size_of: SizeOf
) -> list[Problem]:
    lengths = [size.width for size in motif]
    place = design.borders[number - 1].at.key("units")
    if max(inner.width, inner.height) / min(lengths) > MOST_PLACES:
        return [_too_many(design, place, number, min(lengths))]
    sides = {"the sides": inner.height, "the top and bottom": inner.width}
    if inner.width == inner.height:
        sides = {"each side": inner.width}
    wrong = {
        where: side for where, side in sides.items() if counts(lengths, side)[0].length != side
    }
    if not wrong:
        return []
    return [
        Problem(
            place,
            "border-does-not-fit",
            f"border {number}, where inside it "
            + " and ".join(_off(design, lengths, *w) for w in wrong.items()),
            "units that fill every side exactly",
            remedies(design, number, inner, lengths, size_of),
        )
    ]


def _off(design: Design, lengths: Sequence[Fraction], where: str, side: Fraction) -> str:
    """``the sides are 20 (6 of its units are 2 too short, 7 are 1 too long)``."""
    show = design.measure.show
    low, high = counts(lengths, side)
    verb = "is" if where == "each side" else "are"
    long = f"{show(high.length - side)} too long"
    if not low.count:
        return f"{where} {verb} {show(side)} (one of its units is {long})"
    short = f"{show(side - low.length)} too short"
    few = f"{low.count} of its units {'is' if low.count == 1 else 'are'} {short}"
    return f"{where} {verb} {show(side)} ({few}, {high.count} are {long})"


def _too_many(design: Design, place: Place, number: int, length: Fraction) -> Problem:
    return Problem(
        place,
        "too-many-units",
        f"border {number}: units {design.measure.show(length)} long on a side of this quilt",
        f"at most {MOST_PLACES} units along a side",
        "check the unit's size, or join several into a block and repeat that",
    )
