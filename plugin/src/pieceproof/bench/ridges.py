"""Where the allowances of a unit's seams lie: they are followed from cut piece to finished unit.

In: the steps of a make that takes nothing but pieces, and the pieces. Out: for every finished
thing the ridges on its four edges, and for every straight seam sewn on the way what meets there.

Each piece of cloth keeps a name of its own. Once two things are sewn together, cloth of the one
touches cloth of the other along that one seam only; so it is enough to note, for each two pieces,
which of them has the allowance of the seam between them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Protocol

from quicktions import Fraction

from pieceproof.bench.foundations import Covered
from pieceproof.bench.marks import laid_out
from pieceproof.bench.outlines import Marked
from pieceproof.bench.part_seams import PartSewn
from pieceproof.bench.sewing import _STEPS, Shop, _Table
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import Faces, Flat, Stack, Thing, carried, cut_faces
from pieceproof.lengths import Number, sign
from pieceproof.shapes import Line, Motion, line_through
from pieceproof.steps import (
    CloseSeam,
    Cover,
    CrossCut,
    CutApart,
    Join,
    JoinEdges,
    JoinMarks,
    JoinPart,
    Open,
    Press,
    Side,
    Step,
    Take,
    Yield,
)

_Thing = Thing | PartSewn | Covered | Marked


@dataclass(frozen=True)
class Ridge:
    """A seam's end: its place along an edge, raw, and where its allowance lies from there.

    1 is toward the end of the edge, -1 toward its start, 0 both, None not the same in all of the
    things that a round of ``kinds_of`` gives. Edges run from the left and from the top.
    """

    place: Number
    way: int | None
    kinds_of: str = ""


@dataclass(frozen=True)
class Hemmed:
    """A thing's raw size and the ridges on its edges, inside the allowances."""

    width: Number
    height: Number
    edges: Mapping[Side, tuple[Ridge, ...]]


@dataclass(frozen=True)
class Crossing:
    """Two ridges that come to the same place of a seam, by what was done and where."""

    where: str
    place: Number
    first: Ridge
    second: Ridge


class _Allowances:
    """Which of two pieces of cloth has the allowance of the seam between them; None: both."""

    def __init__(self) -> None:
        self.toward: dict[frozenset[str], str | None] = {}

    def sewn(self, base: Iterable[str], added: Iterable[str], press: Press) -> None:
        for one in sorted(set(base)):
            for other in sorted(set(added)):
                has = {Press.ONTO_ADDED: other, Press.ONTO_BASE: one, Press.OPEN: None}[press]
                self.toward[frozenset((one, other))] = has

    def renamed(self, names: Mapping[str, str]) -> None:
        for pair, has in list(self.toward.items()):
            if pair <= names.keys():
                to = frozenset(names[name] for name in pair)
                self.toward[to] = names[has] if has is not None else None


def followed(
    steps: Sequence[Step], shop: Shop
) -> tuple[Mapping[str, Hemmed], tuple[Crossing, ...]]:
    """The finished things of one round by the names of its extras, "" for the make itself."""
    table, known = _Table({}, ()), _Allowances()
    crossings: list[Crossing] = []
    open_part = last = ""
    finished: dict[str, list[Flat]] = {}
    for step in steps:
        if isinstance(step, Yield):
            finished.setdefault(step.extra, []).extend(table.flat(n) for n in step.items)
        before, table = table, _STEPS[type(step)](table, step, shop)
        table = _named(step, table, known)
        groups = _sewn_together(step, before, open_part, last)
        open_part = step.added if isinstance(step, JoinPart) else open_part
        last = step.added if isinstance(step, Join) else last
        if groups is not None:
            known.sewn(*groups, step.press if hasattr(step, "press") else Press.ONTO_ADDED)
            crossings += _crossings(step, table, groups, known)
    hems = {
        name: _alike([hemmed(thing, shop, known.toward) for thing in things])
        for name, things in finished.items()
    }
    return hems, tuple(crossings)


class _Renaming(Protocol):
    """What is known of pieces of cloth by their names."""

    def renamed(self, names: Mapping[str, str]) -> None: ...


def _named(step: Step, table: _Table, known: _Renaming) -> _Table:
    """Cloth just taken goes by the name of the item; parts of one thing become two."""
    if isinstance(step, Take):
        return _renamed(table, step.item, lambda _: step.item)
    if isinstance(step, CutApart):
        parts = [part for part in (step.first, step.second) if part]
    elif isinstance(step, CrossCut):
        parts = [f"{step.item} {n}" for n in range(1, step.count + 1)]
    else:
        return table
    for part in parts:
        names = {name: f"{part}/{name}" for name in _cloth_of(table.things[part])}
        known.renamed(names)
        table = _renamed(table, part, names.__getitem__)
    return table


def _renamed(table: _Table, item: str, call: Callable[[str], str]) -> _Table:
    thing = table.things[item]

    def faces(old: Faces) -> Faces:
        return tuple(replace(face, letter=call(face.letter)) for face in old)

    if isinstance(thing, Stack):
        thing = replace(thing, lower=faces(thing.lower), upper=faces(thing.upper))
    elif isinstance(thing, Marked):
        thing = replace(
            thing, shapes=tuple(replace(s, letter=call(s.letter)) for s in thing.shapes)
        )
    else:
        thing = replace(thing, faces=faces(thing.faces))
    return table.swap(item, thing)


def _cloth_of(thing: _Thing) -> list[str]:
    if isinstance(thing, Marked):
        return [shape.letter for shape in thing.shapes]
    faces = (*thing.lower, *thing.upper) if isinstance(thing, Stack) else thing.faces
    return list(dict.fromkeys(face.letter for face in faces if face.layer == 0))


def _sewn_together(
    step: Step, before: _Table, open_part: str, last: str
) -> tuple[list[str], list[str]] | None:
    """The cloth on both sides of the seam that a step sews or presses."""
    match step:
        case Open():
            stack = before.stack(step.item)
            return [f.letter for f in stack.lower], [f.letter for f in stack.upper]
        case Join() | JoinEdges() | JoinMarks() | JoinPart():
            return _cloth_of(before.any(step.item)), _cloth_of(before.any(step.added))
        case Cover() if step.section > 1:
            return _cloth_of(before.any(step.item)), _cloth_of(before.any(step.added))
        case CloseSeam():
            return [last], [open_part]
        case _:
            return None


def _crossings(
    step: Step, table: _Table, groups: tuple[list[str], list[str]], known: _Allowances
) -> Iterator[Crossing]:
    if max(len(set(group)) for group in groups) < 2:
        return
    item = getattr(step, "item", "")
    faces = _faces(table.things[item])
    sides = [tuple(f for f in faces if f.letter in group) for group in groups]
    line = _between(*sides)
    if line is None:
        return
    first, second = (_ridges(side, line, known.toward) for side in sides)
    yield from crossings(f"{item}, seam of {' and '.join(_parts(step))}", first, second)


def _parts(step: Step) -> list[str]:
    return [str(getattr(step, name)) for name in ("item", "added") if hasattr(step, name)]


def _faces(thing: _Thing) -> Faces:
    if isinstance(thing, Marked):
        try:
            return laid_out(thing).faces
        except CannotSew:
            return ()
    if isinstance(thing, Stack):
        return ()
    return tuple(face for face in thing.faces if face.layer == 0)


def _between(first: Faces, second: Faces) -> Line | None:
    """The straight line that has one side's cloth on its right hand, the other's on its left."""
    for face in first:
        for p, q in zip(face.outline, (*face.outline[1:], face.outline[0]), strict=True):
            line = line_through(p, q)
            if _all(second, line, -1) and _all(first, line, 1):
                return line
    return None


def _all(faces: Faces, line: Line, side: int) -> bool:
    return all(sign(line.at(p)) * side >= 0 for face in faces for p in face.outline)


def crossings(where: str, first: Sequence[Ridge], second: Sequence[Ridge]) -> Iterator[Crossing]:
    """Ridges at the same place of a seam, from both sides of it."""
    for one in first:
        for other in second:
            if one.place == other.place:
                yield Crossing(where, one.place, one, other)


def _ridges(
    faces: Faces, line: Line, toward: Mapping[frozenset[str], str | None]
) -> tuple[Ridge, ...]:
    """The changes from one piece of cloth to another along a line on which the faces end."""
    stretches = sorted(
        (stretch, face.letter) for face in faces for stretch in _on_line(face.outline, line)
    )
    found = []
    for ((_, end), before), ((start, _), behind) in pairwise(stretches):
        pair = frozenset((before, behind))
        if end == start and before != behind and pair in toward:
            way = {before: -1, behind: 1, None: 0}[toward[pair]]
            found.append(Ridge(end, way))
    return tuple(found)


def _on_line(outline: Sequence[tuple[Number, Number]], line: Line) -> Iterator[tuple[Number, ...]]:
    """Where edges of an outline lie on a line, measured along it."""
    for p, q in zip(outline, (*outline[1:], outline[0]), strict=True):
        if line.at(p) == 0 and line.at(q) == 0:
            places = [line.b * x - line.a * y for x, y in (p, q)]
            yield min(places), max(places)


def hemmed(thing: Flat, shop: Shop, toward: Mapping[frozenset[str], str | None]) -> Hemmed:
    """The ridges where the next seams will run, one allowance inside the raw edges."""
    edges = {}
    for side in Side:
        length = thing.width if side in (Side.TOP, Side.BOTTOM) else thing.height
        seen = carried(_faces(thing), _read(thing, side))
        line = Line(Fraction(0), Fraction(1), shop.seam)
        ridges = _ridges(cut_faces(seen, line), line, toward)
        edges[side] = tuple(r for r in ridges if shop.seam <= r.place <= length - shop.seam)
    return Hemmed(thing.width, thing.height, edges)


def _read(thing: Flat, side: Side) -> Motion:
    """A side seen as the top: across the edge's length, down away from it."""
    one, zero = Fraction(1), Fraction(0)
    return {
        Side.TOP: Motion(),
        Side.BOTTOM: Motion(one, zero, zero, -one, zero, thing.height),
        Side.LEFT: Motion(zero, one, one, zero, zero, zero),
        Side.RIGHT: Motion(zero, one, -one, zero, zero, thing.width),
    }[side]


def _alike(things: Sequence[Hemmed]) -> Hemmed:
    """What holds for all things of a round."""
    first = things[0]
    edges = {
        side: tuple(
            Ridge(ridge.place, ridge.way if all(ridge in t.edges[side] for t in things) else None)
            for ridge in first.edges[side]
        )
        for side in Side
    }
    return replace(first, edges=edges)
