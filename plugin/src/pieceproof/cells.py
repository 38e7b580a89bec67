"""Cells in their places, the common ground of all layouts."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pieceproof.model import Size


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
    """Rows of cells that fill a rectangle. Cells of a row are equally high."""

    rows: tuple[tuple[Laid, ...], ...]

    @property
    def size(self) -> Size:
        """Finished width and height of the whole."""
        width = sum((cell.size.width for cell in self.rows[0]), Fraction(0))
        return Size(width, sum((row[0].size.height for row in self.rows), Fraction(0)))
