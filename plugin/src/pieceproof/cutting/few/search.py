"""The shortest plan of not many strips: one search by numbers of strips after the other.

Goes in: the board, the length of a plan that is known, how hard to try. Comes out: shorter cuts,
if there are any, and a length that no plan can beat.
"""

from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Cut, Slot, length
from pieceproof.cutting.effort import Effort, GaveUpError
from pieceproof.cutting.few.heights import ANY, Found, Goal, hunt
from pieceproof.cutting.few.supply import (
    Rule,
    Supply,
    add_filling,
    ask,
    root_rule,
    rounded,
    supply_of,
)
from pieceproof.cutting.knapsack import items_of, table

ROUNDS = 200
AFRESH = 0.7  # of the gap that is left when the search begins afresh


class Searched(NamedTuple):
    """Cuts shorter than the known plan, if any; a length that cannot be beaten."""

    cuts: list[Cut] | None
    bound: int


def searched(board: Board, known: int, effort: Effort) -> Searched:
    """The shortest cuts, in units of the board; `known` is the length of a plan at hand."""
    best: list[Cut] | None = None
    bound = 0
    rules: list[Rule] = []
    try:
        supply = _full_supply(board, effort)
        rule = root_rule(supply, ROUNDS)
        least = _least(board, rule, known - 1)
        bound, rules = min(known, -(-least // SCALE)), [rule]
        if bound < known and (cuts := rounded(supply, {}, known - 1)):
            best, known = cuts, length(board, cuts)
        while bound < known and not effort.spent:
            supply = _fewer(board, supply, rule, (known - 1) * SCALE - least, effort)
            found = _hunt(board, supply, rules, known, bound, effort)
            best, known, bound = found.cuts or best, found.cost, max(bound, found.bound)
            if found.cuts is None:
                break
    except GaveUpError:
        pass
    return Searched(best, bound)


def _full_supply(board: Board, effort: Effort) -> Supply:
    """The program of all pieces, with the strips of one size each."""
    slots, every = dict(enumerate(board.slots)), [ANY] * len(board.need)
    supply = supply_of(board, list(slots), slots, list(board.need), every, effort)
    for height, some in slots.items():
        for slot in some:
            add_filling(supply, height, ((slot, board.width // slot.width),))
    return supply


def _hunt(
    board: Board, supply: Supply, rules: list[Rule], known: int, bound: int, effort: Effort
) -> Found:
    """One search; it ends with the effort, with a proof, or with a plan worth beginning afresh."""
    costs = [board.heights[height] for height in supply.heights]
    if not costs:
        return Found(None, known, known)
    again = bound + int(AFRESH * (known - bound)) if known - bound > 2 else -1
    return hunt(board, supply, rules, Goal(costs, known, again), bound, effort)


def _least(board: Board, rule: Rule, most: int) -> int:
    """The length proved by the rule, in 1 / SCALE: strips of overall length `most` at worst hold
    more than their own length by so much.
    """
    worst, per = 0, 1
    for height, held in rule.holds.items():
        over = held - board.heights[height] * SCALE
        if over > 0 and over * per > worst * board.heights[height]:
            worst, per = over, board.heights[height]
    return max(0, rule.total + -(worst * most) // per)


def _fewer(board: Board, supply: Supply, rule: Rule, spare: int, effort: Effort) -> Supply:
    """Without the heights and slots that would lose more than the spare length."""
    slots: dict[int, tuple[Slot, ...]] = {}
    for height in supply.heights:
        items = items_of(supply.slots[height], list(rule.worth), list(board.need))
        found = table(board.width, items, effort)
        full = board.heights[height] * SCALE - spare
        kept = tuple(
            slot
            for slot in supply.slots[height]
            if found.best[board.width - slot.width] + rule.worth[slot.kind] * slot.stack >= full
        )
        if found.top >= full and kept:
            slots[height] = kept
    fewer = supply_of(board, sorted(slots), slots, supply.need, supply.most, effort)
    for made in supply.columns:
        if made and made[0] in slots and all(slot in slots[made[0]] for slot, _ in made[1]):
            add_filling(fewer, *made)
    if slots:
        ask(fewer, [0.0] * len(fewer.heights), 1, float("inf"))
    return fewer
