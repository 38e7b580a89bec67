"""Which way up each piece ends in the finished top: what a directional print asks to know.

In: a publication. Out: for every letter, the share of its pieces whose long side ends upright.
Turns are added up from the pieces to the top; what is turned by less than a quarter stands askew.
Nothing is sewn here: `bench.standing` does that, to prove it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from quicktions import Fraction

from pieceproof.published import Make, Publication
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    Cover,
    CrossCut,
    CutApart,
    Join,
    JoinEdges,
    JoinMarks,
    JoinMitred,
    JoinPart,
    Layer,
    LayOn,
    Placed,
    Step,
    Take,
    Turn,
    TurnEdge,
    TurnEighths,
    Yield,
)

ASKEW = -1
Lie = tuple[str, int]
"""A letter, and 0 for pieces that lie as listed, 1 turned by a quarter, `ASKEW`."""
Shares = Mapping[Lie, Fraction]
"""How many pieces of each letter lie each way in one finished thing."""


@dataclass
class _Table:
    """One round: what lies in each thing, as numbers of what was taken; and what that was."""

    known: Mapping[str, Shares]
    things: dict[str, dict[int, int]] = field(default_factory=lambda: defaultdict(dict))
    taken: list[tuple[str, Fraction]] = field(default_factory=list)

    def lay(self, item: str, source: str, turn: int) -> None:
        """Take a piece or a finished make; an askew turn is `ASKEW`."""
        for (letter, way), share in self.known.get(source, {(source, 0): Fraction(1)}).items():
            self.things[item][len(self.taken)] = _turned(way, turn)
            self.taken.append((letter, share))

    def turn(self, item: str, turn: int) -> None:
        """Turn a thing by quarters, or askew."""
        self.things[item] = {at: _turned(way, turn) for at, way in self.things[item].items()}

    def merge(self, item: str, *added: str) -> None:
        """Put things to another one."""
        for name in added:
            self.things[item].update(self.things.pop(name))


def upright_shares(publication: Publication) -> Mapping[str, Fraction | None]:
    """By letter, the share of its pieces whose long side stands upright in the top.

    None where some stand askew, or none is in the top.
    """
    known: dict[str, Shares] = {}
    for make in publication.makes:
        known.update(_finished(make, known))
    top = known[publication.makes[-1].name] if publication.makes else {}
    return {piece.letter: _share(top, piece.letter) for piece in publication.pieces}


def first_askew(publication: Publication) -> Mapping[str, str]:
    """By letter, the make in which a piece of it is first turned by less than a quarter."""
    known: dict[str, Shares] = {}
    found: dict[str, str] = {}
    for make in publication.makes:
        known.update(_finished(make, known))
        for letter, way in known[make.name]:
            if way == ASKEW:
                found.setdefault(letter, make.name)
    return found


def _share(top: Shares, letter: str) -> Fraction | None:
    upright, lying = top.get((letter, 0), Fraction(0)), top.get((letter, 1), Fraction(0))
    if (letter, ASKEW) in top or not upright + lying:
        return None
    return upright / (upright + lying)


def _turned(way: int, turn: int) -> int:
    return ASKEW if ASKEW in (way, turn) else (way + turn) % 2


def _finished(make: Make, known: Mapping[str, Shares]) -> Iterator[tuple[str, Shares]]:
    table = _Table(known)
    for step in make.steps:
        if not isinstance(step, Yield):
            _do(table, step)
    yields = [step for step in make.steps if isinstance(step, Yield)]
    parts = [at for step in yields for item in step.items for at in table.things[item]]
    for step in yields:
        shares: dict[Lie, Fraction] = defaultdict(Fraction)
        for item in step.items:
            for at, way in table.things[item].items():
                letter, share = table.taken[at]
                shares[letter, way] += share / parts.count(at) / len(step.items)
        yield step.extra or make.name, shares


def _do(table: _Table, step: Step) -> None:
    match step:
        case Take():
            table.lay(step.item, step.source, step.turn)
        case Turn():
            table.turn(step.item, step.turn)
        case TurnEighths() | TurnEdge():
            table.turn(step.item, ASKEW)
        case Layer():
            table.merge(step.lower, step.upper)
        case CutApart():
            lying = table.things.pop(step.item)
            table.things.update({step.first: dict(lying), step.second: dict(lying)})
        case CrossCut():
            names = [f"{step.item} {number}" for number in range(1, step.count + 1)]
            table.things.update({name: dict(table.things[step.item]) for name in names})
        case Join() | JoinPart() | LayOn():
            table.merge(step.item, step.added)
        case JoinEdges() | JoinMarks() | Cover():
            table.turn(step.added, ASKEW)
            table.merge(step.item, step.added)
        case JoinMitred():
            table.merge(step.item, step.left, step.top, step.right, step.bottom)
        case Assemble():
            for cell in (cell for row in step.rows for cell in row):
                table.lay(step.item, cell.source, cell.turn)
        case AssembleOnPoint():
            _on_point(table, step)


def _on_point(table: _Table, step: AssembleOnPoint) -> None:
    for row in step.rows:
        for cell in row.cells:
            table.lay(step.item, cell.source, ASKEW)
    triangles: list[Placed | None] = [step.top_left, step.bottom_right]
    triangles += [end for row in step.rows for end in (row.first, row.last)]
    for triangle in triangles:
        if triangle is not None:
            table.lay(step.item, triangle.source, triangle.turn)
