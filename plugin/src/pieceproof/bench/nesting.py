"""Whether seams that meet lie opposite ways, judged from the published steps alone.

In: a publication that can be sewn. Out: every place where two seams meet at a third one, how they
lie there, and how often that is sewn. Seams of assemblies are followed by their ends on the edges
of what is joined; those of units piece by piece, in `ridges`.

Where several seams end at one place, the one sewn last counts: it holds the others down. Seams
of setting triangles and mitred corners that end on an outer edge meet nothing with seams.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise

from quicktions import Fraction

from pieceproof.bench.marks import cut_cloth
from pieceproof.bench.ridges import Crossing, Hemmed, Ridge, crossings, followed
from pieceproof.bench.sewing import Shop
from pieceproof.lengths import Number
from pieceproof.published import Make, Piece, Publication
from pieceproof.steps import (
    SPUN,
    Assemble,
    AssembleOnPoint,
    Join,
    JoinMitred,
    Placed,
    Press,
    Side,
    Take,
    Yield,
    placed_in,
    seam_ways,
)


class Lying(Enum):
    """How two seams that meet lie."""

    NESTED = "nested"
    CLASHING = "clashing"
    OPEN = "open"
    EITHER = "either way"


@dataclass(frozen=True)
class Meeting:
    """Two seams that meet while ``make`` is sewn, ``times`` in all rounds together.

    ``at`` is how far along the finished seam, from its left or top end; None inside units. Where it
    lies either way, it is because ``kinds`` are made whose seams do not all lie alike.
    """

    make: str
    where: str
    at: Number | None
    lying: Lying
    times: int
    kinds: tuple[str, ...] = ()


def meetings(publication: Publication) -> tuple[Meeting, ...]:
    """All meetings, in sewing order."""
    pieces = {piece.letter: piece for piece in publication.pieces}
    known: dict[str, Hemmed] = {}
    found: list[Meeting] = []
    for make in publication.makes:
        made, crossed = _sewn(make, pieces, known, publication.seam)
        known.update(made)
        inside = not _is_joined(make, pieces)
        for crossing in crossed:
            at = None if inside else crossing.place - publication.seam
            lying = _lying(crossing)
            kinds = _kinds(crossing) if lying is Lying.EITHER else ()
            found.append(Meeting(make.name, crossing.where, at, lying, make.rounds, kinds))
    return tuple(found)


def _lying(crossing: Crossing) -> Lying:
    ways = (crossing.first.way, crossing.second.way)
    if 0 in ways:
        return Lying.OPEN
    if None in ways:
        return Lying.EITHER
    return Lying.CLASHING if ways[0] == ways[1] else Lying.NESTED


def _kinds(crossing: Crossing) -> tuple[str, ...]:
    ridges = (crossing.first, crossing.second)
    return tuple(dict.fromkeys(ridge.kinds_of for ridge in ridges if ridge.kinds_of))


def _is_joined(make: Make, pieces: Mapping[str, Piece]) -> bool:
    """Whether it is sewn from whole things, edge to edge."""
    sources = [step.source for step in make.steps if isinstance(step, Take)]
    sources += [cell.source for step in make.steps for cell in placed_in(step)]
    rows = any(isinstance(step, Assemble | AssembleOnPoint) for step in make.steps)
    return rows or any(source not in pieces for source in sources)


_Result = tuple[Mapping[str, Hemmed], tuple[Crossing, ...]]


def _sewn(
    make: Make, pieces: Mapping[str, Piece], known: Mapping[str, Hemmed], seam: Fraction
) -> _Result:
    if _is_joined(make, pieces):
        return _joined_up(make, pieces, known, seam)
    shop = Shop({letter: cut_cloth(piece) for letter, piece in pieces.items()}, seam)
    made, crossed = followed(make.steps, shop)
    return {name or make.name: _of_kinds(hem, make.name) for name, hem in made.items()}, crossed


def _of_kinds(thing: Hemmed, name: str) -> Hemmed:
    """The thing whose seams of two ways tell what they are in."""
    edges = {
        side: tuple(replace(r, kinds_of=name) if r.way is None else r for r in ridges)
        for side, ridges in thing.edges.items()
    }
    return replace(thing, edges=edges)


def _joined_up(
    make: Make, pieces: Mapping[str, Piece], known: Mapping[str, Hemmed], seam: Fraction
) -> _Result:
    table: dict[str, Hemmed] = {}
    crossed: list[Crossing] = []
    made: dict[str, Hemmed] = {}
    pile = _Pile(pieces, known, seam)
    for step in make.steps:
        match step:
            case Take():
                table[step.item] = pile.taken(Placed(step.source, step.turn))
            case Assemble():
                table[step.item], met = _assembled(step, pile)
                crossed += met
            case AssembleOnPoint():
                crossed += _on_point(step, pile)
                table[step.item] = _without_ridges(make.width, make.height)
            case Join():
                table[step.item], met = _joined(table[step.item], table[step.added], step)
                crossed += met
            case JoinMitred():
                table[step.item] = _mitred(table, step)
            case Yield():
                made[step.extra or make.name] = table[step.items[0]]
            case _:
                pass
    return made, tuple(crossed)


@dataclass(frozen=True)
class _Pile:
    """What cells are taken from."""

    pieces: Mapping[str, Piece]
    known: Mapping[str, Hemmed]
    seam: Fraction

    def taken(self, cell: Placed) -> Hemmed:
        piece = self.pieces.get(cell.source)
        if piece is not None:
            return _quarters(_without_ridges(piece.short, piece.long), cell.turn)
        return _quarters(self.known[cell.source], cell.turn)


def _without_ridges(width: Number, height: Number) -> Hemmed:
    return Hemmed(width, height, dict.fromkeys(Side, ()))


def _quarters(thing: Hemmed, turn: int) -> Hemmed:
    """Turned clockwise: the left edge, read upwards, becomes the top."""
    for _ in range(turn % 4):
        left, right = (
            tuple(_read_back(r, thing.height) for r in thing.edges[side])
            for side in (Side.LEFT, Side.RIGHT)
        )
        edges = {
            Side.TOP: left,
            Side.RIGHT: thing.edges[Side.TOP],
            Side.BOTTOM: right,
            Side.LEFT: thing.edges[Side.BOTTOM],
        }
        thing = Hemmed(thing.height, thing.width, edges)
    return thing


def _read_back(ridge: Ridge, length: Number) -> Ridge:
    """A ridge on an edge that is read from its other end."""
    way = None if ridge.way is None else -ridge.way
    return replace(ridge, place=length - ridge.place, way=way)


def _assembled(step: Assemble, pile: _Pile) -> tuple[Hemmed, Sequence[Crossing]]:
    a = step.allowance
    crossed: list[Crossing] = []
    rows = []
    for number, (row, press) in enumerate(zip(step.rows, step.row_press, strict=True), start=1):
        cells = [pile.taken(cell) for cell in row]
        for n, (left, right) in enumerate(pairwise(cells), start=1):
            where = f"row {number}, patches {n} and {n + 1}"
            crossed += crossings(where, left.edges[Side.RIGHT], right.edges[Side.LEFT])
        rows.append(_beside(cells, seam_ways(press, len(cells) - 1), a))
    for n, (above, below) in enumerate(pairwise(rows), start=1):
        where = f"rows {n} and {n + 1}"
        crossed += crossings(where, above.edges[Side.BOTTOM], below.edges[Side.TOP])
    return _below(rows, step, a), crossed


def _beside(cells: Sequence[Hemmed], ways: Sequence[int], a: Fraction) -> Hemmed:
    """Cells in a row; a seam between two of them holds down what ends at the same place."""
    left: Number = Fraction(0)
    seams: list[Ridge] = []
    edges: dict[Side, list[Ridge]] = {Side.TOP: [], Side.BOTTOM: []}
    for number, cell in enumerate(cells):
        for side, ridges in edges.items():
            ridges += [replace(r, place=r.place + left) for r in cell.edges[side]]
        if number < len(ways):
            seams.append(Ridge(left + cell.width - a, ways[number]))
            left = left + cell.width - 2 * a
    places = {seam.place for seam in seams}
    held = {
        side: tuple(
            sorted(
                (*(r for r in ridges if r.place not in places), *seams),
                key=lambda ridge: ridge.place,
            )
        )
        for side, ridges in edges.items()
    }
    held |= {Side.LEFT: cells[0].edges[Side.LEFT], Side.RIGHT: cells[-1].edges[Side.RIGHT]}
    return Hemmed(left + cells[-1].width, cells[0].height, held)


def _below(rows: Sequence[Hemmed], step: Assemble, a: Fraction) -> Hemmed:
    """Rows joined: seen from the side they lie beside each other, left and right exchanged."""
    if step.between != SPUN:
        ways = seam_ways(step.between, len(rows) - 1)
        return _flipped(_beside([_flipped(row) for row in rows], ways, a))
    turning = seam_ways(step.row_press[0], 1)[0]
    whole = _flipped(_beside([_flipped(row) for row in rows], (turning,), a))
    place = rows[0].height - a
    left = tuple(
        Ridge(r.place, -turning) if r.place == place else r for r in whole.edges[Side.LEFT]
    )
    return replace(whole, edges={**whole.edges, Side.LEFT: left})


def _flipped(thing: Hemmed) -> Hemmed:
    """Exchanged at the diagonal from the top left: rows become columns."""
    edges = thing.edges
    return Hemmed(
        thing.height,
        thing.width,
        {
            Side.TOP: edges[Side.LEFT],
            Side.LEFT: edges[Side.TOP],
            Side.BOTTOM: edges[Side.RIGHT],
            Side.RIGHT: edges[Side.BOTTOM],
        },
    )


def _joined(base: Hemmed, added: Hemmed, step: Join) -> tuple[Hemmed, Sequence[Crossing]]:
    first = step.side in (Side.LEFT, Side.TOP)
    toward_added = {Press.ONTO_ADDED: 1, Press.ONTO_BASE: -1, Press.OPEN: 0}[step.press]
    way = -toward_added if first else toward_added
    upright = step.side in (Side.LEFT, Side.RIGHT)
    things = [thing if upright else _flipped(thing) for thing in (base, added)]
    pair = things[::-1] if first else things
    met = crossings(
        f"{step.added}, sewn to the {step.side.value}",
        pair[0].edges[Side.RIGHT],
        pair[1].edges[Side.LEFT],
    )
    whole = _beside(pair, (way,), step.allowance)
    return (whole if upright else _flipped(whole)), list(met)


def _mitred(table: Mapping[str, Hemmed], step: JoinMitred) -> Hemmed:
    """The mitres end at the corners and meet nothing there."""
    base, strip = table[step.item], table[step.left]
    wider = 2 * (min(strip.width, strip.height) - 2 * step.allowance)
    return _without_ridges(base.width + wider, base.height + wider)


def _on_point(step: AssembleOnPoint, pile: _Pile) -> Iterator[Crossing]:
    """Rows as they lie level; the seams of the triangles at their ends run from row to row too."""
    a = step.allowance
    above: tuple[tuple[Ridge, ...], Sequence[Number]] = ((), ())
    for number, (row, press) in enumerate(zip(step.rows, step.row_press, strict=True), start=1):
        cells = [pile.taken(cell) for cell in row.cells]
        for n, (left, right) in enumerate(pairwise(cells), start=1):
            where = f"row {number}, patches {n} and {n + 1}"
            yield from crossings(where, left.edges[Side.RIGHT], right.edges[Side.LEFT])
        start = _start(row.start, above[1], cells, a)
        lying = _with_ends(cells, seam_ways(press, len(cells) + 1), start, a)
        yield from crossings(f"rows {number - 1} and {number}", above[0], lying[Side.TOP])
        places = [start + a]
        for cell in cells:
            places.append(places[-1] + cell.width - 2 * a)
        above = (lying[Side.BOTTOM], places)


def _start(start: int, seams: Sequence[Number], cells: Sequence[Hemmed], a: Fraction) -> Number:
    """Where a row's left raw edge lies, its seam on that seam of the row above that it meets."""
    if not seams:
        return Fraction(0)
    further: Number = Fraction(0)
    for cell in cells[: max(-start, 0)]:
        further = further + cell.width - 2 * a
    return seams[max(start, 0)] - further - a


def _with_ends(
    cells: Sequence[Hemmed], ways: Sequence[int], start: Number, a: Fraction
) -> Mapping[Side, tuple[Ridge, ...]]:
    """The level edges of a row between its triangles."""
    row = _beside(cells, ways[1:-1], a)
    ends = (Ridge(a, ways[0]), Ridge(row.width - a, ways[-1]))
    return {
        side: tuple(
            replace(r, place=r.place + start)
            for r in (
                ends[0],
                *(r for r in row.edges[side] if a < r.place < row.width - a),
                ends[1],
            )
        )
        for side in (Side.TOP, Side.BOTTOM)
    }
