"""Plans made strip after strip, where what was hard to place is worth more the next time.

Goes in: the board, how hard to try. Comes out: the shortest cuts met. The piece that asks for the
highest strip opens one, and with it goes what is worth most together. A piece is worth its area at
first, and more in the next plan if it lay in a strip that wasted much (Mukhacheva, Belov, Kartack
and Mukhacheva, Pesquisa Operacional 20 (2000) 153-168). It serves lists of many sizes with few
pieces of each, of which the relaxed program says little.
"""

from itertools import count
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Cut, Filling, Slot, length, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.knapsack import best_filling, items_of, table

IN_VAIN = 2000  # plans, one after the other
CONVEX = 20  # a large piece is worth up to a twentieth more than its area
WEIGHTS = 3  # of what was known against what is learnt: 1, 2, 3, 1, ...
PER_ITEM = 400  # steps


class _Opening(NamedTuple):
    """A strip of this height holds the piece in one of its lies, and none that is lower does."""

    height: int
    slot: Slot


def successive(board: Board, effort: Effort) -> list[Cut]:
    """The shortest cuts met; none where the effort is spent before the first plan is made."""
    openings = [_openings(board, kind) for kind in range(len(board.need))]
    areas = [some[0].slot.width * board.heights[some[0].height] for some in openings]
    plain = [_plain(area, max(areas)) for area in areas]
    worth, best, vain = list(plain), list[Cut](), 0
    for number in count():
        cuts = _plan(board, openings, worth, effort)
        if effort.spent or vain == IN_VAIN:
            break
        vain = vain + 1 if best and length(board, cuts) >= length(board, best) else 0
        best = best if vain else cuts
        for turn, (_, height, filling) in enumerate(cuts, number):
            room = board.width * board.heights[height]
            _learn(worth, plain, areas, filling, room, 1 + turn % WEIGHTS)
    return best


def _plain(area: int, largest: int) -> int:
    return area * SCALE + area * area * SCALE // (CONVEX * largest)


def _openings(board: Board, kind: int) -> list[_Opening]:
    """For each lie of the kind the lowest strip that holds it; the lowest of all first."""
    found: dict[int, _Opening] = {}
    for height, slots in enumerate(board.slots):
        for slot in slots:
            if slot.kind == kind:
                found.setdefault(slot.lie, _Opening(height, slot))
    return list(found.values())


def _plan(
    board: Board, openings: list[list[_Opening]], worth: list[int], effort: Effort
) -> list[Cut]:
    """Strips until nothing is needed; the best of the fillings that each opening allows."""
    need, cuts = list(board.need), list[Cut]()
    order = sorted(
        range(len(need)), key=lambda kind: (-openings[kind][0].height, -worth[kind], kind)
    )
    for kind in order:
        while need[kind] and not effort.spent:
            made = [
                (_filled(board, need, worth, opening, effort), opening.height)
                for opening in openings[kind]
            ]
            filling, height = max(
                made,
                key=lambda one: (
                    _worth(one[0], need, worth) // board.heights[one[1]],
                    -one[1],
                ),
            )
            pieces = yields(filling)
            often = max(1, min(need[one] // n for one, n in pieces.items()))
            cuts.append((often, height, filling))
            for one, n in pieces.items():
                need[one] = max(0, need[one] - often * n)
    return cuts


def _filled(
    board: Board, need: list[int], worth: list[int], opening: _Opening, effort: Effort
) -> Filling:
    """A strip of one segment of the opening and what is worth most beside it."""
    slot = opening.slot
    rest = list(need)
    rest[slot.kind] = max(0, rest[slot.kind] - slot.stack)
    width = board.width - slot.width
    items = [
        item
        for item in items_of(board.slots[opening.height], worth, rest)
        if item.slot.width <= width
    ]
    effort.spend(PER_ITEM * (1 + len(items)))
    beside = dict(best_filling(table(width, items, effort)))
    return tuple(sorted({**beside, slot: beside.get(slot, 0) + 1}.items()))


def _worth(filling: Filling, need: list[int], worth: list[int]) -> int:
    return sum(worth[kind] * min(n, need[kind]) for kind, n in yields(filling).items())


def _learn(
    worth: list[int], plain: list[int], areas: list[int], filling: Filling, room: int, weight: int
) -> None:
    """What lay in a strip with waste becomes dearer."""
    pieces = yields(filling)
    used = sum(areas[kind] * n for kind, n in pieces.items())
    for kind in pieces:
        asked = plain[kind] * room // min(room, used)
        worth[kind] = (weight * worth[kind] + asked) // (weight + 1)
