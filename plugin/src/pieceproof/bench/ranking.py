"""Which seams must be exact and which may wander.

In: what sewings of a publication are held against, and an error. Out: every group of seams with
what it does to the whole when it alone is off, the most delicate first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from quicktions import Fraction

from pieceproof.bench.error import TipOut, Yardstick, lines_out, size_out, tips_out
from pieceproof.bench.surroundings import Seam
from pieceproof.bench.wandering import Hand, Worked, taken, work, work_make
from pieceproof.lengths import Number, magnitude
from pieceproof.published import Make
from pieceproof.steps import Assemble, Take


class Care(Enum):
    """What a seam asks for."""

    EXACT = "must be exact"
    EVEN = "changes sizes only"
    FREE = "may wander"


@dataclass(frozen=True)
class SeamEffect:
    """What one group of seams does to the whole when it alone is off, too wide or scant.

    ``cut`` is how much of a tip is lost at worst, ``misfit`` the largest difference between edges
    or seams that should meet, ``size`` the largest change of the top's width or height.
    """

    seam: Seam
    error: Fraction
    cut: Number
    misfit: Number
    size: Number

    @property
    def care(self) -> Care:
        """Exact where a tip is lost, or where errors add up to more than one seam's."""
        if self.cut > 0 or self.misfit > 2 * self.error:
            return Care.EXACT
        return Care.EVEN if max(self.misfit, self.size) > 0 else Care.FREE


def ranked_seams(bench: Yardstick, error: Fraction) -> tuple[SeamEffect, ...]:
    """Each group of seams off by an error alone, both ways; the most delicate first.

    Seams of a make that cannot be followed with such an error are left out.
    """
    asked: dict[Seam, None] = {}

    def note(seam: Seam) -> Fraction:
        asked[seam] = None
        return Fraction(0)

    work(bench.room, note)
    effects = [effect for seam in asked for effect in _effect(bench, seam, error)]
    return tuple(sorted(effects, key=lambda e: (-e.cut, -e.misfit, -e.size)))


def _effect(bench: Yardstick, seam: Seam, error: Fraction) -> Iterator[SeamEffect]:
    found = [effect for off in (error, -error) for effect in _effect_of(bench, seam, off)]
    if len(found) == 2:
        cut, misfit, size = (max(values) for values in zip(*found, strict=True))
        yield SeamEffect(seam, error, cut, misfit, size)


def _effect_of(
    bench: Yardstick, seam: Seam, error: Fraction
) -> Iterator[tuple[Number, Number, Number]]:
    """How much is cut off, misfits and changes; only what the seam can reach is sewn again."""
    zero = Fraction(0)

    def hand(asked: Seam) -> Fraction:
        return error if asked == seam else zero

    worked = _reworked(bench, seam, hand)
    if not all(done.is_followed for done in worked.values()):
        return
    now = {**bench.plain, **worked}
    around = {name for name, places in bench.around.items() for place in places if seam in place}
    cuts = [
        _cut(tip, bench.seam)
        for make in bench.makes
        if make.name in worked or make.name in around
        for tip in tips_out(bench, make, now[make.name], hand, bench.around[make.name])
    ]
    misfits = [magnitude(m.excess) for done in worked.values() for m in done.misfits]
    lines = [line.by for name, done in worked.items() for line in lines_out(bench, name, done)]
    top = bench.makes[-1]
    size = size_out(top, taken(top, now[top.name])[top.name])
    yield max(cuts, default=zero), max((*misfits, *lines), default=zero), size.change


def _reworked(bench: Yardstick, seam: Seam, hand: Hand) -> Mapping[str, Worked]:
    """The makes that a seam is in, and those that take something that came out otherwise."""
    things = dict(bench.room.exact)
    worked: dict[str, Worked] = {}
    changed: set[str] = set()
    for make in bench.makes:
        if make.name == seam.make or not changed.isdisjoint(_sources(make)):
            worked[make.name] = work_make(bench.room, make, hand, things.__getitem__)
            for name, thing in taken(make, worked[make.name]).items():
                changed |= {name} if thing != things[name] else set()
                things[name] = thing
    return worked


def _sources(make: Make) -> Iterator[str]:
    for step in make.steps:
        if isinstance(step, Take):
            yield step.source
        elif isinstance(step, Assemble):
            yield from (cell.source for row in step.rows for cell in row)


def _cut(tip: TipOut, seam: Fraction) -> Number:
    """How much of a tip is lost that is whole as published."""
    if not tip.is_lost:
        return Fraction(0)
    return seam if tip.clearance is None else -tip.clearance
