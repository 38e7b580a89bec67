"""How many strips of each height: the search for the plan of the least length.

Goes in: the board and rules that any numbers of strips must obey. Comes out: the best cuts found
and a length that none can beat. The length depends on nothing but the numbers of strips, so the
search branches on them alone: on how many strips are at least so high. Rules make the relaxed
problem; numbers that obey all rules are asked for a new rule (supply), then packed (packing).
"""

from dataclasses import dataclass, field
from heapq import heappop, heappush
from math import floor
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Cut, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.few.packing import Packing, pack
from pieceproof.cutting.few.supply import Rule, Supply, ask, rounded
from pieceproof.cutting.simplex import (
    Column,
    Corner,
    Program,
    corner,
    minimise,
    program,
    return_to,
    value,
)

ANY = 10**9
FIRST_NODES, FIRST_CHOICES, HARDER = 40, 600, 6  # packing: first try, and factor for the next
PLUNGE_EVERY = 3  # nodes taken from the queue
ASK_FIRST, ASK_EVERY = 30, 40  # nodes whose broken numbers are asked for a rule as well
TRUSTED = 2  # branchings after which a guess is trusted
TRIED = 4  # branchings tried out per node
ROUND_FIRST, ROUND_EVERY = 5, 8  # failed packings that are rounded into a longer plan


class Goal(NamedTuple):
    """What a strip of each height costs, the cost that a plan must stay below, and the cost of a
    plan so good that the search should begin afresh with fewer heights and slots.
    """

    costs: list[int]
    below: int
    again: int


class Found(NamedTuple):
    """The cheapest cuts below the goal, if any, and a cost below which there is nothing."""

    cuts: list[Cut] | None
    cost: int
    bound: int


class _Node(NamedTuple):
    """Limits for how many strips are at least as high as each height."""

    bound: int
    depth: int
    low: list[int]
    high: list[int]
    place: Corner
    step: tuple[int, int, float, float] | None  # row, up or down, parent's value, distance


class _Later(NamedTuple):
    nodes: int
    cost: int
    strips: dict[int, int]


@dataclass(slots=True)
class _Hunt:
    board: Board
    supply: Supply
    goal: Goal
    rules: list[Rule]
    lp: Program
    effort: Effort
    best: list[Cut] | None = None
    below: int = 0
    queue: list[tuple[int, int, int, _Node]] = field(default_factory=list)
    later: list[_Later] = field(default_factory=list)
    gains: dict[tuple[int, int], tuple[float, int]] = field(default_factory=dict)
    nodes: int = 0
    asked: int = 0
    packed: int = 0
    pushed: int = 0


def hunt(
    board: Board, supply: Supply, rules: list[Rule], goal: Goal, floor_cost: int, effort: Effort
) -> Found:
    """The cheapest plan below the goal; new rules are added to `rules`."""
    lp = _relaxed(supply, rules, goal, effort)
    state = _Hunt(board, supply, goal, rules, lp, effort, below=goal.below)
    rows = len(supply.heights)
    node: _Node | None = _Node(floor_cost, 0, [0] * rows, [ANY] * rows, corner(lp), None)
    taken = 0
    while not effort.spent and (state.best is None or state.below > goal.again):
        if node is None:
            node = _next(state)
            taken += 1
        if node is None:
            if not _try_later(state):
                break
            continue
        node = _visit(state, node, taken % PLUNGE_EVERY == 0)
    rest = [entry[0] for entry in state.queue] + [late.cost for late in state.later]
    rest += [node.bound] if node else []
    return Found(state.best, state.below, min([state.below, *rest]))


def _relaxed(supply: Supply, rules: list[Rule], goal: Goal, effort: Effort) -> Program:
    """The dual program: a column per rule and per limit, a row per height; prices are strips."""
    rows = len(supply.heights)
    columns: list[Column] = [[(row, 1.0)] for row in range(rows)]
    columns += [[(row, 1.0) for row in range(first, rows)] for first in range(rows)]
    columns += [[(row, -1.0) for row in range(first, rows)] for first in range(rows)]
    right = [float(cost) for cost in goal.costs]
    lp = program(columns, [0.0] * len(columns), right, list(range(rows)), effort)
    for rule in rules:
        _add_rule(lp, supply.heights, rule)
    return lp


def _add_rule(lp: Program, heights: list[int], rule: Rule) -> None:
    lp.columns.append([(row, rule.holds[height] / SCALE) for row, height in enumerate(heights)])
    lp.costs.append(-rule.total / SCALE)


def _next(state: _Hunt) -> _Node | None:
    while state.queue:
        node = heappop(state.queue)[3]
        if node.bound < state.below:
            return node
    return None


def _push(state: _Hunt, node: _Node) -> None:
    state.pushed += 1
    heappush(state.queue, (node.bound, -node.depth, state.pushed, node))


def _visit(state: _Hunt, node: _Node, plunge: bool) -> _Node | None:
    """Work on a node; the node to go on with, if it should be one of its children."""
    bounds = _bounds(state, node.low, node.high, node.place)
    if bounds is None or max(bounds[0], node.bound) >= state.below:
        return None
    if node.step:
        row, way, before, distance = node.step
        _learn(state, row, way, bounds[1] - before, distance)
    node = node._replace(bound=max(node.bound, bounds[0]), place=corner(state.lp))
    strips = [abs(price) if abs(price) > 1e-9 else 0.0 for price in state.lp.prices]
    broken = _broken(strips)
    due = state.nodes < ASK_FIRST or state.nodes - state.asked > ASK_EVERY
    if (not broken or due) and _new_rule(state, strips, whole=not broken):
        return node._replace(place=corner(state.lp), step=None)
    if broken:
        return _branch(state, node, broken, bounds[1], plunge)
    _settle(state, node, [round(count) for count in strips])
    return None


def _bounds(
    state: _Hunt, low: list[int], high: list[int], place: Corner
) -> tuple[int, float] | None:
    """A proved bound and the program's own value; None when nothing obeys the limits."""
    state.nodes += 1
    lp, rows = state.lp, len(low)
    for row in range(rows):
        lp.costs[rows + row] = -float(low[row])
        lp.costs[2 * rows + row] = float(high[row])
    return_to(lp, place)
    limits = [rows + row for row in range(rows) if low[row] > 0]
    limits += [2 * rows + row for row in range(rows) if high[row] < ANY]
    active = [*range(rows), *limits, *range(3 * rows, len(lp.columns))]
    if not minimise(lp, active):
        return None
    return _proved(state, low, high), -value(lp)


def _proved(state: _Hunt, low: list[int], high: list[int]) -> int:
    """Weak duality in whole numbers: rules and limits, weighted, never exceed the strips' costs."""
    lp, rows, heights = state.lp, len(low), state.supply.heights
    total, rest = 0, [cost * SCALE * SCALE for cost in state.goal.costs]
    for column, amount in zip(lp.basis, lp.amounts, strict=True):
        weight = int(amount * SCALE)
        if column < rows or weight <= 0:
            continue
        kind, row = divmod(column, rows)
        if column >= 3 * rows:
            rule = state.rules[column - 3 * rows]
            total += weight * rule.total
            rest = [
                left - weight * rule.holds[height]
                for left, height in zip(rest, heights, strict=True)
            ]
        else:
            sign = 1 if kind == 1 else -1
            total += sign * weight * (low if kind == 1 else high)[row] * SCALE
            for higher in range(row, rows):
                rest[higher] -= sign * weight * SCALE
    total -= _overdrawn(rest, state.goal.costs, state.below - 1)
    return -(-total // (SCALE * SCALE))


def _overdrawn(rest: list[int], costs: list[int], most: int) -> int:
    """What strips of overall cost `most` can be overdrawn by at worst."""
    worst, per = 0, 1
    for left, cost in zip(rest, costs, strict=True):
        if left < 0 and -left * per > worst * cost:
            worst, per = -left, cost
    return -(-worst * most // per)


def _broken(strips: list[float]) -> list[tuple[int, float]]:
    """(row, number of strips at least that high) where it is not whole; most broken first."""
    total, found = 0.0, []
    for row in range(len(strips) - 1, -1, -1):
        total += strips[row]
        part = total - floor(total + 1e-6)
        if part > 1e-5:
            found.append((-min(part, 1 - part), row, total))
    return [(row, total) for _, row, total in sorted(found)]


def _new_rule(state: _Hunt, strips: list[float], whole: bool) -> bool:
    """Whether so many strips break a rule not known yet, which is then added."""
    state.asked = state.nodes
    counts = [float(round(count)) for count in strips] if whole else strips
    answer = ask(state.supply, counts, 30, SCALE / 50)
    if answer.lack <= SCALE / 1000:
        return False
    state.rules.append(answer.rule)
    _add_rule(state.lp, state.supply.heights, answer.rule)
    return True


def _settle(state: _Hunt, node: _Node, strips: list[int]) -> None:
    """Whole numbers that obey every rule: pack them, or set them apart and go on around them."""
    cost = sum(n * each for n, each in zip(strips, state.goal.costs, strict=True))
    counts = {height: n for height, n in zip(state.supply.heights, strips, strict=True) if n}
    state.packed += 1
    verdict, cuts = _pack(state, counts, FIRST_NODES)
    if verdict == "packed" and _accept(state, cuts):
        return
    if state.packed <= ROUND_FIRST or state.packed % ROUND_EVERY == 0:
        _accept(state, rounded(state.supply, counts, state.below - 1 - cost) or [])
    if verdict != "impossible":
        state.later.append(_Later(FIRST_NODES * HARDER, cost, counts))
    _go_around(state, node, strips)


def _pack(state: _Hunt, strips: dict[int, int], nodes: int) -> Packing:
    most = FIRST_CHOICES * nodes // FIRST_NODES
    return pack(state.board, state.supply.slots, strips, state.rules, nodes, most, state.effort)


def _accept(state: _Hunt, cuts: list[Cut]) -> bool:
    """Take the cuts if they make every piece for less than the best so far."""
    made = [0] * len(state.board.need)
    for strips, _, filling in cuts:
        for kind, pieces in yields(filling).items():
            made[kind] += strips * pieces
    if any(has < need for has, need in zip(made, state.board.need, strict=True)):
        return False
    costs = dict(zip(state.supply.heights, state.goal.costs, strict=True))
    cost = sum(strips * costs[height] for strips, height, _ in cuts)
    if cost >= state.below:
        return False
    state.best, state.below = cuts, cost
    return True


def _go_around(state: _Hunt, node: _Node, strips: list[int]) -> None:
    """All numbers of the node but these and those that are no more at any height upwards.

    If so many strips cannot make the pieces, lower or fewer ones cannot either.
    """
    least = [sum(strips[row:]) for row in range(len(strips))]
    low, high = node.low, list(node.high)
    place = corner(state.lp)
    for row, count in enumerate(least):
        if high[row] > count:
            raised = [max(n, count + 1) if r == row else n for r, n in enumerate(low)]
            _push(state, _Node(node.bound, node.depth + 1, raised, list(high), place, None))
            high[row] = count
            if low[row] > count:
                return


def _branch(
    state: _Hunt, node: _Node, broken: list[tuple[int, float]], loose: float, plunge: bool
) -> _Node | None:
    row, total = _choice(state, node, broken, loose)
    whole = floor(total + 1e-6)
    part = total - whole
    fewer = [min(n, whole) if r == row else n for r, n in enumerate(node.high)]
    more = [max(n, whole + 1) if r == row else n for r, n in enumerate(node.low)]
    depth = node.depth + 1
    down = _Node(node.bound, depth, node.low, fewer, node.place, (row, 0, loose, part))
    up = _Node(node.bound, depth, more, node.high, node.place, (row, 1, loose, 1 - part))
    first, second = (up, down) if part > 0.5 else (down, up)
    _push(state, second)
    if plunge:
        return first
    _push(state, first)
    return None


def _choice(
    state: _Hunt, node: _Node, broken: list[tuple[int, float]], loose: float
) -> tuple[int, float]:
    """The number that promises to raise the bound most on both sides."""
    best, score, tried = broken[0], -1.0, 0
    for row, total in broken:
        part = total - floor(total + 1e-6)
        if tried < TRIED and min(_trust(state, row, 0), _trust(state, row, 1)) < TRUSTED:
            tried += 1
            down, up = _tried_out(state, node, row, total, loose)
        else:
            down = _guess(state, row, 0) * part
            up = _guess(state, row, 1) * (1 - part)
        here = max(down, 1e-4) * max(up, 1e-4)
        if here > score * 1.000001:
            best, score = (row, total), here
    return best


def _tried_out(
    state: _Hunt, node: _Node, row: int, total: float, loose: float
) -> tuple[float, float]:
    whole = floor(total + 1e-6)
    fewer = [min(n, whole) if r == row else n for r, n in enumerate(node.high)]
    more = [max(n, whole + 1) if r == row else n for r, n in enumerate(node.low)]
    gains = []
    for way, low, high in ((0, node.low, fewer), (1, more, node.high)):
        bounds = _bounds(state, low, high, node.place)
        gains.append(bounds[1] - loose if bounds else 50.0)
        if bounds:
            distance = total - whole if way == 0 else whole + 1 - total
            _learn(state, row, way, gains[-1], distance)
    return gains[0], gains[1]


def _learn(state: _Hunt, row: int, way: int, gain: float, distance: float) -> None:
    total, often = state.gains.get((row, way), (0.0, 0))
    state.gains[row, way] = total + max(gain, 0.0) / max(distance, 1e-3), often + 1


def _trust(state: _Hunt, row: int, way: int) -> int:
    return state.gains.get((row, way), (0.0, 0))[1]


def _guess(state: _Hunt, row: int, way: int) -> float:
    total, often = state.gains.get((row, way), (0.0, 0))
    return total / often if often else 1.0


def _try_later(state: _Hunt) -> bool:
    """Pack harder what was set apart; False when nothing is left to be packed."""
    state.later = sorted(
        (late for late in state.later if late.cost < state.below),
        key=lambda late: (late.nodes, late.cost),
    )
    if not state.later:
        return False
    late = state.later.pop(0)
    verdict, cuts = _pack(state, late.strips, late.nodes)
    if not (verdict == "packed" and _accept(state, cuts)) and verdict != "impossible":
        state.later.append(late._replace(nodes=late.nodes * HARDER))
    return True
