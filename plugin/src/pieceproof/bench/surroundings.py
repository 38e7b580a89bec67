"""Which seams are sewn along the four sides of every make once it is used.

In: a publication. Out: for each make, every set of four seams that it meets in the quilt. The outer
edge of the top meets the binding.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from pieceproof.published import Make, Publication
from pieceproof.steps import Assemble, Join, Placed, Side, Take

IN_ROWS, BETWEEN_ROWS = "within rows", "between rows"
"""The two groups of seams of an assembly."""

CLOCKWISE = (Side.TOP, Side.RIGHT, Side.BOTTOM, Side.LEFT)


@dataclass(frozen=True)
class Seam:
    """All seams of one step of a make, or one group of an assembly's. Steps count from 1."""

    make: str
    step: int
    group: str = ""


Around: TypeAlias = tuple[Seam, ...]
"""The seams along a make's sides, from the top clockwise."""

BINDING = Seam("binding", 0)


def surroundings(publication: Publication) -> Mapping[str, tuple[Around, ...]]:
    """What each make is surrounded by, by its name; () for a make that is not used."""
    found: dict[str, dict[Around, None]] = {make.name: {} for make in publication.makes}
    found[publication.makes[-1].name][(BINDING,) * 4] = None
    for make in reversed(publication.makes):
        for around in found[make.name]:
            for source, place in _placed(make, around):
                found.setdefault(source, {})[place] = None
    return {name: tuple(places) for name, places in found.items()}


def _placed(make: Make, around: Around) -> Iterator[tuple[str, Around]]:
    for number, step in enumerate(make.steps, start=1):
        if isinstance(step, Assemble):
            yield from _cells(make, number, step, around)
        elif isinstance(step, Take):
            yield step.source, _turned_back(_joined_to(make, step.item, around), step.turn)


def _cells(make: Make, number: int, step: Assemble, around: Around) -> Iterator[tuple[str, Around]]:
    beside = Seam(make.name, number, IN_ROWS)
    between = Seam(make.name, number, BETWEEN_ROWS)
    last = len(step.rows) - 1
    for j, row in enumerate(step.rows):
        for i, cell in enumerate(row):
            sides = (
                around[0] if j == 0 else between,
                around[1] if i == len(row) - 1 else beside,
                around[2] if j == last else between,
                around[3] if i == 0 else beside,
            )
            yield _cell(cell, sides)


def _cell(cell: Placed, sides: Around) -> tuple[str, Around]:
    return cell.source, _turned_back(sides, cell.turn)


def _joined_to(make: Make, item: str, around: Around) -> Around:
    """What a thing on the table is joined to first on each side; else what the make meets."""
    sides = dict(zip(CLOCKWISE, around, strict=True))
    joins = [(n, s) for n, s in enumerate(make.steps, start=1) if isinstance(s, Join)]
    for number, step in reversed(joins):
        if step.item == item:
            sides[step.side] = Seam(make.name, number)
        elif step.added == item:
            sides[CLOCKWISE[(CLOCKWISE.index(step.side) + 2) % 4]] = Seam(make.name, number)
    return tuple(sides.values())


def _turned_back(sides: Around, quarters: int) -> Around:
    """Sides as they lie, in the order of the thing as it is drawn."""
    return tuple(sides[(index + quarters) % 4] for index in range(4))
