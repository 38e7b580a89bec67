"""Other ways to answer the same lists, to measure the planner against.

Goes in: a demand of rectangles, without long strips. Comes out: a length of cloth in the demand's
unit. `rectpack` lays pieces anywhere, turns them all, and asks for cuts no ruler can make: it is
outside of what a person can cut. The referee is an integer program of its own over every filling
of a strip, solved by HiGHS through SciPy; it shares no code with the planner.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import rectpack
from numpy.typing import NDArray
from quicktions import Fraction
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_matrix

from pieceproof.cutting.demand import Demand
from pieceproof.cutting.greedy import first_fit, greedy_orders, separate_strips
from pieceproof.cutting.grid import grid_of, length_of

MOST_FILLINGS = 20_000
MOST_PIECES = 400  # for rectpack, whose time grows with the square

Filling = dict[int, int]  # pieces of each want


class Refereed(NamedTuple):
    """The referee's length and whether it proved it."""

    length: Fraction
    proven: bool


def per_size(demand: Demand) -> Fraction:
    """Strips for each size on its own."""
    return length_of(separate_strips(grid_of(demand))) * demand.step


def first_fit_decreasing_height(demand: Demand) -> Fraction:
    """Tallest first, each piece into the first strip with room; pieces lie flat."""
    grid = grid_of(demand)
    return length_of(first_fit(grid, greedy_orders(grid)["height, flat"])) * demand.step


def best_of_three(demand: Demand) -> Fraction:
    """The same by height, by width and by area."""
    grid = grid_of(demand)
    orders = greedy_orders(grid)
    names = ("height, flat", "width, flat", "area, flat")
    return min(length_of(first_fit(grid, orders[name])) for name in names) * demand.step


def packed(demand: Demand) -> Fraction | None:
    """Length used by rectpack on a roll; None where there are too many pieces."""
    if sum(want.count for want in demand.wants) > MOST_PIECES:
        return None
    width, sizes = int(demand.usable_width / demand.step), list(_pieces(demand))
    roll = sum(max(size) for size in sizes)
    packer = rectpack.newPacker(rotation=True, pack_algo=rectpack.MaxRectsBssf)
    packer.add_bin(width, roll)
    for across, along in sizes:
        packer.add_rect(across, along)
    packer.pack()
    return max(rect.y + rect.height for rect in packer[0]) * demand.step


def referee(demand: Demand, seconds: float) -> Refereed | None:
    """The least length by an independent integer program; None where it would be too large."""
    asked = _program(demand)
    if asked is None:
        return None
    fillings, heights = asked
    pieces = LinearConstraint(fillings, [want.count for want in demand.wants], np.inf)
    found = _solved(heights, (pieces,), seconds)
    if found.x is None:
        return None
    return Refereed(round(found.fun) * demand.step, found.mip_dual_bound > round(found.fun) - 0.99)


def fewest_strips(demand: Demand, length: Fraction, seconds: float) -> int | None:
    """The fewest strips that hold every piece and are no longer than that together; None where it
    is not known.
    """
    asked = _program(demand)
    if asked is None:
        return None
    fillings, heights = asked
    pieces = LinearConstraint(fillings, [want.count for want in demand.wants], np.inf)
    short = LinearConstraint(heights[None, :], 0, float(length / demand.step))
    found = _solved(np.ones(len(heights)), (pieces, short), seconds)
    known = found.x is not None and found.mip_dual_bound > round(found.fun) - 0.99
    return round(found.fun) if known else None


def _solved(
    costs: NDArray[np.float64], constraints: tuple[LinearConstraint, ...], seconds: float
) -> OptimizeResult:
    return milp(
        costs,
        constraints=constraints,
        integrality=np.ones(len(costs)),
        bounds=Bounds(0, np.inf),
        options={"time_limit": seconds, "mip_rel_gap": 0},
    )


def _program(demand: Demand) -> tuple[csr_matrix, NDArray[np.float64]] | None:
    """The pieces in every filling, a column for each, and the heights of the strips."""
    rows, columns, entries, heights = [], [], [], []
    for height, filling in _fillings(demand):
        if len(heights) == MOST_FILLINGS:
            return None
        for want, pieces in filling.items():
            rows.append(want)
            columns.append(len(heights))
            entries.append(pieces)
        heights.append(height)
    shape = len(demand.wants), len(heights)
    return csr_matrix((entries, (rows, columns)), shape), np.array(heights, float)


def _pieces(demand: Demand) -> Iterator[tuple[int, int]]:
    for want in demand.wants:
        for _ in range(want.count):
            yield int(want.across / demand.step), int(want.along / demand.step)


def _fillings(demand: Demand) -> Iterator[tuple[int, Filling]]:
    """Every strip height, and every filling of it to which no needed piece can be added."""
    width = int(demand.usable_width / demand.step)
    lies = [
        (number, int(across / demand.step), int(along / demand.step))
        for number, want in enumerate(demand.wants)
        for across, along in {
            (want.across, want.along),
            (want.along, want.across) if want.turnable else (want.across, want.along),
        }
        if across <= demand.usable_width
    ]
    for height in sorted({along for _, _, along in lies}):
        fitting = [
            (number, across, height // along) for number, across, along in lies if along <= height
        ]
        need = [want.count for want in demand.wants]
        for filling in _filled(sorted(fitting, key=lambda lie: -lie[1]), width, need):
            yield height, filling


def _filled(
    lies: list[tuple[int, int, int]], width: int, need: list[int], first: int = 0
) -> Iterator[Filling]:
    if first == len(lies):
        if all(across > width or need[number] <= 0 for number, across, _ in lies):
            yield {}
        return
    number, across, stack = lies[first]
    most = min(width // across, max(0, -(-need[number] // stack)))
    for often in range(most, -1, -1):
        left = list(need)
        left[number] -= often * stack
        for filling in _filled(lies, width - often * across, left, first + 1):
            yield {**filling, number: filling.get(number, 0) + often * stack}
