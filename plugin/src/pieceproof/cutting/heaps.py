"""Heaps of fillings outside the vertex, up to a loss, without those that another heap beats.

Goes in: the others, a bound. Comes out: heaps as arrays. A heap is beaten by one of the same
remainder that loses no more and, where rows are watched, takes no more of them: in any plan the
other may stand in its place. Of heaps that tie the one of fewer others stays, then the one whose
others come first. That order is the same after both are added to, so what a plan needs is never
lost. Heaps grow by one other at a time out of two that differ in their last (as the candidates of
Agrawal and Srikant, Proc. 20th VLDB (1994) 487-499), so that no heap with a beaten part is made.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pieceproof.cutting.effort import Effort
from pieceproof.cutting.others import SPREAD, Others
from pieceproof.cutting.remainders import Ints, Remainders

AT_ONCE = 1 << 17  # heaps that are made and compared in one stroke
WAYS = 4  # heaps of one remainder that a new one is compared with, where rows are watched
FIRST_BITS, LAST_BITS = 12, 22  # of the table in which heaps are found by their remainders
PER_TRIAL, PER_HEAP, PER_SIZE = 2, 6, 4000  # steps of effort


class Heaps(NamedTuple):
    """The empty heap is number 0. `takes` is what it takes of each watched row, `last` and `first`
    its last and first other, `before` the heap without its last.
    """

    losses: Ints
    remainders: Ints
    takes: Ints
    first: Ints
    last: Ints
    before: Ints

    def others_in(self, number: int) -> list[int]:
        """The others in a heap."""
        found = []
        while number:
            found.append(int(self.last[number]))
            number = int(self.before[number])
        return found


def place_of(remainders: Ints, bits: int) -> Ints:
    """A number of so many bits for each remainder, spread evenly."""
    spread = remainders.view(np.uint64) * np.uint64(SPREAD)
    return (spread >> np.uint64(64 - bits)).astype(np.int64)


def heaps_of(
    others: Others,
    sums: Remainders,
    bound: int,
    again: int,
    largest: int,
    watch: list[int],
    most: int,
    effort: Effort,
) -> Heaps | None:
    """All heaps of up to `largest` others of which twice the loss, and the loss of the last `again`
    times, are at most `bound`; None when they are more than `most`. A heap is never beaten by a
    larger one, so no smaller one is missed.
    """
    takes = others.takes[watch]
    seen = _Seen(len(watch))
    found = [_empty(len(others.losses), len(watch))]
    seen.add(found[0])
    front, base = _Front(0, found[0], np.array([1])), 1
    for _ in range(largest):
        if not len(front.heaps.losses):
            break
        effort.spend(PER_SIZE)
        grown: list[Heaps] = []
        for parents, lasts in _pairs(front, others, bound, again):
            new = _added(front, others, takes, sums, parents, lasts)
            new = _some(new, seen.unbeaten(new))
            effort.spend((1 + len(watch)) * (PER_TRIAL * len(parents) + PER_HEAP * len(new.losses)))
            seen.add(new)
            grown.append(new)
            if seen.count > most or effort.spent:
                return None
        level = _together(grown, len(watch))
        found.append(level)
        front, base = _Front(base, level, _ends(level.before)), base + len(level.losses)
    return _together(found, len(watch))


class _Front(NamedTuple):
    """The heaps of one size, the number of the first, and for each where its siblings end: those
    without the last other are the same heap.
    """

    base: int
    heaps: Heaps
    ends: Ints


def _empty(others: int, watched: int) -> Heaps:
    nothing = np.zeros(1, np.int64)
    takes = np.zeros((watched, 1), np.int64)
    return Heaps(nothing, nothing, takes, np.array([others - 1]), nothing, nothing)


def _pairs(front: _Front, others: Others, bound: int, again: int) -> Iterator[tuple[Ints, Ints]]:
    """Which heaps in front get which other: the last of a sibling that comes no earlier."""
    heaps = front.heaps
    if not front.base:
        count = int(np.searchsorted(others.losses, bound // (2 + again), "right"))
        for start in range(0, count, AT_ONCE):
            lasts = np.arange(start, min(count, start + AT_ONCE))
            yield np.zeros(len(lasts), np.int64), lasts
        return
    numbers = np.arange(len(heaps.losses))
    last = others.losses[heaps.last]
    weights = 2 * heaps.losses + again * last
    counts = _up_to(weights, numbers, front.ends, bound - 2 * last) - numbers
    for start, stop in portions(counts):
        some = counts[start:stop]
        parents = np.repeat(numbers[start:stop], some)
        siblings = parents + counted(some)
        yield parents, heaps.last[siblings]


def _up_to(values: Ints, starts: Ints, ends: Ints, most: Ints) -> Ints:
    """Where the values, ascending from start to end, exceed the most: by halving."""
    low, high = starts, ends
    while (open_ := low < high).any():
        middle = np.minimum((low + high) // 2, len(values) - 1)
        fits = values[middle] <= most
        low = np.where(open_ & fits, middle + 1, low)
        high = np.where(open_ & ~fits, middle, high)
    return low


def portions(counts: Ints) -> Iterator[tuple[int, int]]:
    """From where to where to go, so that no more than is handy is counted out at once."""
    total = np.cumsum(counts)
    steps = np.arange(AT_ONCE, int(total[-1]) if len(total) else 0, AT_ONCE)
    cuts = [0, *map(int, np.searchsorted(total, steps, "right")), len(counts)]
    for start, stop in pairwise(cuts):
        if start < stop:
            yield start, stop


def counted(counts: Ints) -> Ints:
    """0, 1, 2, ... for each count."""
    ends = np.cumsum(counts)
    return np.arange(int(ends[-1]) if len(ends) else 0) - np.repeat(ends - counts, counts)


def _added(
    front: _Front, others: Others, takes: Ints, sums: Remainders, parents: Ints, lasts: Ints
) -> Heaps:
    heaps = front.heaps
    return Heaps(
        heaps.losses[parents] + others.losses[lasts],
        sums.sums(heaps.remainders[parents], others.remainders[lasts]),
        heaps.takes[:, parents] + takes[:, lasts],
        heaps.first[parents] if front.base else lasts,
        lasts,
        front.base + parents,
    )


def _ends(before: Ints) -> Ints:
    """Where the run of heaps with the same heap before them ends, for each."""
    return np.searchsorted(before, before, "right")


def _some(heaps: Heaps, which: Ints) -> Heaps:
    return Heaps(
        heaps.losses[which],
        heaps.remainders[which],
        heaps.takes[:, which],
        heaps.first[which],
        heaps.last[which],
        heaps.before[which],
    )


def _together(some: list[Heaps], watched: int) -> Heaps:
    if not some:
        none = np.zeros(0, np.int64)
        return Heaps(none, none, np.zeros((watched, 0), np.int64), none, none, none)
    return Heaps(
        np.concatenate([heaps.losses for heaps in some]),
        np.concatenate([heaps.remainders for heaps in some]),
        np.concatenate([heaps.takes for heaps in some], axis=1),
        np.concatenate([heaps.first for heaps in some]),
        np.concatenate([heaps.last for heaps in some]),
        np.concatenate([heaps.before for heaps in some]),
    )


@dataclass(slots=True)
class _Seen:
    """Heaps by remainder: for each place and way the remainder, the loss and what is taken of each
    watched row. What finds no room is forgotten: it beats nothing then.
    """

    watched: int
    bits: int = FIRST_BITS
    count: int = 0
    added: list[Heaps] = field(default_factory=list)
    kept: Ints = field(init=False)

    def __post_init__(self) -> None:
        self._clear()

    @property
    def ways(self) -> int:
        """How many heaps of one place are kept."""
        return WAYS if self.watched else 1

    def add(self, heaps: Heaps) -> None:
        """Keep heaps."""
        self.added.append(heaps)
        self.count += len(heaps.losses)
        if self.count << 1 > self.ways << self.bits and self.bits < LAST_BITS:
            self.bits = min(LAST_BITS, self.bits + 3)
            self._clear()
            for some in self.added:
                self._keep(some)
        else:
            self._keep(heaps)

    def unbeaten(self, heaps: Heaps) -> Ints:
        """The numbers of the heaps that none seen and none among them beats, in their order."""
        open_ = np.nonzero(~self._beaten_before(heaps))[0]
        some = _some(heaps, open_)
        order = np.lexsort((some.losses, some.remainders))
        remainders, takes = some.remainders[order], some.takes[:, order]
        beaten = np.zeros(len(order), np.bool_)
        for back in range(1, min(self.ways, len(order) - 1) + 1):
            same = remainders[back:] == remainders[:-back]
            beaten[back:] |= same & (takes[:, :-back] <= takes[:, back:]).all(axis=0)
        return np.asarray(open_[np.sort(order[~beaten])])

    def _beaten_before(self, heaps: Heaps) -> NDArray[np.bool_]:
        place = place_of(heaps.remainders, self.bits)
        beaten = np.zeros(len(place), np.bool_)
        for way in range(self.ways):
            found = self.kept[place, way]
            better = (found[:, 0] == heaps.remainders) & (found[:, 1] <= heaps.losses)
            for row in range(self.watched):
                better &= found[:, 2 + row] <= heaps.takes[row]
            beaten |= better
        return beaten

    def _clear(self) -> None:
        self.kept = np.zeros((1 << self.bits, self.ways, 2 + self.watched), np.int64)
        self.kept[:, :, 0] = -1

    def _keep(self, heaps: Heaps) -> None:
        way = np.arange(len(heaps.losses)) % self.ways
        place = place_of(heaps.remainders, self.bits)
        self.kept[place, way] = np.stack([heaps.remainders, heaps.losses, *heaps.takes], axis=1)
