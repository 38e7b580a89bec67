"""Cuts up sheets as a person would and says what is wrong with what falls out.

Goes in: a demand, the sheets there are, what is said to be cut from them and to be left. Comes out:
one sentence for each fault. It shares no code with `sheets` but the data; each sheet is cut by
`check`.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from quicktions import Fraction

from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.sheets import FromSheet, Shared, Sheet


def sheet_faults(demand: Demand, sheets: Sequence[Sheet], shared: Shared) -> tuple[str, ...]:
    """Everything wrong: sheets too small or too few, pieces of a wrong size, pieces forgotten."""
    faults = [fault for cut in shared.cut for fault in _cut_faults(demand, cut)]
    faults += _sheets_used(sheets, shared.cut)
    fallen: Counter[str] = Counter()
    for cut in shared.cut:
        fallen.update(_counted(cut.plan))
    fallen.update(_asked_for(shared.left))
    asked = _asked_for(demand)
    for letter in sorted(fallen | asked):
        if fallen[letter] != asked[letter]:
            faults.append(f"{letter}: {fallen[letter]} cut and left of {asked[letter]}")
    if _sizes(shared.left) - _sizes(demand):
        faults.append("what is left has other sizes")
    return tuple(faults)


def _asked_for(demand: Demand) -> Counter[str]:
    wants = {want.letter: want.count for want in demand.wants}
    return Counter({**wants, **{long.letter: long.count for long in demand.longs}})


def _sizes(demand: Demand) -> set[Want | Long]:
    """What is asked for but for its number."""
    wants, longs = demand.wants, demand.longs
    return {*(replace(w, count=1) for w in wants), *(replace(n, count=1) for n in longs)}


def _cut_faults(demand: Demand, cut: FromSheet) -> Iterator[str]:
    sheet, plan = cut.sheet, cut.plan
    name = f"{sheet.name} {cut.number}"
    width, length = sheet.width, sheet.length
    if cut.turned:
        width, length = length, width
    used = sum((strip.height * strip.count for strip in plan.strips), sheet.squaring)
    if used > length:
        yield f"{name}: {used} is cut from a length of {length}"
    alone = Demand(tuple(_asked(demand, plan)), (), width, demand.step, sheet.squaring)
    yield from (f"{name}: {fault}" for fault in plan_faults(alone, plan))


def _asked(demand: Demand, plan: Plan) -> Iterator[Want]:
    """The demand's own sizes, as many as fall out of this sheet."""
    counts = _counted(plan)
    items: tuple[Want | Long, ...] = (*demand.wants, *demand.longs)
    for item in items:
        if counts[item.letter] and isinstance(item, Want):
            yield replace(item, count=counts[item.letter])
        elif counts[item.letter] and isinstance(item, Long):
            sides = (item.length, item.width)
            across, along = sides if item.way == "crosswise" else (sides[1], sides[0])
            yield Want(item.letter, across, along, counts[item.letter], turnable=False)


def _counted(plan: Plan) -> Counter[str]:
    fallen: Counter[str] = Counter()
    for strip in plan.strips:
        for segment in strip.segments:
            for cut in segment.cuts:
                fallen[cut.letter] += strip.count * segment.count * cut.count
    return fallen


def _sheets_used(sheets: Sequence[Sheet], cut: Sequence[FromSheet]) -> Iterator[str]:
    """Each sheet is one that there is, and is cut once."""
    there = Counter({(s, number): 1 for s in sheets for number in range(1, s.count + 1)})
    used = Counter((made.sheet, made.number) for made in cut)
    for (sheet, number), times in used.items():
        if times > there[sheet, number]:
            yield f"{sheet.name} {number}: cut {times} times, there is {there[sheet, number]}"
        if sheet.squaring < Fraction(0):
            yield f"{sheet.name}: squared by {sheet.squaring}"
