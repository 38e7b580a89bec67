"""One make sewn many times, each seam with an error of its own.

In: what sewings of a publication are held against, a standard deviation and a seed. Out: the sizes
that come of it and how often all tips stay whole. Each thing is sewn afresh, down to its pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from quicktions import Fraction

from pieceproof.bench.error import TipOut, Yardstick, tips_out
from pieceproof.bench.surroundings import Seam
from pieceproof.bench.table import Flat
from pieceproof.bench.wandering import taken, work_make
from pieceproof.lengths import Number
from pieceproof.published import Make


@dataclass(frozen=True)
class Spread:
    """Many sewings of one make: unfinished sizes, and in how many of them all tips are whole."""

    widths: tuple[Number, ...]
    heights: tuple[Number, ...]
    whole: int


def sewn_often(
    bench: Yardstick, make: Make, deviation: Fraction, repeats: int, seed: int
) -> Spread:
    """A make and all that is in it sewn many times; each seam has an error of its own.

    Errors are drawn from a normal distribution with this standard deviation, which is the caller's
    to choose: nothing is known here of how people sew. The same seed gives the same sewings.
    """
    draw = Random(seed)
    makes = {m.name: m for m in bench.makes}
    lost: list[TipOut] = []

    def hand(_: Seam) -> Fraction:
        return deviation * Fraction(round(draw.gauss(0, 1) * 1024), 1024)

    def afresh(name: str) -> Flat:
        if name not in makes:
            return bench.room.exact[name]
        worked = work_make(bench.room, makes[name], hand, afresh)
        place = bench.around[name][:1]
        tips = tips_out(bench, makes[name], worked, hand, place)
        lost.extend(tip for tip in tips if tip.is_lost)
        return taken(makes[name], worked)[name]

    results: list[tuple[Flat, bool]] = []
    for _ in range(repeats):
        lost.clear()
        results.append((afresh(make.name), not lost))
    return Spread(
        tuple(thing.width for thing, _ in results),
        tuple(thing.height for thing, _ in results),
        sum(whole for _, whole in results),
    )
