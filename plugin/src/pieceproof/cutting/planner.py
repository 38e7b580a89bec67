"""plan(demand): the shortest cutting plan that can be found.

Goes in: a demand, how hard to try. Comes out: a plan that cuts every piece, a length that no plan
can beat, and the problems that prevented a plan.
"""

from quicktions import Fraction

from pieceproof.cutting.board import board_of, rows_of
from pieceproof.cutting.demand import Demand, demand_problems
from pieceproof.cutting.effort import STEPS_PER_SECOND, Effort
from pieceproof.cutting.greedy import best_greedy
from pieceproof.cutting.grid import Grid, Rows, grid_of, length_of
from pieceproof.cutting.lay import strips_of
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.shortest import shortest

USUAL_EFFORT = 5 * STEPS_PER_SECOND


def plan(demand: Demand, steps: int = USUAL_EFFORT) -> tuple[Plan, tuple[str, ...]]:
    """A plan for the demand, and why it is empty where the demand cannot be planned."""
    problems = demand_problems(demand)
    if problems:
        return empty_plan(demand), problems
    grid = grid_of(demand)
    if not grid.kinds:
        return _plan_of(demand, grid, (), 0), ()
    greedy = best_greedy(grid)
    board = board_of(grid)
    found = shortest(board, length_of(greedy) // board.unit, Effort(steps))
    rows = rows_of(board, found.cuts) if found.cuts else greedy
    return _plan_of(demand, grid, rows, found.bound * board.unit), ()


def empty_plan(demand: Demand) -> Plan:
    """The plan that cuts nothing."""
    nothing = Fraction(0)
    return Plan(demand.usable_width, demand.squaring, (), (), nothing, nothing, False)


def _plan_of(demand: Demand, grid: Grid, rows: Rows, bound: int) -> Plan:
    strips = strips_of(grid, rows)
    length = sum((strip.height * strip.count for strip in strips), Fraction(0))
    whole = sum(height * count for height, _, count in grid.whole)
    least = (bound + whole) * grid.step
    return Plan(
        grid.width * grid.step, demand.squaring, strips, grid.joined, length, least, length == least
    )
