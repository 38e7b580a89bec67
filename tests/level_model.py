"""The most valuable two-stage cutting of one sheet: an integer program of its own.

Levels run across the sheet's first dimension, pieces lie as listed, one per place, and what stands
above a piece in its level is trimmed off: Lodi and Monaci, Math. Program. B 94 (2003) 257-278.
It shares no code with the planner.
"""

from collections.abc import Sequence
from itertools import groupby, pairwise

import numpy as np
from classic import Instance, Item
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array


def best_cutting(sheet: Instance) -> tuple[int, tuple[Item, ...]]:
    """The greatest worth, and how many of each item are cut for it."""
    items = sorted(
        (item for item in sheet.items if item.length <= sheet.length and item.width <= sheet.width),
        key=lambda item: (-item.width, item.length, item.worth),
    )
    copies = [number for number, item in enumerate(items) for _ in range(item.count)]
    rows, columns, costs = _model(sheet, items, copies)
    shape = len(rows), len(columns)
    entries = [
        (entry, row, column)
        for row, (terms, _) in enumerate(rows)
        for column, entry in terms.items()
    ]
    values, at, of = zip(*entries, strict=True)
    found = milp(
        -np.array(costs, float),
        constraints=LinearConstraint(
            coo_array((values, (at, of)), shape), -np.inf, [right for _, right in rows]
        ),
        integrality=np.ones(len(columns)),
        bounds=Bounds(0, [items[item].count if level >= 0 else 1 for level, item in columns]),
        options={"mip_rel_gap": 0},
    )
    cut = [0] * len(items)
    for (level, item), amount in zip(columns, found.x, strict=True):
        cut[item if level >= 0 else copies[-1 - level]] += round(amount)
    chosen = tuple(item._replace(count=n) for item, n in zip(items, cut, strict=True) if n)
    return round(-found.fun), chosen


def _model(
    sheet: Instance, items: Sequence[Item], copies: Sequence[int]
) -> tuple[list[tuple[dict[int, int], int]], list[tuple[int, int]], list[int]]:
    """Columns: copy opens a level (negative), or (level, item) further pieces in it, none taller.

    Rows: room across each level, room for the levels, items at hand, equal levels in order.
    """
    columns = [(-1 - level, item) for level, item in enumerate(copies)]
    columns += [
        (level, item) for level, first in enumerate(copies) for item in range(first, len(items))
    ]
    costs = [items[item].worth for _, item in columns]
    rows: list[tuple[dict[int, int], int]] = []
    for level, first in enumerate(copies):
        across = {n: items[item].length for n, (at, item) in enumerate(columns) if at == level}
        rows.append(({**across, level: items[first].length - sheet.length}, 0))
    rows.append(({level: items[item].width for level, item in enumerate(copies)}, sheet.width))
    for item, each in enumerate(items):
        rows.append(({n: 1 for n, (_, of) in enumerate(columns) if of == item}, each.count))
    for _, group in groupby(range(len(copies)), key=lambda level: copies[level]):
        levels = list(group)
        rows += [({after: 1, before: -1}, 0) for before, after in pairwise(levels)]
    return rows, columns, costs
