"""Partial seams: four strips in a ring round a centre, each one longer than the side it meets.

No strip can be sewn on whole before the last one is there: the first seam is begun at one end and
left open at the other until the ring is closed. Every piece is cut finished + 2s.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Recipe,
    Workroom,
    cut_finished,
    off_the_ruler,
)
from pieceproof.model import FabricName, Measure, Node, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import Point, rectangle
from pieceproof.steps import CloseSeam, Join, JoinPart, Press, Side, Step, Take, Yield


@dataclass(frozen=True)
class RingStrip(Node):
    """One strip of the ring."""

    fabric: Annotated[FabricName, "The strip's fabric"]
    width: Annotated[Fraction, "Finished width"]


@dataclass(frozen=True)
class PartialSeams(Unit):
    """A centre with a ring of four strips; each runs past the next one's end, clockwise.

    The top strip reaches from the unit's left edge to the right edge of the centre, the right one
    from the unit's top edge to the bottom of the centre, and so on round.
    """

    centre: Annotated[FabricName, "The fabric of the centre"]
    centre_size: Annotated[Size, "Finished width x height of the centre"]
    top: Annotated[RingStrip, "The strip above the centre"]
    right: Annotated[RingStrip, "The strip to the right of the centre"]
    bottom: Annotated[RingStrip, "The strip below the centre"]
    left: Annotated[RingStrip, "The strip to the left of the centre"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.centre, *(strip.fabric for strip in _ring(self).values()))


def _ring(unit: PartialSeams) -> Mapping[Side, RingStrip]:
    """The strips in sewing order."""
    strips = (unit.top, unit.right, unit.bottom, unit.left)
    return dict(zip((Side.TOP, Side.RIGHT, Side.BOTTOM, Side.LEFT), strips, strict=True))


def _size(unit: PartialSeams) -> Size:
    inner = unit.centre_size
    return Size(
        unit.left.width + inner.width + unit.right.width,
        unit.top.width + inner.height + unit.bottom.width,
    )


def _laid(unit: PartialSeams) -> Mapping[Side, tuple[Size, Point]]:
    """Finished size of each strip as it lies, and its top left corner."""
    inner, zero = unit.centre_size, Fraction(0)
    top, right, bottom, left = (strip.width for strip in _ring(unit).values())
    return {
        Side.TOP: (Size(left + inner.width, top), (zero, zero)),
        Side.RIGHT: (Size(right, top + inner.height), (left + inner.width, zero)),
        Side.BOTTOM: (Size(inner.width + right, bottom), (left, top + inner.height)),
        Side.LEFT: (Size(left, inner.height + bottom), (zero, top)),
    }


def _patches(unit: PartialSeams) -> tuple[Patch, ...]:
    inner = unit.centre_size
    at = (unit.left.width, unit.top.width)
    laid = _laid(unit)
    return (
        Patch(unit.centre, rectangle(inner.width, inner.height, at)),
        *(
            Patch(strip.fabric, rectangle(laid[side][0].width, laid[side][0].height, laid[side][1]))
            for side, strip in _ring(unit).items()
        ),
    )


def _recipe(unit: PartialSeams, room: Workroom) -> Recipe:
    laid = _laid(unit)
    cuts = [cut_finished("centre", unit.centre, unit.centre_size, room)]
    steps: list[Step] = [Take("centre", "centre")]
    for side, strip in _ring(unit).items():
        name, seam, press = side.value, room.seam, Press.ONTO_ADDED
        cuts.append(cut_finished(name, strip.fabric, laid[side][0], room))
        join: Step = Join("centre", name, side, seam, press)
        if side is Side.TOP:
            join = JoinPart("centre", name, side, Side.RIGHT, seam, press)
        steps += [Take(name, name), join]
    closing = (CloseSeam("centre", Press.ONTO_ADDED), Yield(("centre",)))
    return Recipe(tuple(cuts), 1, (*steps, *closing))


def _fault(unit: PartialSeams, measure: Measure, seam: Fraction) -> Fault | None:
    centre = (unit.centre_size.width, unit.centre_size.height)
    sizes = {"centre size": centre, **{s.value: (r.width,) for s, r in _ring(unit).items()}}
    faults = (off_the_ruler(key, lengths, measure, seam) for key, lengths in sizes.items())
    return next((fault for fault in faults if fault is not None), None)


_LESSON = Lesson(
    "Rings that seem to turn round their centre, from straight cuts only. The first "
    "seam stays open at one end and is closed last.",
    """\
centre: clay
centre size: 2 x 2
top: {fabric: slate, width: 1}
right: {fabric: mist, width: 1}
bottom: {fabric: night, width: 1}
left: {fabric: reed, width: 1}
""",
)

METHOD = Method("partial seams", PartialSeams, _size, _patches, _recipe, _fault, lesson=_LESSON)
