"""Diagonal rows of a setting on point, pulled apart from the top left.

In: a subject and the make that joins them. Out: a scene with row numbers, and an arrow below each
row whose seams all go one way. Tips that are cut off and allowances inside the rows are left out,
so that the rows fit together as they are sewn.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from quicktions import Fraction

from pieceproof.bench.diagonal import parts_on_point
from pieceproof.bench.table import Faces, Flat, extent, moved
from pieceproof.bench.watch import sewn_makes
from pieceproof.diagrams.legible import settled
from pieceproof.diagrams.subject import Subject, areas
from pieceproof.drawing.scene import (
    AreaKind,
    Arrow,
    ArrowKind,
    Box,
    Item,
    Letter,
    Place,
    Scene,
    TextKind,
)
from pieceproof.pressing_words import press_words
from pieceproof.published import Make
from pieceproof.shapes import Box as Extent
from pieceproof.steps import AssembleOnPoint, placed_in, seam_ways

_GAP = 9.0
_MARGIN = 11.0
_ARROW = 7.0
_CROSSING = 4.0


def diagonal(subject: Subject, make: Make, step: AssembleOnPoint, width: int) -> Scene:
    """The rows apart; numbers stand at their lower left ends."""
    parts = parts_on_point(step, _sources(subject, make, step))
    return settled(lambda pixel: _scene(subject, make, step, parts, pixel), make.width, width)


def _sources(subject: Subject, make: Make, step: AssembleOnPoint) -> Mapping[str, Flat]:
    before = subject.publication.makes[: subject.publication.makes.index(make)]
    things = sewn_makes(subject.publication, before)
    return {cell.source: things[cell.source] for cell in placed_in(step)}


def _of_blocks(step: AssembleOnPoint) -> str:
    sashed = any(row.first is None for row in step.rows)
    return " of the rows of blocks, rows of sashes between and around them" if sashed else ""


def _scene(
    subject: Subject, make: Make, step: AssembleOnPoint, parts: Sequence[Faces], pixel: float
) -> Scene:
    gap = Fraction(_GAP * pixel)
    apart = [moved(part, gap * n, gap * n) for n, part in enumerate(parts)]
    box = extent(face for part in apart for face in part)
    items = [item for part in apart for item in areas(subject, part, AreaKind.PATCH)]
    count = len(parts) - 2
    return Scene(
        f"{make.name}, sewn in diagonal rows",
        f"{count} diagonal row{'s' if count > 1 else ''} from the lower left to the upper right, "
        f"a setting triangle at each end{_of_blocks(step)}, corner triangles at the top left and "
        f"bottom right. {_pressing(subject, step)}",
        Box(box.left, box.top, box.width, box.height),
        (
            *items,
            *_numbers(apart[1:-1], box, pixel),
            *_row_arrows(step, apart[1:-1], pixel),
            *_arrows_between(step, apart[1:-1], pixel),
        ),
    )


def _numbers(rows: Sequence[Faces], box: Extent, pixel: float) -> Iterator[Item]:
    """Beside the end of each row, left of the whole or below it."""
    for number, row in enumerate(rows if len(rows) > 1 else (), start=1):
        end = extent(row[:1])
        x, y = (float(end.left + end.right) / 2, float(end.top + end.bottom) / 2)
        if float(end.left - box.left) < float(box.bottom - end.bottom):
            yield Letter((float(box.left) - _MARGIN * pixel, y), str(number), TextKind.STEP)
        else:
            yield Letter((x, float(box.bottom) + _MARGIN * pixel), str(number), TextKind.STEP)


def _pressing(subject: Subject, step: AssembleOnPoint) -> str:
    words = press_words(step, [piece.letter for piece in subject.publication.pieces], ())
    return f"{words.rows} {words.between}".replace("**", "").strip()


def _row_arrows(step: AssembleOnPoint, rows: Sequence[Faces], pixel: float) -> Iterator[Item]:
    """Below the middle of each row, along it."""
    for row, press, cells in zip(rows, step.row_press, step.rows, strict=True):
        ways = set(seam_ways(press, len(cells.cells) + 1))
        if len(ways) == 1:
            x, y = _below(row, 0.5, pixel)
            yield _arrow((x, y), (_ARROW * pixel, -_ARROW * pixel), ways.pop())


def _arrows_between(step: AssembleOnPoint, rows: Sequence[Faces], pixel: float) -> Iterator[Item]:
    """Across the gap below each row but the last."""
    ways = seam_ways(step.between, len(rows) - 1)
    for row, way in zip(rows, ways, strict=False):
        yield _arrow(_below(row, 0.25, pixel), (_CROSSING * pixel, _CROSSING * pixel), way)


def _below(row: Faces, share: float, pixel: float) -> Place:
    """The middle of the gap below a row, at this share of its lower edge from the left."""
    points = [(float(x), float(y)) for face in row for x, y in face.outline]
    lowest = max(x + y for x, y in points)
    edge = [x - y for x, y in points if lowest - x - y < pixel / 100]
    along = min(edge) + share * (max(edge) - min(edge))
    middle = lowest + _GAP * pixel
    return ((middle + along) / 2, (middle - along) / 2)


def _arrow(at: Place, reach: Place, way: int) -> Arrow:
    dx, dy = reach[0] * (way or 1), reach[1] * (way or 1)
    kind = ArrowKind.PRESS if way else ArrowKind.PRESS_OPEN
    return Arrow((at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy), kind)
