"""A program in whole numbers over fillings of strips, tightened by rounding cuts.

Goes in: fillings, pieces needed, limits for groups of fillings. Comes out: vertices of the program
and refusals proved in whole numbers. Rounding cuts: Gomory 1958; Chvatal, Discrete Mathematics 4
(1973) 305-337. It decides nothing about fillings; packing and total search with it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, gcd, lcm, sqrt
from typing import NamedTuple

from quicktions import Fraction

from pieceproof.cutting.board import Cut, Filling
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.simplex import (
    Column,
    Corner,
    Program,
    add_row,
    minimise,
    price,
    program,
    repair,
    return_to,
    value,
    weigh,
)

ROUNDS, PER_ROUND, MOST_CUTS = 30, 4, 40
FINE = 1000  # largest denominator of a mixed cut
PROOF = 1 << 24


class Choice(NamedTuple):
    """A filling of a height, with the pieces it makes, no more than are needed."""

    height: int
    filling: Filling
    pieces: dict[int, int]


Cutting = tuple[dict[int, int], int]  # sum of entries x strips of a choice >= right-hand side


@dataclass(frozen=True, slots=True)
class Group:
    """Choices that share a limit: `entry` of each, added up, must not exceed `most`."""

    most: int
    entries: dict[int, int]


@dataclass(slots=True)
class Task:
    """Rows are kinds, groups, cuts; columns are what is missing in kinds or idle in groups,
    surplus pieces, choices, then surplus and lack of each cut. Every choice is in one group.
    """

    need: list[int]
    choices: list[Choice]
    groups: list[Group]
    costs: list[float]
    missing: float
    limit: float
    cuts: list[Cutting]
    divisions: list[Cutting]  # cuts that are no consequence of the rest, and never dropped
    live: list[int]  # numbers of the choices that may still be used
    lp: Program
    effort: Effort

    @property
    def kinds(self) -> int:
        """How many kinds there are."""
        return len(self.need)

    @property
    def rows(self) -> int:
        """Rows without cuts."""
        return len(self.need) + len(self.groups)

    @property
    def first(self) -> int:
        """Number of the first choice's column."""
        return self.rows + len(self.need)


def task_of(
    need: list[int],
    choices: list[Choice],
    groups: list[Group],
    costs: list[float],
    missing: float,
    limit: float,
    effort: Effort,
) -> Task:
    """A task without cuts at its first vertex; a choice costs `costs`, a missing piece `missing`.

    A vertex that costs more than `limit` is to be refused.
    """
    columns, prices = _columns(need, choices, groups, costs, missing, [])
    right = [float(entry) for entry in (*need, *(group.most for group in groups))]
    lp = program(columns, prices, right, list(range(len(right))), effort)
    return Task(
        need, choices, groups, costs, missing, limit, [], [], list(range(len(choices))), lp, effort
    )


def all_columns(task: Task) -> list[int]:
    """Every column of the program but those of choices that are out of use."""
    first = task.first
    last = first + len(task.choices)
    choices = [first + number for number in task.live]
    return [*range(first), *choices, *range(last, len(task.lp.columns))]


def right_of(task: Task) -> list[int]:
    """The right-hand sides of kinds, groups and cuts."""
    return [*task.need, *(group.most for group in task.groups), *(cut[1] for cut in task.cuts)]


def at(task: Task, right: list[int], place: Corner) -> None:
    """Come back to a corner with these right-hand sides."""
    task.lp.right = [float(entry) for entry in right]
    return_to(task.lp, place)


def used(task: Task) -> list[tuple[float, int]]:
    """Strips of each choice at the vertex, with the number of its column."""
    last = task.first + len(task.choices)
    return [
        (amount, column)
        for column, amount in zip(task.lp.basis, task.lp.amounts, strict=True)
        if task.first <= column < last and amount > 1e-7
    ]


def cut_of(task: Task, strips: int, column: int) -> Cut:
    """Strips of the column's choice."""
    choice = task.choices[column - task.first]
    return strips, choice.height, choice.filling


def lacking(task: Task, active: list[int]) -> bool:
    """Whether something is missing, or was given up and is used all the same."""
    lp, allowed = task.lp, set(active)
    return any(
        amount > 1e-6 and (column not in allowed or lp.costs[column] >= task.missing)
        for column, amount in zip(lp.basis, lp.amounts, strict=True)
    )


def tighten(task: Task, rounds: int = ROUNDS) -> bool:
    """Rounding cuts, round after round; True when they show that nothing fits."""
    lp = task.lp
    for _ in range(rounds):
        new = _rounding_cuts(task)
        if not new or len(task.cuts) + len(new) > MOST_CUTS:
            break
        add_cuts(task, new)
        repair(lp, all_columns(task))
        minimise(lp, all_columns(task))
        if refused(task, right_of(task), all_columns(task)):
            return True
    _drop_slack_cuts(task)
    return False


def add_cuts(task: Task, new: Sequence[Cutting]) -> None:
    """Further cuts, their surplus basic; the vertex may break them."""
    lp = task.lp
    for entries, right in new:
        row = len(lp.right)
        for number, entry in sorted(entries.items()):
            lp.columns[task.first + number].append((row, float(entry)))
        surplus = len(lp.columns)
        lp.columns += [[(row, -1.0)], [(row, 1.0)]]
        lp.costs += [0.0, task.missing]
        by_column = ((task.first + number, float(entry)) for number, entry in entries.items())
        add_row(lp, by_column, float(right), surplus)
        lp.effort.spend(4 * row * row)
    task.cuts = [*task.cuts, *new]
    price(lp)
    weigh(lp)


def set_cuts(task: Task, cuts: Sequence[Cutting], place: Corner) -> None:
    """Other cuts altogether, at a corner that belongs to them."""
    lp, task.cuts = task.lp, list(cuts)
    lp.columns, lp.costs = _columns(
        task.need, task.choices, task.groups, task.costs, task.missing, task.cuts
    )
    lp.effort.spend(6 * len(task.choices) * (4 + len(task.cuts)))
    at(task, right_of(task), place)


def _drop_slack_cuts(task: Task) -> None:
    """Cuts that do not bind now are forgotten, with their row and column of the inverse."""
    lp, first = task.lp, task.first + len(task.choices)
    gone = {
        number
        for number, cut in enumerate(task.cuts)
        if first + 2 * number in lp.basis and not any(cut is one for one in task.divisions)
    }
    if not gone:
        return
    kept = [number for number in range(len(task.cuts)) if number not in gone]
    place = {number: new for new, number in enumerate(kept)}
    rows = [*range(task.rows), *(task.rows + number for number in kept)]
    basis, inverse = [], []
    for column, shares in zip(lp.basis, lp.inverse, strict=True):
        number, side = divmod(column - first, 2)
        if column < first or number in place:
            basis.append(column if column < first else first + 2 * place[number] + side)
            inverse.append([shares[row] for row in rows])
    set_cuts(task, [task.cuts[number] for number in kept], (basis, inverse, lp.age))


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
    task.effort.spend(20 * len(task.choices) + 200)
    signed = {
        row: int(weight * whole) * (-1 if task.kinds <= row < task.rows else 1)
        for row, weight in weights.items()
    }
    right = right_of(task)
    total = sum(weight * right[row] for row, weight in signed.items())
    part = total % whole
    if not part:
        return None
    if whole > FINE:
        return _rounded_up(task, signed, whole, total)
    return _mixed(task, signed, whole, total)


def _rounded_up(task: Task, signed: dict[int, int], whole: int, total: int) -> Cutting:
    sums = _sums(task, signed)
    entries = {number: -(-each // whole) for number, each in sums.items() if each > 0}
    entries.update({n: -(-each // whole) for n, each in sums.items() if each <= -whole})
    return dict(sorted(entries.items())), -(-total // whole)


def _mixed(task: Task, signed: dict[int, int], whole: int, total: int) -> Cutting:
    """The stronger cut of Nemhauser and Wolsey, Math. Program. 46 (1990) 379-390: what an entry
    has beyond a whole number counts no more than what the right-hand side has beyond one.

    Surplus in a row is a whole number too; where its entry helps, the row itself is added.
    """
    part = total % whole
    rows = {
        row: gain * (1 if weight > 0 else -1)
        for row, weight in signed.items()
        if (gain := min(0, whole - abs(weight) - part))
    }
    right = right_of(task)
    limit = part * -(-total // whole) + sum(gain * right[row] for row, gain in rows.items())
    added = _sums(task, rows)
    entries = {}
    for number, each in _sums(task, signed).items():
        times, rest = divmod(each, whole)
        if entry := part * times + min(part, rest) + added.get(number, 0):
            entries[number] = entry
    common = gcd(limit, *entries.values())
    return {number: entry // common for number, entry in entries.items()}, limit // common


def _sums(task: Task, weights: dict[int, int]) -> dict[int, int]:
    """For each live choice, its entries in the rows, weighted and added up."""
    columns, first, sums = task.lp.columns, task.first, {}
    for number in task.live:
        total = 0
        for row, entry in columns[first + number]:
            if row in weights:
                total += weights[row] * int(entry)
        sums[number] = total
    return sums


def _depth(task: Task, cut: Cutting) -> float:
    entries, right = cut
    lp, left, length = task.lp, 0.0, 0
    for column, amount in zip(lp.basis, lp.amounts, strict=True):
        left += entries.get(column - task.first, 0) * amount
    for entry in entries.values():
        length += entry * entry
    return (right - left) / sqrt(max(length, 1))


def refused(task: Task, right: list[int], active: list[int]) -> bool:
    """Whether the vertex is beyond the limit and that is proved, by Farkas' lemma in whole numbers.

    Rows added up with weights that are not negative must not ask for more than the choices can
    give within the limits of their groups.
    """
    if value(task.lp) <= task.limit and not lacking(task, active):
        return False
    weights = _weights(task)
    asked = sum(weight * entry for weight, entry in zip(weights, right, strict=True))
    last = task.first + len(task.choices)
    numbers = [column - task.first for column in active if task.first <= column < last]
    given = _given(task, weights, numbers)
    for row, group in enumerate(task.groups, task.kinds):
        best, per = _best(group, given)
        asked -= -(-best * max(0, right[row]) // per)
    return asked > 0


def useful(task: Task) -> list[int]:
    """The live choices without those of which not even one can be used within the limit.

    For a task of one group. One of the choice, and the best for what is left of the limit, would
    not give what the rows ask for.
    """
    (group,), weights = task.groups, _weights(task)
    asked = sum(w * entry for w, entry in zip(weights, right_of(task), strict=True))
    given = _given(task, weights, task.live)
    best, per = _best(group, given)
    return [
        number
        for number in task.live
        if asked * per <= given[number] * per + best * (group.most - group.entries[number])
    ]


def _weights(task: Task) -> list[int]:
    """The prices as whole numbers of the right sign."""
    weights = [int(price * PROOF) for price in task.lp.prices]
    for row, weight in enumerate(weights):
        is_group = task.kinds <= row < task.rows
        weights[row] = min(weight, 0) if is_group else max(weight, 0)
    return weights


def _given(task: Task, weights: list[int], numbers: list[int]) -> dict[int, int]:
    """What one of each choice gives."""
    given = {}
    columns, first = task.lp.columns, task.first
    for number in numbers:
        total = 0
        for row, share in columns[first + number]:
            total += weights[row] * int(share)
        given[number] = total
    task.effort.spend(10 * len(numbers))
    return given


def _best(group: Group, given: dict[int, int]) -> tuple[int, int]:
    """The most that a choice of the group gives, per so much of the group's limit."""
    best, per = 0, 1
    for number, entry in group.entries.items():
        if number in given and given[number] * per > best * entry:
            best, per = given[number], entry
    return best, per


def _columns(
    need: list[int],
    choices: list[Choice],
    groups: list[Group],
    choice_costs: list[float],
    missing: float,
    cuts: list[Cutting],
) -> tuple[list[Column], list[float]]:
    kinds, rows = len(need), len(need) + len(groups)
    columns: list[Column] = [[(row, 1.0)] for row in range(rows)]
    columns += [[(kind, -1.0)] for kind in range(kinds)]
    costs = [missing] * kinds + [0.0] * rows + choice_costs
    first = len(columns)
    for choice in choices:
        columns.append([(kind, float(n)) for kind, n in sorted(choice.pieces.items())])
    for row, group in enumerate(groups, kinds):
        for number, entry in group.entries.items():
            columns[first + number].append((row, float(entry)))
    for row, (entries, _) in enumerate(cuts, rows):
        for number, entry in sorted(entries.items()):
            columns[first + number].append((row, float(entry)))
        columns += [[(row, -1.0)], [(row, 1.0)]]
        costs += [0.0, missing]
    return columns, costs
