"""One thing made in two sets, the second pressed the other way.

In: everything that is made, and what goes where. Out: the same with set B of one thing in every
other place, in its columns or rows or as on a checkerboard.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate

from pieceproof.methods.method import SET_B
from pieceproof.pressing_choices import NO_CHOICE
from pieceproof.seams_met import Plan, Sewing, assembly, sources
from pieceproof.steps import Assemble, AssembleOnPoint, Placed, Step

PATTERNS = ((1, 1), (1, 0), (0, 1))
"""How much row and column count; the cells where the sum is odd take set B."""


def split(
    makes: tuple[Sewing, ...], parent: Sewing, child: str, pattern: tuple[int, int]
) -> tuple[Sewing, ...] | None:
    """With set B of a thing in every other place of another; None where that cannot be."""
    made = next((m for m in makes if m.name == child), None)
    step = next((s for s in parent.steps if isinstance(s, Assemble | AssembleOnPoint)), None)
    if made is None or step is None or made.choice != NO_CHOICE or child.endswith(SET_B):
        return None
    if not (made.turnable or assembly(made)) or any(m.name == child + SET_B for m in makes):
        return None
    mixed = _with_b(step, child, pattern)
    if {child, child + SET_B} - set(sources([mixed])):
        return None
    other = replace(parent, steps=tuple(mixed if s is step else s for s in parent.steps))
    split = [other if m is parent else m for m in makes]
    index = makes.index(made)
    return (*split[:index], _set_b(made), *split[index:])


def _set_b(made: Sewing) -> Sewing:
    name, ended = made.name + SET_B, made.ended
    if ended is not None:
        edges = {
            side: tuple(replace(end, seam=name) if end.seam == made.name else end for end in ends)
            for side, ends in ended.edges.items()
        }
        ended = replace(ended, edges=edges)
    return replace(made, name=name, ended=ended)


def with_set_b(plan: Plan, child: str) -> Plan:
    """What is open or spun in a thing is so in its set B."""

    def both(names: frozenset[str]) -> frozenset[str]:
        start = f"{child}: "
        own = (name.removeprefix(start) for name in names if name.startswith(start))
        return names | {f"{child}{SET_B}: {rest}" for rest in own}

    return Plan(both(plan.opened), both(plan.spun))


def _with_b(step: Step, child: str, pattern: tuple[int, int]) -> Step:
    def placed(cell: Placed, row: int, column: int) -> Placed:
        odd = cell.source == child and (pattern[0] * row + pattern[1] * column) % 2
        return replace(cell, source=child + SET_B) if odd else cell

    if isinstance(step, Assemble):
        rows = tuple(
            tuple(placed(cell, j, i) for i, cell in enumerate(row))
            for j, row in enumerate(step.rows)
        )
        return replace(step, rows=rows)
    assert isinstance(step, AssembleOnPoint)
    starts = accumulate(row.start for row in step.rows)
    diagonal = tuple(
        replace(row, cells=tuple(placed(c, j, start + i) for i, c in enumerate(row.cells)))
        for j, (row, start) in enumerate(zip(step.rows, starts, strict=True))
    )
    return replace(step, rows=diagonal)
