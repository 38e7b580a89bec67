"""How much cloth one size needs, for each part alone and for parts played by one cloth.

In: a design, its publication and the usable widths to plan for. Out: `Requirements`: for each
group of fabrics and each width what is cut, the cutting plan, the back's panels and the lengths to
buy; problems where something cannot be cut. Precut cloth is not planned here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.backs import Backs, plan_backs
from pieceproof.cuts import Cuts, cuts_of
from pieceproof.cutting.demand import Demand
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.planner import USUAL_EFFORT, plan
from pieceproof.cutting.yardage import (
    EIGHTH_YARD_IN,
    FIVE_CM,
    Yardage,
    published_length,
    rounded_up,
)
from pieceproof.demands import BINDING, SLEEVE, Group, demand_of
from pieceproof.fussy import Fussy
from pieceproof.model import Design, LongStrips, Measure, Print, StripCut, StripJoin
from pieceproof.narrower import narrowest
from pieceproof.problems import Place, Problem
from pieceproof.published import BackingFacts, BindingFacts, Publication, SleeveFacts

USABLE_WIDTHS: Mapping[Measure, tuple[Fraction, ...]] = {
    # 42 in where nothing else is said, 40 in for cloth that is narrow or has shrunk (check
    # value 48: L4, APQ; QB, BIND); 44, 54 and 108 in are other widths that cloth is sold in. In
    # metric shops they are 107, 100, 112, 137 and 274 cm: common practice.
    Measure.INCH: tuple(Fraction(width) for width in (42, 40, 44, 54, 108)),
    Measure.CENTIMETRE: tuple(Fraction(width) for width in (107, 100, 112, 137, 274)),
}
ROOM: Mapping[Measure, Fraction] = {
    # The least that is left when all strips are cut, for one cut that went wrong: common practice
    # asks for an eighth of a yard or a spare cut, which rounding up to what is sold then gives.
    Measure.INCH: Fraction(2),
    Measure.CENTIMETRE: Fraction(5),
}
WAYS = (
    (StripCut.CROSSWISE, StripJoin.DIAGONAL),
    (StripCut.CROSSWISE, StripJoin.STRAIGHT),
    (StripCut.LENGTHWISE, StripJoin.DIAGONAL),
)
"""All ways to cut long strips; lengthwise ones are not joined."""
CM_PER_INCH = Fraction(254, 100)  # exact since 1959 (check value 108: YARD)


@dataclass(frozen=True)
class Need:
    """One cloth for a group of fabrics: what is cut from it and how much to buy.

    ``yardage`` is in the pattern's unit, rounded up to 1/8 yd or 5 cm; its ``needed`` length
    includes squaring, motifs and the backs. ``yards`` and ``metres`` are both rounded up from the
    exact needed length plus the least room, in steps of 1/8 and 0.05. ``cuts`` are counted one
    layer at a time. The same cuts can be made from cloth down to ``narrowest``. ``others`` are the
    other ways to cut strips longer than the cloth is wide, without others of their own.
    """

    fabrics: Group
    usable_width: Fraction
    demand: Demand
    fussy: tuple[Fussy, ...]
    plan: Plan
    backs: Backs | None
    yardage: Yardage
    yards: Fraction
    metres: Fraction
    cuts: Cuts
    narrowest: Fraction
    others: tuple[Need, ...] = ()


@dataclass(frozen=True)
class Played:
    """A cloth of a colourway and the group of fabrics it plays."""

    colourway: str
    cloth: str
    fabrics: Group


@dataclass(frozen=True)
class Requirements:
    """The cloth that one size needs. ``usable_widths`` has the usual one first."""

    usable_widths: tuple[Fraction, ...]
    needs: tuple[Need, ...]
    played: tuple[Played, ...]


def requirements(
    design: Design, publication: Publication, usable_widths: Sequence[Fraction]
) -> tuple[Requirements, tuple[Problem, ...]]:
    """Needs of all groups, at each width, and why one is missing."""
    played = tuple(groups_played(design, publication))
    alone = [(fabric,) for fabric in _used(design, publication)]
    groups = dict.fromkeys([*alone, *(cloth.fabrics for cloth in played)])
    needs, problems = [], []
    for group in groups:
        for width in usable_widths:
            need, sentences = _need(design, publication, group, width)
            problems += [_problem(design, group, width, sentence) for sentence in sentences]
            needs += [] if sentences else [need]
    found = Requirements(tuple(usable_widths), tuple(needs), played)
    return found, tuple(sorted(set(problems)))


def usable_widths(design: Design) -> tuple[Fraction, ...]:
    """The widths to plan for: the writer's own, or the usual ones."""
    return design.cloth_widths or USABLE_WIDTHS[design.measure]


def planning_steps(design: Design) -> int:
    """Steps of arithmetic that each plan of the pattern's cloth may take."""
    return design.planning_effort * USUAL_EFFORT


def need_for(found: Requirements, fabrics: Group, usable_width: Fraction) -> Need:
    """The need of a group at a width; `StopIteration` is never met for groups of the design."""
    return next(n for n in found.needs if (n.fabrics, n.usable_width) == (fabrics, usable_width))


def way_of(need: Need) -> str:
    """How the long strips of a need are cut: ``crosswise, straight joins``, ``lengthwise``."""
    long = next(n for n in need.demand.longs if n.letter not in (BINDING, SLEEVE))
    return long.way if long.way == "lengthwise" else f"{long.way}, {long.join} joins"


def _used(design: Design, publication: Publication) -> Group:
    cut = {piece.fabric for piece in publication.pieces}
    finishing = {part.fabric for part in _finishing(publication)}
    return tuple(fabric for fabric in design.fabrics if fabric in cut | finishing)


def _finishing(publication: Publication) -> Iterator[BindingFacts | BackingFacts | SleeveFacts]:
    parts = (publication.binding, publication.backing, publication.sleeve)
    return (part for part in parts if part is not None)


def groups_played(design: Design, publication: Publication) -> Iterator[Played]:
    """What each cloth of each colourway plays, in order of use."""
    used = _used(design, publication)
    for name, colourway in design.colourways.items():
        cloth_of = {str(part): str(cloth) for part, cloth in colourway.parts.items()}
        cloths: dict[tuple[str, bool], Group] = {}
        for fabric in used:
            bolt = cloth_of[fabric], fabric == wide_fabric(design)
            cloths[bolt] = (*cloths.get(bolt, ()), fabric)
        for (cloth, _), group in cloths.items():
            yield Played(name, cloth, group)


def wide_fabric(design: Design) -> str | None:
    """The fabric of a back of extra-wide cloth: a bolt of its own."""
    backing = design.backing
    return backing.fabric if backing is not None and backing.usable_width is not None else None


def _need(
    design: Design, publication: Publication, group: Group, width: Fraction
) -> tuple[Need, tuple[str, ...]]:
    """The need as the writer has it cut, and the other ways to cut its long strips."""
    need, sentences = _one_way(design, publication, group, width, design.long_strips)
    if sentences or not _has_long_pieces(design, publication, need):
        return need, sentences
    chosen = (design.long_strips.cut, design.long_strips.join)
    ways = [LongStrips(*way) for way in WAYS if way != chosen]
    others = (_one_way(design, publication, group, width, way) for way in ways)
    return replace(need, others=tuple(other for other, faults in others if not faults)), ()


def _has_long_pieces(design: Design, publication: Publication, need: Need) -> bool:
    """Whether there is a choice: a directional print decides by itself."""
    free = {
        piece.letter
        for piece in publication.pieces
        if design.fabrics[piece.fabric].print is Print.ANY
    }
    return any(long.letter in free for long in need.demand.longs)


def _one_way(
    design: Design, publication: Publication, group: Group, width: Fraction, ways: LongStrips
) -> tuple[Need, tuple[str, ...]]:
    measure = design.measure
    asked = demand_of(design, publication, group, width, ways)
    planned, sentences = plan(asked.demand, planning_steps(design))
    backing = publication.backing
    backs = None
    if backing is not None and backing.fabric in group:
        backs = plan_backs(design, publication, width)
    first = backs.chosen.total if backs else Fraction(0)
    first += sum((fussy.length for fussy in asked.fussy), Fraction(0))
    back = (backing, backs.chosen) if backing is not None and backs is not None else None
    with_first = replace(planned, squaring=planned.squaring + first)
    step = EIGHTH_YARD_IN if measure is Measure.INCH else FIVE_CM
    room = ROOM[measure] if planned.strips else Fraction(0)
    yardage = published_length(with_first, room, step)
    need = Need(
        group,
        width,
        asked.demand,
        asked.fussy,
        planned,
        backs,
        yardage,
        *_sold(measure, yardage.needed + room),
        cuts_of(publication, group, planned, backs.chosen if backs else None, asked.fussy),
        narrowest(asked.demand.step, planned, asked.fussy, back),
    )
    return need, (*asked.problems, *sentences)


def _sold(measure: Measure, needed: Fraction) -> tuple[Fraction, Fraction]:
    """Yards and metres, each rounded up from the exact length."""
    inches = needed if measure is Measure.INCH else needed / CM_PER_INCH
    centimetres = needed * CM_PER_INCH if measure is Measure.INCH else needed
    return rounded_up(inches, EIGHTH_YARD_IN) / 36, rounded_up(centimetres, FIVE_CM) / 100


def _problem(design: Design, group: Group, width: Fraction, sentence: str) -> Problem:
    show = design.measure.show
    return Problem(
        _place(design, group, sentence),
        "cannot-be-cut",
        sentence,
        f"pieces that can be cut from cloth with a usable width of {show(width)}",
        "change the size where the piece is designed, or divide the patch into smaller ones",
    )


def _place(design: Design, group: Group, sentence: str) -> Place:
    if design.binding is not None and sentence.startswith(f"{BINDING}:"):
        return design.binding.at.here
    if design.sleeve is not None and sentence.startswith(f"{SLEEVE}:"):
        return design.sleeve.at.here
    return design.fabrics[group[0]].at.here
