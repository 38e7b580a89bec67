"""How cells become rows, rows a whole, and how borders go round it.

In: a subject and a make's name. Out: scenes with row numbers, letters and pressing arrows.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import inf

from pieceproof.diagrams import words
from pieceproof.diagrams.borders import borders
from pieceproof.diagrams.cells import Laid, Spread, cell_items, letter_inside, middle, spread
from pieceproof.diagrams.diagonal import diagonal
from pieceproof.diagrams.legible import PHONE, TEXT_ROOM, not_tall, settled, wide, wrapped
from pieceproof.diagrams.pressing import between_rows, in_row
from pieceproof.diagrams.subject import Cell, Subject, cells_of, make_named, rows_of
from pieceproof.drawing.scene import (
    AreaKind,
    Arrow,
    ArrowKind,
    Box,
    Item,
    Letter,
    Line,
    LineKind,
    Note,
    Place,
    Scene,
    Side,
    TextKind,
)
from pieceproof.pressing_words import press_words
from pieceproof.steps import Assemble, AssembleOnPoint

_CELL_GAP = 7.0
_ROW_GAP = 12.0
_PRESS_ROOM = 14.0
_LETTER_ROOM = 20.0
_ARROW = 8.0
_MARGIN = 22.0


def assembly(subject: Subject, name: str, width: int = PHONE) -> Scene:
    """A make of rows pulled apart; or of borders, with the strips pulled off."""
    make = make_named(subject, name)
    on_point = next((s for s in make.steps if isinstance(s, AssembleOnPoint)), None)
    if on_point is not None:
        return diagonal(subject, make, on_point, width)
    step = rows_of(make)
    if step is None:
        return borders(subject, make, width)
    rows = cells_of(subject, step)
    return settled(
        lambda pixel: not_tall(_rows(subject, name, step, rows, pixel)), make.width, width
    )


def _rows(
    subject: Subject, name: str, step: Assemble, rows: Sequence[Sequence[Cell]], pixel: float
) -> Scene:
    laid = _laid(rows, pixel)
    kind = AreaKind.PIECE if len(rows) * len(rows[0]) <= 25 else AreaKind.PATCH
    items = [item for place in laid.places for item in cell_items(subject, place, pixel, kind)]
    title = "rows" if len(rows) > 1 else "one row"
    return Scene(
        f"{name}, sewn from {title}",
        f"{words.rows_in_words(subject, rows)} {_pressing(subject, step)}",
        Box(0, 0, laid.width, laid.height),
        (
            *items,
            *_outer_letters(laid, pixel),
            *_row_numbers(laid, pixel),
            *_row_arrows(step, laid, pixel),
            *_arrows_between(step, laid, pixel),
            *_caption(rows, laid, pixel),
        ),
    )


def _laid(rows: Sequence[Sequence[Cell]], pixel: float) -> Spread:
    """Below each row there is room for its arrows, and for letters over the next row."""
    gap = _CELL_GAP * pixel
    alone = [spread([row], gap, [0.0]) for row in rows]
    outside = [any(_needs_outside(p, pixel) for p in row.places) for row in alone]
    below = [
        _ROW_GAP + (_PRESS_ROOM if len(row) > 1 else 0) + (_LETTER_ROOM if following else 0)
        for row, following in zip(rows, [*outside[1:], False], strict=True)
    ]
    return spread(rows, gap, [pixels * pixel for pixels in below])


def _needs_outside(place: Laid, pixel: float) -> bool:
    return bool(place.cell.letter) and not letter_inside(place, pixel)


def _outer_letters(laid: Spread, pixel: float) -> Iterator[Item]:
    """Letters of pieces too small for them stand above, as many as stay clear of each other."""
    taken: dict[int, float] = {}
    for place in laid.places:
        if not _needs_outside(place, pixel):
            continue
        x, y = middle(place)
        half = wide(place.cell.letter, TextKind.PIECE) / 2 * pixel
        if x - half < taken.get(place.row, float("-inf")) + 3 * pixel:
            continue
        taken[place.row] = x + half
        yield Line(((x, place.y - 4 * pixel), (x, min(y, place.y + 5 * pixel))), LineKind.LEADER)
        yield Letter((x, place.y - 11 * pixel), place.cell.letter)


def _row_numbers(laid: Spread, pixel: float) -> Iterator[Item]:
    starts = [place for place in laid.places if place.column == 0]
    for place in starts if len(starts) > 1 else ():
        yield Letter((-_MARGIN * pixel, middle(place)[1]), str(place.row + 1), TextKind.STEP)


def _row_arrows(step: Assemble, laid: Spread, pixel: float) -> Iterator[Item]:
    """An arrow under each seam within a row, clear of the arrows beside it."""
    for row in range(len(step.rows)):
        places = [place for place in laid.places if place.row == row]
        pairs = pairwise(places)
        seams = [(left.x + left.cell.width + right.x) / 2 for left, right in pairs]
        y = places[0].y + places[0].cell.height + 9 * pixel
        ends = [-inf, *((a + b) / 2 for a, b in pairwise(seams)), inf]
        for index, way in enumerate(in_row(step, row)):
            low, high = ends[index] + pixel, ends[index + 1] - pixel
            reach = min(_ARROW * pixel, (high - low) / 2)
            x = min(max(seams[index], low + reach), high - reach)
            yield _arrow((x, y), (reach, 0), way)


def _arrows_between(step: Assemble, laid: Spread, pixel: float) -> Iterator[Item]:
    """An arrow at the right of each seam between rows; one at both ends where it is spun."""
    last = [place for place in laid.places if place.column == len(step.rows[place.row]) - 1]
    for above, below, (left, right) in zip(last, last[1:], between_rows(step), strict=False):
        y = (above.y + above.cell.height + below.y) / 2
        yield _arrow((laid.width + 12 * pixel, y), (0, 10 * pixel), right)
        if left != right:
            yield _arrow((-10 * pixel, y), (0, 10 * pixel), left)


def _arrow(at: Place, reach: Place, way: int) -> Arrow:
    dx, dy = reach[0] * (way or 1), reach[1] * (way or 1)
    kind = ArrowKind.PRESS if way else ArrowKind.PRESS_OPEN
    return Arrow((at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy), kind)


def _caption(rows: Sequence[Sequence[Cell]], laid: Spread, pixel: float) -> Iterator[Note]:
    """What the cells without letters are."""
    counts = Counter(cell.source for row in rows for cell in row if not cell.letter)
    text = ", ".join(f"{count} × {source}" for source, count in counts.items())
    place = (laid.width / 2, laid.height + _PRESS_ROOM * pixel)
    if text:
        lines = wrapped(text, TEXT_ROOM, TextKind.CAPTION)
        yield Note(place, lines, Side.BELOW, TextKind.CAPTION)


def _pressing(subject: Subject, step: Assemble) -> str:
    letters = [piece.letter for piece in subject.publication.pieces]
    words = press_words(step, letters, ())
    return f"{words.rows} {words.between}".replace("**", "").strip()
