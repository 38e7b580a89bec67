"""Published instances of cutting, as demands and as tables of numbers.

`instances/ORIGIN.md` says where the files come from and how they are laid out. Any file of one of
those layouts can be read, also one that is not in the folder: give its text.
"""

from collections import Counter
from pathlib import Path
from typing import NamedTuple

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, Want

INSTANCES = Path(__file__).parent / "instances"

Row = tuple[int, ...]


class Item(NamedTuple):
    """One size of a published instance; `worth` is its area where the file states none."""

    length: int
    width: int
    worth: int
    count: int


class Instance(NamedTuple):
    """A sheet `length` by `width` and what may be cut from it."""

    length: int
    width: int
    items: tuple[Item, ...]


def strip_instance(text: str) -> Instance:
    """An instance of strip packing or of cutting from stock: the first sheet, every item.

    Rows of 2 are sizes; of 3, with a running number before the size or a worth behind it; of 4,
    size, count and worth. Where the file begins with six numbers it lists several sheets first.
    """
    head, *rows = _rows(text)
    if len(head) == 6:
        sheets, kinds = head[1], head[2]
        sizes = [(*row[:2], 1, row[2]) for row in rows[sheets : sheets + kinds]]
    else:
        sizes = [_size(number, row) for number, row in enumerate(rows[1 : 1 + head[0]], 1)]
    sheet = rows[0]
    return Instance(sheet[0], sheet[1], tuple(Item(*size) for size in sizes))


def sheet_instance(text: str) -> Instance:
    """An instance of the most valuable cutting of one sheet; short rows after the first are counts
    of rows and say nothing. Rows of 4 are length, width, worth, count; of 3 length, width, count.
    """
    head, *rows = _rows(text)
    items = [
        Item(row[0], row[1], row[2] if len(row) == 4 else row[0] * row[1], row[-1])
        for row in rows
        if len(row) > 2
    ]
    return Instance(head[0], head[1], tuple(items))


def roll(instance: Instance, turnable: bool = True) -> Demand:
    """Every item from a roll as wide as the sheet is long; one unit throughout, no squaring."""
    counts: Counter[tuple[int, int]] = Counter()
    for item in instance.items:
        counts[item.length, item.width] += item.count
    wants = tuple(
        Want(f"{length} x {width}", Fraction(length), Fraction(width), count, turnable)
        for (length, width), count in sorted(counts.items())
    )
    return Demand(wants, (), Fraction(instance.length), Fraction(1), Fraction(0))


def _rows(text: str) -> list[Row]:
    rows = [line.split() for line in text.splitlines()]
    return [tuple(map(int, row)) for row in rows if row and all(part.isdigit() for part in row)]


def _size(number: int, row: Row) -> tuple[int, int, int, int]:
    if len(row) == 4:
        return row[0], row[1], row[3], row[2]
    if len(row) == 3 and row[0] == number:
        return row[1], row[2], row[1] * row[2], 1
    return row[0], row[1], row[0] * row[1], 1
