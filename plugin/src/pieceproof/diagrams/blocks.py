"""Blocks and units: finished with their measures, and pulled apart into their cells.

In: a subject and a make's name. Out: scenes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

from quicktions import Fraction

from pieceproof.diagrams import words
from pieceproof.diagrams.cells import Laid, Spread, cell_items, letter_inside, runs, spread
from pieceproof.diagrams.legible import PHONE, middles_clear, not_tall, settled, wrapped
from pieceproof.diagrams.subject import (
    Cell,
    Subject,
    area,
    cells_of,
    length,
    make_named,
    rows_of,
    size,
    whole,
)
from pieceproof.drawing.scene import (
    AreaKind,
    Box,
    Measure,
    Note,
    Scene,
    Side,
    TextKind,
)

_GAP = 22.0
_LINE = 18.0
_ALONE = 160.0


def finished(subject: Subject, name: str, width: int = PHONE) -> Scene:
    """The finished unit or block: patches, the sizes of its cells, its own size."""
    about = make_named(subject, name).width
    return settled(lambda pixel: not_tall(_finished(subject, name, pixel)), about, width)


def exploded(subject: Subject, name: str, width: int = PHONE) -> Scene:
    """The cells of a block pulled apart: letters of pieces, names of units, unfinished sizes."""
    make = make_named(subject, name)
    step = rows_of(make)
    if step is None:
        raise ValueError(f"{name} is not made of rows")
    rows = cells_of(subject, step)
    return settled(lambda pixel: not_tall(_exploded(subject, name, rows, pixel)), make.width, width)


def _finished(subject: Subject, name: str, pixel: float) -> Scene:
    picture = subject.drawing.pictures[name]
    shown = size(subject, picture.width, picture.height)
    text = f"{shown} finished"
    step = rows_of(make_named(subject, name))
    rows = cells_of(subject, step) if step else []
    seams = 2 * subject.publication.seam
    columns = [whole(c.flat.width) - seams for c in rows[0]] if _columns_agree(rows) else []
    heights = [whole(row[0].flat.height) - seams for row in rows]
    return Scene(
        f"{name}, finished",
        f"The {name} is {text}. {words.sentence(_what_it_shows(subject, name, rows))}",
        Box(0, 0, picture.width, picture.height),
        (
            *(area(subject, p.fabric, p.outline, AreaKind.PATCH, p.layer) for p in picture.patches),
            *_across(subject, columns or [picture.width], pixel),
            *_down(subject, heights or [picture.height], picture.width, pixel),
            Note((picture.width / 2, picture.height), text),
        ),
    )


def _what_it_shows(subject: Subject, name: str, rows: Sequence[Sequence[Cell]]) -> str:
    fabrics = f"it shows {words.faces_in_words(subject, name)}"
    return f"{fabrics}. {words.rows_in_words(subject, rows)}".rstrip(".") if rows else fabrics


def _columns_agree(rows: Sequence[Sequence[Cell]]) -> bool:
    return bool(rows) and len({tuple(cell.flat.width for cell in row) for row in rows}) == 1


def _across(subject: Subject, parts: Sequence[Fraction], pixel: float) -> Iterator[Measure]:
    """Measures of columns, or of all together where there is no room for each."""
    ends = [Fraction(0), *accumulate(parts)]
    texts = [length(subject, part) for part in parts]
    middles = [float(a + b) / 2 / pixel for a, b in pairwise(ends)]
    if not middles_clear(middles, texts, TextKind.MEASURE):
        ends, texts = [ends[0], ends[-1]], [length(subject, ends[-1])]
    for start, end, text in zip(ends, ends[1:], texts, strict=False):
        yield Measure((start, 0), (end, 0), text)


def _down(
    subject: Subject, parts: Sequence[Fraction], x: Fraction, pixel: float
) -> Iterator[Measure]:
    ends = [Fraction(0), *accumulate(parts)]
    if min(parts) < 16 * Fraction(pixel):
        ends = [ends[0], ends[-1]]
    for start, end in pairwise(ends):
        yield Measure((x, start), (x, end), length(subject, end - start))


def _exploded(subject: Subject, name: str, rows: Sequence[Sequence[Cell]], pixel: float) -> Scene:
    lines = [_label_lines(row, pixel) for row in rows]
    laid = spread(rows, _GAP * pixel, [(_GAP + _LINE * n) * pixel for n in lines])
    items = [item for place in laid.places for item in cell_items(subject, place, pixel)]
    return Scene(
        f"{name}, pulled apart",
        f"The cells of one {name} before they are sewn, all sizes unfinished. "
        f"{words.rows_in_words(subject, rows)} {words.sentence(_sizes(subject, rows))}",
        Box(0, 0, laid.width, laid.height),
        (
            *items,
            *_labels(laid, pixel),
            *_unfinished(subject, rows, laid),
            Note(
                (laid.width / 2, laid.height + _LINE * lines[-1] * pixel),
                "All sizes unfinished",
                Side.BELOW,
                TextKind.CAPTION,
            ),
        ),
    )


def _labels(laid: Spread, pixel: float) -> Iterator[Note]:
    """Names of units, and letters that have no room inside, below neighbours that are alike."""
    for run in runs(laid):
        first, last = run[0], run[-1]
        if not letter_inside(first, pixel):
            right = last.x + last.cell.width
            place = ((first.x + right) / 2, first.y + first.cell.height)
            alone = len(run) == sum(place.row == first.row for place in laid.places)
            room = _ALONE if alone else (right - first.x) / pixel + _GAP - 4
            yield Note(place, _label(first, room, len(run)))


def _label(place: Laid, pixels: float, count: int) -> str:
    text = place.cell.source if count == 1 else f"{count} × {place.cell.source}"
    return wrapped(text, pixels, TextKind.LABEL)


def _label_lines(row: Sequence[Cell], pixel: float) -> int:
    laid = spread([row], _GAP * pixel, [0.0])
    return max((label.text.count("\n") + 1 for label in _labels(laid, pixel)), default=0)


def _sizes(subject: Subject, rows: Sequence[Sequence[Cell]]) -> str:
    told = {}
    for row in rows:
        for cell in row:
            upright = cell.flat if cell.turn % 2 == 0 else subject.things[cell.source]
            told[cell.source] = size(subject, whole(upright.width), whole(upright.height))
    return f"unfinished sizes: {words.series(f'{k} {v}' for k, v in told.items())}"


def _unfinished(
    subject: Subject, rows: Sequence[Sequence[Cell]], laid: Spread
) -> Iterator[Measure]:
    """The size of each column above the first row, of each row at its right end."""
    for place in laid.places:
        right, bottom = place.x + place.cell.width, place.y + place.cell.height
        if place.row == 0 and _columns_agree(rows):
            text = length(subject, whole(place.cell.flat.width))
            yield Measure((place.x, 0), (right, 0), text)
        if place.column == len(rows[place.row]) - 1:
            text = length(subject, whole(place.cell.flat.height))
            yield Measure((right, place.y), (right, bottom), text)
