"""Strings: strips sewn across a square foundation from corner to corner, then trimmed.

The middle strip lies on the diagonal from bottom left to top right; on both sides strip follows
strip, raw edges even, so each seam lies where the widths put it: half the middle strip, and then
one finished width after the other. A strip is cut finished + 2s wide. The last ones reach over the
corners, (F + 2s) / root 2 from the diagonal, and are trimmed. The finished corner lies F / root 2
from the diagonal.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, chain, zip_longest
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, square_root
from pieceproof.methods.foundations import Spread, foundation_recipe, section_patches
from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
    off_the_ruler,
)
from pieceproof.model import AtLeast, AtMost, FabricName, Measure, Node, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import Line
from pieceproof.steps import Guide

_TOP, _BOTTOM = "top left", "bottom right"


@dataclass(frozen=True)
class StringStrip(Node):
    """One strip and its finished width."""

    fabric: Annotated[FabricName, "The strip's fabric"]
    width: Annotated[Fraction, "Finished width"]


@dataclass(frozen=True)
class Strings(Unit):
    """A square of strips that run from bottom left to top right."""

    size: Annotated[Fraction, "Finished side"]
    middle: Annotated[StringStrip, "The strip on the diagonal"]
    top_left: Annotated[
        tuple[StringStrip, ...], "Strips from the middle to the top left corner, the last over it",
        AtLeast(1), AtMost(20),
    ]  # fmt: skip
    bottom_right: Annotated[
        tuple[StringStrip, ...],
        "Strips from the middle to the bottom right corner, the last over it",
        AtLeast(1), AtMost(20),
    ]  # fmt: skip

    def fabrics(self) -> tuple[str, ...]:
        strips = (self.middle, *self.top_left, *self.bottom_right)
        return tuple(strip.fabric for strip in strips)


def _size(unit: Strings) -> Size:
    return Size(unit.size, unit.size)


def _starts(unit: Strings, strips: tuple[StringStrip, ...]) -> list[Fraction]:
    """How far from the diagonal each strip begins, and in the end where the last one stops."""
    return list(accumulate((strip.width for strip in strips), initial=unit.middle.width / 2))


def _sided(unit: Strings, side: str, seam: Fraction, extra: Fraction) -> list[Spread]:
    strips = unit.top_left if side == _TOP else unit.bottom_right
    root = square_root(2)
    way = Fraction(-1 if side == _TOP else 1)
    return [
        Spread(
            f"{side} {number}",
            strip.fabric,
            Line(way, way, way * unit.size + start * root),
            Guide.EDGE,
            extra,
            strip.width + 2 * seam,
        )
        for number, (strip, start) in enumerate(
            zip(strips, _starts(unit, strips), strict=False), start=1
        )
    ]


def _spreads(unit: Strings, seam: Fraction, extra: Fraction) -> tuple[Spread, ...]:
    """The middle strip, then the others from the inside out, on both sides by turns."""
    upper, lower = (_sided(unit, side, seam, extra) for side in (_TOP, _BOTTOM))
    pairs = chain.from_iterable(zip_longest(upper, lower))
    middle = Spread(
        "middle",
        unit.middle.fabric,
        upper[0].line,
        Guide.EDGE,
        extra,
        unit.middle.width + 2 * seam,
    )
    return (middle, *(spread for spread in pairs if spread is not None))


def _patches(unit: Strings) -> tuple[Patch, ...]:
    return section_patches(_size(unit), _spreads(unit, Fraction(0), Fraction(0)))


def _recipe(unit: Strings, room: Workroom) -> Recipe:
    return foundation_recipe(_size(unit), _spreads(unit, room.seam, room.ample), room)


def _fault(unit: Strings, measure: Measure, seam: Fraction) -> Fault | None:
    return next(_faults(unit, measure, seam), None)


def _faults(unit: Strings, measure: Measure, seam: Fraction) -> Iterator[Fault]:
    sides = (("top left", unit.top_left), ("bottom right", unit.bottom_right))
    for key, sizes in (
        ("size", (unit.size,)),
        ("middle", (unit.middle.width,)),
        *((key, tuple(strip.width for strip in strips)) for key, strips in sides),
    ):
        fault = off_the_ruler(key, sizes, measure, seam)
        if fault is not None:
            yield fault
    for key, strips in sides:
        if strips:
            yield from _reach_faults(unit, key, strips, measure, seam)


def _reach_faults(
    unit: Strings, key: str, strips: tuple[StringStrip, ...], measure: Measure, seam: Fraction
) -> Iterator[Fault]:
    """The last strip must begin before the finished corner and cover the unfinished one."""
    *before, end = _starts(unit, strips)
    corner: Number = unit.size / square_root(2)
    needed = (unit.size + 2 * seam) / square_root(2) - seam
    if before[-1] >= corner:
        yield Fault(
            key,
            f"a last strip that begins {measure.show(before[-1])} from the diagonal",
            f"one that begins before the corner, about {float(corner):.2f} from it",
            f"leave out the last strip of `{key}`, or make the strips before it narrower",
        )
    elif end < needed:
        width = ceil_to(needed - before[-1] + 2 * seam, measure.step) - 2 * seam
        yield Fault(
            key,
            f"strips that end {measure.show(end)} from the diagonal",
            f"strips that cover the corner with its seam allowances, about {float(needed):.2f}",
            f"make the last one at least {measure.show(width)} wide, or add another",
        )


_LESSON = Lesson(
    "Narrow strips and scraps: sewn to a foundation from corner to corner, then "
    "trimmed square. All outer edges stretch until then.",
    """\
size: 4
middle: {fabric: clay, width: 1}
top left: [{fabric: mist, width: 1}, {fabric: reed, width: 2}]
bottom right: [{fabric: slate, width: 1}, {fabric: night, width: 2}]
""",
)

METHOD = Method(
    "strings", Strings, _size, _patches, _recipe, _fault, pressing=Pressing.LATER, lesson=_LESSON
)
