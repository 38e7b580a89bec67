"""Cells in their places, the common ground of all layouts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.model import Cell, Size


@dataclass(frozen=True)
class Laid:
    """A cell in its place: what it shows and its finished size as it lies.

    ``role`` names the part it plays, the same in every size of the pattern.
    """

    name: str
    turn: int
    mirrored: bool
    size: Size
    role: str


@dataclass(frozen=True)
class Layout:
    """Rows of cells that fill a rectangle. Cells of a row are equally high.

    ``row_press`` and ``between`` say where seams go, where that is not turn about and down.
    """

    rows: tuple[tuple[Laid, ...], ...]
    row_press: tuple[str, ...] = ()
    between: str = "down"

    @property
    def size(self) -> Size:
        """Finished width and height of the whole."""
        width = sum((cell.size.width for cell in self.rows[0]), Fraction(0))
        return Size(width, sum((row[0].size.height for row in self.rows), Fraction(0)))


def plain(fabric: str, width: Fraction, height: Fraction, role: str) -> Laid:
    """A rectangle of one fabric."""
    return Laid(fabric, 0, False, Size(width, height), role)


def placed(cell: Cell, size: Size, role: str) -> Laid:
    """A cell of the file with its size as it lies."""
    return Laid(cell.name, cell.turn, cell.mirrored, size, role)


def turned(cell: Laid, quarters: int) -> Laid:
    """A cell turned clockwise in its place."""
    size = cell.size if quarters % 2 == 0 else Size(cell.size.height, cell.size.width)
    return replace(cell, turn=(cell.turn + quarters) % 4, size=size)
