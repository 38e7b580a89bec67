"""Pieces cut around motifs: the cloth with its repeats, each piece on its motif.

In: a sheet, the pieces of one letter. Out: a band, to scale. Where the first motif lies nobody
knows; it is drawn in the middle of where it may lie, so that half of the spare repeat is above the
rows and half below. What a motif looks like nobody knows either: a ring stands for it. Many rows
are drawn broken.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor

from quicktions import Fraction

from pieceproof.diagrams.legible import letter_fits, wrapped
from pieceproof.diagrams.sheet import (
    AFTER,
    HEADING,
    LETTERS,
    LINE,
    Band,
    Sheet,
    broken,
    flush,
    left_over,
    rectangle,
    selvages,
)
from pieceproof.diagrams.strip_words import motif_cuts, motif_heading
from pieceproof.drawing.scene import Area, AreaKind, Item, Letter, Line, LineKind, Place, TextKind
from pieceproof.fussy import Fussy
from pieceproof.shapes import Point, Polygon, overlap
from pieceproof.shapes import rectangle as exact_rectangle

_ROWS = 5
_SMALLEST = 12.0
_RING = tuple(
    (Fraction(x, 65), Fraction(y, 65))
    for x, y in (
        (65, 0), (60, 25), (52, 39), (39, 52), (25, 60), (0, 65), (-25, 60), (-39, 52), (-52, 39),
        (-60, 25), (-65, 0), (-60, -25), (-52, -39), (-39, -52), (-25, -60), (0, -65), (25, -60),
        (39, -52), (52, -39), (60, -25),
    )
)  # fmt: skip
"""Places on a circle of radius 1 round the origin, clockwise."""


@dataclass(frozen=True)
class _Grid:
    """The length as it is drawn, ``wide`` by ``long`` from its top left corner.

    ``xs`` and ``ys`` are the middles of pieces, ``first`` that of the first one; ``last`` pieces
    lie in the last row.
    """

    motifs: Fussy
    wide: Fraction
    long: Fraction
    xs: tuple[Fraction, ...]
    ys: tuple[Fraction, ...]
    last: int

    @property
    def radius(self) -> Fraction:
        """A ring that stays within its repeat and within its piece."""
        motifs = self.motifs
        repeat = min(motifs.repeat_across, motifs.repeat_along)
        return min(repeat * Fraction(2, 5), min(motifs.across, motifs.along) * Fraction(2, 5))


def motif_band(sheet: Sheet, motifs: Fussy, top: float) -> Band:
    """The length between its heading and its rows in words."""
    grid = _grid(motifs, sheet.plan.width)
    y = top + sheet.px(HEADING)
    end = y + float(grid.long)
    text = wrapped(motif_cuts(sheet.subject, motifs), sheet.room, TextKind.CAPTION)
    fits = letter_fits(float(min(motifs.across, motifs.along)), sheet.pixel, motifs.letter)
    after = end + sheet.px(5 if fits else LETTERS)
    items = [
        flush(sheet, motif_heading(sheet.subject, motifs), top, TextKind.LABEL),
        *selvages(sheet, y, float(grid.long)),
        *_cloth(sheet, grid, y),
        *_pieces(sheet, grid, y),
        *(_letters(grid, y) if fits else _letter_below(sheet, grid, y)),
        *(broken(sheet, y + _gap(grid)) if motifs.rows > _ROWS else ()),
        Line(((0, end), (sheet.width, end)), LineKind.CUT),
        flush(sheet, text, after, TextKind.CAPTION),
    ]
    lines = text.count("\n") + 1
    return Band(items, after + sheet.px(lines * LINE + AFTER))


def _grid(motifs: Fussy, wide: Fraction) -> _Grid:
    rows = min(motifs.rows, _ROWS)
    abreast = min(motifs.abreast, motifs.count)
    used = (motifs.abreast - 1) * motifs.apart_across + motifs.across
    left = (wide - used + motifs.across) / 2
    top = (motifs.repeat_along + motifs.along) / 2
    return _Grid(
        motifs,
        wide,
        motifs.length - (motifs.rows - rows) * motifs.apart_along,
        tuple(left + i * motifs.apart_across for i in range(abreast)),
        tuple(top + i * motifs.apart_along for i in range(rows)),
        motifs.count - (motifs.rows - 1) * motifs.abreast,
    )


def _gap(grid: _Grid) -> float:
    """Where rows are left out: above the last one."""
    return float((grid.ys[-2] + grid.ys[-1]) / 2)


def _cloth(sheet: Sheet, grid: _Grid, y: float) -> Iterator[Item]:
    """The cloth behind the pieces, the spare repeat, and motifs as far as they can be told apart.

    Repeats that are too small on the screen are left out, but those in the middle of a piece.
    """
    motifs, long = grid.motifs, float(grid.long)
    yield Area(rectangle(0, y, sheet.width, y + long), kind=AreaKind.OFFCUT)
    spare = float(motifs.repeat_along / 2)
    for above in (y, y + long - spare):
        yield from left_over(sheet, 0, above, sheet.width, spare)
    xs, ys = list(grid.xs), list(grid.ys)
    if min(motifs.repeat_across, motifs.repeat_along) >= sheet.px(_SMALLEST):
        xs = _repeats(grid.xs[0], motifs.repeat_across, grid.wide)
        ys = _repeats(grid.ys[0], motifs.repeat_along, grid.long)
        yield from _lines(sheet, grid, y, xs, ys)
    for x in xs:
        for down in ys:
            yield from _ring(grid, x, down, y)


def _lines(
    sheet: Sheet, grid: _Grid, y: float, xs: list[Fraction], ys: list[Fraction]
) -> Iterator[Item]:
    """Lines between the repeats."""
    motifs, end = grid.motifs, y + float(grid.long)
    for left, right in _every_other(xs, motifs.repeat_across, grid.wide):
        yield Area(rectangle(left, y, right, end), kind=AreaKind.GHOST, layer=1)
    for above, below in _every_other(ys, motifs.repeat_along, grid.long):
        corners = rectangle(0, y + above, sheet.width, y + below)
        yield Area(corners, kind=AreaKind.GHOST, layer=1)


def _every_other(
    middles: list[Fraction], apart: Fraction, end: Fraction
) -> Iterator[tuple[float, float]]:
    """Every second repeat, so that each line between two repeats is drawn once."""
    for middle in middles[::2]:
        start, stop = max(middle - apart / 2, Fraction(0)), min(middle + apart / 2, end)
        if start < stop:
            yield float(start), float(stop)


def _repeats(first: Fraction, apart: Fraction, end: Fraction) -> list[Fraction]:
    """All middles of motifs of which something may lie between 0 and ``end``."""
    return [
        first + i * apart for i in range(-ceil(first / apart), floor((end - first) / apart) + 2)
    ]


def _ring(grid: _Grid, x: Fraction, down: Fraction, y: float) -> Iterator[Item]:
    """A motif's ring, open where the cloth's edge cuts it off."""
    whole = tuple((x + dx * grid.radius, down + dy * grid.radius) for dx, dy in _RING)
    edge = exact_rectangle(grid.wide, grid.long)
    ring = overlap(whole, edge)
    run: list[Place] = []
    for start, end in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        if _runs_along(edge, start, end):
            yield from _run(run)
            run = []
        else:
            run = [*(run or _at((start,), y)), *_at((end,), y)]
    yield from _run(run)


def _run(places: list[Place]) -> Iterator[Item]:
    if places:
        yield Line(tuple(places), LineKind.LEADER)


def _runs_along(edge: Polygon, start: Point, end: Point) -> bool:
    """Whether a stretch of a ring is where the cloth's edge cuts the ring off."""
    return any(start[i] == end[i] and start[i] in (edge[0][i], edge[2][i]) for i in (0, 1))


def _pieces(sheet: Sheet, grid: _Grid, y: float) -> Iterator[Item]:
    across, along = float(grid.motifs.across), float(grid.motifs.along)
    for x, down in _middles(grid, y):
        left, top = x - across / 2, down - along / 2
        corners = rectangle(left, top, left + across, top + along)
        yield Area(corners, sheet.fabric, None, AreaKind.PIECE, 2)


def _middles(grid: _Grid, y: float) -> Iterator[Place]:
    """Row by row from the squared end; the last row may hold fewer."""
    for down in grid.ys:
        for x in grid.xs[: grid.last if down == grid.ys[-1] else None]:
            yield float(x), y + float(down)


def _letters(grid: _Grid, y: float) -> Iterator[Item]:
    return (Letter(middle, grid.motifs.letter) for middle in _middles(grid, y))


def _letter_below(sheet: Sheet, grid: _Grid, y: float) -> Iterator[Item]:
    """One letter for all, below the last row, where pieces are too small for theirs."""
    x, end = float(grid.xs[0]), y + float(grid.long)
    bottom = y + float(grid.ys[-1] + grid.motifs.along / 2)
    yield Line(((x, bottom - sheet.px(4)), (x, end + sheet.px(4))), LineKind.LEADER)
    yield Letter((x, end + sheet.px(12)), grid.motifs.letter)


def _at(polygon: Polygon, y: float) -> tuple[Place, ...]:
    return tuple((float(x), y + float(down)) for x, down in polygon)
