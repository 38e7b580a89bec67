"""The making of a unit in stages, as the bench sews it.

In: a subject and a make's name. Out: a scene of one to five stages, to be read row by row. What
lies face down is pale, drawn lines are dotted, seams dashed; arrows show where to press.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pieceproof.bench.watch import MarkKind, Moment, Snapshot, watch
from pieceproof.diagrams.legible import PHONE, settled, wrapped
from pieceproof.diagrams.stage_words import caption, how_many, told
from pieceproof.diagrams.stages import extent, items_of, things_of
from pieceproof.diagrams.subject import Subject, length, make_named
from pieceproof.drawing.scene import (
    Arrow,
    ArrowKind,
    Box,
    Group,
    Item,
    Letter,
    Measure,
    Note,
    Scene,
    Side,
    TextKind,
    shifted,
)
from pieceproof.published import Make, MakeKind
from pieceproof.shapes import Box as Extent

STAGE = 170
"""The least width of a stage in pixels."""
_GAP = 26.0
_LINE = 17.0
_BESIDE_DISC = 18.0
_BESIDE_LETTER = 7.0
_ABOVE = 36.0


def making(subject: Subject, name: str, width: int = PHONE) -> Scene:
    """One round of a make in stages, as many in a row as can be read at this width."""
    make = make_named(subject, name)
    snapshots = watch(subject.publication, make)
    across = max(1, min(width // STAGE, len(snapshots)))

    def build(pixel: float) -> Scene:
        stages = [_stage(subject, make, snapshots, i, pixel) for i in range(len(snapshots))]
        least = _least_width(subject, make)
        return _arranged(subject, make, snapshots, _Sheet(stages, across, least, pixel))

    return settled(build, across * make.width, width)


def width_of_a_row(subject: Subject, name: str) -> int:
    """The least width at which all stages of a make stand in one row."""
    return STAGE * len(watch(subject.publication, make_named(subject, name)))


@dataclass(frozen=True)
class _Stage:
    """One stage, its cloth's top left at the origin. ``above`` is room for a measure."""

    items: tuple[Item, ...]
    width: float
    height: float
    above: float
    caption: str


@dataclass(frozen=True)
class _Sheet:
    """Stages to be arranged, and the scale."""

    stages: Sequence[_Stage]
    across: int
    least: float
    pixel: float

    @property
    def width(self) -> float:
        """Of one column; a single stage is drawn as small as one of two."""
        widest = max(self.least, *(stage.width for stage in self.stages))
        return 2 * widest if self.across == 1 else widest

    @property
    def step(self) -> float:
        return self.width + _GAP * self.pixel

    def text(self, stage: _Stage) -> str:
        room = self.step / self.pixel - _BESIDE_DISC - 16
        return wrapped(stage.caption, room, TextKind.CAPTION)


def _least_width(subject: Subject, make: Make) -> float:
    """Small units are drawn smaller than large ones, but not by more than a third."""
    units = [m for m in subject.publication.makes if m.kind is MakeKind.UNIT]
    largest = max((float(unit.width) for unit in units), default=0.0)
    return min(largest, float(make.width) * 1.5)


def _stage(
    subject: Subject, make: Make, snapshots: Sequence[Snapshot], index: int, pixel: float
) -> _Stage:
    things = things_of(snapshots[index], pixel)
    box = extent(things)
    last = index == len(snapshots) - 1
    lines = {MarkKind.SEAM, MarkKind.PENCIL}
    if not last and snapshots[index + 1].moment is not Moment.CUT:
        lines.add(MarkKind.CUT)
    items = items_of(subject, things, lines, pixel)
    left, far = _reach(items, box, pixel)
    if last:
        right, bottom = box.left + make.width, box.top + make.height
        items.append(Measure((box.left, box.top), (right, box.top), length(subject, make.width)))
        if make.kind is not MakeKind.TRIANGLE:
            tall = length(subject, make.height)
            items.append(Measure((far, box.top), (far, bottom), tall))
    return _Stage(
        (Group(items, shifted(-left, -float(box.top))),),
        far - left,
        float(box.height),
        _ABOVE * pixel if last else 0.0,
        caption(subject, make, snapshots, index),
    )


def _reach(items: Sequence[Item], box: Extent, pixel: float) -> tuple[float, float]:
    """How far left and right the cloth reaches, and the letters beside it."""
    places = [float(item.at[0]) for item in items if isinstance(item, Letter)]
    room, left, right = _BESIDE_LETTER * pixel, float(box.left), float(box.right)
    outer_left = min((x - room for x in places if x < left), default=left)
    return outer_left, max((x + room for x in places if x > right), default=right)


def _arranged(subject: Subject, make: Make, snapshots: Sequence[Snapshot], sheet: _Sheet) -> Scene:
    items: list[Item] = []
    y = 0.0
    for start in range(0, len(sheet.stages), sheet.across):
        row = sheet.stages[start : start + sheet.across]
        above = max(stage.above for stage in row)
        height = max(stage.height for stage in row)
        items += _row(sheet, row, start, y + above, height)
        lines = max(sheet.text(stage).count("\n") + 1 for stage in row)
        y += above + height + (8 + lines * _LINE + _GAP) * sheet.pixel
    columns = min(sheet.across, len(sheet.stages))
    box = Box(0, 0, columns * sheet.step - _GAP * sheet.pixel, y - _GAP * sheet.pixel)
    title = f"Making {make.name}, {how_many(make)}"
    return Scene(title, told(subject, make, snapshots), box, items)


def _row(
    sheet: _Sheet, row: Sequence[_Stage], start: int, top: float, height: float
) -> Iterator[Item]:
    pixel = sheet.pixel
    for column, stage in enumerate(row):
        x = column * sheet.step
        left, down = x + (sheet.width - stage.width) / 2, top + (height - stage.height) / 2
        yield Group(stage.items, shifted(left, down))
        text = sheet.text(stage)
        below = top + height + 8 * pixel
        yield Letter((x + 11 * pixel, below + 11 * pixel), str(start + column + 1), TextKind.STEP)
        middle = below + (3 + (text.count("\n") + 1) * _LINE / 2) * pixel
        place = (x + _BESIDE_DISC * pixel, middle)
        yield Note(place, text, Side.RIGHT, TextKind.CAPTION)
        if column + 1 < len(row):
            y, after = top + height / 2, x + sheet.width
            yield Arrow((after + 4 * pixel, y), (after + (_GAP - 4) * pixel, y), ArrowKind.NEXT)
