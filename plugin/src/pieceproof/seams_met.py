"""Which seams meet in what is sewn, as far as pictures and steps tell.

In: everything that is made, in sewing order. Out: `Found`: the seams with their wishes, and all
places where two of them come together. A seam's direction is the solver's to choose.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.methods.method import SET_B
from pieceproof.model import Size
from pieceproof.parity import Wish
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
    Assemble,
    AssembleOnPoint,
    Join,
    JoinMitred,
    Placed,
    Press,
    Side,
    Step,
    Take,
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
class Found:
    """What has been found out about everything that is made."""

    ended: dict[str, Ended] = field(default_factory=dict)
    seams: dict[str, Wish] = field(default_factory=dict)
    fixed: dict[str, bool] = field(default_factory=dict)
    meets: list[tuple[Meet, str]] = field(default_factory=list)
    crowds: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class Plan:
    """What is decided beside directions: seams pressed open, middles that are spun."""

    opened: frozenset[str] = frozenset()
    spun: frozenset[str] = frozenset()


def find(makes: Sequence[Sewing], plan: Plan) -> Found:
    found = Found(fixed={FIXED: True})
    for make in makes:
        found.ended[make.name] = _followed(make, found, plan)
    return found


def _followed(make: Sewing, found: Found, plan: Plan) -> Ended:
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


def _joined(make: Sewing, step: Join, things: _Things, found: Found) -> Ended:
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


def _assembled(make: Sewing, step: Assemble, things: _Things, found: Found, plan: Plan) -> Ended:
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


def _seam_end(name: str, plan: Plan) -> End:
    return End(Fraction(0), OPEN if name in plan.opened else name, True)


def _between_ends(make: str, name: str, plan: Plan) -> tuple[End, End]:
    """At the left and at the right; a spun seam goes round with the one above it."""
    if name in plan.spun:
        above = in_row(make, 1, 1)
        return End(Fraction(0), above, False), End(Fraction(0), above, True)
    return _seam_end(name, plan), _seam_end(name, plan)


def _note_row(
    make: Sewing, number: int, is_plain: Sequence[bool], names: Sequence[str], found: Found
) -> None:
    given = _given(make, f"row {number}", len(names))
    for index, name in enumerate(names):
        before, behind = is_plain[index : index + 2]
        wish = Wish(number % 2 == 1, _TURN_ABOUT)
        if before != behind:
            wish = Wish(behind, _TO_PLAIN)
        _note(make, name, wish, given[index], found)


def _note_between(
    make: Sewing, is_plain: Sequence[bool], names: Sequence[str], found: Found
) -> None:
    given = _given(make, "between", len(names))
    for index, name in enumerate(names):
        before, behind = is_plain[index : index + 2]
        wish = Wish(behind, _TO_PLAIN) if before != behind else Wish(True, _TURN_ABOUT)
        _note(make, name, wish, given[index], found)


def _given(make: Sewing, key: str, seams: int) -> Sequence[int]:
    words = make.wishes.get(key)
    return seam_ways(words, seams) if words else (0,) * seams


def _note(make: Sewing, name: str, wish: Wish, given: int, found: Found) -> None:
    """A seam with its wish, or what was given before; one that the writer has settled is fixed.

    Set B wishes the opposite, so that set A is the usual one.
    """
    wish = Wish(given > 0, _BEFORE) if given else wish
    found.seams[name] = Wish(wish.way != make.name.endswith(SET_B), wish.weight)
    settled = make.choice.ways.get(name.removeprefix(f"{make.name}: "))
    if settled:
        found.fixed[name] = settled > 0


def _note_crowds(step: Assemble, things: _Things, names: Sequence[str], found: Found) -> None:
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
    make: Sewing, step: AssembleOnPoint, things: _Things, found: Found, plan: Plan
) -> None:
    """Diagonal rows in their own frame; the seams of the triangles at their ends go with them."""
    above: tuple[End, ...] = ()
    start: Number = Fraction(0)
    before: Sequence[Ended] = ()
    for number, row in enumerate(step.rows, start=1):
        cells = [things.placed(cell) for cell in row.cells]
        start = start + further_right(row.start, before, cells)
        before = cells
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


def further_right(seams: int, above: Sequence[Ended], row: Sequence[Ended]) -> Number:
    """How far a row's first seam lies beyond that of the row above, so many seams further on."""
    passed = above[:seams] if seams > 0 else row[:-seams]
    far = sum((cell.width for cell in passed), start=Fraction(0))
    return far if seams > 0 else -far


def assembly(make: Sewing) -> Assemble | None:
    return next((step for step in make.steps if isinstance(step, Assemble)), None)


def is_two_by_two(make: Sewing) -> bool:
    step = assembly(make)
    return step is not None and [len(row) for row in step.rows] == [2, 2]


def sources(steps: Sequence[Step]) -> list[str]:
    taken: list[str] = []

    def note(source: str, turn: int) -> tuple[str, int]:
        taken.append(source)
        return source, turn

    for step in steps:
        with_sources(step, note)
    return taken
