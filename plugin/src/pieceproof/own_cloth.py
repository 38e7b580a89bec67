"""What can be cut from cloth that a maker or the shop has: fat quarters, precuts, remnants.

In: a size, the bytes of a list of cloth, perhaps a colourway. Out: what comes from which piece, and
what must still be bought, as text or data, or every problem of the list. Parts that one cloth of
the colourway plays are bought together. Each plan is proved before anything is said.

The list is YAML: ``cloths``, each with the parts that it ``plays``, its ``width`` between selvages
and its ``length``, in the unit that ``measure`` names.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Annotated, TypeAlias

from quicktions import Fraction

from pieceproof.compile import Sized
from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.demand import Demand
from pieceproof.cutting.plan import Plan, Strip
from pieceproof.cutting.planner import plan
from pieceproof.cutting.sheet_check import sheet_faults
from pieceproof.cutting.sheets import FromSheet, Shared, Sheet, from_sheets
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, FIVE_CM, published_length
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import (
    AtLeast,
    AtMost,
    ClothName,
    Design,
    Example,
    FabricName,
    Measure,
    Node,
    ZeroToo,
)
from pieceproof.problems import Problem
from pieceproof.records import Desk, Spot, read_record
from pieceproof.requirements import CM_PER_INCH, ROOM, Need, planning_steps
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
class Used:
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


@dataclass(frozen=True)
class Bought:
    """What must still be bought of one cloth: its length in the pattern's unit, and the pieces."""

    called: str
    parts: tuple[str, ...]
    length: Fraction
    pieces: Mapping[str, int]


@dataclass(frozen=True)
class OwnPlan:
    """What the list gives, what is to buy, and faults that must not be there."""

    used: tuple[Used, ...]
    bought: tuple[Bought, ...]
    faults: tuple[str, ...]


def own_plan(own: OwnCloths, sized: Sized, colourway: str | None = None) -> OwnPlan:
    """Cut what can be cut in the order of the list; the rest is bought, by part or by cloth."""
    demands = {need.fabrics[0]: need.demand for need in _usual(sized) if len(need.fabrics) == 1}
    used = [_use(cloth, own.measure, sized, demands) for cloth in own.cloths]
    faults = [f for one in used for f in sheet_faults(one.demand, [one.sheet], one.shared)]
    bought = []
    for called, need in _to_buy(sized, tuple(demands), colourway):
        left = _together([demands[part] for part in need.fabrics])
        some, wrong = _buy(sized.design, called, need, left)
        bought.append(some)
        faults += wrong
    return OwnPlan(tuple(used), tuple(bought), tuple(faults))


def own_cloth_text(found: OwnPlan, sized: Sized) -> str:
    """For a terminal: piece by piece, then what is to buy."""
    measure = sized.design.measure
    lines = [f"{sized.design.name}, {sized.design.label}: from the cloth there is"]
    for one in found.used:
        lines += ["", *_sheet_lines(measure, one)]
    lines += ["", "Still to buy:"]
    lines += (f"  {one.called}: {_length_words(measure, one)}" for one in found.bought)
    return "\n".join(lines)


Data: TypeAlias = dict[str, "str | int | Data | list[Data] | list[str] | list[int]"]


def own_cloth_data(found: OwnPlan, sized: Sized) -> Data:
    """The same for other programs; lengths are exact, in the pattern's unit."""
    cloths: list[Data] = [
        {
            "name": one.sheet.name,
            "pieces there": one.sheet.count,
            "pieces used": len(one.shared.cut),
            "cuts": [_cut_data(some, numbers) for some, numbers in _alike(one.shared.cut)],
        }
        for one in found.used
    ]
    bought: list[Data] = [
        {
            "cloth": one.called,
            "parts": list(one.parts),
            "length": str(one.length),
            "pieces": dict(one.pieces),
        }
        for one in found.bought
    ]
    return {
        "size": sized.design.size,
        "measure": sized.design.measure.value,
        "from the list": cloths,
        "still to buy": bought,
    }


def _cut_data(alike: Sequence[FromSheet], numbers: list[int]) -> Data:
    strips: list[Data] = [
        {"strips": strip.count, "height": str(strip.height), "each": dict(_pieces_of(strip))}
        for strip in alike[0].plan.strips
    ]
    way = "length" if alike[0].turned else "width"
    return {"numbers": numbers, "strips across its": way, "strips": strips}


def _usual(sized: Sized) -> Iterator[Need]:
    """What is needed of the usual width."""
    found = sized.requirements
    return (need for need in found.needs if need.usable_width == found.usable_widths[0])


def _to_buy(
    sized: Sized, parts: Sequence[str], colourway: str | None
) -> Iterator[tuple[str, Need]]:
    """A need for every part, or for every cloth of the colourway, with its name."""
    design, needs = sized.design, {frozenset(need.fabrics): need for need in _usual(sized)}
    if colourway is None:
        for part in parts:
            yield design.fabrics[part].called, needs[frozenset((part,))]
        return
    parts_of = design.colourways[colourway].parts
    together: dict[ClothName, list[str]] = {}
    for part in parts:
        together.setdefault(parts_of[FabricName(part)], []).append(part)
    for cloth, some in together.items():
        called = ", ".join(design.fabrics[part].called for part in some)
        yield f"{design.cloths[cloth].name} ({called})", needs[frozenset(some)]


def _together(demands: Sequence[Demand]) -> Demand:
    return replace(
        demands[0],
        wants=tuple(want for demand in demands for want in demand.wants),
        longs=tuple(long for demand in demands for long in demand.longs),
    )


def _use(cloth: OwnCloth, measure: Measure, sized: Sized, demands: dict[str, Demand]) -> Used:
    """Cut what the parts still ask for; takes it out of the demands."""
    parts = [part for part in dict.fromkeys(cloth.plays) if part in demands]
    together = _together([demands[part] for part in parts])
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
    return Used(together, sheet, shared)


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


def _sheet_lines(measure: Measure, used: Used) -> Iterator[str]:
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
    pieces = _pieces_of(strip)
    each = " and ".join(f"{count} {letter}" for letter, count in pieces.items())
    strips = f"{strip.count} {'strip' if strip.count == 1 else 'strips'}"
    return f"{strips} {show_length(measure, strip.height)} wide, {each} from each"


def _pieces_of(strip: Strip) -> dict[str, int]:
    """Pieces by letter that fall out of one strip."""
    pieces: dict[str, int] = {}
    for segment in strip.segments:
        for cut in segment.cuts:
            pieces[cut.letter] = pieces.get(cut.letter, 0) + segment.count * cut.count
    return pieces


def _buy(design: Design, called: str, need: Need, left: Demand) -> tuple[Bought, tuple[str, ...]]:
    """The least length to buy of the usual width, with the least room; what its plan gets wrong."""
    first = need.backs.chosen.total if need.backs else Fraction(0)
    first += sum((fussy.length for fussy in need.fussy), Fraction(0))
    pieces = {want.letter: want.count for want in left.wants}
    pieces |= {long.letter: long.count for long in left.longs}
    if not (pieces or first):
        return Bought(called, need.fabrics, Fraction(0), pieces), ()
    planned, _ = plan(left, planning_steps(design))
    with_first = replace(planned, squaring=planned.squaring + first)
    measure = design.measure
    step = EIGHTH_YARD_IN if measure is Measure.INCH else FIVE_CM
    room = ROOM[measure] if planned.strips else Fraction(0)
    length = published_length(with_first, room, step).published
    return Bought(called, need.fabrics, length, pieces), plan_faults(left, planned)


def _length_words(measure: Measure, bought: Bought) -> str:
    if not bought.length:
        return "nothing"
    pieces = ", ".join(f"{count} {letter}" for letter, count in bought.pieces.items())
    what = pieces or "the backing"
    if measure is Measure.INCH:
        return f"{show_fraction(bought.length / 36)} yd ({what})"
    return f"{show_decimal(bought.length / 100)} m ({what})"
