"""Filling one strip: the most that fits, and everything that comes near it.

Goes in: the board, what a piece of each kind is worth (whole numbers). Comes out: for each strip
height the best filling, or all fillings that lose at most so much. Exact, as long as no worth
exceeds 62 bits.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pieceproof.cutting.board import Board, Filling, Slot
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.roundings import Rounding, Rule

Ints = NDArray[np.int64]
FITS = 1 << 60  # what arrays of whole numbers hold, with something to spare
PER_COUNT = 4  # counts of a filling that are looked up in one step of effort
PER_ENTRY = 10  # entries of a table that are worked out in one step of effort


@dataclass(frozen=True, slots=True)
class Item:
    """A slot with what one segment of it is worth and how often it can be of use.

    Where roundings value its kind, `gains` tells what so many segments are worth.
    """

    slot: Slot
    worth: int
    most: int
    gains: tuple[int, ...] = ()

    def gain(self, often: int) -> int:
        """What so many segments are worth."""
        return self.gains[often] if self.gains else often * self.worth


@dataclass(frozen=True, slots=True)
class Tables:
    """The best worth for every width; `before[i]` without the items from number i on.

    Worthless items come first, and narrow ones before wide ones.
    """

    items: tuple[Item, ...]
    before: tuple[Ints, ...]
    best: Ints

    @property
    def top(self) -> int:
        """The worth of the best filling."""
        return int(self.best[-1])


def items_of(slots: tuple[Slot, ...], worth: list[int], need: list[int]) -> list[Item]:
    """The slots whose pieces are needed, in the order of tables."""
    items = [
        Item(slot, worth[slot.kind] * slot.stack, -(-need[slot.kind] // slot.stack))
        for slot in slots
        if need[slot.kind] > 0
    ]
    return sorted(items, key=lambda item: (item.worth > 0, item.slot.width, item.slot.lie))


def table(width: int, items: list[Item], effort: Effort) -> Tables:
    """The tables of one strip of this width; the items as `items_of` gives them."""
    return _tables(width, [{item.slot.lie: item for item in items}], effort)[0]


def tables(
    board: Board, worth: list[int], effort: Effort, rules: Sequence[Rule] = ()
) -> list[Tables]:
    """For each height the tables of the pieces that are needed.

    `worth` is that of the kinds, then of the rules.
    """
    need = list(board.need)
    valued: dict[int, list[tuple[Rounding, int]]] = {}
    for rule, each in zip(rules, worth[len(need) :], strict=True):
        if each and isinstance(rule, Rounding):
            valued.setdefault(rule.kind, []).append((rule, each))
    by_lie = [
        {
            item.slot.lie: _rounded(item, board.width, valued[item.slot.kind])
            if item.slot.kind in valued
            else item
            for item in items_of(slots, worth, need)
        }
        for slots in board.slots
    ]
    return _tables(board.width, by_lie, effort)


def _rounded(item: Item, width: int, valued: list[tuple[Rounding, int]]) -> Item:
    """The item with what roundings add to its worth."""
    often = np.arange(min(item.most, width // item.slot.width) + 1)
    gains = often * item.worth
    for rounding, each in valued:
        gains += each * rounding.of_all(often * item.slot.stack)
    return Item(item.slot, item.worth, item.most, tuple(map(int, gains)))


def _tables(width: int, by_lie: list[dict[int, Item]], effort: Effort) -> list[Tables]:
    """Height by height; a lie is as wide and worth something in all heights, or in none."""
    order = sorted(
        {
            (item.worth > 0 or item.gains != (), item.slot.width, lie)
            for some in by_lie
            for lie, item in some.items()
        }
    )
    best = np.zeros((len(by_lie), width + 1), np.int64)
    before: list[list[Ints]] = [[] for _ in by_lie]
    for gains, wide, lie in order:
        found = [some.get(lie) for some in by_lie]
        for item, earlier, row in zip(found, before, best, strict=True):
            if item:
                earlier.append(row)
        if gains:
            best = best.copy()
            _add(best, wide, found)
            effort.spend(best.size // PER_ENTRY)
    return [
        Tables(tuple(some[lie] for _, _, lie in order if lie in some), tuple(earlier), row)
        for some, earlier, row in zip(by_lie, before, best, strict=True)
    ]


def best_filling(found: Tables) -> Filling:
    """A filling of the best worth."""
    width, filling = len(found.best) - 1, []
    after = found.best
    for item, before in zip(reversed(found.items), reversed(found.before), strict=True):
        target, often = int(after[width]), 0
        while int(before[width]) + item.gain(often) != target:
            often, width = often + 1, width - item.slot.width
        if often:
            filling.append((item.slot, often))
        after = before
    return tuple(sorted(filling))


def fillings_within(found: Tables, loss: int, most: int, effort: Effort) -> Ints | None:
    """All fillings to which nothing can be added and that lose at most `loss` against the best:
    a row for each, a column for each item, how often it is cut.

    None when there are more than `most`.
    """
    least = found.top - loss
    left = np.array([len(found.best) - 1], np.int64)
    worth = np.zeros(1, np.int64)
    grown: list[tuple[Ints, NDArray[np.int32]]] = []
    for number in range(len(found.items) - 1, -1, -1):
        effort.spend(len(left))
        some = _with_item(found, number, left, worth, least, 4 * most)
        if some is None or effort.spent:
            return None
        before, often = some
        item = found.items[number]
        left = left[before] - often * item.slot.width
        worth = worth[before] + _gains(item, often)
        grown.append((before, often.astype(np.int32)))
    counts = _counts(grown, len(left))
    effort.spend(counts.size // PER_COUNT)
    room = np.zeros(len(left), np.bool_)
    for number, item in enumerate(found.items):
        room |= (left >= item.slot.width) & (counts[number] < item.most)
    full = counts[:, ~room]
    return full.T.astype(np.int64) if full.shape[1] <= most else None


def _counts(grown: list[tuple[Ints, NDArray[np.int32]]], rows: int) -> NDArray[np.int32]:
    """How often each item was taken, a row for each item and a column for each filling; the last
    item was the first to be taken.
    """
    counts = np.zeros((len(grown), rows), np.int32)
    which = np.arange(rows)
    for number, (before, often) in enumerate(reversed(grown)):
        counts[number] = often[which]
        which = before[which]
    return counts


def filling_of(found: Tables, counts: Ints) -> Filling:
    """One row of the fillings."""
    return tuple(
        sorted(
            (item.slot, int(often))
            for item, often in zip(found.items, counts, strict=True)
            if often
        )
    )


def _with_item(
    found: Tables, number: int, left: Ints, worth: Ints, least: int, most: int
) -> tuple[Ints, Ints] | None:
    """Which of the rows go on with how many of the item: those that the items before it can still
    bring to the least worth.
    """
    item, best = found.items[number], found.before[number]
    rows, total = np.arange(len(left)), 0
    parts: list[tuple[Ints, Ints]] = []
    for often in range(item.most + 1):
        rows = rows[left[rows] >= often * item.slot.width]
        if often and not len(rows):
            break
        reached = best[left[rows] - often * item.slot.width] + worth[rows] + item.gain(often)
        good = rows[reached >= least]
        total += len(good)
        if total > most:
            return None
        parts.append((good, np.full(len(good), often)))
        if not item.worth and not item.gains:
            rows = good
    return np.concatenate([rows for rows, _ in parts]), np.concatenate([n for _, n in parts])


def _gains(item: Item, often: Ints) -> Ints:
    return np.array(item.gains, np.int64)[often] if item.gains else often * item.worth


def _add(best: Ints, wide: int, items: list[Item | None]) -> None:
    """Allow an item in the tables of all heights; None where a height has no use for it."""
    width = best.shape[1] - 1
    if any(item and item.gains for item in items):
        _add_rounded(best, wide, items)
        return
    scarce = [h for h, item in enumerate(items) if item and item.most < width // wide]
    kept = best[scarce]
    worth = np.array([[item.worth if item else 0] for item in items], np.int64)
    for start in range(wide, width + 1, wide):
        stop = min(start + wide, width + 1)
        here = best[:, start:stop]
        np.maximum(here, best[:, start - wide : stop - wide] + worth, out=here)
    for height, before in zip(scarce, kept, strict=True):
        if item := items[height]:
            best[height] = _with_few(before, wide, item)


def _with_few(best: Ints, wide: int, item: Item) -> Ints:
    """The table with the item, of which there are fewer than would fit."""
    left, block = item.most, 1
    while left > 0:
        often = min(block, left)
        left, block = left - often, 2 * block
        shift = wide * often
        if shift < len(best):
            taken = best[:-shift] + item.worth * often
            best = np.concatenate([best[:shift], np.maximum(best[shift:], taken)])
    return best


def _add_rounded(best: Ints, wide: int, items: list[Item | None]) -> None:
    """The same where so many segments are not worth so many times one."""
    before, width = best.copy(), best.shape[1] - 1
    for often in range(1, width // wide + 1):
        some = [(h, item) for h, item in enumerate(items) if item and often < len(item.gains)]
        if not some:
            break
        rows = [height for height, _ in some]
        gains = np.array([[item.gains[often]] for _, item in some], np.int64)
        reached = before[rows, : width + 1 - often * wide] + gains
        best[rows, often * wide :] = np.maximum(best[rows, often * wide :], reached)
