"""Strips of a batch shared out to real bolts.

In: a cutting plan and the lengths of the bolts, in the order in which they are to be used. Out:
what is cut from each bolt, its end, the strips for which there was no bolt; and how many kits the
bolts make. Each bolt is squared once. Lengths are exact, in the plan's unit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.cutting.plan import Plan, Strip, settings
from pieceproof.kits.batch import Batch, planned
from pieceproof.kits.book import MOST_KITS
from pieceproof.model import Design

Heights = tuple[int, ...]
"""Heights of strips in steps of the ruler, highest first."""
Counts = tuple[int, ...]
"""How many strips of each height."""
Way = Callable[[Heights, Counts, int], Counts]

_PATIENCE = 8
"""After so many guesses at how many kits the bolts make, halve what is left."""


@dataclass(frozen=True)
class Share:
    """``count`` of the plan's strips number ``strip``, counted from 0."""

    strip: int
    count: int


@dataclass(frozen=True)
class Bolt:
    """What is cut from one bolt; ``number`` counts from 1 in the shop's order.

    ``rest`` is left when its strips are cut. It is an end where another bolt was begun after this
    one, else it stays on the bolt. A bolt that is not touched is not squared.
    """

    number: int
    length: Fraction
    squaring: Fraction
    shares: tuple[Share, ...]
    used: Fraction
    rest: Fraction
    is_end: bool


@dataclass(frozen=True)
class Rolls:
    """A plan on bolts. ``lacking`` are strips that found no bolt."""

    bolts: tuple[Bolt, ...]
    lacking: tuple[Share, ...]

    @property
    def is_enough(self) -> bool:
        """Whether every strip has its bolt."""
        return not self.lacking


@dataclass(frozen=True)
class Reach:
    """How far the bolts go: ``kits`` were planned onto them, one more was tried and was too many.

    ``limit`` is what no plan could exceed, by area. Both stop at the largest batch there is.
    """

    kits: int
    limit: int


def on_bolts(plan: Plan, lengths: Sequence[Fraction], step: Fraction) -> Rolls:
    """Strips on bolts, the better of two ways: each bolt as full as can be, or tallest first."""
    heights, counts = _in_steps(plan, step)
    rooms = [_room(length, plan.squaring, step) for length in lengths]
    ways: tuple[Way, ...] = (_fullest, _tallest_first)
    taken = min(
        (_shared(heights, counts, rooms, way) for way in ways),
        key=lambda cut: sum(h * n for h, n in zip(heights, _left(counts, cut), strict=True)),
    )
    return _rolls(plan, lengths, heights, taken, step)


def reach(batch: Batch, design: Design, lengths: Sequence[Fraction]) -> Reach:
    """How many kits the bolts make, found by planning; ``batch`` is where the search starts."""
    room = sum((max(n - batch.plan.squaring, Fraction(0)) for n in lengths), Fraction(0))
    limit = min(MOST_KITS, _area_limit(batch, room))
    fits, too_many, tries, step = 0, limit + 1, 0, design.measure.step
    while too_many - fits > 1:
        if batch.kits < too_many and on_bolts(batch.plan, lengths, step).is_enough:
            fits = batch.kits
        else:
            too_many = min(too_many, batch.kits)
        tries += 1
        guess = int(batch.kits * room / batch.plan.length)
        middle = (fits + too_many) // 2
        next_try = min(max(guess, fits + 1), too_many - 1) if tries < _PATIENCE else middle
        if too_many - fits > 1:
            batch, _ = planned(batch.cloth, next_try, design)
    return Reach(fits, limit)


def _area_limit(batch: Batch, room: Fraction) -> int:
    """How many kits the area of the bolts would do for, if nothing at all were wasted."""
    parcels = batch.cloth.parcels
    area = sum((p.across * p.along * p.each_bag for p in parcels), Fraction(0))
    return int(room * batch.plan.width / area)


def _in_steps(plan: Plan, step: Fraction) -> tuple[Heights, Counts]:
    """Heights highest first, each once."""
    totals: dict[int, int] = {}
    for setting in settings(plan):
        height = int(setting.height / step)
        totals[height] = totals.get(height, 0) + setting.count
    heights = tuple(sorted(totals, reverse=True))
    return heights, tuple(totals[height] for height in heights)


def _room(length: Fraction, squaring: Fraction, step: Fraction) -> int:
    """Whole steps of a bolt that strips can be cut from."""
    return max(0, int((length - squaring) / step))


def _shared(heights: Heights, counts: Counts, rooms: Sequence[int], way: Way) -> tuple[Counts, ...]:
    """What each bolt gives, bolt after bolt."""
    taken: list[Counts] = []
    for room in rooms:
        taken.append(way(heights, _left(counts, taken), room))
    return tuple(taken)


def _left(counts: Counts, taken: Sequence[Counts]) -> Counts:
    return tuple(count - sum(cut[at] for cut in taken) for at, count in enumerate(counts))


def _tallest_first(heights: Heights, counts: Counts, room: int) -> Counts:
    taken = []
    for height, count in zip(heights, counts, strict=True):
        taken.append(min(count, room // height))
        room -= taken[-1] * height
    return tuple(taken)


def _fullest(heights: Heights, counts: Counts, room: int) -> Counts:
    """The strips that fill the room best, as many tall ones among them as can be.

    Lengths that can be reached are the bits of a number, height after height, lowest height
    first (a bounded subset sum).
    """
    rising = list(zip(reversed(heights), reversed(counts), strict=True))
    reached = [1]
    for height, count in rising:
        reached.append(_with_more(reached[-1], height, min(count, room // height), room))
    length = reached[-1].bit_length() - 1
    taken = []
    for (height, count), before in zip(reversed(rising), reversed(reached[:-1]), strict=True):
        most = min(count, length // height)
        used = next(n for n in range(most, -1, -1) if before >> (length - n * height) & 1)
        taken.append(used)
        length -= used * height
    return tuple(taken)


def _with_more(reached: int, height: int, count: int, room: int) -> int:
    """Lengths reached with up to ``count`` strips more: powers of two, then the rest."""
    power = 1
    while count:
        step = min(power, count)
        reached |= reached << (step * height)
        count -= step
        power *= 2
    return reached & ((1 << (room + 1)) - 1)


def _rolls(
    plan: Plan,
    lengths: Sequence[Fraction],
    heights: Heights,
    taken: Sequence[Counts],
    step: Fraction,
) -> Rolls:
    queue = [[at, strip.count] for at, strip in enumerate(plan.strips)]
    shares = [
        tuple(
            share
            for height, count in zip(heights, cut, strict=True)
            for share in _given(plan.strips, queue, height * step, count)
        )
        for cut in taken
    ]
    last = max((at for at, given in enumerate(shares) if given), default=-1)
    bolts = tuple(_bolt(plan, at, lengths[at], given, at < last) for at, given in enumerate(shares))
    return Rolls(bolts, tuple(Share(at, count) for at, count in queue if count))


def _given(
    strips: Sequence[Strip], queue: list[list[int]], height: Fraction, count: int
) -> Iterator[Share]:
    """The next strips of a height, in the plan's order; takes them out of the queue."""
    for waiting in queue:
        if strips[waiting[0]].height == height and count and waiting[1]:
            used = min(count, waiting[1])
            waiting[1] -= used
            count -= used
            yield Share(waiting[0], used)


def _bolt(
    plan: Plan, at: int, length: Fraction, shares: tuple[Share, ...], more_follow: bool
) -> Bolt:
    used = sum((plan.strips[s.strip].height * s.count for s in shares), Fraction(0))
    squaring = plan.squaring if shares else Fraction(0)
    rest = length - squaring - used
    return Bolt(at + 1, length, squaring, shares, used, rest, bool(shares) and more_follow)
