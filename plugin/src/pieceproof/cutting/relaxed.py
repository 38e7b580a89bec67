"""The least length of strips, if a strip may also be cut by halves and thirds.

Goes in: the board. Comes out: a vertex of the cutting-stock program of Gilmore and Gomory,
Operations Research 9 (1961) 849-859, in whole numbers: its fillings, what every piece is worth,
how much length each other filling loses.

The simplex method guides in plain doubles; the vertex it ends at is worked out again exactly, over
the common denominator `scale`, and filling every height best proves that nothing gains.
"""

from dataclasses import dataclass
from typing import NamedTuple

from pieceproof.cutting.board import SCALE, Board, Filling, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.exact import inverse_of
from pieceproof.cutting.knapsack import FITS, Tables, best_filling, tables
from pieceproof.cutting.simplex import Column, Program, minimise, price, program

ROUNDS = 100
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
            what: sum(share * n for share, n in zip(shares, self.board.need, strict=True))
            for what, shares in zip(self.basis, self.inverse, strict=True)
            if isinstance(what, Made)
        }


def relaxed(board: Board, effort: Effort) -> Vertex | None:
    """The vertex of least length; None when it could not be proved."""
    kinds = len(board.need)
    made = _alone(board)
    columns = [[(kind, -1.0)] for kind in range(kinds)] + [_column(one) for one in made]
    costs = [0.0] * kinds + [float(board.heights[one.height]) for one in made]
    start = [kinds + _first_of(made, kind) for kind in range(kinds)]
    lp = program(columns, costs, [float(n) for n in board.need], start, effort)
    known, even = set(made), False
    for _ in range(ROUNDS):
        minimise(lp, list(range(len(lp.columns))))
        gained = [one for one in _gaining(board, lp, effort) if one not in known]
        if effort.spent or (even and not gained):
            break
        even = not gained
        for one in gained:
            uneven = UNEVEN * ((len(made) * 7919) % 101) / 101
            known.add(one)
            made.append(one)
            lp.columns.append(_column(one))
            lp.costs.append(board.heights[one.height] + uneven)
        if even:
            lp.costs[kinds:] = [float(board.heights[one.height]) for one in made]
            price(lp)
    basis = tuple(made[number - kinds] if number >= kinds else number for number in lp.basis)
    return _exact(board, basis, effort)


def vector_of(what: Made | Surplus) -> Vector:
    """The pieces that a filling makes or a surplus takes away."""
    return {what: -1} if isinstance(what, int) else yields(what.filling)


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


def _column(made: Made) -> Column:
    return [(kind, float(n)) for kind, n in sorted(yields(made.filling).items())]


def _gaining(board: Board, lp: Program, effort: Effort) -> list[Made]:
    """For each height the best filling, where it is worth more than it costs."""
    worth = [max(0, int(paid * SCALE)) for paid in lp.prices]
    return [
        Made(height, best_filling(found))
        for height, found in enumerate(tables(board, worth, effort))
        if found.top > board.heights[height] * SCALE + SCALE // 10_000
    ]


def _exact(board: Board, basis: tuple[Made | Surplus, ...], effort: Effort) -> Vertex | None:
    """The vertex of this basis, if it is the best one."""
    kinds = range(len(basis))
    vectors = tuple(vector_of(what) for what in basis)
    found = inverse_of([[vector.get(kind, 0) for vector in vectors] for kind in kinds])
    effort.spend(4 * len(basis) ** 3)
    if found is None:
        return None
    inverse, scale = found
    costs = [0 if isinstance(what, int) else board.heights[what.height] for what in basis]
    worth = tuple(
        sum(cost * shares[kind] for cost, shares in zip(costs, inverse, strict=True))
        for kind in kinds
    )
    value = sum(each * n for each, n in zip(worth, board.need, strict=True))
    exact = tuple(tuple(shares) for shares in inverse)
    if scale * max(board.heights) > FITS or min(worth) < 0 or max(worth) * board.width > FITS:
        return None
    best = tables(board, list(worth), effort)
    losses = [cost * scale - found.top for cost, found in zip(board.heights, best, strict=True)]
    # weak duality: no filling may be worth more than it costs
    return (
        Vertex(board, basis, vectors, scale, exact, worth, value, best)
        if min(losses) >= 0
        else None
    )
