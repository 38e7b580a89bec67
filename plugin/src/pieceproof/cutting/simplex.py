"""Small linear programs: minimise cost over columns that are not negative, rows as equations.

Goes in: sparse columns, costs, right-hand sides, a basis to start from. Comes out: a vertex and
its row prices. Plain double arithmetic in a fixed order, so the same on every machine; whoever
draws a proof from it checks the proof in whole numbers.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from pieceproof.cutting.effort import Effort, GaveUpError

Column = list[tuple[int, float]]

TOLERANCE = 1e-7
PIVOT = 1e-9
RENEW = 100  # pivots until the inverse is computed afresh
SHORT_LIST = 12


@dataclass(slots=True)
class Program:
    """`inverse` belongs to the basis; `amounts` are the basic columns', `prices` the rows'."""

    columns: list[Column]
    costs: list[float]
    right: list[float]
    basis: list[int]
    inverse: list[list[float]]
    amounts: list[float]
    prices: list[float]
    age: int
    effort: Effort


Corner = tuple[list[int], list[list[float]], int]  # basis, inverse, age


def program(
    columns: list[Column], costs: list[float], right: list[float], basis: list[int], effort: Effort
) -> Program:
    """A program whose starting basis has one entry in each row."""
    rows = len(right)
    inverse = [[0.0] * rows for _ in range(rows)]
    for row in range(rows):
        inverse[row][row] = 1.0 / columns[basis[row]][0][1]
    started = Program(columns, costs, right, list(basis), inverse, [], [], 0, effort)
    price(started)
    weigh(started)
    return started


def corner(lp: Program) -> Corner:
    """What is needed to come back here; rows are replaced and never changed, so this is cheap."""
    return list(lp.basis), list(lp.inverse), lp.age


def return_to(lp: Program, place: Corner) -> None:
    """Come back to a corner, with the right-hand sides and costs of now."""
    lp.basis, lp.inverse, lp.age = list(place[0]), list(place[1]), place[2]
    price(lp)
    weigh(lp)


def weigh(lp: Program) -> None:
    """The amounts of the basic columns."""
    lp.amounts = [_dot(row, lp.right) for row in lp.inverse]


def price(lp: Program) -> None:
    """The prices of the rows."""
    prices = [0.0] * len(lp.right)
    for number, row in zip(lp.basis, lp.inverse, strict=True):
        cost = lp.costs[number]
        if cost:
            prices = [paid + cost * share for paid, share in zip(prices, row, strict=True)]
    lp.prices = prices


def value(lp: Program) -> float:
    """The cost of the vertex."""
    total = 0.0
    for number, amount in zip(lp.basis, lp.amounts, strict=True):
        total += lp.costs[number] * amount
    return total


def renew(lp: Program) -> None:
    """The inverse afresh from the basis."""
    rows = len(lp.right)
    work = [[0.0] * rows + [float(row == col) for col in range(rows)] for row in range(rows)]
    for place, number in enumerate(lp.basis):
        for row, entry in lp.columns[number]:
            work[row][place] = entry
    for place in range(rows):
        chosen = place
        for row in range(place + 1, rows):
            if abs(work[row][place]) > abs(work[chosen][place]) + 1e-12:
                chosen = row
        if abs(work[chosen][place]) < 1e-11:
            raise GaveUpError
        work[place], work[chosen] = work[chosen], work[place]
        _clear(work, place)
    lp.effort.spend(2 * rows * rows * rows)
    lp.inverse, lp.age = [row[rows:] for row in work], 0
    price(lp)
    weigh(lp)


def minimise(lp: Program, active: list[int]) -> bool:
    """To the best vertex from one whose amounts are not negative; False when without bound."""
    short: list[int] = []
    for _ in range(40 * (len(lp.right) + 10)):
        if lp.age >= RENEW:
            renew(lp)
        entering, saving, short = _entering(lp, active, short)
        if entering < 0:
            return True
        column = _in_basis(lp, entering)
        leaving = _leaving(lp, column)
        if leaving < 0:
            return False
        _pivot(lp, leaving, entering, column, saving)
    raise GaveUpError


def exchange(lp: Program, entering: int) -> None:
    """Bring a column in that saves nothing and costs nothing."""
    column = _in_basis(lp, entering)
    leaving = _leaving(lp, column)
    if leaving >= 0:
        _pivot(lp, leaving, entering, column, 0.0)


def repair(lp: Program, active: list[int]) -> None:
    """To amounts that are not negative, keeping the prices right; a way out must exist."""
    for _ in range(40 * (len(lp.right) + 10)):
        if lp.age >= RENEW:
            renew(lp)
        leaving, worst = -1, -TOLERANCE
        for row, amount in enumerate(lp.amounts):
            if amount < worst:
                leaving, worst = row, amount
        if leaving < 0:
            return
        entering, saving = _replacing(lp, active, lp.inverse[leaving])
        if entering < 0:
            raise GaveUpError
        _pivot(lp, leaving, entering, _in_basis(lp, entering), saving)
    raise GaveUpError


def add_row(lp: Program, entries: Iterable[tuple[int, float]], right: float, slack: int) -> None:
    """A further equation; the column `slack` has its only entry there and becomes basic."""
    row = len(lp.right)
    by_column = dict(entries)
    sign = lp.columns[slack][0][1]
    new = [0.0] * row
    for number, old in zip(lp.basis, lp.inverse, strict=True):
        entry = by_column.get(number)
        if entry:
            new = [share - entry * other for share, other in zip(new, old, strict=True)]
    lp.inverse = [[*old, 0.0] for old in lp.inverse]
    lp.inverse.append([share / sign for share in new] + [1.0 / sign])
    lp.basis.append(slack)
    lp.right.append(right)


def _dot(row: list[float], other: list[float]) -> float:
    total = 0.0
    for one, two in zip(row, other, strict=True):
        total += one * two
    return total


def _clear(work: list[list[float]], place: int) -> None:
    pivot = work[place][place]
    clean = work[place] = [entry / pivot for entry in work[place]]
    for row, entries in enumerate(work):
        factor = entries[place]
        if row != place and factor:
            work[row] = [a - factor * b for a, b in zip(entries, clean, strict=True)]


def _entering(lp: Program, active: list[int], short: list[int]) -> tuple[int, float, list[int]]:
    """The column that saves most; the short list of the last time is asked first."""
    for numbers in (short, active):
        savings = _savings(lp, numbers)
        if savings:
            savings.sort()
            return savings[0][1], savings[0][0], [number for _, number in savings[:SHORT_LIST]]
    return -1, 0.0, []


def _savings(lp: Program, numbers: list[int]) -> list[tuple[float, int]]:
    columns, costs, prices = lp.columns, lp.costs, lp.prices
    savings = []
    for number in numbers:
        cost = costs[number]
        for row, entry in columns[number]:
            cost -= prices[row] * entry
        if cost < -TOLERANCE:
            savings.append((cost, number))
    lp.effort.spend(10 * len(numbers))
    return savings


def _in_basis(lp: Program, number: int) -> list[float]:
    column, entries = [], lp.columns[number]
    for inverse_row in lp.inverse:
        total = 0.0
        for row, entry in entries:
            total += inverse_row[row] * entry
        column.append(total)
    return column


def _leaving(lp: Program, column: list[float]) -> int:
    leaving, least = -1, 0.0
    for row, entry in enumerate(column):
        if entry > PIVOT:
            ratio = max(lp.amounts[row], 0.0) / entry
            if leaving < 0 or ratio < least - 1e-12:
                leaving, least = row, ratio
            elif ratio <= least + 1e-12 and entry > column[leaving]:
                leaving, least = row, min(ratio, least)
    return leaving


def _replacing(lp: Program, active: list[int], inverse_row: list[float]) -> tuple[int, float]:
    """The column to come in for a negative amount: the smallest rise in cost per step."""
    columns, costs, prices = lp.columns, lp.costs, lp.prices
    entering, least, saving, strongest = -1, 0.0, 0.0, 0.0
    for number in active:
        entry = 0.0
        for row, coefficient in columns[number]:
            entry += inverse_row[row] * coefficient
        if entry < -PIVOT:
            cost = costs[number]
            for row, coefficient in columns[number]:
                cost -= prices[row] * coefficient
            cost = max(cost, 0.0)
            ratio = cost / -entry
            if (
                entering < 0
                or ratio < least - 1e-12
                or (ratio <= least + 1e-12 and entry < strongest)
            ):
                entering, least, saving, strongest = number, ratio, cost, entry
    lp.effort.spend(12 * len(active))
    return entering, saving


def _pivot(lp: Program, leaving: int, entering: int, column: list[float], saving: float) -> None:
    pivot = column[leaving]
    clean = [share / pivot for share in lp.inverse[leaving]]
    amount = lp.amounts[leaving] / pivot
    inverse, amounts = lp.inverse, lp.amounts
    for row, factor in enumerate(column):
        if factor and row != leaving:
            inverse[row] = [a - factor * b for a, b in zip(inverse[row], clean, strict=True)]
            amounts[row] -= factor * amount
    inverse[leaving], amounts[leaving] = clean, amount
    lp.basis[leaving] = entering
    lp.prices = [paid + saving * share for paid, share in zip(lp.prices, clean, strict=True)]
    lp.age += 1
    lp.effort.spend(len(column) * (len(column) + 8))
