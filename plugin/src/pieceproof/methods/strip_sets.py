"""Strip sets: strips sewn side by side, cut across into segments, segments sewn to units.

Nine-patches, four-patches, rail fences, checkerboards: a grid of fabrics, each row a segment. A
strip is the finished column + 2s wide and as long as the cloth is surely wide; a segment is the
finished row + 2s. A set gives floor((strip - squaring) / segment) segments: common practice. Rows
that look alike, also turned upside down, come from the same sets.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import floor_to
from pieceproof.methods.method import (
    Cut,
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
    cut_finished,
    off_the_ruler,
    press_to_darker,
)
from pieceproof.model import AtLeast, AtMost, FabricName, Measure, Size, Unit
from pieceproof.published import Patch, Picture
from pieceproof.shapes import rectangle
from pieceproof.steps import Assemble, CrossCut, Join, Placed, Side, Step, Take, Yield

_SET = "set"


@dataclass(frozen=True)
class StripSets(Unit):
    """A grid of fabrics; each row is a segment cut across a set of strips."""

    rows: Annotated[
        tuple[Annotated[tuple[FabricName, ...], AtLeast(1), AtMost(20)], ...],
        "Fabrics, row by row from the top; each row is a segment of a strip set",
        AtLeast(1), AtMost(20),
    ]  # fmt: skip
    columns: Annotated[
        tuple[Fraction, ...], "Finished widths of the columns, or one for all", AtLeast(1)
    ]
    heights: Annotated[
        tuple[Fraction, ...], "Finished heights of the rows, or one for all", AtLeast(1)
    ]

    def fabrics(self) -> tuple[str, ...]:
        return tuple(fabric for row in self.rows for fabric in row)


@dataclass(frozen=True)
class _Segment:
    """A row as it is cut from a set: fabrics and finished widths from the left, and its height."""

    strips: tuple[tuple[str, Fraction], ...]
    height: Fraction

    def upside_down(self) -> _Segment:
        return _Segment(self.strips[::-1], self.height)

    @property
    def width(self) -> Fraction:
        return sum((width for _, width in self.strips), Fraction(0))


def _rows(unit: StripSets) -> tuple[_Segment, ...]:
    wide = _spread(unit.columns, len(unit.rows[0]))
    high = _spread(unit.heights, len(unit.rows))
    return tuple(
        _Segment(tuple(zip(row, wide, strict=True)), height)
        for row, height in zip(unit.rows, high, strict=True)
    )


def _spread(lengths: tuple[Fraction, ...], count: int) -> tuple[Fraction, ...]:
    return lengths * count if len(lengths) == 1 else lengths


def _kinds(unit: StripSets) -> Mapping[str, _Segment]:
    """Segments that differ, by what follows the unit's name; none where the unit is one row."""
    kinds: list[_Segment] = []
    for row in _rows(unit):
        if row not in kinds and row.upside_down() not in kinds:
            kinds.append(row)
    if len(unit.rows) == 1:
        return {}
    return {f" segment {number}": kind for number, kind in enumerate(kinds, start=1)}


def _size(unit: StripSets) -> Size:
    rows = _rows(unit)
    return Size(rows[0].width, sum((row.height for row in rows), Fraction(0)))


def _patches(unit: StripSets) -> tuple[Patch, ...]:
    patches: list[Patch] = []
    top = Fraction(0)
    for row in _rows(unit):
        patches += _row_patches(row, top)
        top += row.height
    return tuple(patches)


def _row_patches(row: _Segment, top: Fraction) -> list[Patch]:
    patches, left = [], Fraction(0)
    for fabric, width in row.strips:
        patches.append(Patch(fabric, rectangle(width, row.height, (left, top))))
        left += width
    return patches


def _parts(unit: StripSets) -> tuple[Picture, ...]:
    return tuple(
        Picture(name, kind.width, kind.height, tuple(_row_patches(kind, Fraction(0))))
        for name, kind in _kinds(unit).items()
    )


def _recipe(unit: StripSets, room: Workroom) -> Recipe:
    kinds = _kinds(unit)
    if not kinds:
        return _segment_recipe(_rows(unit)[0], room)
    rows = tuple((_placed(row, kinds),) for row in _rows(unit))
    joined = Assemble("unit", rows, room.seam, ("right",) * len(rows), "down")
    parts = {name: _segment_recipe(kind, room) for name, kind in kinds.items()}
    return Recipe((), 1, (joined, Yield(("unit",))), parts)


def _placed(row: _Segment, kinds: Mapping[str, _Segment]) -> Placed:
    for name, kind in kinds.items():
        if row in (kind, kind.upside_down()):
            return Placed(name, 0 if row == kind else 2)
    raise AssertionError("every row is of one kind")


def _segment_recipe(row: _Segment, room: Workroom) -> Recipe:
    """One strip set: strips upright, cut across from the top."""
    segment = row.height + 2 * room.seam
    length = max(room.strip, segment + room.squaring)
    count = int(floor_to((length - room.squaring) / segment, Fraction(1)))
    cuts = [_strip(number, *strip, length, room) for number, strip in enumerate(row.strips, 1)]
    steps: list[Step] = [Take(_SET, cuts[0].slot)]
    for before, cut in pairwise(cuts):
        press = press_to_darker(before.fabric, cut.fabric, room)
        steps += [Take(cut.slot, cut.slot), Join(_SET, cut.slot, Side.RIGHT, room.seam, press)]
    made = tuple(f"{_SET} {number}" for number in range(1, count + 1))
    return Recipe(
        tuple(cuts), count, (*steps, CrossCut(_SET, Side.TOP, segment, count), Yield(made))
    )


def _strip(number: int, fabric: str, width: Fraction, length: Fraction, room: Workroom) -> Cut:
    size = Size(width, length - 2 * room.seam)
    return cut_finished(f"strip {number}", fabric, size, room)


def _fault(unit: StripSets, measure: Measure, seam: Fraction) -> Fault | None:
    across = len(unit.rows[0]) if unit.rows else 0
    for row in unit.rows:
        if len(row) != across:
            return Fault(
                "rows",
                f"rows of {across} and of {len(row)} fabrics",
                "rows of one length",
                f"give every row {across} fabrics, or as many as your longest one has",
            )
    if across < 2:
        return Fault(
            "rows",
            "rows of one fabric",
            "two or more fabrics in each row, as strips that are sewn side by side",
            "list all fabrics in one row and turn the unit where it is placed",
        )
    for key, lengths, count, what in (
        ("columns", unit.columns, across, "columns"),
        ("heights", unit.heights, len(unit.rows), "rows"),
    ):
        if len(lengths) not in (1, count):
            return Fault(
                key,
                f"{len(lengths)} lengths for {count} {what}",
                f"one length for all {what}, or one for each",
                f"list {count} lengths, or one",
            )
        fault = off_the_ruler(key, lengths, measure, seam)
        if fault is not None:
            return fault
    return None


_LESSON = Lesson(
    "Four-patches, nine-patches, rail fences and checkerboards in numbers: long "
    "strips are sewn once and cut across. Few units leave many segments over.",
    """\
rows:
  - [slate, mist, slate]
  - [mist, slate, mist]
  - [slate, mist, slate]
columns: [2]
heights: [2]
""",
)

METHOD = Method(
    "strip sets",
    StripSets,
    _size,
    _patches,
    _recipe,
    _fault,
    parts=_parts,
    pressing=Pressing.DARKER,
    lesson=_LESSON,
)
