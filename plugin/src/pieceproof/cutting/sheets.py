"""Pieces cut from cloth that lies there in sheets: fat quarters, cuts, precuts, remnants.

Goes in: a demand, sheets in the order in which they are to be used. Comes out: what is cut from
each sheet, and what is left to be cut from a roll. Strips are planned for all that a kind of sheet
can hold; each sheet is then filled with the strips that use it best. Long strips that no sheet
holds whole are left: nothing is joined from sheets.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.cutting.plain import low_strips
from pieceproof.cutting.plan import Plan, Strip, pieces_cut
from pieceproof.cutting.planner import USUAL_EFFORT, plan

SHEET_EFFORT = USUAL_EFFORT // 10  # steps: a sheet holds few strips


@dataclass(frozen=True, slots=True)
class Sheet:
    """`count` equal rectangles without selvages, `width` across the cloth by `length` along it.

    `squaring` is the length that the first straight cut takes from each.
    """

    name: str
    width: Fraction
    length: Fraction
    count: int
    squaring: Fraction


@dataclass(frozen=True, slots=True)
class FromSheet:
    """What is cut from sheet `number`, counted from 1 among its equals.

    Strips of a `turned` sheet run along its length: the plan's width is the sheet's length. The
    plan's bound is 0: nothing is claimed of a shorter one.
    """

    sheet: Sheet
    number: int
    turned: bool
    plan: Plan


@dataclass(frozen=True, slots=True)
class Shared:
    """A demand cut from sheets, and what of it is left."""

    cut: tuple[FromSheet, ...]
    left: Demand


def from_sheets(demand: Demand, sheets: Sequence[Sheet]) -> Shared:
    """Each kind of sheet in turn takes as much of what is left as it can."""
    left, cut = demand, list[FromSheet]()
    for sheet in sheets:
        made = _from_kind(left, sheet)
        left = without(left, [piece.plan for piece in made])
        cut += made
    return Shared(tuple(cut), left)


def sheets_needed(demand: Demand, sheet: Sheet) -> tuple[FromSheet, ...] | None:
    """As many sheets of one kind as it takes, cut up; None where a piece fits on none of them.

    A plan's number of sheets: a cleverer one might do with fewer, but not with fewer than the
    pieces' area asks for.
    """
    pieces = sum(want.count for want in demand.wants)
    if demand.longs or not pieces:
        return None
    plenty = replace(sheet, count=pieces)
    ways = [tuple(_one_way(demand, plenty, turned)) for turned in _ways(demand, plenty)]
    whole = [made for made in ways if not without(demand, [m.plan for m in made]).wants]
    fewest = min((len(made) for made in whole), default=0)
    return next((made for made in whole if len(made) == fewest), None)


def without(demand: Demand, plans: Sequence[Plan]) -> Demand:
    """What of the demand the plans do not cut."""
    cut: dict[str, int] = {}
    for done in plans:
        for letter, count in pieces_cut(done).items():
            cut[letter] = cut.get(letter, 0) + count
    wants = (replace(w, count=w.count - cut.get(w.letter, 0)) for w in demand.wants)
    longs = (replace(n, count=n.count - cut.get(n.letter, 0)) for n in demand.longs)
    return replace(
        demand,
        wants=tuple(want for want in wants if want.count),
        longs=tuple(long for long in longs if long.count),
    )


def _from_kind(left: Demand, sheet: Sheet) -> list[FromSheet]:
    """The way round that leaves less to buy."""
    ways = [_one_way(left, sheet, turned) for turned in _ways(left, sheet)]
    return max(ways, key=lambda made: sum(_area(m.plan.strips) for m in made), default=[])


def _ways(demand: Demand, sheet: Sheet) -> tuple[bool, ...]:
    """A sheet may be cut either way round where every piece may be turned."""
    square = sheet.width == sheet.length
    return (False, True) if all(w.turnable for w in demand.wants) and not square else (False,)


def _one_way(left: Demand, sheet: Sheet, turned: bool) -> list[FromSheet]:
    width, length = (sheet.length, sheet.width) if turned else (sheet.width, sheet.length)
    room = length - sheet.squaring
    wants = tuple(_wants(left, width, room))
    if not wants:
        return []
    found, problems = plan(Demand(wants, (), width, left.step, sheet.squaring), SHEET_EFFORT)
    if problems:
        return []
    strips = list(_as_listed(low_strips(found.strips), left))
    made = []
    for number in range(1, sheet.count + 1):
        taken = _fullest(strips, room, left.step)
        if not taken:
            break
        strips = list(_rest(strips, taken))
        used = sum((strip.height * strip.count for strip in taken), Fraction(0))
        cut = Plan(found.width, sheet.squaring, taken, (), used, Fraction(0), proven=False)
        made.append(FromSheet(sheet, number, turned, cut))
    return made


def _wants(left: Demand, width: Fraction, room: Fraction) -> Iterator[Want]:
    """What fits on the sheet, as it has to lie where it fits one way only."""
    for want in left.wants:
        upright = want.across <= width and want.along <= room
        level = want.turnable and want.along <= width and want.across <= room
        if upright and level:
            yield want
        elif upright:
            yield replace(want, turnable=False)
        elif level:
            yield replace(want, across=want.along, along=want.across, turnable=False)
    for long in left.longs:
        across, along = _sides(long)
        if across <= width and along <= room:
            yield Want(long.letter, across, along, long.count, turnable=False)


def _sides(long: Long) -> tuple[Fraction, Fraction]:
    sides = (long.length, long.width)
    return sides if long.way == "crosswise" else (sides[1], sides[0])


def _as_listed(strips: Sequence[Strip], left: Demand) -> Iterator[Strip]:
    """The strips, their pieces called turned where they lie otherwise than in the demand."""
    across = {want.letter: want.across for want in left.wants}
    for strip in strips:
        segments = tuple(
            replace(
                segment,
                cuts=tuple(
                    replace(cut, turned=across.get(cut.letter, cut.across) != cut.across)
                    for cut in segment.cuts
                ),
            )
            for segment in strip.segments
        )
        yield replace(strip, segments=segments)


def _rest(strips: Sequence[Strip], taken: Sequence[Strip]) -> Iterator[Strip]:
    used = {(strip.height, strip.segments): strip.count for strip in taken}
    for strip in strips:
        count = strip.count - used.get((strip.height, strip.segments), 0)
        if count:
            yield replace(strip, count=count)


def _fullest(strips: Sequence[Strip], room: Fraction, step: Fraction) -> tuple[Strip, ...]:
    """The strips whose pieces are worth most by area, of those that fit: a bounded knapsack.

    Counts are split into powers of two and a rest, so that each part is taken whole or not.
    """
    steps = max(0, room // step)
    parts = [
        (at, count) for at, strip in enumerate(strips) for count in _powers(strip, steps * step)
    ]
    best, kept = [Fraction(0)] * (steps + 1), list[list[bool]]()
    for at, count in parts:
        height, worth = int(strips[at].height / step) * count, _area([strips[at]]) * count
        worth /= strips[at].count
        above = [Fraction(-1)] * min(height, steps + 1) + [worth + v for v in best][
            : max(0, steps + 1 - height)
        ]
        kept.append([more > old for more, old in zip(above, best, strict=True)])
        best = [max(pair) for pair in zip(above, best, strict=True)]
    taken: dict[int, int] = {}
    for (at, count), chosen in zip(reversed(parts), reversed(kept), strict=True):
        if chosen[steps]:
            taken[at] = taken.get(at, 0) + count
            steps -= int(strips[at].height / step) * count
    return tuple(replace(strips[at], count=taken[at]) for at in sorted(taken))


def _powers(strip: Strip, room: Fraction) -> Iterator[int]:
    count, power = min(strip.count, int(room / strip.height)), 1
    while count:
        yield min(power, count)
        count -= min(power, count)
        power *= 2


def _area(strips: Sequence[Strip]) -> Fraction:
    """Area of the pieces in the strips."""
    return sum(
        (
            strip.count * segment.count * cut.count * cut.across * cut.along
            for strip in strips
            for segment in strip.segments
            for cut in segment.cuts
        ),
        Fraction(0),
    )
