"""Rounding cuts: what every plan obeys because strips are whole, and the relaxed program does not.

Goes in: how often strips are cut. Comes out: the rules that these numbers break. Say strips hold
three pieces of a kind at most and 55 are needed: 18 1/3 strips hold them, but 19 are cut. Pieces
counted p / q each and rounded up slot by slot are never fewer than all pieces counted so (Gomory
1958; Chvatal, Discrete Mathematics 4 (1973) 305-337).
"""

from math import gcd, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pieceproof.cutting.board import Board, Filling

Ints = NDArray[np.int64]
LEAST_DEPTH = 0.01
LARGEST = 24  # of the numbers by which is divided


class Rounding(NamedTuple):
    """Pieces of a kind count `times` / `by` each, rounded up for each slot of a strip; the counts
    of a plan reach that of all the pieces needed.
    """

    kind: int
    times: int
    by: int

    def of(self, pieces: int) -> int:
        """What so many pieces in one slot count."""
        return -(-self.times * pieces // self.by)

    def of_all(self, pieces: Ints) -> Ints:
        """The same for many numbers of pieces."""
        return -(-self.times * pieces // self.by)

    def in_filling(self, filling: Filling) -> int:
        """What a strip counts."""
        return sum(self.of(slot.stack * often) for slot, often in filling if slot.kind == self.kind)


class Limit(NamedTuple):
    """Of these heights at least so many strips are cut, or at most so many: `sign` is -1 then."""

    heights: frozenset[int]
    sign: int
    strips: int

    def of_height(self, height: int) -> int:
        """What a strip counts; the counts of a plan reach `sign` times `strips`."""
        return self.sign if height in self.heights else 0


Rule = Rounding | Limit


def right_of(board: Board, rule: Rule) -> int:
    """What the counts of a plan reach."""
    if isinstance(rule, Limit):
        return rule.sign * rule.strips
    return rule.of(board.need[rule.kind])


def count_of(rule: Rule, height: int, filling: Filling) -> int:
    """What a strip counts."""
    return rule.of_height(height) if isinstance(rule, Limit) else rule.in_filling(filling)


def broken(
    board: Board, strips: list[tuple[float, Filling]], known: set[Rounding], most: int
) -> list[Rounding]:
    """The roundings that so many strips break most, `most` of them."""
    held: list[dict[int, float]] = [{} for _ in board.need]
    for amount, filling in strips:
        for slot, often in filling:
            pieces = slot.stack * often
            held[slot.kind][pieces] = held[slot.kind].get(pieces, 0.0) + amount
    found = []
    for kind, need in enumerate(board.need):
        largest = min(max(held[kind], default=0), LARGEST)
        for by in range(2, largest + 1):
            for times in range(1, by):
                rounding = Rounding(kind, times, by)
                if gcd(times, by) == 1 and rounding not in known:
                    depth = _depth(rounding, need, held[kind])
                    if depth > LEAST_DEPTH:
                        found.append((-depth, rounding))
    return [rounding for _, rounding in sorted(found)[:most]]


def _depth(rounding: Rounding, need: int, held: dict[int, float]) -> float:
    """By how much slots that hold so many pieces break it."""
    lack, size = float(rounding.of(need)), 0.0
    for pieces, amount in held.items():
        count = rounding.of(pieces)
        lack -= amount * count
        size += count * count
    return lack / sqrt(max(size, 1))
