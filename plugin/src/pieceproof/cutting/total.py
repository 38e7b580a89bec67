"""Can all pieces be cut from strips of this total length? The cuts, a proof that not, or neither.

Goes in: the board, a rule, a length. Comes out: cuts no longer than that, or a proof that there
are none. Because the rule allows a small loss only, the fillings that can occur are few where the
length is near the least that the rule allows: they are all written down, and chosen from by a
program in whole numbers, tightened by rounding cuts and divided by numbers of strips.
"""

from collections.abc import Iterable, Iterator
from math import floor
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Cut, Filling, Slot, yields
from pieceproof.cutting.effort import Effort, GaveUpError
from pieceproof.cutting.knapsack import fillings_within, needed, tables
from pieceproof.cutting.packing import Packing
from pieceproof.cutting.rounding import (
    ROUNDS,
    Choice,
    Cutting,
    Group,
    Task,
    add_cuts,
    all_columns,
    cut_of,
    refused,
    right_of,
    set_cuts,
    task_of,
    tighten,
    used,
    useful,
)
from pieceproof.cutting.simplex import Corner, corner, minimise, repair
from pieceproof.cutting.supply import Rule

UNEVEN = 1e-5  # of costs, so that the simplex method does not go in circles
ROUNDS_BELOW = 3  # of rounding cuts after a division


class _Node(NamedTuple):
    """Cuts, the divisions among them, choices in use, a corner that belongs to them; a further
    division.
    """

    divisions: list[Cutting]
    cuts: list[Cutting]
    live: list[int]
    place: Corner
    division: Cutting | None


def within(
    board: Board,
    slots: dict[int, tuple[Slot, ...]],
    rule: Rule,
    length: int,
    spare: int,
    most: int,
    effort: Effort,
) -> Packing:
    """Cuts of at most this length; `spare` is what the rule lets be lost, in 1 / SCALE.

    Unknown where more than `most` fillings may occur.
    """
    choices = _choices(board, slots, rule, spare, most, effort)
    if choices is None:
        return "unknown", []
    try:
        return _search(_task(board, choices, length, effort))
    except GaveUpError:
        return "unknown", []


def _choices(
    board: Board,
    slots: dict[int, tuple[Slot, ...]],
    rule: Rule,
    loss: int,
    most: int,
    effort: Effort,
) -> list[Choice] | None:
    """All fillings that lose at most so much; None when they are more than `most`."""
    found: list[Choice] = []
    for height, some in slots.items():
        items = needed(some, list(rule.worth), list(board.need))
        best = tables(board.width, items, effort)
        left = loss - (board.heights[height] * SCALE - best.top)
        if left < 0:
            continue
        fillings = fillings_within(best, left, most - len(found), effort)
        if fillings is None:
            return None
        found += _different(board, height, fillings)
    return found


def _different(board: Board, height: int, fillings: list[Filling]) -> Iterator[Choice]:
    """One choice for fillings that make the same pieces: the one with the fewest segments."""
    best: dict[tuple[tuple[int, int], ...], Filling] = {}
    for filling in fillings:
        made = tuple(sorted((k, min(n, board.need[k])) for k, n in yields(filling).items()))
        if made not in best or _segments(filling) < _segments(best[made]):
            best[made] = filling
    return (Choice(height, filling, dict(made)) for made, filling in sorted(best.items()))


def _segments(filling: Filling) -> int:
    return sum(often for _, often in filling)


def _task(board: Board, choices: list[Choice], length: int, effort: Effort) -> Task:
    """All choices in one group: their heights, added up, must not exceed the length."""
    heights = {number: board.heights[choice.height] for number, choice in enumerate(choices)}
    costs = [
        height + UNEVEN * (1 + (number * 7919) % 101) / 101 for number, height in heights.items()
    ]
    missing = 3.0 * max(board.heights)
    group = Group(length, heights)
    return task_of(list(board.need), choices, [group], costs, missing, length + 1e-6, effort)


def _search(task: Task) -> Packing:
    """Depth first over divisions of the number of strips of some kind."""
    stack = [_Node([], [], task.live, corner(task.lp), None)]
    complete, rounds = True, ROUNDS
    while stack:
        if task.effort.spent:
            return "unknown", []
        _go_to(task, stack.pop())
        if refused(task, right_of(task), all_columns(task)) or tighten(task, rounds):
            continue
        rounds = ROUNDS_BELOW
        if _is_whole(task) and not _lacks(task):
            return "packed", _cuts(task)
        children = _divided(task)
        complete = complete and bool(children)
        stack += children
    return ("impossible" if complete else "unknown"), []


def _go_to(task: Task, node: _Node) -> None:
    task.divisions, task.live = node.divisions, node.live
    set_cuts(task, node.cuts, node.place)
    if node.division:
        add_cuts(task, [node.division])
        task.divisions = [*node.divisions, node.division]
    repair(task.lp, all_columns(task))
    minimise(task.lp, all_columns(task))


def _is_whole(task: Task) -> bool:
    return all(abs(amount - round(amount)) < 1e-6 for amount, _ in used(task))


def _lacks(task: Task) -> bool:
    """Whether the strips, rounded, are too long or do not make every piece."""
    cuts = _cuts(task)
    made = [0] * task.kinds
    for strips, _, filling in cuts:
        for kind, pieces in yields(filling).items():
            made[kind] += strips * pieces
    (group,) = task.groups
    length = sum(round(n) * group.entries[column - task.first] for n, column in used(task))
    return length > group.most or any(m < n for m, n in zip(made, task.need, strict=True))


def _cuts(task: Task) -> list[Cut]:
    return [cut_of(task, round(n), column) for n, column in used(task) if round(n)]


def _divided(task: Task) -> list[_Node]:
    """At most so many strips of a kind, or at least one more; empty if nothing can be divided.

    The kind whose number is nearest to a half: strips at least so high, strips of a height with
    at least so many pieces of a size, one filling.
    """
    best: tuple[float, int, frozenset[int], float] | None = None
    task.effort.spend(20 * len(task.live) * len(task.lp.right))
    strips = [(amount, column - task.first) for amount, column in used(task)]
    for rank, members in enumerate(_kinds_of_strips(task, [number for _, number in strips])):
        total = sum(amount for amount, number in strips if number in members)
        part = total - floor(total + 1e-6)
        if part > 1e-5:
            here = (
                abs(part - 0.5) + (0 if rank < len(task.lp.right) else 0.2),
                rank,
                members,
                total,
            )
            if best is None or here[:2] < best[:2]:
                best = here
    if best is None:
        return []
    _, _, members, total = best
    whole = floor(total + 1e-6)
    fewer = (dict.fromkeys(sorted(members), -1), -whole)
    more = (dict.fromkeys(sorted(members), 1), whole + 1)
    place, live = corner(task.lp), useful(task)
    nodes = [_Node(task.divisions, task.cuts, live, place, division) for division in (fewer, more)]
    return nodes if total - whole > 0.5 else nodes[::-1]


def _kinds_of_strips(task: Task, numbers: list[int]) -> Iterable[frozenset[int]]:
    """Sets of choices whose number of strips must be whole, without repetition."""
    choices = task.choices
    heights = sorted({choices[number].height for number in numbers}, reverse=True)
    for height in heights:
        yield frozenset(n for n in task.live if choices[n].height >= height)
    for height in heights:
        inside = [n for n in task.live if choices[n].height == height]
        seen = sorted(
            {
                pair
                for n in numbers
                if choices[n].height == height
                for pair in choices[n].pieces.items()
            }
        )
        for kind, pieces in seen:
            yield frozenset(n for n in inside if choices[n].pieces.get(kind, 0) >= pieces)
    for number in numbers:
        yield frozenset((number,))
