"""Which way every seam is pressed, so that seams that meet lie opposite ways.

In: what is sewn, in sewing order, with what the writer has settled. Out: the same with the words
for pressing filled in; where one way of pressing cannot nest everywhere, things made in two sets.
It takes the ends of a unit's seams from its finished picture and never sews: `bench.nesting`
follows the published steps and says what nests.

Seams that meet and cannot all lie opposite ways are left to clash where they weigh least. A
seam that clashes at least as often as it nests is pressed open, and so is one where eight or
more seams come together; a seam across the middle of two by two is spun there instead.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from pieceproof.parity import Pair, solve
from pieceproof.pressing_choices import Choice
from pieceproof.seam_ends import OPEN
from pieceproof.seams_met import Found, Plan, Sewing, between, find, in_row, is_two_by_two, sources
from pieceproof.steps import SPUN, Assemble, AssembleOnPoint, Step, pressed_other_way, seam_ways
from pieceproof.two_sets import PATTERNS, split, with_set_b


def nest(makes: Sequence[Sewing]) -> tuple[Sewing, ...]:
    """All that is made, in sewing order, with pressing; sets B stand before their sets A."""
    plan = _spun_where_crowded(makes, Plan())
    makes, plan = _in_sets(tuple(makes), plan)
    ways = _solved(makes, plan)
    plan = _opened(makes, plan, ways)
    ways = _solved(makes, plan)
    return tuple(_pressed(make, ways, plan) for make in makes)


def _solved(makes: Sequence[Sewing], plan: Plan) -> Mapping[str, bool]:
    found = find(makes, plan)
    return solve(_pairs(found, makes), found.seams, found.fixed)


def _pairs(found: Found, makes: Sequence[Sewing]) -> list[Pair]:
    """What should differ, once for all places that are alike."""
    times = _times(makes)
    weights: Counter[tuple[str, str, bool]] = Counter()
    for meet, make in found.meets:
        first, second = meet.first, meet.second
        if OPEN not in (first.seam, second.seam):
            names = sorted((first.seam, second.seam))
            weights[names[0], names[1], first.after == second.after] += times[make]
    return [Pair(*key, weight) for key, weight in weights.items()]


def _times(makes: Sequence[Sewing]) -> Counter[str]:
    """How often each thing is in the last one."""
    times: Counter[str] = Counter({makes[-1].name: 1})
    for make in reversed(makes):
        for source in sources(make.steps):
            times[source] += times[make.name]
    return times


def _clashes(makes: Sequence[Sewing], plan: Plan) -> int:
    found = find(makes, plan)
    pairs = _pairs(found, makes)
    ways = solve(pairs, found.seams, found.fixed)
    return sum(pair.weight for pair in pairs if not pair.holds(ways))


def _spun_where_crowded(makes: Sequence[Sewing], plan: Plan) -> Plan:
    """Middles of two by two where eight seams come together are spun, other crowds pressed open.

    What the writer has settled stays so.
    """
    found = find(makes, plan)
    settled = {f"{m.name}: {seam}" for m in makes for seam in m.choice.ways}
    opened = {f"{m.name}: {s}" for m in makes for s, way in m.choice.ways.items() if way == 0}
    spun = {between(m.name, 1) for m in makes if m.choice.spun and is_two_by_two(m)}
    able = {between(make.name, 1) for make in makes if is_two_by_two(make)}
    crowds = found.crowds - settled
    return Plan(frozenset((crowds - able) | opened), frozenset((crowds & able) | spun))


def _in_sets(makes: tuple[Sewing, ...], plan: Plan) -> tuple[tuple[Sewing, ...], Plan]:
    """Middles spun and things made in two sets, one after the other, as long as less clashes."""
    least = _clashes(makes, plan)
    while least:
        tried = [(_clashes(*other), other) for other in _others(makes, plan)]
        best = min(tried, key=lambda t: t[0], default=None)
        if best is None or best[0] >= least:
            break
        least, (makes, plan) = best
    return makes, plan


def _others(makes: tuple[Sewing, ...], plan: Plan) -> Iterator[tuple[tuple[Sewing, ...], Plan]]:
    for make in makes:
        name = between(make.name, 1)
        if is_two_by_two(make) and not make.choice.ways and name not in plan.spun | plan.opened:
            yield makes, replace(plan, spun=plan.spun | {name})
    for parent in makes:
        for child in dict.fromkeys(sources(parent.steps)):
            for pattern in PATTERNS:
                other = split(makes, parent, child, pattern)
                if other is not None:
                    yield other, with_set_b(plan, child)


def _opened(makes: Sequence[Sewing], plan: Plan, ways: Mapping[str, bool]) -> Plan:
    """Seams that clash at least as often as they nest, the worst first."""
    while True:
        found = find(makes, plan)
        count: Counter[str] = Counter()
        clashing: dict[str, None] = {}
        for pair in _pairs(found, makes):
            holds = pair.holds(ways)
            for name in dict.fromkeys((pair.first, pair.second)):
                count[name] += -pair.weight if holds else pair.weight
                if not holds:
                    clashing[name] = None
        able = [n for n in clashing if ": " in n and n not in found.fixed and count[n] >= 0]
        if not able:
            return plan
        worst = max(able, key=lambda name: count[name])
        plan = replace(plan, opened=plan.opened | {worst})


def _pressed(make: Sewing, ways: Mapping[str, bool], plan: Plan) -> Sewing:
    if make.turnable:
        steps = make.steps if ways[make.name] else tuple(map(pressed_other_way, make.steps))
        return replace(make, steps=steps)
    return replace(make, steps=tuple(_with_words(make, s, ways, plan) for s in make.steps))


def _with_words(make: Sewing, step: Step, ways: Mapping[str, bool], plan: Plan) -> Step:
    name, choice = make.name, make.choice
    if not isinstance(step, Assemble | AssembleOnPoint):
        return step
    ends = 1 if isinstance(step, AssembleOnPoint) else -1
    lengths = [len(row.cells if not isinstance(row, tuple) else row) + ends for row in step.rows]
    rows = tuple(
        _words([in_row(name, j, n) for n in range(1, seams + 1)], ways, plan, ("left", "right"))
        for j, seams in enumerate(lengths, start=1)
    )
    names = [between(name, n) for n in range(1, len(step.rows))]
    if isinstance(step, AssembleOnPoint):
        return replace(step, row_press=rows, between=_settled_between(names, choice))
    if names and names[0] in plan.spun:
        return replace(step, row_press=rows, between=SPUN)
    return replace(step, row_press=rows, between=_words(names, ways, plan, ("up", "down")))


def _settled_between(names: Sequence[str], choice: Choice) -> str:
    """Rows on point meet along whole seams: the writer's word for those between them, or down."""
    words = {-1: "up", 0: "open", 1: "down"}
    each = [words[choice.ways.get(n.partition(": ")[2], 1)] for n in names]
    return each[0] if len(set(each)) == 1 else ", ".join(each) or "down"


def _words(
    names: Sequence[str], ways: Mapping[str, bool], plan: Plan, words: tuple[str, str]
) -> str:
    """One word where it holds for all seams, else one for each."""
    each = ["open" if n in plan.opened else words[ways[n]] for n in names]
    if not each:
        return words[1]
    if len(set(each)) == 1:
        return each[0]
    listed = ", ".join(each)
    for word in ("inward", "outward") if len(each) % 2 == 0 else ():
        if seam_ways(listed, len(each)) == seam_ways(word, len(each)):
            return word
    return listed
