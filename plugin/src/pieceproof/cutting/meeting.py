"""Is there a plan that is hardly longer than the vertex? The cuts, a proof that not, or neither.

Goes in: a vertex, a length. Every plan is the vertex's own fillings and some others. What the
others hold together leaves the same remainder as what is asked for, and each loses some length,
together no more than the length allows. Take the others of a plan from the one that loses most
down until more than half of that is lost: without the last of them they are a heap that loses at
most half, and what is left is one, too. So all such heaps are made up, and it is looked up which of
them meet (Horowitz and Sahni, J. ACM 21 (1974) 277-292). Where others are few, the one that loses
most is put aside first, and half of what may be lost beside it is enough. Amounts of the vertex's
fillings may come out below zero: then such rows are watched as well, and the heaps made up again.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from pieceproof.cutting.board import Cut
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.heaps import Heaps, counted, heaps_of, place_of, portions
from pieceproof.cutting.knapsack import FITS
from pieceproof.cutting.others import Others, others
from pieceproof.cutting.relaxed import Made, Vertex
from pieceproof.cutting.remainders import Ints, Remainders, remainders_of

FILLINGS = 300_000  # of one height that are looked at for one length, at most
HEAPS = 4_000_000  # of fillings that are made up for one length, at most
SHARES = (4, 2, 1)  # of the loss that bounds heaps, one after the other
TOPS = 300_000  # pairs of others that are too many to put the first of them aside
PLANS = 12  # of one length that are handed on
LOOKED_AT = 20_000  # pairs that are worked out in one stroke, at most
FAILURES = 100  # pairs below zero before the rows are watched
SPARE_BITS = 4  # of the table that tells which remainders occur at all
PER_PAIR = 1  # steps of effort

Verdict = Literal["packed", "impossible", "unknown"]


@dataclass(slots=True)
class Meeting:
    """The search for one vertex; rows once watched stay watched."""

    vertex: Vertex
    remainders: Remainders
    watch: set[int]


def meeting_of(vertex: Vertex) -> Meeting | None:
    """A search without watched rows; None where the vertex's numbers are too large for it."""
    largest = max(abs(entry) for row in vertex.inverse for entry in row)
    if max(largest, vertex.scale) * sum(vertex.need) > FITS:
        return None
    return Meeting(vertex, remainders_of(vertex), set())


def meet(
    meeting: Meeting, length: int, most_fillings: int, most_heaps: int, effort: Effort
) -> tuple[Verdict, list[list[Cut]]]:
    """Plans of at most this length, in units of the board; unknown where a height has more
    fillings, or where there are more heaps, than may be looked at.

    Small heaps come first: where there are many plans, they often meet.
    """
    vertex = meeting.vertex
    loss = length * vertex.scale - vertex.value
    some = others(vertex, meeting.remainders, loss, most_fillings, effort)
    share, largest = 0, _largest(vertex, some, loss)
    if int(np.abs(some.takes).max(initial=0)) * (2 * largest + 1) > FITS:
        return "unknown", []
    while share < len(SHARES):
        watch = sorted(meeting.watch)
        bound = loss // SHARES[share]
        again = 1 if _tops(some, bound) <= TOPS else 0
        heaps = heaps_of(some, meeting.remainders, bound, again, largest, watch, most_heaps, effort)
        if heaps is None:
            return "unknown", []
        plans, below, complete = _joined(_table(meeting, some, heaps, loss), bound, again, effort)
        if plans:
            return "packed", plans
        if not complete:
            return "unknown", []
        if below - meeting.watch:
            meeting.watch |= below
        elif below:
            return "unknown", []
        else:
            share += 1
    return "impossible" if some.complete else "unknown", []


def _largest(vertex: Vertex, some: Others, loss: int) -> int:
    """No plan of the length has more strips and surplus pieces outside the vertex."""
    strips = (vertex.value + loss) // vertex.scale // min(vertex.board.heights)
    surplus = np.nonzero(some.heights < 0)[0]
    most = some.vectors.max(axis=0, initial=0)
    own = [max(vector.get(kind, 0) for vector in vertex.vectors) for kind in range(len(most))]
    return int(
        strips
        + sum(
            strips * max(most[row], own[row], 0) + max(0, -vertex.need[row])
            for row in -1 - some.heights[surplus]
        )
    )


class _Table(NamedTuple):
    """Heaps by remainder, to be met. The last entries of `losses`, `remainders` and `takes` are for
    no other at all, so that number -1 stands for it; `amounts` is what the vertex gives of its
    fillings if nothing else is cut.
    """

    meeting: Meeting
    some: Others
    heaps: Heaps
    loss: int
    goal: int
    amounts: Ints
    losses: Ints
    remainders: Ints
    takes: Ints
    order: Ints
    sorted: Ints
    bits: int
    occurs: NDArray[np.bool_]


def _table(meeting: Meeting, some: Others, heaps: Heaps, loss: int) -> _Table:
    vertex = meeting.vertex
    order = np.argsort(heaps.remainders, kind="stable")
    ordered = heaps.remainders[order]
    bits = len(order).bit_length() + SPARE_BITS
    occurs = np.zeros(1 << bits, np.bool_)
    occurs[place_of(ordered, bits)] = True
    return _Table(
        meeting,
        some,
        heaps,
        loss,
        meeting.remainders.of(dict(enumerate(vertex.need))),
        np.array(vertex.inverse, np.int64) @ np.array(vertex.need, np.int64),
        np.append(some.losses, 0),
        np.append(some.remainders, 0),
        np.append(some.takes, np.zeros((len(some.takes), 1), np.int64), axis=1),
        order,
        ordered,
        bits,
        occurs,
    )


class _Part(NamedTuple):
    """Heaps with two others more, -1 for none: what they lose, leave and take together."""

    parents: Ints
    tops: Ints
    lasts: Ints
    losses: Ints
    remainders: Ints


def _joined(
    table: _Table, bound: int, again: int, effort: Effort
) -> tuple[list[list[Cut]], set[int], bool]:
    """Plans from two heaps and two others that together leave the right remainder; rows of which
    one at least falls below zero in all such; whether nothing else was in the way.
    """
    below = np.zeros((len(table.amounts), 0), np.bool_)
    complete = True
    for part in (_with_two if again else _with_one)(table, bound):
        effort.spend(PER_PAIR * len(part.parents))
        whose, partners = _partners(table, part)
        for start in range(0, len(whose), LOOKED_AT):
            here = whose[start : start + LOOKED_AT]
            plans, short, whole = _lifted(
                table, part, here, partners[start : start + LOOKED_AT], effort
            )
            if plans:
                return plans, set(), complete
            below = np.concatenate([below, short], axis=1)
            complete = complete and whole
            if below.shape[1] >= FAILURES:
                return [], _covering(below), complete
        if effort.spent:
            return [], _covering(below), False
    return [], _covering(below), complete


def _covering(below: NDArray[np.bool_]) -> set[int]:
    """A few rows so that every column is true in one of them."""
    rows: set[int] = set()
    while below.shape[1]:
        row = int(below.sum(axis=1).argmax())
        rows.add(row)
        below = below[:, ~below[row]]
    return rows


def _tops(some: Others, bound: int) -> int:
    """How many pairs of others one would have to look at to put the first of them aside."""
    losses, numbers = some.losses, np.arange(len(some.losses))
    low = np.searchsorted(losses, (bound - losses) // 2, "right")
    return int(np.maximum(numbers[losses <= bound] + 1 - low[losses <= bound], 0).sum())


def _alone(table: _Table) -> _Part:
    """Nothing, and every other alone."""
    tops = np.arange(-1, len(table.some.losses))
    nothing = np.zeros(len(tops), np.int64)
    return _Part(nothing, tops, nothing - 1, table.losses[tops], table.remainders[tops])


def _with_one(table: _Table, bound: int) -> Iterator[_Part]:
    """Each heap with one that loses less than it and takes it beyond half of the bound."""
    heaps, losses = table.heaps, table.some.losses
    yield _alone(table)
    numbers = np.arange(len(heaps.losses))
    low = np.searchsorted(losses, bound // 2 - heaps.losses, "right")
    high = np.searchsorted(losses, table.loss - heaps.losses, "right")
    high = np.maximum(np.minimum(high, heaps.first + 1), low)
    part = _Part(numbers, np.full(len(numbers), -1), numbers, heaps.losses, heaps.remainders)
    yield from _crossing(table, part, low, high)


def _with_two(table: _Table, bound: int) -> Iterator[_Part]:
    """Each heap with one that loses more than it, and one that loses less and takes it beyond half
    of what the first leaves of the bound.
    """
    heaps, losses = table.heaps, table.some.losses
    yield _alone(table)
    if not len(losses):
        return
    left = bound - 2 * heaps.losses
    lowest = np.searchsorted(losses, left - 2 * losses[heaps.first], "right")
    lowest = np.maximum(heaps.last, lowest)
    counts = np.maximum(np.searchsorted(losses, left, "right") - lowest, 0)
    for start, stop in portions(counts):
        parents = np.repeat(np.arange(start, stop), counts[start:stop])
        tops = lowest[parents] + counted(counts[start:stop])
        lost = heaps.losses[parents] + losses[tops]
        low = np.searchsorted(losses, (bound - losses[tops]) // 2 - heaps.losses[parents], "right")
        high = np.searchsorted(losses, table.loss - lost, "right")
        high = np.minimum(high, np.minimum(heaps.first[parents], tops) + 1)
        held = table.meeting.remainders.sums(heaps.remainders[parents], table.remainders[tops])
        part = _Part(parents, tops, tops, lost, held)
        yield from _crossing(table, part, low, np.maximum(high, low))


def _crossing(table: _Table, part: _Part, low: Ints, high: Ints) -> Iterator[_Part]:
    """Each with one other more, from low to high."""
    counts = high - low
    for start, stop in portions(counts):
        which = np.repeat(np.arange(start, stop), counts[start:stop])
        lasts = low[which] + counted(counts[start:stop])
        yield _Part(
            part.parents[which],
            part.tops[which],
            lasts,
            part.losses[which] + table.losses[lasts],
            table.meeting.remainders.sums(part.remainders[which], table.remainders[lasts]),
        )


def _partners(table: _Table, part: _Part) -> tuple[Ints, Ints]:
    """Which of the part meet which heaps: the remainder is right, no more is lost than may be, and
    watched rows do not fall below zero.
    """
    heaps = table.heaps
    asked = table.meeting.remainders.left(table.goal, part.remainders)
    whose = np.nonzero(table.occurs[place_of(asked, table.bits)])[0]
    low = np.searchsorted(table.sorted, asked[whose], "left")
    counts = np.searchsorted(table.sorted, asked[whose], "right") - low
    whose = np.repeat(whose, counts)
    partners = table.order[np.repeat(low, counts) + counted(counts)]
    fits = part.losses[whose] + heaps.losses[partners] <= table.loss
    whose, partners = whose[fits], partners[fits]
    good = np.ones(len(whose), np.bool_)
    for place, row in enumerate(sorted(table.meeting.watch)):
        taken = heaps.takes[place, part.parents[whose]] + heaps.takes[place, partners]
        taken += table.takes[row, part.tops[whose]] + table.takes[row, part.lasts[whose]]
        good &= taken <= table.amounts[row]
    return whose[good], partners[good]


def _lifted(
    table: _Table, part: _Part, whose: Ints, partners: Ints, effort: Effort
) -> tuple[list[list[Cut]], NDArray[np.bool_], bool]:
    """The plans among what met, those of fewest strips; which rows fall below zero in what else
    met; whether all was made of whole strips.
    """
    scale = table.meeting.vertex.scale
    parents, beside = part.parents[whose], (part.tops[whose], part.lasts[whose])
    taken = _taken(table, parents) + _taken(table, partners)
    taken += table.takes[:, beside[0]] + table.takes[:, beside[1]]
    left = table.amounts[:, None] - taken
    effort.spend(left.size)
    whole = (left % scale == 0).all(axis=0)
    good = np.nonzero(whole & (left >= 0).all(axis=0))[0]
    made = [row for row, what in enumerate(table.meeting.vertex.basis) if isinstance(what, Made)]
    fewest = np.argsort(left[made][:, good].sum(axis=0), kind="stable")
    plans = [
        _plan(
            table,
            left[:, number] // scale,
            (parents[number], partners[number]),
            [int(some[number]) for some in beside if some[number] >= 0],
        )
        for number in good[fewest[:PLANS]]
    ]
    return plans, left[:, whole] < 0, bool(whole.all())


def _taken(table: _Table, heaps: Ints) -> Ints:
    """What heaps take of the amounts of the vertex, a column for each."""
    taken = np.zeros((len(table.amounts), len(heaps)), np.int64)
    while (open_ := np.nonzero(heaps)[0]).size:
        taken[:, open_] += table.takes[:, table.heaps.last[heaps[open_]]]
        heaps = np.where(heaps > 0, table.heaps.before[heaps], 0)
    return taken


def _plan(table: _Table, amounts: Ints, heaps: tuple[int, int], beside: list[int]) -> list[Cut]:
    """The cuts: so many of the vertex's fillings, and the others in two heaps and beside them."""
    strips: dict[Made, int] = {}
    for what, amount in zip(table.meeting.vertex.basis, amounts, strict=True):
        if isinstance(what, Made) and amount:
            strips[what] = int(amount)
    for number in [other for heap in heaps for other in table.heaps.others_in(heap)] + beside:
        other = table.some.what(number)
        if isinstance(other, Made):
            strips[other] = strips.get(other, 0) + 1
    return [(n, *made) for made, n in sorted(strips.items())]
