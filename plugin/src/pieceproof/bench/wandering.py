"""Sews the published pieces by the published steps with seams that are off.

In: a publication, and for every seam how much wider than published it is sewn (negative: scant).
Out: one of each make as it comes off the table, and where edges did not fit. Pieces are cut
exactly. Assumed, and nothing else:

- A seam along an edge, or measured from a drawn line, is off by its error. A seam on a drawn line
  is not: there is no guide to sew it by. Cuts are exact.
- Edges of different length are matched at their middles. Nothing is stretched or eased; what
  sticks out at the ends is cut off even.
- What is trimmed is trimmed to its published size, the surplus shared as published. What has
  become too small is left as it is.

A centre or top is followed by its size only. A make whose steps cannot be done so is taken as
published, and named.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from quicktions import Fraction

from pieceproof.bench.covering import visible
from pieceproof.bench.edges import edges_joined
from pieceproof.bench.matching import Misfit, Rows, joined_at_middles, rows_at_middles
from pieceproof.bench.part_seams import PartSewn, part_joined
from pieceproof.bench.sewing import _STEPS, Shop, _facing, _line, _Table
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.stitching import seam_stretches
from pieceproof.bench.surroundings import BETWEEN_ROWS, IN_ROWS, Seam
from pieceproof.bench.table import Flat, carried, cut_faces, flat, pared, turned
from pieceproof.bench.watch import sewn_makes
from pieceproof.lengths import Number, magnitude
from pieceproof.published import Make, MakeKind, Publication
from pieceproof.shapes import reflection
from pieceproof.steps import (
    Assemble,
    Diagonal,
    Edge,
    Join,
    JoinEdges,
    JoinMitred,
    JoinPart,
    Open,
    SeamLine,
    Sew,
    Side,
    Step,
    Take,
    Trim,
    TrimLike,
)

Hand = Callable[[Seam], Fraction]
"""How much wider than published the next seam is sewn. Asked once for every seam."""


@dataclass(frozen=True)
class Worked:
    """All that one round of a make gives, and what was noted on the way.

    ``rows`` are the places of the seams across the rows of an assembly.
    """

    things: tuple[Flat, ...]
    extras: Mapping[str, Flat]
    misfits: tuple[Misfit, ...]
    rows: Rows
    is_followed: bool


@dataclass(frozen=True)
class Room:
    """The pieces and the makes as published, to sew from and to fall back upon."""

    publication: Publication
    exact: Mapping[str, Flat]

    def is_piece(self, name: str) -> bool:
        """Whether a source is a cut piece."""
        return any(piece.letter == name for piece in self.publication.pieces)


def room_for(publication: Publication) -> Room:
    """Everything sewn exactly once, centres and tops by size only."""
    small = [make for make in publication.makes if not _by_size(make)]
    large = [make for make in publication.makes if _by_size(make)]
    sizes = {make.name: Flat((), make.width, make.height) for make in large}
    return Room(publication, {**sewn_makes(publication, small), **sizes})


def work(room: Room, hand: Hand) -> Mapping[str, Worked]:
    """One round of each make; all makes of a name are sewn alike."""
    things: dict[str, Flat] = {p.letter: room.exact[p.letter] for p in room.publication.pieces}
    worked: dict[str, Worked] = {}
    for make in room.publication.makes:
        worked[make.name] = work_make(room, make, hand, things.__getitem__)
        things |= taken(make, worked[make.name])
    return worked


def taken(make: Make, worked: Worked) -> Mapping[str, Flat]:
    """What later makes take: of several things the one that is farthest from its size."""
    off = [
        magnitude(t.width - make.width) + magnitude(t.height - make.height) for t in worked.things
    ]
    return {**worked.extras, make.name: worked.things[off.index(max(off))]}


def work_make(room: Room, make: Make, hand: Hand, source: Callable[[str], Flat]) -> Worked:
    """One round of a make, from whatever ``source`` gives for a letter or name."""
    needle = _Needle(make, hand, room, _sizes_of(source) if _by_size(make) else source)
    table = _Table({}, ())
    try:
        for number, step in enumerate(make.steps, start=1):
            table = _done(table, step, needle, number)
    except CannotSew:
        extras = {extra.name: room.exact[extra.name] for extra in make.extras}
        return Worked((room.exact[make.name],), extras, (), (), is_followed=False)
    things = tuple(thing for name, thing in table.finished if not name)
    extras = {name: thing for name, thing in reversed(table.finished) if name}
    misfits = tuple(dict.fromkeys(needle.misfits))
    return Worked(things, extras, misfits, needle.rows, is_followed=True)


def _by_size(make: Make) -> bool:
    return make.kind in (MakeKind.CENTRE, MakeKind.TOP) and not make.method


def _sizes_of(source: Callable[[str], Flat]) -> Callable[[str], Flat]:
    def plain(name: str) -> Flat:
        thing = source(name)
        return Flat((), thing.width, thing.height)

    return plain


@dataclass
class _Needle:
    """What sewing one make needs, and what is noted on the way."""

    make: Make
    hand: Hand
    room: Room
    source: Callable[[str], Flat]
    misfits: list[Misfit] = field(default_factory=list)
    rows: Rows = ()

    def error(self, step: int, group: str = "") -> Fraction:
        return self.hand(Seam(self.make.name, step, group))

    def allowance(self, step: int, group: str = "") -> Fraction:
        return self.room.publication.seam + self.error(step, group)

    def sewn_at_once(self, number: int) -> int:
        """Seams sewn one after the other are one group, named for its first step."""
        while number > 1 and isinstance(self.make.steps[number - 2], Sew):
            number -= 1
        return number


def _done(table: _Table, step: Step, needle: _Needle, number: int) -> _Table:
    match step:
        case Take():
            return table.put(step.item, turned(needle.source(step.source), step.turn))
        case Sew():
            return _sewn(table, step, needle, number)
        case Open():
            return _opened(table, step)
        case Trim():
            return _trimmed(table, step, step.width, step.height)
        case TrimLike():
            like = table.flat(step.like)
            return _trimmed(table, step, like.width, like.height)
        case Join():
            return _joined(table, step, needle, number)
        case JoinEdges():
            wandered = replace(step, allowance=needle.allowance(number))
            thing = edges_joined(table.flat(step.item), table.flat(step.added), wandered)
            return table.away(step.added).swap(step.item, thing)
        case JoinPart():
            half = replace(step, allowance=needle.allowance(number))
            part = part_joined(table.flat(step.item), table.flat(step.added), half)
            return table.away(step.added).swap(step.item, part)
        case JoinMitred():
            return _framed(table, step, needle, number)
        case Assemble():
            return _assembled(table, step, needle, number)
        case _:
            return _STEPS[type(step)](table, step, Shop({}, needle.room.publication.seam))


def _sewn(table: _Table, step: Sew, needle: _Needle, number: int) -> _Table:
    stack = table.stack(step.item)
    line = _line(stack, _wandered(step.line, needle, number))
    if not seam_stretches(stack, line):
        raise CannotSew("a seam through both layers", "a line that misses one of them")
    return table.swap(step.item, replace(stack, seams=(*stack.seams, line)))


def _wandered(line: SeamLine, needle: _Needle, number: int) -> SeamLine:
    """The line as it is sewn; one that is drawn on the cloth is followed."""
    group = needle.sewn_at_once(number)
    if isinstance(line, Edge):
        return replace(line, inset=line.inset + needle.error(group))
    if isinstance(line, Diagonal) and line.offset != 0:
        error = needle.error(group)
        return replace(line, offset=line.offset + (error if line.offset > 0 else -error))
    return line


def _opened(table: _Table, step: Open) -> _Table:
    stack = table.stack(step.item)
    if len(stack.seams) != 1:
        raise CannotSew("one seam to fold over", f"{len(stack.seams)} seams")
    body = _facing(stack.seams[0], step.toward).flipped()
    folded = visible(carried(cut_faces(stack.upper, body), reflection(body)))
    return table.swap(step.item, flat((*cut_faces(stack.lower, body), *folded)))


def _trimmed(table: _Table, step: Trim | TrimLike, width: Number, height: Number) -> _Table:
    thing = table.flat(step.item)
    left, right = _shared(thing.width - width, step.off_left, step.off_right)
    top, bottom = _shared(thing.height - height, step.off_top, step.off_bottom)
    return table.swap(step.item, flat(pared(thing, left, top, right, bottom)))


def _shared(surplus: Number, first: Number, second: Number) -> tuple[Number, Number]:
    """The surplus on two sides, in the published proportion; none where there is none."""
    if surplus <= 0:
        return Fraction(0), Fraction(0)
    share = first / (first + second) if first + second > 0 else Fraction(1, 2)
    return surplus * share, surplus - surplus * share


def _joined(table: _Table, step: Join, needle: _Needle, number: int) -> _Table:
    part = table.any(step.item)
    if isinstance(part, PartSewn):
        return _joined_to_part(table, step, part, needle.allowance(number))
    base, added = table.flat(step.item), table.flat(step.added)
    upright = step.side in (Side.LEFT, Side.RIGHT)
    wanted, found = (base.height, added.height) if upright else (base.width, added.width)
    if found != wanted:
        source = next(
            s.source
            for s in reversed(needle.make.steps[:number])
            if isinstance(s, Take) and s.item == step.added
        )
        needle.misfits.append(Misfit(number, source, found, wanted))
    thing = joined_at_middles(base, added, step.side, needle.allowance(number))
    return table.away(step.added).swap(step.item, thing)


def _joined_to_part(table: _Table, step: Join, part: PartSewn, allowance: Fraction) -> _Table:
    if part.allowance != allowance:
        raise CannotSew("seams as wide as the one that is open", "another")
    return _STEPS[Join](table, replace(step, allowance=allowance), Shop({}, allowance))


def _framed(table: _Table, step: JoinMitred, needle: _Needle, number: int) -> _Table:
    """A mitred border by its size; what its strips reach further or less is cut off at the mitres.

    The seams of all four strips are off alike.
    """
    allowance = needle.allowance(number)
    base, names = table.flat(step.item), (step.left, step.top, step.right, step.bottom)
    left, top, right, bottom = (table.flat(name) for name in names)
    for name in names:
        table = table.away(name)
    width = base.width + left.width + right.width - 4 * allowance
    height = base.height + top.height + bottom.height - 4 * allowance
    return table.swap(step.item, Flat((), width, height))


def _assembled(table: _Table, step: Assemble, needle: _Needle, number: int) -> _Table:
    sources = dict.fromkeys(p.source for row in step.rows for p in row)
    made = [name for name in sources if not needle.room.is_piece(name)]
    cells = {p: turned(needle.source(p.source), p.turn) for row in step.rows for p in row}
    thing, misfits, rows = rows_at_middles(
        step,
        cells,
        made,
        lambda: needle.allowance(number, IN_ROWS),
        lambda: needle.allowance(number, BETWEEN_ROWS),
    )
    needle.misfits += [replace(misfit, step=number) for misfit in misfits]
    needle.rows = rows
    return table.put(step.item, thing)
