"""Filling one strip: the most that fits, and everything that comes near it.

Goes in: the slots of a strip height, what a piece of each kind is worth (whole numbers), how many
pieces are needed. Comes out: the best filling, or all fillings that lose at most so much. Exact.
"""

from dataclasses import dataclass

from pieceproof.cutting.board import Filling, Slot
from pieceproof.cutting.effort import Effort


@dataclass(frozen=True, slots=True)
class Item:
    """A slot with what one segment of it is worth and how often it can be of use."""

    slot: Slot
    worth: int
    most: int


@dataclass(frozen=True, slots=True)
class Tables:
    """The best worth for every width; `before[i]` without the items from number i on."""

    items: tuple[Item, ...]
    before: tuple[list[int], ...]
    best: list[int]

    @property
    def top(self) -> int:
        """The worth of the best filling."""
        return self.best[-1]


def valued(slots: tuple[Slot, ...], worth: list[int], need: list[int]) -> list[Item]:
    """The slots whose pieces are worth something."""
    return [
        Item(slot, worth[slot.kind] * slot.stack, -(-need[slot.kind] // slot.stack))
        for slot in slots
        if worth[slot.kind] > 0 and need[slot.kind] > 0
    ]


def needed(slots: tuple[Slot, ...], worth: list[int], need: list[int]) -> list[Item]:
    """The slots whose pieces are needed, the worthless ones first and narrow before wide."""
    items = [
        Item(slot, worth[slot.kind] * slot.stack, -(-need[slot.kind] // slot.stack))
        for slot in slots
        if need[slot.kind] > 0
    ]
    return sorted(items, key=lambda item: (item.worth > 0, item.slot.width, item.slot.lie))


def tables(width: int, items: list[Item], effort: Effort) -> Tables:
    """The knapsack tables of a strip of this width."""
    best = [0] * (width + 1)
    before = []
    for item in items:
        before.append(best)
        if item.worth > 0:
            best = best[:]
            effort.spend((width + 40) * _add_item(best, item, width))
    return Tables(tuple(items), tuple(before), best)


def best_filling(found: Tables) -> Filling:
    """A filling of the best worth."""
    width, filling = len(found.best) - 1, []
    after = found.best
    for item, before in zip(reversed(found.items), reversed(found.before), strict=True):
        target, often = after[width], 0
        while before[width] + often * item.worth != target:
            often, width = often + 1, width - item.slot.width
        if often:
            filling.append((item.slot, often))
        after = before
    return tuple(sorted(filling))


def fillings_within(found: Tables, loss: int, most: int, effort: Effort) -> list[Filling] | None:
    """All fillings to which nothing can be added and that lose at most `loss` against the best.

    None when there are more than `most`.
    """
    least = found.top - loss
    counts = [0] * len(found.items)
    narrowest = min((item.slot.width for item in found.items), default=0)
    fillings: list[Filling] = []

    def descend(number: int, width: int, worth: int) -> bool:
        if number < 0:
            if width < narrowest or not _has_room(found.items, counts, width):
                fillings.append(_filling(found.items, counts))
            return len(fillings) <= most
        item, before = found.items[number], found.before[number]
        often = 0
        while width >= 0 and often <= item.most:
            if before[width] + worth >= least:
                counts[number] = often
                if not descend(number - 1, width, worth):
                    return False
            elif not item.worth:
                break
            often, width, worth = often + 1, width - item.slot.width, worth + item.worth
        counts[number] = 0
        return True

    complete = descend(len(found.items) - 1, len(found.best) - 1, 0)
    effort.spend(40 * len(fillings) * (1 + len(found.items)))
    return fillings if complete else None


def _add_item(best: list[int], item: Item, width: int) -> int:
    """Allow the item in the table; the number of passes over it."""
    wide, worth = item.slot.width, item.worth
    if item.most >= width // wide:
        for start in range(wide, width + 1, wide):
            stop = min(start + wide, width + 1)
            best[start:stop] = [
                with_out if with_out >= one_less + worth else one_less + worth
                for with_out, one_less in zip(
                    best[start:stop], best[start - wide : stop - wide], strict=True
                )
            ]
        return 1
    passes, left, block = 0, item.most, 1
    while left > 0:
        often = min(block, left)
        left, block = left - often, 2 * block
        shift, gain = wide * often, worth * often
        if shift <= width:
            passes += 1
            best[shift:] = [
                with_out if with_out >= one_less + gain else one_less + gain
                for with_out, one_less in zip(best[shift:], best, strict=False)
            ]
    return passes


def _has_room(items: tuple[Item, ...], counts: list[int], width: int) -> bool:
    return any(
        item.slot.width <= width and often < item.most
        for item, often in zip(items, counts, strict=True)
    )


def _filling(items: tuple[Item, ...], counts: list[int]) -> Filling:
    return tuple(
        sorted((item.slot, often) for item, often in zip(items, counts, strict=True) if often)
    )
