"""Given how many strips of each height are cut: which fillings make all the pieces, if any do.

Goes in: strips of each height, pieces needed, rules that leave little to spare. Comes out: the
fillings, or a proof that there are none, or neither. Because a rule allows only a small loss, the
fillings that can occur are few and are all written down; choosing among them is a small program
in whole numbers, tightened by rounding cuts (Gomory 1958; Chvatal, Discrete Mathematics 4 (1973)
305-337) and searched by fixing one filling after the other. Every refusal is checked exactly.
"""

from dataclasses import dataclass
from math import floor, lcm, sqrt
from typing import Literal, NamedTuple

from quicktions import Fraction

from pieceproof.cutting.board import Board, Cut, Filling, Slot, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.knapsack import fillings_within, needed, tables
from pieceproof.cutting.simplex import (
    Column,
    Corner,
    Program,
    corner,
    minimise,
    program,
    renew,
    repair,
    return_to,
)
from pieceproof.cutting.supply import Rule

Verdict = Literal["packed", "impossible", "unknown"]
Packing = tuple[Verdict, list[Cut]]

MISSING = 1000.0  # cost of a missing piece
PER_CUT = 1e-4  # cost of a cross-cut, so that of two packings the one with fewer is found
ROUNDS, PER_ROUND, MOST_CUTS = 30, 4, 40
QUICK = 12  # nodes before any rounding cut
FARTHEST = 8  # a filling's number of strips is tried down to so many below the program's
FILTERS = 6  # rules that each filling must pass
PROOF = 1 << 24


class Choice(NamedTuple):
    """A filling of a height, with the pieces it makes, no more than are needed."""

    height: int
    filling: Filling
    pieces: dict[int, int]


Cutting = tuple[dict[int, int], int]  # sum of entries x strips of a choice >= right-hand side


@dataclass(slots=True)
class Task:
    """The whole-number program: rows are kinds, heights, cuts; columns in the same blocks."""

    kinds: int
    heights: list[int]
    choices: list[Choice]
    right: list[int]
    cuts: list[Cutting]
    lp: Program
    effort: Effort

    @property
    def first(self) -> int:
        """Number of the first choice's column."""
        return 2 * self.kinds + len(self.heights)

    @property
    def rows(self) -> int:
        """Rows without cuts."""
        return self.kinds + len(self.heights)


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
    items = needed(slots, list(near[0][1].worth), need)
    found = tables(board.width, items, effort)
    top = near[0][1].holds[height]
    fillings = fillings_within(found, loss - (top - found.top), max(most, 0), effort)
    if fillings is None:
        return None
    best: dict[tuple[tuple[int, int], ...], Filling] = {}
    for filling in fillings:
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
    kinds, right = len(need), [*need, *strips]
    lp = program(
        *_columns(kinds, heights, choices, []),
        [float(entry) for entry in right],
        list(range(len(right))),
        effort,
    )
    return Task(kinds, heights, choices, right, [], lp, effort)


def _columns(
    kinds: int, heights: list[int], choices: list[Choice], cuts: list[Cutting]
) -> tuple[list[Column], list[float]]:
    """Missing pieces, idle strips, surplus pieces, choices, then surplus and lack of each cut."""
    rows = kinds + len(heights)
    columns: list[Column] = [[(row, 1.0)] for row in range(rows)]
    columns += [[(kind, -1.0)] for kind in range(kinds)]
    costs = [MISSING] * kinds + [0.0] * rows
    first = len(columns)
    for number, choice in enumerate(choices):
        pieces = [(kind, float(n)) for kind, n in sorted(choice.pieces.items())]
        columns.append([*pieces, (kinds + heights.index(choice.height), 1.0)])
        uneven = (1 + (number * 7919) % 101) / 101
        costs.append(PER_CUT * (_segments(choice.filling) + uneven))
    for row, (entries, _) in enumerate(cuts, rows):
        for number, entry in sorted(entries.items()):
            columns[first + number].append((row, float(entry)))
        columns += [[(row, -1.0)], [(row, 1.0)]]
        costs += [0.0, MISSING]
    return columns, costs


def _solve(task: Task, nodes: int) -> Packing:
    lp = task.lp
    minimise(lp, _all_columns(task))
    if _refused(task, task.right, _all_columns(task)):
        return "impossible", []
    start = corner(lp)
    verdict, cuts = _search(task, QUICK)
    if verdict != "unknown":
        return verdict, cuts
    _at(task, _right(task), start)
    if _tighten(task):
        return "impossible", []
    return _search(task, nodes)


def _all_columns(task: Task) -> list[int]:
    return list(range(len(task.lp.columns)))


def _right(task: Task) -> list[int]:
    return task.right + [right for _, right in task.cuts]


def _at(task: Task, right: list[int], place: Corner) -> None:
    task.lp.right = [float(entry) for entry in right]
    return_to(task.lp, place)


def _tighten(task: Task) -> bool:
    """Rounding cuts, round after round; True when they show that nothing fits."""
    lp = task.lp
    for _ in range(ROUNDS):
        new = _rounding_cuts(task)
        if not new:
            return False
        first = len(lp.columns)
        basis = [*lp.basis, *(first + 2 * number for number in range(len(new)))]
        _rebuild(task, task.cuts + new, basis)
        repair(lp, _all_columns(task))
        minimise(lp, _all_columns(task))
        if _refused(task, _right(task), _all_columns(task)):
            return True
        _drop_slack_cuts(task)
        if len(task.cuts) > MOST_CUTS:
            return False
    return False


def _rebuild(task: Task, cuts: list[Cutting], basis: list[int]) -> None:
    lp = task.lp
    task.cuts = cuts
    lp.columns, lp.costs = _columns(task.kinds, task.heights, task.choices, cuts)
    lp.right, lp.basis = [float(entry) for entry in _right(task)], basis
    renew(lp)


def _drop_slack_cuts(task: Task) -> None:
    """Cuts that do not bind now are forgotten."""
    first = task.first + len(task.choices)
    basic = set(task.lp.basis)
    kept = [number for number in range(len(task.cuts)) if first + 2 * number not in basic]
    if len(kept) == len(task.cuts):
        return
    place = {number: new for new, number in enumerate(kept)}
    basis = []
    for column in task.lp.basis:
        number, side = divmod(column - first, 2)
        if column < first:
            basis.append(column)
        elif number in place:
            basis.append(first + 2 * place[number] + side)
    _rebuild(task, [task.cuts[number] for number in kept], basis)


def _rounding_cuts(task: Task) -> list[Cutting]:
    """The deepest cuts from basic columns with broken amounts."""
    lp = task.lp
    broken = sorted(
        (abs(amount - floor(amount + 1e-6) - 0.5), row)
        for row, amount in enumerate(lp.amounts)
        if 0.02 < amount - floor(amount + 1e-6) < 0.98
    )
    found: list[tuple[float, int, Cutting]] = []
    for _, row in broken[: 2 * PER_ROUND]:
        for sign in (1, -1):
            cut = _rounding_cut(task, [sign * share for share in lp.inverse[row]])
            if cut and (depth := _depth(task, cut)) > 0.01:
                found.append((-depth, len(found), cut))
    found.sort(key=lambda entry: entry[:2])
    return [cut for _, _, cut in found[:PER_ROUND]]


def _rounding_cut(task: Task, shares: list[float]) -> Cutting | None:
    """Rows with the broken part of their shares added up, every entry rounded up.

    Any shares that are not negative give a valid cut, so the shares may be rounded to fractions.
    """
    weights: dict[int, Fraction] = {}
    for row, share in enumerate(shares):
        part = -share if task.kinds <= row < task.rows else share
        part -= floor(part + 1e-9)
        if part < 1e-9:
            continue
        simple = Fraction(part).limit_denominator(400)
        if abs(part - simple.numerator / simple.denominator) > 1e-8:
            return None
        weights[row] = simple
    whole = lcm(*(weight.denominator for weight in weights.values()))
    if not weights or whole > 100_000:
        return None
    signed = {
        row: int(weight * whole) * (-1 if task.kinds <= row < task.rows else 1)
        for row, weight in weights.items()
    }
    right = _right(task)
    entries = {}
    for number in range(len(task.choices)):
        total = 0
        for row, entry in task.lp.columns[task.first + number]:
            if row in signed:
                total += signed[row] * int(entry)
        if rounded_up := -(-total // whole):
            entries[number] = rounded_up
    task.effort.spend(12 * len(task.choices) + 200)
    return entries, -(-sum(weight * right[row] for row, weight in signed.items()) // whole)


def _depth(task: Task, cut: Cutting) -> float:
    entries, right = cut
    lp, left, length = task.lp, 0.0, 0
    for column, amount in zip(lp.basis, lp.amounts, strict=True):
        left += entries.get(column - task.first, 0) * amount
    for entry in entries.values():
        length += entry * entry
    return (right - left) / sqrt(max(length, 1))


def _refused(task: Task, right: list[int], active: list[int]) -> bool:
    """Whether pieces are missing, proved by Farkas' lemma in whole numbers.

    Rows added up with weights that are not negative must not ask for more than all choices, each
    at most as often as there are strips of its height, can give.
    """
    lp, kinds = task.lp, task.kinds
    if not _lacking(task, active):
        return False
    weights = [int(price * PROOF) for price in lp.prices]
    for row, weight in enumerate(weights):
        is_strips = kinds <= row < task.rows
        weights[row] = min(weight, 0) if is_strips else max(weight, 0)
    asked = sum(weight * entry for weight, entry in zip(weights, right, strict=True))
    most: dict[int, int] = {}
    last = task.first + len(task.choices)
    for column in active:
        if task.first <= column < last:
            given = 0
            for row, entry in lp.columns[column]:
                given += weights[row] * int(entry)
            height = task.choices[column - task.first].height
            most[height] = max(most.get(height, 0), given)
    task.effort.spend(10 * len(active))
    for row, height in enumerate(task.heights, kinds):
        asked -= most.get(height, 0) * max(0, right[row])
    return asked > 0


class _Node(NamedTuple):
    right: list[int]
    active: list[int]
    place: Corner
    fixed: list[Cut]


def _search(task: Task, nodes: int) -> Packing:
    """Depth first; each step fixes how many strips get one filling."""
    stack = [_Node(_right(task), _all_columns(task), corner(task.lp), [])]
    complete = True
    while stack:
        if nodes <= 0 or task.effort.spent:
            return "unknown", []
        nodes -= 1
        node = stack.pop()
        _vertex(task, node)
        if _refused(task, node.right, node.active):
            continue
        used = _used(task)
        if _lacking(task, node.active):
            complete = False
        elif all(abs(amount - round(amount)) < 1e-6 for amount, _ in used):
            return "packed", [*node.fixed, *(_cut(task, round(n), column) for n, column in used)]
        else:
            children, all_of_them = _children(task, node, used)
            complete = complete and all_of_them
            stack += children
    return ("impossible" if complete else "unknown"), []


def _vertex(task: Task, node: _Node) -> None:
    """Solve the node's program; columns that it gave up must leave the basis."""
    lp, active = task.lp, set(node.active)
    _at(task, node.right, node.place)
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


def _lacking(task: Task, active: list[int]) -> bool:
    """Whether something is missing, or was given up and is used all the same."""
    lp, allowed = task.lp, set(active)
    return any(
        amount > 1e-6 and (column not in allowed or lp.costs[column] >= MISSING)
        for column, amount in zip(lp.basis, lp.amounts, strict=True)
    )


def _used(task: Task) -> list[tuple[float, int]]:
    last = task.first + len(task.choices)
    return [
        (amount, column)
        for column, amount in zip(task.lp.basis, task.lp.amounts, strict=True)
        if task.first <= column < last and amount > 1e-7
    ]


def _cut(task: Task, strips: int, column: int) -> Cut:
    choice = task.choices[column - task.first]
    return strips, choice.height, choice.filling


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
    fixed = [*node.fixed, _cut(task, strips, column)] if strips else node.fixed
    return _Node(right, active, place, fixed)
