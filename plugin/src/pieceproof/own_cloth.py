"""What can be cut from cloth that a maker or the shop has: fat quarters, precuts, remnants.

In: a size, the bytes of a list of cloth. Out: what comes from which piece, and what must still be
bought, as text, or every problem of the list. Each plan is proved before anything is said.

The list is YAML: ``cloths``, each with the parts that it ``plays``, its ``width`` between selvages
and its ``length``, in the unit that ``measure`` names.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from quicktions import Fraction

from pieceproof.compile import Sized
from pieceproof.cutting.demand import Demand
from pieceproof.cutting.plan import Plan, Strip
from pieceproof.cutting.planner import plan
from pieceproof.cutting.sheet_check import sheet_faults
from pieceproof.cutting.sheets import FromSheet, Shared, Sheet, from_sheets
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, FIVE_CM, published_length
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import AtLeast, AtMost, Example, Measure, Node, ZeroToo
from pieceproof.problems import Problem
from pieceproof.records import Desk, Spot, read_record
from pieceproof.requirements import CM_PER_INCH, ROOM, Need
from pieceproof.source import read_source
from pieceproof.wording import one_of, quoted, write_instead


@dataclass(frozen=True)
class OwnCloth(Node):
    """Equal pieces of one cloth, in the order in which they are to be used."""

    name: Annotated[str, "What it is called", AtMost(60), Example("fat quarters of mist")]
    plays: Annotated[
        tuple[Annotated[str, AtMost(60), Example("ground")], ...],
        "The fabrics of the pattern that may be cut from it",
        AtLeast(1),
        AtMost(40),
    ]
    width: Annotated[Fraction, "From selvage to selvage or edge to edge", Example("20")]
    length: Annotated[Fraction, "Along the selvage", Example("18")]
    count: Annotated[int, "How many there are", AtMost(500)] = 1
    squaring: Annotated[
        Fraction | None, "Lost to the first cut; 1/2 in or 1 cm if left out", ZeroToo()
    ] = None


@dataclass(frozen=True)
class OwnCloths(Node):
    """Everything there is."""

    measure: Annotated[Measure, "The unit of its lengths"] = Measure.INCH
    cloths: Annotated[tuple[OwnCloth, ...], "Pieces of cloth", AtLeast(1), AtMost(100)] = ()


@dataclass(frozen=True)
class _Used:
    """What one entry of the list gives."""

    demand: Demand
    sheet: Sheet
    shared: Shared


def read_own_cloths(file: str, data: bytes) -> tuple[OwnCloths, tuple[Problem, ...], Sequence[str]]:
    """The list, its problems in the order of the file, and its lines. Never raises."""
    tree, faults, lines = read_source(file, data)
    if tree is None:
        return OwnCloths(), faults, lines
    desk = Desk({}, [*faults])
    found: OwnCloths = read_record(desk, OwnCloths, tree, Spot("the list", "", tree.place))
    return found, tuple(sorted(set(desk.problems))), lines


def unknown_parts(own: OwnCloths, sized: Sized) -> Iterator[Problem]:
    """Parts that the pattern does not have, or that are not cut from cloth of the list's kind."""
    parts = tuple(sized.design.fabrics)
    for cloth in own.cloths:
        for at, part in enumerate(cloth.plays, 1):
            if part not in parts:
                yield Problem(
                    cloth.at[f"plays/{at}"],
                    "undeclared",
                    f"the fabric {quoted(part)}",
                    one_of(parts),
                    write_instead(part, parts, "name a fabric of the pattern"),
                )


def own_cloth_text(own: OwnCloths, sized: Sized) -> tuple[str, tuple[str, ...]]:
    """What comes from which piece and what is still to buy; and faults that must not be there."""
    left = {need.fabrics[0]: need for need in _alone(sized)}
    demands = {part: need.demand for part, need in left.items()}
    used = [_use(cloth, own.measure, sized, demands) for cloth in own.cloths]
    faults = [f for one in used for f in sheet_faults(one.demand, [one.sheet], one.shared)]
    lines = [f"{sized.design.name}, {sized.design.label}: from the cloth there is"]
    for one in used:
        lines += ["", *_sheet_lines(sized.design.measure, one)]
    lines += ["", "Still to buy:"]
    for part, demand in demands.items():
        lines.append(f"  {sized.design.fabrics[part].called}: {_buy(sized, left[part], demand)}")
    return "\n".join(lines), tuple(faults)


def _alone(sized: Sized) -> Iterator[Need]:
    found = sized.requirements
    usual = found.usable_widths[0]
    return (n for n in found.needs if n.usable_width == usual and len(n.fabrics) == 1)


def _use(cloth: OwnCloth, measure: Measure, sized: Sized, demands: dict[str, Demand]) -> _Used:
    """Cut what the parts still ask for; takes it out of the demands."""
    parts = [part for part in dict.fromkeys(cloth.plays) if part in demands]
    first = next(iter(demands.values()))
    together = replace(
        first,
        wants=tuple(want for part in parts for want in demands[part].wants),
        longs=tuple(long for part in parts for long in demands[part].longs),
    )
    sheet = _sheet(cloth, measure, sized.design.measure)
    shared = from_sheets(together, [sheet])
    wants = {want.letter: want for want in shared.left.wants}
    longs = {long.letter: long for long in shared.left.longs}
    for part in parts:
        before = demands[part]
        demands[part] = replace(
            before,
            wants=tuple(wants[w.letter] for w in before.wants if w.letter in wants),
            longs=tuple(longs[n.letter] for n in before.longs if n.letter in longs),
        )
    return _Used(together, sheet, shared)


def _sheet(cloth: OwnCloth, measure: Measure, pattern: Measure) -> Sheet:
    """The entry in the pattern's unit, exact."""
    squaring = cloth.squaring
    if squaring is None:
        squaring = measure.usual(Fraction(1, 2), Fraction(1))
    factor = Fraction(1)
    if measure is not pattern:
        factor = CM_PER_INCH if measure is Measure.INCH else 1 / CM_PER_INCH
    sides = (cloth.width * factor, cloth.length * factor)
    return Sheet(cloth.name, *sides, cloth.count, squaring * factor)


def _sheet_lines(measure: Measure, used: _Used) -> Iterator[str]:
    sheet, cut = used.sheet, used.shared.cut
    size = show_size(measure, _down(sheet.width), _down(sheet.length))
    yield f"{sheet.name}, {size}: {len(cut)} of {sheet.count} used"
    for strips, numbers in _alike(cut):
        turned = ", strips along its length" if strips[0].turned else ""
        yield f"  {'no.' if len(numbers) == 1 else 'nos.'} {', '.join(map(str, numbers))}{turned}:"
        yield from (f"    {_strip(measure, strip)}" for strip in strips[0].plan.strips)


def _down(length: Fraction) -> Fraction:
    """To the ruler's eighth or the hundredth below, for show."""
    return length // Fraction(1, 200) * Fraction(1, 200)


def _alike(cut: Sequence[FromSheet]) -> list[tuple[list[FromSheet], list[int]]]:
    """Sheets that are cut in the same way, together."""
    groups: dict[tuple[Plan, bool], list[FromSheet]] = {}
    for one in cut:
        groups.setdefault((one.plan, one.turned), []).append(one)
    return [(group, [one.number for one in group]) for group in groups.values()]


def _strip(measure: Measure, strip: Strip) -> str:
    pieces: dict[str, int] = {}
    for segment in strip.segments:
        for cut in segment.cuts:
            pieces[cut.letter] = pieces.get(cut.letter, 0) + segment.count * cut.count
    each = " and ".join(f"{count} {letter}" for letter, count in pieces.items())
    strips = f"{strip.count} {'strip' if strip.count == 1 else 'strips'}"
    return f"{strips} {show_length(measure, strip.height)} wide, {each} from each"


def _buy(sized: Sized, need: Need, left: Demand) -> str:
    """The least length to buy of the usual width, with the least room."""
    measure = sized.design.measure
    first = need.backs.chosen.total if need.backs else Fraction(0)
    first += sum((fussy.length for fussy in need.fussy), Fraction(0))
    if not (left.wants or left.longs or first):
        return "nothing"
    planned, _ = plan(left)
    with_first = replace(planned, squaring=planned.squaring + first)
    step = EIGHTH_YARD_IN if measure is Measure.INCH else FIVE_CM
    room = ROOM[measure] if planned.strips else Fraction(0)
    length = published_length(with_first, room, step).published
    if measure is Measure.INCH:
        return f"{show_fraction(length / 36)} yd ({_pieces(left)})"
    return f"{show_decimal(length / 100)} m ({_pieces(left)})"


def _pieces(left: Demand) -> str:
    counts: Mapping[str, int] = {
        **{want.letter: want.count for want in left.wants},
        **{long.letter: long.count for long in left.longs},
    }
    return ", ".join(f"{count} {letter}" for letter, count in counts.items()) or "the backing"
