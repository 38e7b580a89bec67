"""Given how many strips of each height are cut: which fillings make all the pieces, if any do.

Goes in: strips of each height, pieces needed, rules that leave little to spare. Comes out: the
fillings, or a proof that there are none, or neither. Because a rule allows only a small loss, the
fillings that can occur are few and are all written down; choosing among them is a small program
in whole numbers, tightened by rounding cuts (Gomory 1958; Chvatal, Discrete Mathematics 4 (1973)
305-337) and searched by fixing one filling after the other. Every refusal is checked exactly.
"""

from math import floor
from typing import Literal, NamedTuple

from pieceproof.cutting.board import Board, Cut, Filling, Slot, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.few.rounding import (
    Choice,
    Group,
    Task,
    all_columns,
    at,
    cut_of,
    lacking,
    refused,
    right_of,
    task_of,
    tighten,
    used,
)
from pieceproof.cutting.few.supply import Rule
from pieceproof.cutting.knapsack import filling_of, fillings_within, items_of, table
from pieceproof.cutting.simplex import Corner, corner, minimise, repair, return_to

Verdict = Literal["packed", "impossible", "unknown"]
Packing = tuple[Verdict, list[Cut]]

MISSING = 1000.0  # cost of a missing piece
PER_CUT = 1e-4  # cost of a cross-cut, so that of two packings the one with fewer is found
QUICK = 12  # nodes before any rounding cut
FARTHEST = 8  # a filling's number of strips is tried down to so many below the program's
FILTERS = 6  # rules that each filling must pass


def pack(
    board: Board,
    slots: dict[int, tuple[Slot, ...]],
    strips: dict[int, int],
    rules: list[Rule],
    nodes: int,
    most: int,
    effort: Effort,
) -> Packing:
    """Fillings for the strips; `most` choices and `nodes` of search are looked at."""
    heights = [height for height in sorted(strips) if strips[height] > 0]
    spare = sorted(
        (sum(rule.holds[h] * strips[h] for h in heights) - rule.total, number)
        for number, rule in enumerate(rules)
        if all(h in rule.holds for h in heights)
    )
    near = [(loss, rules[number]) for loss, number in spare[:FILTERS]]
    choices, whole = _choices(board, slots, heights, near, most, effort)
    if not choices and not whole:
        return "unknown", []
    task = _task(list(board.need), heights, [strips[h] for h in heights], choices, effort)
    verdict, cuts = _solve(task, nodes)
    return ("unknown", []) if verdict == "impossible" and not whole else (verdict, cuts)


def _choices(
    board: Board,
    slots: dict[int, tuple[Slot, ...]],
    heights: list[int],
    near: list[tuple[int, Rule]],
    most: int,
    effort: Effort,
) -> tuple[list[Choice], bool]:
    """All fillings that the rules allow; fewer, and False, when they would be too many."""
    loss = near[0][0]
    for share in (loss, loss // 3, loss // 9, loss // 27):
        found: list[Choice] = []
        for height in heights:
            some = _of_height(board, slots[height], height, near, share, most - len(found), effort)
            if some is None:
                break
            found += some
        else:
            return found, share == loss
    return [], False


def _of_height(
    board: Board,
    slots: tuple[Slot, ...],
    height: int,
    near: list[tuple[int, Rule]],
    loss: int,
    most: int,
    effort: Effort,
) -> list[Choice] | None:
    need = list(board.need)
    items = items_of(slots, list(near[0][1].worth), need)
    found = table(board.width, items, effort)
    top = near[0][1].holds[height]
    fillings = fillings_within(found, loss - (top - found.top), max(most, 0), effort)
    if fillings is None:
        return None
    best: dict[tuple[tuple[int, int], ...], Filling] = {}
    for counts in fillings:
        filling = filling_of(found, counts)
        made = yields(filling)
        if all(_passes(rule, made, height, spare) for spare, rule in near[1:]):
            kept = tuple(sorted((kind, min(n, need[kind])) for kind, n in made.items()))
            if kept not in best or _segments(filling) < _segments(best[kept]):
                best[kept] = filling
    choices = [Choice(height, filling, dict(kept)) for kept, filling in sorted(best.items())]
    effort.spend(10 * len(choices) * len(choices))
    return [one for one in choices if not any(_better(other, one) for other in choices)]


def _passes(rule: Rule, made: dict[int, int], height: int, spare: int) -> bool:
    return rule.holds[height] - sum(rule.worth[kind] * n for kind, n in made.items()) <= spare


def _segments(filling: Filling) -> int:
    return sum(often for _, often in filling)


def _better(one: Choice, other: Choice) -> bool:
    return one is not other and all(
        one.pieces.get(kind, 0) >= pieces for kind, pieces in other.pieces.items()
    )


def _task(
    need: list[int], heights: list[int], strips: list[int], choices: list[Choice], effort: Effort
) -> Task:
    """Pieces may be missing at a cost; a strip's filling costs its cross-cuts."""
    groups = [
        Group(most, {number: 1 for number, one in enumerate(choices) if one.height == height})
        for height, most in zip(heights, strips, strict=True)
    ]
    costs = [
        PER_CUT * (_segments(choice.filling) + (1 + (number * 7919) % 101) / 101)
        for number, choice in enumerate(choices)
    ]
    return task_of(need, choices, groups, costs, MISSING, float("inf"), effort)


def _solve(task: Task, nodes: int) -> Packing:
    lp = task.lp
    minimise(lp, all_columns(task))
    if refused(task, right_of(task), all_columns(task)):
        return "impossible", []
    start = corner(lp)
    verdict, cuts = _search(task, QUICK)
    if verdict != "unknown":
        return verdict, cuts
    at(task, right_of(task), start)
    if tighten(task):
        return "impossible", []
    return _search(task, nodes)


class _Node(NamedTuple):
    right: list[int]
    active: list[int]
    place: Corner
    fixed: list[Cut]


def _search(task: Task, nodes: int) -> Packing:
    """Depth first; each step fixes how many strips get one filling."""
    stack = [_Node(right_of(task), all_columns(task), corner(task.lp), [])]
    complete = True
    while stack:
        if nodes <= 0 or task.effort.spent:
            return "unknown", []
        nodes -= 1
        node = stack.pop()
        _vertex(task, node)
        if refused(task, node.right, node.active):
            continue
        found = used(task)
        if lacking(task, node.active):
            complete = False
        elif all(abs(amount - round(amount)) < 1e-6 for amount, _ in found):
            return "packed", [*node.fixed, *(cut_of(task, round(n), column) for n, column in found)]
        else:
            children, all_of_them = _children(task, node, found)
            complete = complete and all_of_them
            stack += children
    return ("impossible" if complete else "unknown"), []


def _vertex(task: Task, node: _Node) -> None:
    """Solve the node's program; columns that it gave up must leave the basis."""
    lp, active = task.lp, set(node.active)
    at(task, node.right, node.place)
    gone = {column: lp.costs[column] for column in lp.basis if column not in active}
    for column in gone:
        lp.costs[column] = MISSING
    if gone:
        return_to(lp, node.place)
    repair(lp, node.active)
    minimise(lp, node.active)
    # the prices keep the costs of the columns given up until the next vertex
    for column, cost in gone.items():
        lp.costs[column] = cost


def _children(task: Task, node: _Node, used: list[tuple[float, int]]) -> tuple[list[_Node], bool]:
    """One strip more of the filling nearest to that, or exactly so many and no more of it."""
    amount, column = max(
        used, key=lambda entry: (round(entry[0] - floor(entry[0] + 1e-6), 6), -entry[1])
    )
    whole = floor(amount + 1e-6)
    place = corner(task.lp)
    fewest = max(0, whole - FARTHEST)
    without = [number for number in node.active if number != column]
    children = [_child(task, node, place, column, n, without) for n in range(fewest, whole + 1)]
    children.append(_child(task, node, place, column, whole + 1, node.active))
    return children, fewest == 0


def _child(
    task: Task, node: _Node, place: Corner, column: int, strips: int, active: list[int]
) -> _Node:
    right = list(node.right)
    for row, entry in task.lp.columns[column]:
        right[row] -= int(entry) * strips
    fixed = [*node.fixed, cut_of(task, strips, column)] if strips else node.fixed
    return _Node(right, active, place, fixed)
