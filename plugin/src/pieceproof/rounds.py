"""A medallion: a centre and rounds about it, each a layout around the one before.

In: a setting and what finished size each cell has. Out: layouts by name from the inside out, or
problems that say by how much a round is off and what would fit.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.cells import Laid, Layout, placed, plain, turned
from pieceproof.lengths import ceil_to
from pieceproof.model import (
    Cell,
    CopingRound,
    Measure,
    Medallion,
    PiecedRound,
    PlainRound,
    Round,
    Size,
)
from pieceproof.problems import Problem
from pieceproof.unequal_rows import Found, SizeOf, unsized

_NEAR = 40
"""How many steps of the ruler a unit's width may be off and still count as near."""


@dataclass(frozen=True)
class _Around:
    """What goes around: strips as they lie at the top and at the left, a corner at the top left.

    The other ones are the same turned by a half; corners are turned by quarters. ``strips`` are
    layouts that must be sewn first.
    """

    top: Laid | None
    left: Laid | None
    corner: Laid | None
    strips: dict[str, Layout]


def lay_medallion(setting: Medallion, name: str, size_of: SizeOf, measure: Measure) -> Found:
    """The rounds from the inside out; the last one goes by ``name``."""
    size = size_of(setting.centre)
    if size is None:
        return {}, [unsized(setting.centre)]
    inner = placed(setting.centre, size, "centre")
    layouts: dict[str, Layout] = {}
    for number, around in enumerate(setting.rounds, start=1):
        problems = list(_faults(around, number, inner.size, size_of, measure))
        if problems:
            return {}, problems
        part = f"round {number}"
        parts = _around(around, part, inner.size, size_of)
        layouts.update(parts.strips)
        layout = _layout(parts, inner)
        layouts[name if number == len(setting.rounds) else part] = layout
        inner = Laid(part, 0, False, layout.size, part)
    return layouts, []


def _layout(parts: _Around, inner: Laid) -> Layout:
    """Side strips to the inner part, then the rows above and below; seams away from the inside."""
    left, top, corner = parts.left, parts.top, parts.corner
    middle = (inner,) if left is None else (left, inner, turned(left, 2))
    if top is None:
        return Layout((middle,), ("outward",), "outward")
    above: tuple[Laid, ...] = (top,)
    below: tuple[Laid, ...] = (turned(top, 2),)
    if corner is not None:
        above = (corner, top, turned(corner, 1))
        below = (turned(corner, 3), turned(top, 2), turned(corner, 2))
    return Layout((above, middle, below), ("inward", "outward", "inward"), "outward")


def _around(around: Round, part: str, inner: Size, size_of: SizeOf) -> _Around:
    match around:
        case PlainRound():
            return _plain(around, part, inner)
        case CopingRound():
            beside, above = _coping(around, inner)
            role = f"{part} coping"
            left = plain(around.fabric, beside, inner.height, f"{role} sides")
            top = plain(around.fabric, around.to.width, above, f"{role} ends")
            return _Around(top if above else None, left if beside else None, None, {})
        case PiecedRound():
            return _pieced(around, part, inner, size_of)


def _plain(around: PlainRound, part: str, inner: Size) -> _Around:
    w = around.width
    left = plain(around.fabric, w, inner.height, f"{part} sides")
    if around.corners is None:
        return _Around(plain(around.fabric, inner.width + 2 * w, w, f"{part} ends"), left, None, {})
    corner = placed(around.corners, Size(w, w), f"{part} corners")
    return _Around(plain(around.fabric, inner.width, w, f"{part} ends"), left, corner, {})


def _pieced(around: PiecedRound, part: str, inner: Size, size_of: SizeOf) -> _Around:
    size = size_of(around.unit)
    assert size is not None
    unit = placed(around.unit, size, "")
    corner = placed(around.corners, Size(size.height, size.height), f"{part} corners")
    ends, sides = f"{part} end strip", f"{part} side strip"
    if inner.width == inner.height:
        ends = sides = f"{part} strip"
    strips: dict[str, Layout] = {}
    top = _strip(unit, ends, inner.width, strips)
    left = turned(_strip(unit, sides, inner.height, strips), 3)
    return _Around(top, left, corner, strips)


def _strip(unit: Laid, name: str, length: Fraction, strips: dict[str, Layout]) -> Laid:
    """Units side by side; a single one needs no sewing first."""
    count = int(length / unit.size.width)
    if count == 1:
        return unit
    strips[name] = Layout(((unit,) * count,))
    return Laid(name, 0, False, Size(length, unit.size.height), name)


def _coping(around: CopingRound, inner: Size) -> tuple[Fraction, Fraction]:
    """(target - current) / 2 on each side: common practice."""
    return (around.to.width - inner.width) / 2, (around.to.height - inner.height) / 2


def _faults(
    around: Round, number: int, inner: Size, size_of: SizeOf, measure: Measure
) -> Iterator[Problem]:
    match around:
        case CopingRound():
            yield from _coping_faults(around, number, inner, measure)
        case PlainRound():
            if around.corners is not None:
                wanted = Size(around.width, around.width)
                yield from _corner_faults(around.corners, wanted, size_of, measure)
        case PiecedRound():
            size = size_of(around.unit)
            if size is None:
                yield unsized(around.unit)
                return
            wanted = Size(size.height, size.height)
            yield from _corner_faults(around.corners, wanted, size_of, measure)
            yield from _count_faults(around, number, inner, size, measure)


def _corner_faults(
    cell: Cell, wanted: Size, size_of: SizeOf, measure: Measure
) -> Iterator[Problem]:
    size, show = size_of(cell), measure.show
    if size is not None and size != wanted:
        yield Problem(
            cell.place,
            "sizes-differ",
            f"the corner `{cell.name}` finishes at {show(size.width)} x {show(size.height)}",
            f"{show(wanted.width)} square, as wide as the round",
            f"make it {show(wanted.width)} square, or place another one",
        )


def _coping_faults(
    around: CopingRound, number: int, inner: Size, measure: Measure
) -> Iterator[Problem]:
    show, strips = measure.show, _coping(around, inner)
    found = (
        f"round {number} to {show(around.to.width)} x {show(around.to.height)} about "
        f"{show(inner.width)} x {show(inner.height)}"
    )
    if min(strips) < 0 or max(strips) == 0:
        yield Problem(
            around.at["to"],
            "coping-too-small",
            found,
            f"more than {show(inner.width)} x {show(inner.height)} one way at least, and less "
            "neither way",
            f"write a size from {show(inner.width + 2 * measure.step)} x "
            f"{show(inner.height + 2 * measure.step)}, or delete the round",
        )
        return
    even = [ceil_to(strip, measure.step) for strip in strips]
    if tuple(even) != strips:
        width, height = inner.width + 2 * even[0], inner.height + 2 * even[1]
        yield Problem(
            around.at["to"],
            "coping-off-the-ruler",
            f"{found}: strips of {show(strips[0])} and {show(strips[1])}",
            f"strips in steps of {show(measure.step)}",
            f"write `to: {show(width)} x {show(height)}`, for strips of {show(even[0])} and "
            f"{show(even[1])}",
        )


def _count_faults(
    around: PiecedRound, number: int, inner: Size, size: Size, measure: Measure
) -> Iterator[Problem]:
    show, unit = measure.show, size.width
    if not inner.width % unit and not inner.height % unit:
        return
    told = " and ".join(
        f"{show(side)} takes {side // unit} and leaves {show(side % unit)}"
        for side in dict.fromkeys((inner.width, inner.height))
        if side % unit
    )
    yield Problem(
        around.at.key("unit"),
        "round-does-not-fit",
        f"round {number} of `{around.unit.name}`, {show(unit)} along the side: {told}",
        "sides that hold a whole number of units",
        "; or ".join(_nearest_designs(inner, unit, measure)),
    )


def _nearest_designs(inner: Size, unit: Fraction, measure: Measure) -> Iterator[str]:
    """The least coping that makes the round fit, and the unit's nearest width that fits."""
    show = measure.show
    target = Size(ceil_to(inner.width, unit), ceil_to(inner.height, unit))
    strips = [(target.width - inner.width) / 2, (target.height - inner.height) / 2]
    counts = f"{target.width / unit} and {target.height / unit} units"
    if all(ceil_to(strip, measure.step) == strip for strip in strips):
        yield (
            f"put a round `{{round: coping, to: {show(target.width)} x {show(target.height)}}}` "
            f"with a fabric before it, strips of {show(strips[0])} and {show(strips[1])}, "
            f"for {counts} a side"
        )
    for near in _near_units(inner, unit, measure.step):
        yield (f"a unit {show(near)} wide, {inner.width / near} and {inner.height / near} a side")
    inside = f"{show(target.width)} x {show(target.height)}"
    yield f"change what is inside it to {inside}, for {counts} a side"


def _near_units(inner: Size, unit: Fraction, step: Fraction) -> Iterator[Fraction]:
    """The next narrower and the next wider unit on the ruler's grid that fits both ways."""
    for way in (-step, step):
        widths = (unit + way * n for n in range(1, _NEAR))
        fitting = (w for w in widths if w > 0 and not inner.width % w and not inner.height % w)
        yield from (w for w, _ in zip(fitting, range(1), strict=False))
