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
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.methods.method import SET_B
from pieceproof.model import Size
from pieceproof.parity import Pair, Wish, solve
from pieceproof.pressing_choices import NO_CHOICE, Choice
from pieceproof.seam_ends import (
    FIXED,
    OPEN,
    End,
    Ended,
    Meet,
    in_a_row,
    meets,
    plain,
    transposed,
    turned,
)
from pieceproof.steps import (
    SPUN,
    Assemble,
    AssembleOnPoint,
    Join,
    JoinMitred,
    Placed,
    Press,
    Side,
    Step,
    Take,
    pressed_other_way,
    seam_ways,
    with_sources,
)

CROWD = 8
"""So many seams at one place are pressed open: common practice for the middle of a pinwheel."""

_BEFORE, _TO_PLAIN, _TURN_ABOUT, _TO_DARK = 8, 3, 1, 5
"""How much it matters: words given before, toward plain patches, turn about, toward the dark."""


@dataclass(frozen=True)
class Sewing:
    """One thing that is made.

    ``ended`` is for units that are not sewn from rows: their seams' ends. ``pieces`` has the
    finished sizes of the pieces it takes. ``turnable`` units may be pressed the other way.
    ``wishes`` has words for rows (``row 1``) and for ``between``, ``choice`` what the writer has
    settled: that is kept.
    """

    name: str
    size: Size
    steps: tuple[Step, ...]
    pieces: Mapping[str, Size] = field(default_factory=dict)
    ended: Ended | None = None
    turnable: bool = False
    wishes: Mapping[str, str] = field(default_factory=dict)
    choice: Choice = NO_CHOICE


@dataclass
class _Found:
    """What has been found out about everything that is made."""

    ended: dict[str, Ended] = field(default_factory=dict)
    seams: dict[str, Wish] = field(default_factory=dict)
    fixed: dict[str, bool] = field(default_factory=dict)
    meets: list[tuple[Meet, str]] = field(default_factory=list)
    crowds: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class _Plan:
    """What is decided beside directions: seams pressed open, middles that are spun."""

    opened: frozenset[str] = frozenset()
    spun: frozenset[str] = frozenset()


def nest(makes: Sequence[Sewing]) -> tuple[Sewing, ...]:
    """All that is made, in sewing order, with pressing; sets B stand before their sets A."""
    plan = _spun_where_crowded(makes, _Plan())
    makes, plan = _in_sets(tuple(makes), plan)
    ways = _solved(makes, plan)
    plan = _opened(makes, plan, ways)
    ways = _solved(makes, plan)
    return tuple(_pressed(make, ways, plan) for make in makes)


def _solved(makes: Sequence[Sewing], plan: _Plan) -> Mapping[str, bool]:
    found = _find(makes, plan)
    return solve(_pairs(found, makes), found.seams, found.fixed)


def _pairs(found: _Found, makes: Sequence[Sewing]) -> list[Pair]:
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
        for source in _sources(make.steps):
            times[source] += times[make.name]
    return times


def _sources(steps: Sequence[Step]) -> list[str]:
    taken: list[str] = []

    def note(source: str, turn: int) -> tuple[str, int]:
        taken.append(source)
        return source, turn

    for step in steps:
        with_sources(step, note)
    return taken


def _clashes(makes: Sequence[Sewing], plan: _Plan) -> int:
    found = _find(makes, plan)
    pairs = _pairs(found, makes)
    ways = solve(pairs, found.seams, found.fixed)
    return sum(pair.weight for pair in pairs if not pair.holds(ways))


# What is sewn, followed from the first thing to the last.


def _find(makes: Sequence[Sewing], plan: _Plan) -> _Found:
    found = _Found(fixed={FIXED: True})
    for make in makes:
        found.ended[make.name] = _followed(make, found, plan)
    return found


def _followed(make: Sewing, found: _Found, plan: _Plan) -> Ended:
    if make.ended is not None:
        if make.turnable:
            found.seams[make.name] = Wish(not make.name.endswith(SET_B), _TO_DARK)
        if make.turnable and make.choice.dark is not None:
            found.fixed[make.name] = make.choice.dark
        return make.ended
    things = _Things(make, found.ended)
    for step in make.steps:
        match step:
            case Assemble():
                return _assembled(make, step, things, found, plan)
            case AssembleOnPoint():
                _on_point(make, step, things, found, plan)
            case Take():
                things.taken[step.item] = things.placed(Placed(step.source, step.turn))
            case Join() if step.item in things.taken and step.added in things.taken:
                things.taken[step.item] = _joined(make, step, things, found)
            case JoinMitred() if step.item in things.taken:
                strip = things.taken[step.left]
                base = things.taken[step.item]
                width = 2 * min(strip.width, strip.height)
                things.taken[step.item] = plain(base.width + width, base.height + width)
            case _:
                pass
    return things.taken.get(make.name) or plain(make.size.width, make.size.height)


@dataclass
class _Things:
    make: Sewing
    made: Mapping[str, Ended]
    taken: dict[str, Ended] = field(default_factory=dict)

    def placed(self, cell: Placed) -> Ended:
        size = self.make.pieces.get(cell.source)
        known = plain(size.width, size.height) if size else self.made[cell.source]
        return turned(known, cell.turn)

    def is_plain(self, cell: Placed) -> bool:
        return cell.source in self.make.pieces


def _joined(make: Sewing, step: Join, things: _Things, found: _Found) -> Ended:
    """A thing sewn to a side; its seam is pressed as the step says."""
    base, added = things.taken[step.item], things.taken[step.added]
    before = step.side in (Side.LEFT, Side.TOP)
    pair = (added, base) if before else (base, added)
    after = (step.press is Press.ONTO_ADDED) != before
    end = End(Fraction(0), OPEN if step.press is Press.OPEN else FIXED, after)
    if step.side in (Side.LEFT, Side.RIGHT):
        whole, met = in_a_row(pair, [(end, end)])
    else:
        lying, met = in_a_row([transposed(thing) for thing in pair], [(end, end)])
        whole = transposed(lying)
    found.meets += [(meet, make.name) for meet in met]
    return whole


def _assembled(make: Sewing, step: Assemble, things: _Things, found: _Found, plan: _Plan) -> Ended:
    rows = []
    for number, row in enumerate(step.rows, start=1):
        cells = [things.placed(cell) for cell in row]
        names = [in_row(make.name, number, n) for n in range(1, len(row))]
        _note_row(make, number, [things.is_plain(cell) for cell in row], names, found)
        ends = [_seam_end(name, plan) for name in names]
        whole, met = in_a_row(cells, [(end, end) for end in ends])
        found.meets += [(meet, make.name) for meet in met]
        rows.append(transposed(whole))
    names = [between(make.name, n) for n in range(1, len(rows))]
    is_plain = [all(things.is_plain(cell) for cell in row) for row in step.rows]
    _note_between(make, is_plain, names, found)
    _note_crowds(step, things, names, found)
    whole, met = in_a_row(rows, [_between_ends(make.name, name, plan) for name in names])
    found.meets += [(meet, make.name) for meet in met]
    return transposed(whole)


def in_row(make: str, row: int, number: int) -> str:
    """The name of a seam in a row; it is True where it goes right."""
    return f"{make}: row {row} seam {number}"


def between(make: str, number: int) -> str:
    """The name of a seam between rows; it is True where it goes down."""
    return f"{make}: between {number}"


def _seam_end(name: str, plan: _Plan) -> End:
    return End(Fraction(0), OPEN if name in plan.opened else name, True)


def _between_ends(make: str, name: str, plan: _Plan) -> tuple[End, End]:
    """At the left and at the right; a spun seam goes round with the one above it."""
    if name in plan.spun:
        above = in_row(make, 1, 1)
        return End(Fraction(0), above, False), End(Fraction(0), above, True)
    return _seam_end(name, plan), _seam_end(name, plan)


def _note_row(
    make: Sewing, number: int, is_plain: Sequence[bool], names: Sequence[str], found: _Found
) -> None:
    given = _given(make, f"row {number}", len(names))
    for index, name in enumerate(names):
        before, behind = is_plain[index : index + 2]
        wish = Wish(number % 2 == 1, _TURN_ABOUT)
        if before != behind:
            wish = Wish(behind, _TO_PLAIN)
        _note(make, name, wish, given[index], found)


def _note_between(
    make: Sewing, is_plain: Sequence[bool], names: Sequence[str], found: _Found
) -> None:
    given = _given(make, "between", len(names))
    for index, name in enumerate(names):
        before, behind = is_plain[index : index + 2]
        wish = Wish(behind, _TO_PLAIN) if before != behind else Wish(True, _TURN_ABOUT)
        _note(make, name, wish, given[index], found)


def _given(make: Sewing, key: str, seams: int) -> Sequence[int]:
    words = make.wishes.get(key)
    return seam_ways(words, seams) if words else (0,) * seams


def _note(make: Sewing, name: str, wish: Wish, given: int, found: _Found) -> None:
    """A seam with its wish, or what was given before; one that the writer has settled is fixed.

    Set B wishes the opposite, so that set A is the usual one.
    """
    wish = Wish(given > 0, _BEFORE) if given else wish
    found.seams[name] = Wish(wish.way != make.name.endswith(SET_B), wish.weight)
    settled = make.choice.ways.get(name.removeprefix(f"{make.name}: "))
    if settled:
        found.fixed[name] = settled > 0


def _note_crowds(step: Assemble, things: _Things, names: Sequence[str], found: _Found) -> None:
    """Seams between rows that cross a place where too many others end."""
    for name, (above, below) in zip(names, pairwise(step.rows), strict=True):
        count: Counter[Number] = Counter()
        for row, side in ((above, Side.BOTTOM), (below, Side.TOP)):
            cells = [things.placed(cell) for cell in row]
            starts = list(accumulate((c.width for c in cells), initial=Fraction(0)))
            count.update(starts[1:-1])
            for cell, start in zip(cells, starts, strict=False):
                count.update(start + end.place for end in cell.edges[side])
            whole = starts[-1]
        crowded = [p for p, n in count.items() if 0 < p < whole and n + 2 >= CROWD]
        if crowded:
            found.crowds.add(name)


def _on_point(
    make: Sewing, step: AssembleOnPoint, things: _Things, found: _Found, plan: _Plan
) -> None:
    """Diagonal rows in their own frame; the seams of the triangles at their ends go with them."""
    above: tuple[End, ...] = ()
    start: Number = Fraction(0)
    for number, row in enumerate(step.rows, start=1):
        cells = [things.placed(cell) for cell in row.cells]
        start = start + row.start * cells[0].width
        names = [in_row(make.name, number, n) for n in range(1, len(cells) + 2)]
        alone = len(step.rows) == 1
        _note_row(make, number, [alone, *[False] * len(cells), alone], names, found)
        nothing = plain(Fraction(0), cells[0].height)
        ends = [_seam_end(name, plan) for name in names]
        whole, met = in_a_row([nothing, *cells, nothing], [(end, end) for end in ends])
        lying = {
            side: tuple(replace(e, place=e.place + start) for e in whole.edges[side])
            for side in (Side.TOP, Side.BOTTOM)
        }
        found.meets += [(m, make.name) for m in (*met, *meets(above, lying[Side.TOP]))]
        above = lying[Side.BOTTOM]


# What is decided beside directions.


def _spun_where_crowded(makes: Sequence[Sewing], plan: _Plan) -> _Plan:
    """Middles of two by two where eight seams come together are spun, other crowds pressed open.

    What the writer has settled stays so.
    """
    found = _find(makes, plan)
    settled = {f"{m.name}: {seam}" for m in makes for seam in m.choice.ways}
    opened = {f"{m.name}: {s}" for m in makes for s, way in m.choice.ways.items() if way == 0}
    spun = {between(m.name, 1) for m in makes if m.choice.spun and _is_two_by_two(m)}
    able = {between(make.name, 1) for make in makes if _is_two_by_two(make)}
    crowds = found.crowds - settled
    return _Plan(frozenset((crowds - able) | opened), frozenset((crowds & able) | spun))


def _assembly(make: Sewing) -> Assemble | None:
    return next((step for step in make.steps if isinstance(step, Assemble)), None)


def _is_two_by_two(make: Sewing) -> bool:
    step = _assembly(make)
    return step is not None and [len(row) for row in step.rows] == [2, 2]


def _in_sets(makes: tuple[Sewing, ...], plan: _Plan) -> tuple[tuple[Sewing, ...], _Plan]:
    """Middles spun and things made in two sets, one after the other, as long as less clashes."""
    least = _clashes(makes, plan)
    while least:
        tried = [(_clashes(*other), other) for other in _others(makes, plan)]
        best = min(tried, key=lambda t: t[0], default=None)
        if best is None or best[0] >= least:
            break
        least, (makes, plan) = best
    return makes, plan


def _others(makes: tuple[Sewing, ...], plan: _Plan) -> Iterator[tuple[tuple[Sewing, ...], _Plan]]:
    for make in makes:
        name = between(make.name, 1)
        if _is_two_by_two(make) and not make.choice.ways and name not in plan.spun | plan.opened:
            yield makes, replace(plan, spun=plan.spun | {name})
    for parent in makes:
        for child in dict.fromkeys(_sources(parent.steps)):
            for pattern in _PATTERNS:
                other = _split(makes, parent, child, pattern)
                if other is not None:
                    yield other, _with_set_b(plan, child)


_PATTERNS = ((1, 1), (1, 0), (0, 1))
"""How much row and column count; the cells where the sum is odd take set B."""


def _split(
    makes: tuple[Sewing, ...], parent: Sewing, child: str, pattern: tuple[int, int]
) -> tuple[Sewing, ...] | None:
    """With set B of a thing in every other place of another; None where that cannot be."""
    made = next((m for m in makes if m.name == child), None)
    step = next((s for s in parent.steps if isinstance(s, Assemble | AssembleOnPoint)), None)
    if made is None or step is None or made.choice != NO_CHOICE or child.endswith(SET_B):
        return None
    if not (made.turnable or _assembly(made)) or any(m.name == child + SET_B for m in makes):
        return None
    mixed = _with_b(step, child, pattern)
    if {child, child + SET_B} - set(_sources([mixed])):
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


def _with_set_b(plan: _Plan, child: str) -> _Plan:
    """What is open or spun in a thing is so in its set B."""

    def both(names: frozenset[str]) -> frozenset[str]:
        start = f"{child}: "
        own = (name.removeprefix(start) for name in names if name.startswith(start))
        return names | {f"{child}{SET_B}: {rest}" for rest in own}

    return _Plan(both(plan.opened), both(plan.spun))


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


def _opened(makes: Sequence[Sewing], plan: _Plan, ways: Mapping[str, bool]) -> _Plan:
    """Seams that clash at least as often as they nest, the worst first."""
    while True:
        found = _find(makes, plan)
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


# The words for pressing.


def _pressed(make: Sewing, ways: Mapping[str, bool], plan: _Plan) -> Sewing:
    if make.turnable:
        steps = make.steps if ways[make.name] else tuple(map(pressed_other_way, make.steps))
        return replace(make, steps=steps)
    return replace(make, steps=tuple(_with_words(make.name, s, ways, plan) for s in make.steps))


def _with_words(name: str, step: Step, ways: Mapping[str, bool], plan: _Plan) -> Step:
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
        return replace(step, row_press=rows)
    if names and names[0] in plan.spun:
        return replace(step, row_press=rows, between=SPUN)
    return replace(step, row_press=rows, between=_words(names, ways, plan, ("up", "down")))


def _words(
    names: Sequence[str], ways: Mapping[str, bool], plan: _Plan, words: tuple[str, str]
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
