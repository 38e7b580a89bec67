"""One block as it comes out with seams that are scant, true, a little wide and much too wide.

In: a subject, a make's name and the rows of its seam check. Out: a scene, all blocks at one scale
as they will look in the quilt; the broken line is the size that was designed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.table import pared
from pieceproof.diagrams.legible import PHONE, settled
from pieceproof.diagrams.subject import Subject, areas, make_named, rows_of
from pieceproof.diagrams.words import faces_in_words, sentence
from pieceproof.drawing.scene import (
    Area,
    AreaKind,
    Box,
    Group,
    Item,
    Note,
    Scene,
    Side,
    TextKind,
    shifted,
)
from pieceproof.fact_seams import nearest
from pieceproof.instructions import show_length, show_size
from pieceproof.published import Make
from pieceproof.seam_check import SeamRow
from pieceproof.shapes import rectangle

_LEAST = 165
_GAP = 18.0
_LINE = 17.0


@dataclass(frozen=True)
class _Sheet:
    """Room for one block, in cloth units, and the scale."""

    width: float
    height: float
    pixel: float


def seam_error(subject: Subject, name: str, rows: Sequence[SeamRow], width: int = PHONE) -> Scene:
    """The block once for each row, as many beside each other as can be read."""
    make = make_named(subject, name)
    across = max(1, min(width // _LEAST, len(rows)))
    return settled(
        lambda pixel: _scene(subject, make, rows, across, pixel), across * make.width, width
    )


def _scene(
    subject: Subject, make: Make, rows: Sequence[SeamRow], across: int, pixel: float
) -> Scene:
    seam = subject.publication.seam
    sheet = _Sheet(
        max(float(row.things[make.name].width - 2 * row.own) for row in rows),
        max(float(row.things[make.name].height - 2 * row.own) for row in rows),
        pixel,
    )
    step = sheet.width + _GAP * pixel
    captions = [_caption(subject, make, row) for row in rows]
    items: list[Item] = []
    y = 0.0
    for start in range(0, len(rows), across):
        lines = max(text.count("\n") + 1 for text in captions[start : start + across])
        for column, (row, text) in enumerate(
            zip(rows[start : start + across], captions[start : start + across], strict=True)
        ):
            placed = tuple(_block(subject, make, row, seam, sheet))
            items.append(Group(placed, shifted(column * step, y)))
            below = (column * step + sheet.width / 2, y + sheet.height)
            items.append(Note(below, text, Side.BELOW, TextKind.CAPTION))
        y += sheet.height + (lines * _LINE + 10 + _GAP) * pixel
    columns = min(across, len(rows))
    return Scene(
        f"{make.name} with seams that are too wide or scant",
        sentence(f"the {make.name} shows {faces_in_words(subject, make.name)}")
        + " "
        + " ".join(sentence(_told(subject, make, row)) for row in rows),
        Box(0, 0, columns * step - _GAP * pixel, y - _GAP * pixel),
        items,
    )


def _block(
    subject: Subject, make: Make, row: SeamRow, seam: Fraction, sheet: _Sheet
) -> Iterator[Item]:
    """The block in the middle of its room, and the designed size around the same middle."""
    thing, own = row.things[make.name], row.own
    shown = pared(thing, own, own, own, own)
    x, y = (sheet.width - float(thing.width)) / 2, (sheet.height - float(thing.height)) / 2
    yield Group(areas(subject, shown, AreaKind.PATCH), shifted(x, y))
    size = (make.width - 2 * seam, make.height - 2 * seam)
    wide, tall = float(size[0]), float(size[1])
    place = ((sheet.width - wide) / 2, (sheet.height - tall) / 2)
    if row.error != 0:
        yield Group((Area(rectangle(*size), kind=AreaKind.GHOST, layer=1),), shifted(*place))


def _caption(subject: Subject, make: Make, row: SeamRow) -> str:
    cut = ("tips cut off",) if _cuts_tips(subject, make, row) else ()
    own = show_length(subject.design.measure, row.own)
    return "\n".join((f"seam {own}", _size(subject, make, row), "unfinished", *cut))


def _told(subject: Subject, make: Make, row: SeamRow) -> str:
    tips = "some tips are cut off" if _cuts_tips(subject, make, row) else "no tip is cut off"
    own = show_length(subject.design.measure, row.own)
    return f"with a seam of {own} it is {_size(subject, make, row)} unfinished, and {tips}"


def _size(subject: Subject, make: Make, row: SeamRow) -> str:
    thing, measure = row.things[make.name], subject.design.measure
    return show_size(measure, nearest(measure, thing.width), nearest(measure, thing.height))


def _cuts_tips(subject: Subject, make: Make, row: SeamRow) -> bool:
    """Whether this seam cuts tips of the make or of any unit in it."""
    within = _within(subject, make)
    return any(tip.group.make in within for tip in row.lost)


def _within(subject: Subject, make: Make) -> set[str]:
    step = rows_of(make)
    sources = {cell.source for cells in step.rows for cell in cells} if step else set()
    inner = [m for m in subject.publication.makes if m.name in sources]
    return {make.name}.union(*(_within(subject, m) for m in inner))
