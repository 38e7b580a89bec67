"""Do so many strips of each height suffice, if a strip may also be cut by halves and thirds?

Goes in: strips of each height, pieces needed. Comes out: how the pieces would be spread over the
strips, or a rule that proves they are too few. Fillings are made up when they are called for.

A rule gives each kind of piece a worth; a strip of a height holds pieces worth `holds` at most,
the pieces are worth `total` together. So the sum of holds over all strips must reach the total,
whatever the plan: the dual of the cutting-stock program of Gilmore and Gomory, Operations
Research 9 (1961) 849-859.
"""

from dataclasses import dataclass
from math import floor
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Cut, Filling, Slot, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.knapsack import Tables, best_filling, items_of, table
from pieceproof.cutting.simplex import Column, Program, minimise, price, program, repair, weigh

WIGGLE = 1e-3  # small unequal costs keep the simplex method from going in circles
NEW_FILLINGS = 8  # per round


class Rule(NamedTuple):
    """In units of 1 / SCALE; `holds` by number of the height, negative only in a limit."""

    worth: tuple[int, ...]
    holds: dict[int, int]
    total: int


class Answer(NamedTuple):
    """`lack` is the total less what the strips hold under the rule: above zero they are too few.

    `used` lists (strips, number of the height, filling) with broken numbers of strips.
    """

    lack: float
    rule: Rule
    used: list[tuple[float, int, Filling]]


@dataclass(slots=True)
class Supply:
    """The linear program of one list of pieces; rows are kinds, then heights.

    A filling counts for `most` pieces of a kind at most: all of them where rules are wanted, since
    a rule values them all, those needed where strips are to be rounded.
    """

    board: Board
    heights: list[int]
    slots: dict[int, tuple[Slot, ...]]
    need: list[int]
    most: list[int]
    lp: Program
    columns: list[tuple[int, Filling] | None]
    known: set[tuple[int, Filling]]
    wiggle: float
    effort: Effort


def supply_of(
    board: Board,
    heights: list[int],
    slots: dict[int, tuple[Slot, ...]],
    need: list[int],
    most: list[int],
    effort: Effort,
) -> Supply:
    """A program without fillings: pieces may be missing, strips may be bought, both at a cost."""
    kinds, rows = len(need), len(need) + len(heights)
    missing = 3.0 * max(board.heights)
    columns: list[Column] = [[(row, 1.0)] for row in range(rows)]
    costs = [missing] * kinds + [0.0] * len(heights)
    columns += [[(row, -1.0)] for row in range(rows)]
    costs += [0.0] * kinds + [float(board.heights[height]) for height in heights]
    right = [float(pieces) for pieces in need] + [0.0] * len(heights)
    lp = program(columns, costs, right, list(range(rows)), effort)
    return Supply(
        board, heights, slots, need, most, lp, [None] * len(columns), set(), WIGGLE, effort
    )


def add_filling(supply: Supply, height: int, filling: Filling) -> bool:
    """Offer a filling, cut down to what is needed; False when it is known or of no use."""
    need = supply.need
    filling = tuple(
        (slot, min(often, -(-need[slot.kind] // slot.stack)))
        for slot, often in filling
        if need[slot.kind] > 0
    )
    if not filling or (height, filling) in supply.known:
        return False
    supply.known.add((height, filling))
    number = len(supply.columns)
    entries = [
        (kind, float(min(pieces, supply.most[kind])))
        for kind, pieces in sorted(yields(filling).items())
    ]
    row = len(need) + supply.heights.index(height)
    supply.lp.columns.append([*entries, (row, 1.0)])
    supply.lp.costs.append(supply.wiggle * (1 + (number * 7919) % 101) / 101)
    supply.columns.append((height, filling))
    return True


def ask(supply: Supply, strips: list[float], rounds: int, enough: float) -> Answer:
    """Whether the strips suffice; asks no further once the lack is more than `enough`."""
    lp, kinds = supply.lp, len(supply.need)
    lp.right[kinds:] = strips
    weigh(lp)
    repair(lp, list(range(len(lp.columns))))
    best: tuple[float, Rule] | None = None
    for _ in range(rounds):
        minimise(lp, list(range(len(lp.columns))))
        worth = [max(0, int(lp.prices[kind] * SCALE)) for kind in range(kinds)]
        found = {height: _tables(supply, height, worth) for height in supply.heights}
        rule = _rule(supply, worth, found)
        lack = rule.total - _held(rule, supply.heights, strips)
        if best is None or lack > best[0]:
            best = lack, rule
        if lack > enough or supply.effort.spent or not _offer(supply, found):
            break
    assert best is not None
    used = [
        (amount, *made)
        for number, amount in zip(lp.basis, lp.amounts, strict=True)
        if (made := supply.columns[number]) and amount > 1e-7
    ]
    return Answer(best[0], best[1], used)


def root_rule(supply: Supply, rounds: int) -> Rule:
    """The rule whose total is the least length of strips, all of them bought."""
    lp = supply.lp
    ask(supply, [0.0] * len(supply.heights), rounds, float("inf"))
    supply.wiggle = 0.0
    for number, made in enumerate(supply.columns):
        if made:
            lp.costs[number] = 0.0
    price(lp)
    for _ in range(rounds):
        minimise(lp, list(range(len(lp.columns))))
        worth = [max(0, int(paid * SCALE)) for paid in lp.prices[: len(supply.need)]]
        found = {height: _tables(supply, height, worth) for height in supply.heights}
        if supply.effort.spent or not _offer(supply, found):
            break
    return _rule(supply, worth, found)


def rounded(supply: Supply, strips: dict[int, int], limit: int) -> list[Cut] | None:
    """A whole plan by fixing the fullest fillings one after the other; gives up at the limit.

    Strips beyond those given are bought; None when they would cost more than `limit`, or when
    the effort is spent.
    """
    board, need = supply.board, list(supply.need)
    left, bought = dict(strips), 0
    cuts: list[Cut] = []
    fillings = [made for made in supply.columns if made]
    while any(need):
        step = supply_of(board, supply.heights, supply.slots, need, need, supply.effort)
        for made in fillings:
            add_filling(step, *made)
        given = [float(left.get(height, 0)) for height in supply.heights]
        answer = ask(step, given, 12, float("inf"))
        if bought * SCALE + answer.lack > limit * SCALE:
            return None
        for count, height, filling in _fullest(answer.used):
            pieces = yields(filling)
            if all(need[kind] <= 0 for kind in pieces):
                continue
            cuts.append((count, height, filling))
            free = min(count, left.get(height, 0))
            left[height] = left.get(height, 0) - free
            bought += board.heights[height] * (count - free)
            for kind, each in pieces.items():
                need[kind] = max(0, need[kind] - each * count)
        if bought > limit or supply.effort.spent:
            return None
        fillings = [made for made in step.columns if made]
    return cuts


def _tables(supply: Supply, height: int, worth: list[int]) -> Tables:
    items = items_of(supply.slots[height], worth, supply.need)
    return table(supply.board.width, items, supply.effort)


def _rule(supply: Supply, worth: list[int], found: dict[int, Tables]) -> Rule:
    total = sum(each * pieces for each, pieces in zip(worth, supply.need, strict=True))
    return Rule(tuple(worth), {height: table.top for height, table in found.items()}, total)


def _held(rule: Rule, heights: list[int], strips: list[float]) -> float:
    return sum(rule.holds[height] * count for height, count in zip(heights, strips, strict=True))


def _offer(supply: Supply, found: dict[int, Tables]) -> bool:
    """New fillings for the heights where they help most; False when none helps."""
    kinds, prices = len(supply.need), supply.lp.prices
    gains = []
    for row, height in enumerate(supply.heights):
        gain = found[height].top + prices[kinds + row] * SCALE
        if gain > SCALE * (1e-5 + supply.wiggle):
            gains.append((-gain, height))
    gains.sort()
    offered = [
        add_filling(supply, height, best_filling(found[height]))
        for _, height in gains[:NEW_FILLINGS]
    ]
    return any(offered)


def _fullest(used: list[tuple[float, int, Filling]]) -> list[tuple[int, int, Filling]]:
    """All whole strips, or one strip of the filling that is nearest to a whole one."""
    whole = [(floor(count + 1e-6), height, filling) for count, height, filling in used]
    whole = [entry for entry in whole if entry[0]]
    if whole:
        return whole
    _, height, filling = min(used, key=lambda entry: (-entry[0], entry[1:]))
    return [(1, height, filling)]
