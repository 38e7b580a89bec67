"""The least length of strips, if a strip may also be cut by halves and thirds.

Goes in: the board. Comes out: a vertex of the cutting-stock program of Gilmore and Gomory,
Operations Research 9 (1961) 849-859, in whole numbers: its fillings, what every piece is worth,
how much length each other filling loses.

The simplex method guides in plain doubles; the vertex it ends at is worked out again exactly, over
the common denominator `scale`, and filling every height best proves that nothing gains.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Filling, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.exact import inverse_of
from pieceproof.cutting.knapsack import FITS, Tables, best_filling, tables
from pieceproof.cutting.roundings import Rounding, broken
from pieceproof.cutting.simplex import (
    Column,
    Program,
    add_row,
    exchange,
    minimise,
    price,
    program,
    repair,
    weigh,
)

ROUNDS = 100
FREE = 1e-9  # a price that is none
ROUNDING_ROUNDS, ROUNDINGS = 10, 4
UNEVEN = 1e-6  # of costs, so that the simplex method does not go in circles


class Made(NamedTuple):
    """A filling of a height."""

    height: int
    filling: Filling


Surplus = int  # a piece too many of this kind
Vector = dict[int, int]  # kind -> pieces


@dataclass(frozen=True, slots=True)
class Vertex:
    """`inverse` times pieces gives amounts of the basis, `worth` is what a piece of a kind is
    worth, `value` the length: all in 1 / `scale`; `best` are the fillings of each height by worth.
    """

    board: Board
    roundings: tuple[Rounding, ...]
    need: tuple[int, ...]
    basis: tuple[Made | Surplus, ...]
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
    def strips(self) -> dict[Made, int]:
        """How many strips of each of its fillings are cut, in 1 / `scale`."""
        return {
            what: sum(share * n for share, n in zip(shares, self.need, strict=True))
            for what, shares in zip(self.basis, self.inverse, strict=True)
            if isinstance(what, Made)
        }


def relaxed(board: Board, effort: Effort) -> Vertex | None:
    """The vertex of least length; None when it could not be proved."""
    state = _started(board, effort)
    _priced(state)
    return _exact(state)


def tightened(board: Board, effort: Effort) -> Vertex | None:
    """The same among those that obey roundings."""
    state = _started(board, effort)
    _priced(state)
    for _ in range(ROUNDING_ROUNDS):
        strips = [
            (amount, what.filling)
            for number, amount in zip(state.lp.basis, state.lp.amounts, strict=True)
            if isinstance(what := state.what[number], Made)
        ]
        new = broken(board, strips, set(state.roundings), ROUNDINGS)
        if not new or effort.spent:
            break
        for rounding in new:
            _add_rounding(state, rounding)
        price(state.lp)
        weigh(state.lp)
        repair(state.lp, list(range(len(state.lp.columns))))
        _priced(state)
    _free_idle(state)
    return _exact(state)


@dataclass(slots=True)
class _State:
    """The program, what its columns are, and its roundings, each a row behind those of kinds."""

    board: Board
    lp: Program
    what: list[Made | Surplus]
    known: set[Made]
    roundings: list[Rounding]
    effort: Effort


def _started(board: Board, effort: Effort) -> _State:
    kinds = len(board.need)
    made = _alone(board)
    what = [*range(kinds), *made]
    columns = [_column(one, (), kinds) for one in what]
    costs = [_cost(board, one) for one in what]
    start = [kinds + _first_of(made, kind) for kind in range(kinds)]
    lp = program(columns, costs, [float(n) for n in board.need], start, effort)
    return _State(board, lp, what, set(made), [], effort)


def _priced(state: _State) -> None:
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
            lp.columns.append(_column(one, state.roundings, len(board.need)))
            lp.costs.append(board.heights[one.height] + uneven)
        if even:
            lp.costs = [_cost(board, one) for one in state.what]
            price(lp)


def _add_rounding(state: _State, rounding: Rounding) -> None:
    """A further row; its surplus is basic, and below zero where the rounding is broken."""
    lp, row = state.lp, len(state.lp.right)
    state.roundings.append(rounding)
    entries = []
    for number, one in enumerate(state.what):
        count = 0 if isinstance(one, int) else rounding.in_filling(one.filling)
        if count:
            lp.columns[number].append((row, float(count)))
            entries.append((number, float(count)))
    state.what.append(row)
    lp.columns.append([(row, -1.0)])
    lp.costs.append(0.0)
    add_row(lp, entries, float(rounding.of(state.board.need[rounding.kind])), len(lp.columns) - 1)
    lp.effort.spend(4 * row * row)


def _free_idle(state: _State) -> None:
    """The surplus of roundings that cost nothing becomes basic, so that they may be left out."""
    lp, kinds = state.lp, len(state.board.need)
    for number, what in enumerate(state.what):
        if not isinstance(what, int) or what < kinds or number in lp.basis:
            continue
        if abs(lp.prices[what]) < FREE:
            exchange(lp, number)


def vector_of(what: Made | Surplus, roundings: Sequence[Rounding] = (), kinds: int = 0) -> Vector:
    """The pieces that a filling makes, then its counts; or what a surplus takes away."""
    if isinstance(what, int):
        return {what: -1}
    vector = yields(what.filling)
    for row, rounding in enumerate(roundings, kinds):
        if count := rounding.in_filling(what.filling):
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


def _cost(board: Board, what: Made | Surplus) -> float:
    return 0.0 if isinstance(what, int) else float(board.heights[what.height])


def _gaining(state: _State) -> list[Made]:
    """For each height the best filling, where it is worth more than it costs."""
    board, worth = state.board, [max(0, int(paid * SCALE)) for paid in state.lp.prices]
    return [
        Made(height, best_filling(found))
        for height, found in enumerate(tables(board, worth, state.effort, tuple(state.roundings)))
        if found.top > board.heights[height] * SCALE + SCALE // 10_000
    ]


def _exact(state: _State) -> Vertex | None:
    """The vertex of the program's basis, if it is the best one; without rows that do not bind."""
    board, effort, kinds = state.board, state.effort, len(state.board.need)
    basis = [state.what[number] for number in state.lp.basis]
    idle = {what for what in basis if isinstance(what, int) and what >= kinds}
    roundings = tuple(one for row, one in enumerate(state.roundings, kinds) if row not in idle)
    place = {
        row: new
        for new, row in enumerate(
            row for row in range(kinds + len(state.roundings)) if row not in idle
        )
    }
    basis = [place[what] if isinstance(what, int) else what for what in basis if what not in idle]
    return _vertex(board, roundings, tuple(basis), effort)


def _vertex(
    board: Board, roundings: tuple[Rounding, ...], basis: tuple[Made | Surplus, ...], effort: Effort
) -> Vertex | None:
    rows, kinds = range(len(basis)), len(board.need)
    need = (*board.need, *(one.of(board.need[one.kind]) for one in roundings))
    vectors = tuple(vector_of(what, roundings, kinds) for what in basis)
    found = inverse_of([[vector.get(row, 0) for vector in vectors] for row in rows])
    effort.spend(4 * len(basis) ** 3)
    if found is None:
        return None
    inverse, scale = found
    costs = [0 if isinstance(what, int) else board.heights[what.height] for what in basis]
    worth = tuple(
        sum(cost * shares[row] for cost, shares in zip(costs, inverse, strict=True)) for row in rows
    )
    value = sum(each * n for each, n in zip(worth, need, strict=True))
    exact = tuple(tuple(shares) for shares in inverse)
    if scale * max(board.heights) > FITS or min(worth) < 0 or max(worth) * board.width > FITS:
        return None
    best = tables(board, list(worth), effort, roundings)
    losses = [cost * scale - found.top for cost, found in zip(board.heights, best, strict=True)]
    # weak duality: no filling may be worth more than it costs
    return (
        Vertex(board, roundings, need, basis, vectors, scale, exact, worth, value, best)
        if min(losses) >= 0
        else None
    )


def _column(what: Made | Surplus, roundings: Sequence[Rounding], kinds: int) -> Column:
    rows = vector_of(what, roundings, kinds)
    return [(row, float(n)) for row, n in sorted(rows.items())]
