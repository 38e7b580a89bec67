"""Where every seam of a make lies in the finished thing, followed from the steps that sew it.

In: a make and what it is sewn from. Out: for each seam the stretches of it that can be seen, as
they lie in the finished picture. Cloth keeps names of its own, as in `ridges`: two pieces of cloth
touch each other along one seam only. What an assembly or a border takes ready made is one piece of
cloth here; its own seams are none of theirs.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise, product

from pieceproof.bench.ridges import _named, _on_line, _sewn_together
from pieceproof.bench.sewing import _STEPS, Shop, _Table
from pieceproof.bench.table import Face, Faces, Flat, moved, pared
from pieceproof.lengths import Number
from pieceproof.published import Make
from pieceproof.shapes import Line, Point, line_through, rectangle
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    CloseSeam,
    DiagonalRow,
    Join,
    JoinMitred,
    JoinPart,
    Placed,
    Step,
    Take,
    Yield,
)


@dataclass(frozen=True)
class SewnIn:
    """The step that sews a seam, its number counted from 0.

    In an assembly also the row and the number of the seam in it; 0 and the upper row between rows.
    """

    step: int
    row: int = 0
    number: int = 0


Stretch = tuple[Point, Point]


def seams_shown(make: Make, shop: Shop) -> Mapping[SewnIn, tuple[Stretch, ...]]:
    """The stretches of each seam in the first finished one of a round, from its top left corner."""
    known, thing = _followed(make, shop)
    a = shop.seam
    faces = moved(tuple(f for f in pared(thing, a, a, a, a) if f.layer == 0), -a, -a)
    by_name: dict[str, list[Face]] = defaultdict(list)
    for face in faces:
        by_name[face.letter].append(face)
    found: dict[SewnIn, list[Stretch]] = defaultdict(list)
    for pair, seam in known.between.items():
        one, other = sorted(pair)
        for first, second in product(by_name.get(one, ()), by_name.get(other, ())):
            found[seam] += _shared(first, second)
    order = sorted(found, key=lambda seam: (seam.step, seam.row, seam.number))
    return {seam: tuple(found[seam]) for seam in order if found[seam]}


@dataclass
class _Known:
    """The seam between any two pieces of cloth that have been sewn together."""

    between: dict[frozenset[str], SewnIn] = field(default_factory=dict)

    def sewn(self, base: Iterable[str], added: Iterable[str], seam: SewnIn) -> None:
        others = list(added)
        self.between |= {frozenset((one, other)): seam for one in base for other in others}

    def renamed(self, names: Mapping[str, str]) -> None:
        for pair, seam in list(self.between.items()):
            if pair <= names.keys():
                self.between[frozenset(names[name] for name in pair)] = seam


def _followed(make: Make, shop: Shop) -> tuple[_Known, Flat]:
    table, known = _Table({}, ()), _Known()
    open_part = last = ""
    for number, step in enumerate(make.steps):
        if isinstance(step, Yield) and not step.extra:
            return known, table.flat(step.items[0])
        own, sources = _with_own_names(step, shop)
        before, table = table, _STEPS[type(step)](table, own, sources)
        table = _named(step, table, known)
        for base, added, seam in _joined(step, number, before, (open_part, last)):
            known.sewn(base, added, seam)
        open_part = step.added if isinstance(step, JoinPart) else open_part
        last = step.added if isinstance(step, Join) else last
    raise AssertionError("a make is finished")


def _with_own_names(step: Step, shop: Shop) -> tuple[Step, Shop]:
    """The step with every cell under the name of its place, and these cells as single cloths."""
    if isinstance(step, Take):
        source = shop.sources[step.source]
        whole = source if source.marked else _whole(source, step.item)
        return step, replace(shop, sources={step.source: whole})
    if not isinstance(step, Assemble | AssembleOnPoint):
        return step, shop
    sources: dict[str, Flat] = {}

    def named(cell: Placed, name: str) -> Placed:
        sources[name] = _whole(shop.sources[cell.source], name)
        return Placed(name, cell.turn)

    own = _cells_named(step, named)
    return own, replace(shop, sources=sources)


_Naming = Callable[[Placed, str], Placed]


def _cells_named(step: Assemble | AssembleOnPoint, named: _Naming) -> Step:
    if isinstance(step, Assemble):
        rows = tuple(
            tuple(named(cell, _place(row, column)) for column, cell in enumerate(cells, start=1))
            for row, cells in enumerate(step.rows, start=1)
        )
        return replace(step, rows=rows)
    diagonal = tuple(
        DiagonalRow(
            row.first and named(row.first, _place(number, 0)),
            tuple(named(cell, _place(number, n)) for n, cell in enumerate(row.cells, start=1)),
            row.last and named(row.last, _place(number, len(row.cells) + 1)),
            row.start,
        )
        for number, row in enumerate(step.rows, start=1)
    )
    corners = named(step.top_left, "top left"), named(step.bottom_right, "bottom right")
    return replace(step, top_left=corners[0], rows=diagonal, bottom_right=corners[1])


def _place(row: int, column: int) -> str:
    return f"row {row}, {column}"


def _whole(source: Flat, name: str) -> Flat:
    """What is taken, as one piece of cloth; a triangle keeps its shape."""
    outline = source.faces[0].outline
    if len(source.faces) > 1:
        outline = rectangle(source.width, source.height)
    return Flat((Face("", name, outline),), source.width, source.height)


_Joined = tuple[Iterable[str], Iterable[str], SewnIn]


def _joined(step: Step, number: int, before: _Table, ends: tuple[str, str]) -> Iterator[_Joined]:
    """The cloth on both sides of every seam that a step sews."""
    match step:
        case Assemble() | AssembleOnPoint():
            yield from _assembled(step, number)
        case JoinMitred():
            base = _cloth_of(before.flat(step.item).faces)
            strips = (step.left, step.top, step.right, step.bottom)
            yield base, [n for s in strips for n in _cloth_of(before.flat(s).faces)], SewnIn(number)
        case CloseSeam():
            yield [ends[1]], [ends[0]], SewnIn(number)
        case _:
            groups = _sewn_together(step, before, *ends)
            if groups is not None:
                yield *groups, SewnIn(number)


def _assembled(step: Assemble | AssembleOnPoint, number: int) -> Iterator[_Joined]:
    """Seams in a row on point count from that of its first triangle, also where it has none."""
    if isinstance(step, Assemble):
        columns = [range(1, len(row) + 1) for row in step.rows]
    else:
        columns = [range(len(row.cells) + 2) for row in step.rows]
    shift = 1 if isinstance(step, AssembleOnPoint) else 0
    rows = [[_place(n, column) for column in row] for n, row in enumerate(columns, start=1)]
    for row, (names, places) in enumerate(zip(rows, columns, strict=True), start=1):
        for (left, right), place in zip(pairwise(names), places, strict=False):
            yield [left], [right], SewnIn(number, row, place + shift)
    for upper, (above, below) in enumerate(pairwise(rows), start=1):
        yield above, below, SewnIn(number, 0, upper)


def _cloth_of(faces: Faces) -> list[str]:
    return list(dict.fromkeys(face.letter for face in faces))


def _shared(one: Face, other: Face) -> Iterator[Stretch]:
    """Where the edges of two faces lie on each other."""
    sides = zip(one.outline, (*one.outline[1:], one.outline[0]), strict=True)
    for p, q in sides:
        line = line_through(p, q)
        start, end = sorted(line.b * x - line.a * y for x, y in (p, q))
        for low, high in _on_line(other.outline, line):
            first, last = max(start, low), min(end, high)
            if first < last:
                yield _at(line, first), _at(line, last)


def _at(line: Line, along: Number) -> Point:
    n = line.a * line.a + line.b * line.b
    return (line.a * line.c + line.b * along) / n, (line.b * line.c - line.a * along) / n
