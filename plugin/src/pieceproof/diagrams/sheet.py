"""What all drawings of cutting share: the cloth at its scale, its selvages, what is left of it.

In: a sheet, places on it. Out: items and bands, which lie below each other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pieceproof.cutting.plan import Plan
from pieceproof.diagrams.subject import Subject
from pieceproof.drawing.hatch import hatch_lines
from pieceproof.drawing.scene import (
    Area,
    AreaKind,
    Item,
    Line,
    LineKind,
    Note,
    Place,
    Side,
    TextKind,
)

HEADING = 21.0
LINE = 17.0
AFTER = 14.0
LETTERS = 20.0
SELVAGE = 6.0
_HATCH = 7.0


@dataclass(frozen=True)
class Sheet:
    """The cloth as it is drawn: its plan, its colour's fabric, pixels for texts, scale."""

    subject: Subject
    fabric: str
    plan: Plan
    room: float
    pixel: float

    @property
    def width(self) -> float:
        return float(self.plan.width)

    def px(self, pixels: float) -> float:
        return pixels * self.pixel


@dataclass(frozen=True)
class Band:
    """Something drawn across the cloth, and where the next one may start."""

    items: Sequence[Item]
    end: float


def left_over(sheet: Sheet, x: float, y: float, width: float, height: float) -> Iterator[Item]:
    if width <= 0:
        return
    corners = rectangle(x, y, x + width, y + height)
    yield Area(corners, kind=AreaKind.OFFCUT, layer=1)
    for stretch in hatch_lines(corners, 45, sheet.px(_HATCH)):
        yield Line(stretch, LineKind.LEADER)


def selvages(sheet: Sheet, y: float, height: float) -> Iterator[Item]:
    """The selvages at both ends of a strip; they are cut off and not counted in the width."""
    edge = sheet.px(SELVAGE)
    for left in (-edge, sheet.width):
        corners = rectangle(left, y, left + edge, y + height)
        yield Area(corners, sheet.fabric, None, AreaKind.CLOTH)


def broken(sheet: Sheet, y: float) -> Iterator[Item]:
    """A gap with torn edges: the strip is taller than it is drawn."""
    edge, tooth = sheet.px(SELVAGE + 3), sheet.px(4)
    count = 24
    xs = [-edge + (sheet.width + 2 * edge) * i / count for i in range(count + 1)]
    upper = [(x, y - tooth + (tooth if i % 2 else -tooth) / 2) for i, x in enumerate(xs)]
    lower = [(x, py + 2 * tooth) for x, py in upper]
    yield Area((*upper, *reversed(lower)), kind=AreaKind.CLOTH, layer=3)


def flush(sheet: Sheet, text: str, top: float, kind: TextKind) -> Note:
    """Text flush with the left edge of the cloth, from ``top`` down."""
    lines = text.count("\n") + 1
    return Note((sheet.px(-7), top + sheet.px(lines * LINE / 2)), text, Side.RIGHT, kind)


def rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Place, ...]:
    return ((left, top), (right, top), (right, bottom), (left, bottom))
