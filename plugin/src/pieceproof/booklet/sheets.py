"""Templates and foundations arranged on sheets of paper.

In: shapes and the room of a sheet in millimetres. Out: sheets: where each shape lies, how often a
sheet is printed. What is larger than a sheet is laid over several, which overlap; their joining
lines and registration marks are printed on both. Nothing is ever scaled.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, gcd

from pieceproof.booklet.true_scale import Ink, Place, Run, Shape, Word

OVERLAP = 10.0
GAP = 6.0
CAPTION = 7.0
_CROSS = 4.0
_EDGE = 1.0
"""Kept free round the drawing for half the width of its lines."""


@dataclass(frozen=True)
class Room:
    """What a sheet has for drawing."""

    width: float
    height: float


@dataclass(frozen=True)
class Laid:
    """A shape on a sheet, with its caption above its top left corner."""

    shape: Shape
    left: float
    top: float


@dataclass(frozen=True)
class Sheet:
    """One sheet, to be printed ``times``. ``part`` says which of several joined ones it is."""

    title: str
    laid: tuple[Laid, ...]
    times: int = 1
    part: str = ""


def sheets_of(shapes: Sequence[Shape], room: Room) -> tuple[Sheet, ...]:
    """All sheets: shapes that fit side by side first, then those laid over several.

    Where all are needed several times, a sheet holds a share of each and is printed several times,
    as long as no more paper is printed so.
    """
    inside = Room(room.width - 2 * _EDGE, room.height - 2 * _EDGE)
    upright = [_upright(shape, inside) for shape in shapes]
    small = [shape for shape in upright if _fits(shape, inside)]
    large = [shape for shape in upright if not _fits(shape, inside)]
    common = gcd(*(shape.copies for shape in small))
    shares = [_shared(small, n, inside) for n in range(1, common + 1) if common % n == 0]
    return (
        *min(shares, key=_paper, default=()),
        *(sheet for shape in large for sheet in _tiled(shape, inside)),
    )


def _shared(small: Sequence[Shape], share: int, room: Room) -> tuple[Sheet, ...]:
    """Sheets with one of so many equal shares of all copies."""
    shapes = [replace(shape, copies=shape.copies // share) for shape in small]
    rest = [_one(shape) for shape in shapes for _ in range(_left_over(shape, room))]
    whole = (sheet for shape in shapes for sheet in _full_sheets(shape, room))
    sheets = (*_shelved(rest, room), *whole)
    return tuple(replace(sheet, times=sheet.times * share) for sheet in sheets)


def _paper(sheets: Sequence[Sheet]) -> tuple[int, int]:
    """How many sheets are printed, and how many of them differ."""
    return sum(sheet.times for sheet in sheets), len(sheets)


def _upright(shape: Shape, room: Room) -> Shape:
    """The shape as it lies, or turned where it then needs fewer sheets."""
    turned = shape.turned()
    return turned if _sheet_count(turned, room) < _sheet_count(shape, room) else shape


def _sheet_count(shape: Shape, room: Room) -> int:
    if _fits(shape, room):
        return 1
    return 1 + _tiles(shape.width, room.width) * _tiles(shape.height, room.height - CAPTION)


def _fits(shape: Shape, room: Room) -> bool:
    return shape.width <= room.width and shape.height + CAPTION <= room.height


def _across(shape: Shape, room: Room) -> int:
    return int((room.width + GAP) // (shape.width + GAP))


def _each(shape: Shape, room: Room) -> int:
    """How many of a shape one sheet takes."""
    down = int((room.height + GAP) // (shape.height + CAPTION + GAP))
    return max(1, _across(shape, room) * down)


def _times(shape: Shape, room: Room) -> int:
    """How often a sheet full of a shape is printed; 0 where once would do."""
    times = shape.copies // _each(shape, room)
    return times if times > 1 else 0


def _left_over(shape: Shape, room: Room) -> int:
    """The copies that are on no full sheet."""
    return shape.copies - _times(shape, room) * _each(shape, room)


def _full_sheets(shape: Shape, room: Room) -> Iterator[Sheet]:
    """One sheet full of a shape of which many are needed, to be printed as often as it takes."""
    each, times = _each(shape, room), _times(shape, room)
    if times:
        across = _across(shape, room)
        laid = tuple(
            Laid(
                shape,
                _EDGE + (at % across) * (shape.width + GAP),
                _EDGE + CAPTION + (at // across) * (shape.height + CAPTION + GAP),
            )
            for at in range(each)
        )
        yield Sheet(shape.name, laid, times)


def _one(shape: Shape) -> Shape:
    return replace(shape, copies=1)


@dataclass
class _Row:
    """Shapes side by side on a sheet, none higher than the first."""

    sheet: int
    y: float
    tall: float
    x: float = 0.0

    def takes(self, shape: Shape, room: Room) -> bool:
        return self.x + shape.width <= room.width and CAPTION + shape.height <= self.tall


def _shelved(shapes: Sequence[Shape], room: Room) -> Iterator[Sheet]:
    """Shapes side by side in rows, the tallest first, each where it first finds room."""
    rows: list[_Row] = []
    sheets: list[list[Laid]] = []
    for shape in sorted(shapes, key=lambda s: -s.height):
        row = next((row for row in rows if row.takes(shape, room)), None)
        if row is None:
            row = _new_row(rows, CAPTION + shape.height, room)
            rows.append(row)
        if row.sheet == len(sheets):
            sheets.append([])
        sheets[row.sheet].append(Laid(shape, _EDGE + row.x, _EDGE + row.y + CAPTION))
        row.x += shape.width + GAP
    yield from map(_of, sheets)


def _new_row(rows: Sequence[_Row], tall: float, room: Room) -> _Row:
    """Below the last row of the first sheet that has room, or on another sheet."""
    last = {row.sheet: row for row in rows}
    for sheet, row in last.items():
        y = row.y + row.tall + GAP
        if y + tall <= room.height:
            return _Row(sheet, y, tall)
    return _Row(len(last), 0.0, tall)


def _of(laid: Sequence[Laid]) -> Sheet:
    names = dict.fromkeys(each.shape.name for each in laid)
    return Sheet(", ".join(names), tuple(laid))


def _tiles(length: float, room: float) -> int:
    """How many windows that overlap it takes to cover a length."""
    return 1 if length <= room else ceil((length - OVERLAP) / (room - OVERLAP))


def _tiled(shape: Shape, room: Room) -> Iterator[Sheet]:
    """A shape over several sheets, row by row; a sheet that would stay empty is left out."""
    window = Room(room.width, room.height - CAPTION)
    columns, rows = _tiles(shape.width, window.width), _tiles(shape.height, window.height)
    marked = replace(
        shape,
        runs=(*shape.runs, *_joins(shape, window, columns, rows)),
        words=(*shape.words, *_tags(shape, window, columns, rows)),
    )
    places = [(row, column) for row in range(rows) for column in range(columns)]
    shown = [
        (row, column)
        for row, column in places
        if _is_met(shape, _corner(window, row, column), window)
    ]
    for number, (row, column) in enumerate(shown, start=1):
        x, y = _corner(window, row, column)
        part = f"sheet {number} of {len(shown)}"
        if rows > 1 and columns > 1:
            part += f", row {row + 1}, column {column + 1}"
        laid = Laid(_cut_out(marked, (x, y), window), _EDGE, _EDGE + CAPTION)
        yield Sheet(shape.name, (laid,), shape.copies, part)


def _corner(window: Room, row: int, column: int) -> Place:
    return column * (window.width - OVERLAP), row * (window.height - OVERLAP)


def _is_met(shape: Shape, corner: Place, window: Room) -> bool:
    outline = next(run.places for run in shape.runs if run.ink is Ink.CUT)
    return len(_clipped(outline, corner, window)) > 2


def _cut_out(shape: Shape, corner: Place, window: Room) -> Shape:
    """What one window shows; lines are clipped, so that nothing prints beyond it."""
    x, y = corner
    runs = []
    for run in shape.runs:
        closed = (*run.places, run.places[0]) if run.closed else run.places
        runs += [Run(run.ink, stretch) for stretch in _stretches(closed, corner, window)]
    return replace(
        shape,
        width=min(window.width, shape.width - x),
        height=min(window.height, shape.height - y),
        runs=tuple(runs),
        dots=tuple(p for p in shape.dots if _within(p, corner, window)),
        words=tuple(word for word in shape.words if _within(word.at, corner, window)),
    ).moved(-x, -y)


def _within(place: Place, corner: Place, window: Room) -> bool:
    dx, dy = place[0] - corner[0], place[1] - corner[1]
    return 2 <= dx <= window.width - 2 and 2 <= dy <= window.height - 2


def _joins(shape: Shape, window: Room, columns: int, rows: int) -> Iterator[Run]:
    """Lines in the middle of each overlap, and crosses on them."""
    for x in _join_places(window.width, columns):
        yield Run(Ink.JOIN, ((x, 0.0), (x, shape.height)))
        for y in _cross_places(shape.height):
            yield from _cross((x, y))
    for y in _join_places(window.height, rows):
        yield Run(Ink.JOIN, ((0.0, y), (shape.width, y)))
        for x in _cross_places(shape.width):
            yield from _cross((x, y))


def _tags(shape: Shape, window: Room, columns: int, rows: int) -> Iterator[Word]:
    """A letter at each cross, the same on both sheets."""
    places = [
        (x, y) for x in _join_places(window.width, columns) for y in _cross_places(shape.height)
    ]
    places += [
        (x, y) for y in _join_places(window.height, rows) for x in _cross_places(shape.width)
    ]
    for at, (x, y) in enumerate(places):
        yield Word((x + 2.4, y - 3.2), chr(ord("a") + at % 26), 3.0)


def _join_places(window: float, count: int) -> list[float]:
    return [at * (window - OVERLAP) + OVERLAP / 2 for at in range(1, count)]


def _cross_places(length: float) -> tuple[float, float]:
    return length / 4, length * 3 / 4


def _cross(at: Place) -> tuple[Run, Run]:
    x, y = at
    return (
        Run(Ink.NOTCH, ((x - _CROSS, y), (x + _CROSS, y))),
        Run(Ink.NOTCH, ((x, y - _CROSS), (x, y + _CROSS))),
    )


def _stretches(places: Sequence[Place], corner: Place, window: Room) -> Iterator[tuple[Place, ...]]:
    """The parts of a run of straight stretches inside a window (Liang and Barsky's clipping)."""
    current: list[Place] = []
    for start, end in pairwise(places):
        kept = _inside_part(start, end, corner, window)
        if kept is None:
            continue
        if current and current[-1] == kept[0]:
            current.append(kept[1])
        else:
            if current:
                yield tuple(current)
            current = list(kept)
    if current:
        yield tuple(current)


def _inside_part(
    start: Place, end: Place, corner: Place, window: Room
) -> tuple[Place, Place] | None:
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    low, high = 0.0, 1.0
    for way, far in (
        (-dx, x - corner[0]),
        (dx, corner[0] + window.width - x),
        (-dy, y - corner[1]),
        (dy, corner[1] + window.height - y),
    ):
        if way == 0:
            if far < 0:
                return None
        elif way < 0:
            low = max(low, far / way)
        else:
            high = min(high, far / way)
    if low >= high:
        return None
    first = start if low == 0 else (x + low * dx, y + low * dy)
    return first, end if high == 1 else (x + high * dx, y + high * dy)


def _clipped(outline: Sequence[Place], corner: Place, window: Room) -> list[Place]:
    """An outline cut to a window, side by side (Sutherland and Hodgman's clipping)."""
    kept = list(outline)
    for axis, bound, way in (
        (0, corner[0], 1),
        (0, corner[0] + window.width, -1),
        (1, corner[1], 1),
        (1, corner[1] + window.height, -1),
    ):
        kept = list(_beyond(kept, axis, bound, way))
    return kept


def _beyond(outline: Sequence[Place], axis: int, bound: float, way: int) -> Iterator[Place]:
    for before, place in zip([*outline[-1:], *outline], outline, strict=False):
        at, then = way * (before[axis] - bound), way * (place[axis] - bound)
        if (at > 0) != (then > 0):
            share = at / (at - then)
            yield (
                before[0] + share * (place[0] - before[0]),
                before[1] + share * (place[1] - before[1]),
            )
        if then > 0:
            yield place
