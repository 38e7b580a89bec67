"""Cells of an assembly laid out with gaps, as blocks and rows are drawn pulled apart.

In: rows of cells. Out: their places and what is drawn of each. It adds no words but letters.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from pieceproof.diagrams.legible import letter_fits
from pieceproof.diagrams.subject import Cell, Subject, areas
from pieceproof.drawing.scene import AreaKind, Group, Item, Letter, shifted


@dataclass(frozen=True)
class Laid:
    """A cell in its place; ``row`` and ``column`` count from 0."""

    cell: Cell
    row: int
    column: int
    x: float
    y: float


@dataclass(frozen=True)
class Spread:
    """All cells in their places, and the extent of the whole."""

    places: tuple[Laid, ...]
    width: float
    height: float


def spread(rows: Sequence[Sequence[Cell]], gap: float, below: Sequence[float]) -> Spread:
    """Cells ``gap`` apart, rows centred on each other with this much room below each."""
    widths = [sum(c.width for c in row) + gap * (len(row) - 1) for row in rows]
    places = []
    y = 0.0
    for index, row in enumerate(rows):
        x = (max(widths) - widths[index]) / 2
        for column, cell in enumerate(row):
            places.append(Laid(cell, index, column, x, y))
            x += cell.width + gap
        y += row[0].height + below[index]
    return Spread(tuple(places), max(widths), y - below[-1])


def runs(laid: Spread) -> Sequence[Sequence[Laid]]:
    """Neighbours in a row that are the same thing, however turned."""
    return [
        list(group)
        for _, group in groupby(laid.places, key=lambda place: (place.row, place.cell.source))
    ]


def cell_items(
    subject: Subject, place: Laid, pixel: float, kind: AreaKind = AreaKind.PIECE
) -> list[Item]:
    """The cloth of a cell, and its letter where it is a piece with room for one."""
    cloth = Group(areas(subject, place.cell.flat.faces, kind), shifted(place.x, place.y))
    if not letter_inside(place, pixel):
        return [cloth]
    return [cloth, Letter(middle(place), place.cell.letter)]


def letter_inside(place: Laid, pixel: float) -> bool:
    """Whether the cell is a piece with room for its letter."""
    room = min(place.cell.width, place.cell.height)
    return bool(place.cell.letter) and letter_fits(room, pixel, place.cell.letter)


def middle(place: Laid) -> tuple[float, float]:
    """The centre of a cell."""
    return place.x + place.cell.width / 2, place.y + place.cell.height / 2
