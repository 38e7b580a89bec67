"""The least length of strips, if a strip may also be cut by halves and thirds.

Goes in: the board. Comes out: a vertex of the cutting-stock program of Gilmore and Gomory,
Operations Research 9 (1961) 849-859, in whole numbers: its fillings, what every piece is worth,
how much length each other filling loses.

The simplex method guides in plain doubles; the vertex it ends at is worked out again exactly, over
the common denominator `scale`, and filling every height best proves that nothing gains.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Filling, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.exact import inverse_of
from pieceproof.cutting.knapsack import FITS, Tables, best_filling, tables
from pieceproof.cutting.roundings import (
    Limit,
    Rounding,
    Rule,
    broken,
    count_of,
    right_of,
)
from pieceproof.cutting.simplex import (
    Column,
    Program,
    add_row,
    corner,
    exchange,
    minimise,
    price,
    program,
    repair,
    return_to,
    weigh,
)

ROUNDS = 100
LACKING = 20  # of the largest height, so that a rule is kept where it can be
FREE = 1e-9  # a price that is none
ROUNDINGS = 4  # a round
UNEVEN = 1e-6  # of costs, so that the simplex method does not go in circles


class Made(NamedTuple):
    """A filling of a height."""

    height: int
    filling: Filling


Surplus = int  # a piece too many of this kind


class Lack(NamedTuple):
    """What is missing to a rule, at a cost that no plan pays."""

    row: int


What = Made | Surplus | Lack
Vector = dict[int, int]  # kind -> pieces


@dataclass(frozen=True, slots=True)
class Vertex:
    """`inverse` times pieces gives amounts of the basis, `worth` is what a piece of a kind is
    worth, `value` the length: all in 1 / `scale`; `best` are the fillings of each height by worth.
    """

    board: Board
    rules: tuple[Rule, ...]
    need: tuple[int, ...]
    basis: tuple[What, ...]
    vectors: tuple[Vector, ...]
    scale: int
    inverse: tuple[tuple[int, ...], ...]
    worth: tuple[int, ...]
    value: int
    best: list[Tables]

    @property
    def bound(self) -> int:
        """The value rounded up: no plan is shorter."""
        return -(-self.value // self.scale)

    @property
    def costs(self) -> list[int]:
        """The length of a strip of each height less what the strip itself is worth for rules."""
        return _costs(self.board, self.rules, self.worth, self.scale)

    @property
    def strips(self) -> dict[Made, int]:
        """How many strips of each of its fillings are cut, in 1 / `scale`."""
        return {
            what: sum(share * n for share, n in zip(shares, self.need, strict=True))
            for what, shares in zip(self.basis, self.inverse, strict=True)
            if isinstance(what, Made)
        }


@dataclass(slots=True)
class Strips:
    """The program, what its columns are, and its rules, each a row behind those of kinds."""

    board: Board
    lp: Program
    what: list[What]
    known: set[Made]
    rules: list[Rule]
    effort: Effort


def relaxed(board: Board, effort: Effort) -> Vertex | None:
    """The vertex of least length; None when it could not be proved."""
    state = started(board, effort)
    _priced(state)
    return vertex_of(state)


def tighten(state: Strips, rounds: int) -> None:
    """Roundings that the program breaks, round after round."""
    for number in range(rounds + 1):
        _priced(state)
        known = {one for one in state.rules if isinstance(one, Rounding)}
        cut = [(amount, what.filling) for amount, what in strips_of(state)]
        if (
            number == rounds
            or state.effort.spent
            or not (new := broken(state.board, cut, known, ROUNDINGS))
        ):
            break
        for rounding in new:
            add_rule(state, rounding)
        settle(state)
    _free_idle(state)


def settle(state: Strips) -> None:
    """The program's vertex again, after rules were added; no fillings are."""
    price(state.lp)
    weigh(state.lp)
    everything = list(range(len(state.lp.columns)))
    repair(state.lp, everything)
    minimise(state.lp, everything)


def strips_of(state: Strips) -> list[tuple[float, Made]]:
    """How many strips of which filling the program cuts."""
    return [
        (amount, what)
        for number, amount in zip(state.lp.basis, state.lp.amounts, strict=True)
        if isinstance(what := state.what[number], Made)
    ]


def started(board: Board, effort: Effort) -> Strips:
    """The program of strips of one size each."""
    kinds = len(board.need)
    made = _alone(board)
    what = [*range(kinds), *made]
    columns = [_column(one, (), kinds) for one in what]
    costs = [_cost(board, one) for one in what]
    start = [kinds + _first_of(made, kind) for kind in range(kinds)]
    lp = program(columns, costs, [float(n) for n in board.need], start, effort)
    return Strips(board, lp, what, set(made), [], effort)


def copied(state: Strips) -> Strips:
    """The same, to be changed on its own."""
    lp = state.lp
    columns, costs = [list(column) for column in lp.columns], list(lp.costs)
    copy = replace(lp, columns=columns, costs=costs, right=list(lp.right))
    return_to(copy, corner(lp))
    return replace(
        state, lp=copy, what=list(state.what), known=set(state.known), rules=list(state.rules)
    )


def _priced(state: Strips) -> None:
    """Fillings until none gains."""
    lp, board, even = state.lp, state.board, False
    for _ in range(ROUNDS):
        minimise(lp, list(range(len(lp.columns))))
        gained = [one for one in _gaining(state) if one not in state.known]
        if state.effort.spent or (even and not gained):
            break
        even = not gained
        for one in gained:
            uneven = UNEVEN * ((len(state.known) * 7919) % 101) / 101
            state.known.add(one)
            state.what.append(one)
            lp.columns.append(_column(one, state.rules, len(board.need)))
            lp.costs.append(board.heights[one.height] + uneven)
        if even:
            lp.costs = [_cost(board, one) for one in state.what]
            price(lp)


def add_rule(state: Strips, rule: Rule) -> None:
    """A further row; its surplus is basic, and below zero where the rule is broken."""
    lp, row = state.lp, len(state.lp.right)
    state.rules.append(rule)
    entries = []
    for number, one in enumerate(state.what):
        count = count_of(rule, *one) if isinstance(one, Made) else 0
        if count:
            lp.columns[number].append((row, float(count)))
            entries.append((number, float(count)))
    state.what += [Lack(row), row]
    lp.columns += [[(row, 1.0)], [(row, -1.0)]]
    lp.costs += [_cost(state.board, Lack(row)), 0.0]
    add_row(lp, entries, float(right_of(state.board, rule)), len(lp.columns) - 1)
    lp.effort.spend(4 * row * row)


def _free_idle(state: Strips) -> None:
    """The surplus of roundings that cost nothing becomes basic, so that they may be left out."""
    lp, kinds = state.lp, len(state.board.need)
    for number, what in enumerate(state.what):
        if not isinstance(what, int) or what < kinds or number in lp.basis:
            continue
        if abs(lp.prices[what]) < FREE:
            exchange(lp, number)


def vector_of(what: What, rules: Sequence[Rule] = (), kinds: int = 0) -> Vector:
    """The pieces that a filling makes, then its counts; or what a surplus takes away."""
    if isinstance(what, Lack):
        return {what.row: 1}
    if isinstance(what, int):
        return {what: -1}
    vector = yields(what.filling)
    for row, rule in enumerate(rules, kinds):
        if count := count_of(rule, *what):
            vector[row] = count
    return vector


def _alone(board: Board) -> list[Made]:
    """Strips of one size each."""
    return [
        Made(height, ((slot, min(board.width // slot.width, -(-need // slot.stack))),))
        for height, slots in enumerate(board.slots)
        for slot in slots
        for need in (board.need[slot.kind],)
    ]


def _first_of(made: list[Made], kind: int) -> int:
    return next(number for number, one in enumerate(made) if one.filling[0][0].kind == kind)


def _cost(board: Board, what: What) -> float:
    if isinstance(what, Lack):
        return float(LACKING * max(board.heights))
    return 0.0 if isinstance(what, int) else float(board.heights[what.height])


def _costs(board: Board, rules: Sequence[Rule], worth: Sequence[int], scale: int) -> list[int]:
    """See `Vertex.costs`."""
    costs = [length * scale for length in board.heights]
    for rule, each in zip(rules, worth[len(board.need) :], strict=True):
        if isinstance(rule, Limit):
            for height in rule.heights:
                costs[height] -= each * rule.sign
    return costs


def _gaining(state: Strips) -> list[Made]:
    """For each height the best filling, where it is worth more than it costs."""
    board, worth = state.board, [max(0, int(paid * SCALE)) for paid in state.lp.prices]
    costs = _costs(board, state.rules, worth, SCALE)
    return [
        Made(height, best_filling(found))
        for height, found in enumerate(tables(board, worth, state.effort, state.rules))
        if found.top > costs[height] + SCALE // 10_000
    ]


def vertex_of(state: Strips) -> Vertex | None:
    """The vertex of the program's basis, if it is the best one; without rows that do not bind."""
    board, effort, kinds = state.board, state.effort, len(state.board.need)
    basis = [state.what[number] for number in state.lp.basis]
    idle = {what for what in basis if isinstance(what, int) and what >= kinds}
    rows = [row for row in range(kinds + len(state.rules)) if row not in idle]
    place = {row: new for new, row in enumerate(rows)}
    rules = tuple(state.rules[row - kinds] for row in rows[kinds:])
    kept: list[What] = []
    for what in basis:
        if isinstance(what, Lack):
            kept.append(Lack(place[what.row]))
        elif isinstance(what, Made):
            kept.append(what)
        elif what not in idle:
            kept.append(place[what])
    return _vertex(board, rules, tuple(kept), effort)


def _vertex(
    board: Board, rules: tuple[Rule, ...], basis: tuple[What, ...], effort: Effort
) -> Vertex | None:
    rows, kinds = range(len(basis)), len(board.need)
    need = (*board.need, *(right_of(board, rule) for rule in rules))
    vectors = tuple(vector_of(what, rules, kinds) for what in basis)
    found = inverse_of([[vector.get(row, 0) for vector in vectors] for row in rows])
    effort.spend(4 * len(basis) ** 3)
    if found is None:
        return None
    inverse, scale = found
    costs = [int(_cost(board, what)) for what in basis]
    worth = tuple(
        sum(cost * shares[row] for cost, shares in zip(costs, inverse, strict=True)) for row in rows
    )
    value = sum(each * n for each, n in zip(worth, need, strict=True))
    exact = tuple(tuple(shares) for shares in inverse)
    if scale * max(board.heights) > FITS or min(worth) < 0 or max(worth) * board.width > FITS:
        return None
    best = tables(board, list(worth), effort, rules)
    losses = [
        cost - found.top
        for cost, found in zip(_costs(board, rules, worth, scale), best, strict=True)
    ]
    # weak duality: no filling may be worth more than it costs
    return (
        Vertex(board, rules, need, basis, vectors, scale, exact, worth, value, best)
        if min(losses) >= 0
        else None
    )


def _column(what: What, rules: Sequence[Rule], kinds: int) -> Column:
    rows = vector_of(what, rules, kinds)
    return [(row, float(n)) for row, n in sorted(rows.items())]
