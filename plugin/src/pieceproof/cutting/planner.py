"""plan(demand): the shortest cutting plan that can be found.

Goes in: a demand, how hard to try. Comes out: a plan that cuts every piece, a length that no plan
can beat, and the problems that prevented a plan. The plans that people make come first; a search
shortens the best of them until it is proven or the effort is spent. Nothing is planned twice.
"""

from functools import lru_cache

from quicktions import Fraction

from pieceproof.cutting.board import board_of, rows_of
from pieceproof.cutting.choose import best_strips, simpler
from pieceproof.cutting.demand import Demand, demand_problems
from pieceproof.cutting.effort import STEPS_PER_SECOND, Effort
from pieceproof.cutting.greedy import greedy_plans
from pieceproof.cutting.grid import Grid, Rows, grid_of, length_of, strips_in
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.shortest import of_fewer_strips, shortest

USUAL_EFFORT = STEPS_PER_SECOND // 2
REMEMBERED = 10_000  # plans


@lru_cache(REMEMBERED)
def plan(demand: Demand, steps: int = USUAL_EFFORT) -> tuple[Plan, tuple[str, ...]]:
    """A plan for the demand, and why it is empty where the demand cannot be planned.

    `steps` limits the search, counted in arithmetic: the plan is the same on every machine.
    """
    problems = demand_problems(demand)
    if problems:
        return empty_plan(demand), problems
    grid = grid_of(demand)
    if not grid.kinds:
        return _plan_of(demand, grid, ((),), 0), ()
    plans, board = greedy_plans(grid), board_of(grid)
    known, effort = min(length_of(rows) for rows in plans) // board.unit, Effort(steps)
    found = shortest(board, known, effort)
    for cuts in found.plans:
        plans = (*plans, *simpler(grid, rows_of(board, cuts)))
    least = min((length_of(rows), strips_in(rows)) for rows in plans)
    fewer = of_fewer_strips(board, least[0] // board.unit, least[1], effort)
    if fewer:
        plans = (*plans, *simpler(grid, rows_of(board, fewer)))
    return _plan_of(demand, grid, plans, max(found.bound * board.unit, _by_area(grid))), ()


def empty_plan(demand: Demand) -> Plan:
    """The plan that cuts nothing."""
    nothing = Fraction(0)
    return Plan(demand.usable_width, demand.squaring, (), (), nothing, nothing, False)


def _by_area(grid: Grid) -> int:
    """As long as the pieces' area asks for."""
    return -(-sum(kind.need * kind.across * kind.along for kind in grid.kinds) // grid.width)


def _plan_of(demand: Demand, grid: Grid, plans: tuple[Rows, ...], bound: int) -> Plan:
    strips = best_strips(grid, plans)
    length = sum((strip.height * strip.count for strip in strips), Fraction(0))
    whole = sum(height * count for height, _, count in grid.whole)
    least = (bound + whole) * grid.step
    width = grid.width * grid.step
    return Plan(width, demand.squaring, strips, grid.joined, length, least, length == least)
