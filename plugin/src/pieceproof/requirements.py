"""How much cloth one size needs, for each part alone and for parts played by one cloth.

In: a design, its publication and the usable widths to plan for. Out: `Requirements`: for each
group of fabrics and each width what is cut, the cutting plan, the back's panels and the lengths to
buy; problems where something cannot be cut. Directional prints and precut cloth are not planned.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.backs import Backs, plan_backs
from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.planner import plan
from pieceproof.cutting.yardage import (
    EIGHTH_YARD_IN,
    FIVE_CM,
    Yardage,
    published_length,
    rounded_up,
)
from pieceproof.layout import CENTRE, TOP
from pieceproof.lengths import ceil_to
from pieceproof.model import Design, Measure
from pieceproof.problems import Place, Problem
from pieceproof.published import BackingFacts, BindingFacts, Piece, Publication, SleeveFacts

BINDING = "binding"
SLEEVE = "sleeve"
"""The binding's and the sleeve's places among the letters of a demand."""

USABLE_WIDTHS: Mapping[Measure, tuple[Fraction, ...]] = {
    # 42 in where nothing else is said, 40 in for cloth that is narrow or has shrunk (check
    # value 48: L4, APQ; QB, BIND). 107 and 100 cm are the same in metric shops: common practice.
    Measure.INCH: (Fraction(42), Fraction(40)),
    Measure.CENTIMETRE: (Fraction(107), Fraction(100)),
}
SQUARING: Mapping[Measure, Fraction] = {
    # What the first straight cut may take: common practice.
    Measure.INCH: Fraction(1),
    Measure.CENTIMETRE: Fraction(5, 2),
}
ROOM: Mapping[Measure, Fraction] = {
    # The least that is left when all strips are cut, for one cut that went wrong: common practice
    # asks for an eighth of a yard or a spare cut, which rounding up to what is sold then gives.
    Measure.INCH: Fraction(2),
    Measure.CENTIMETRE: Fraction(5),
}
CM_PER_INCH = Fraction(254, 100)  # exact since 1959 (check value 108: YARD)

Group = tuple[str, ...]
"""Names of fabrics in the order of the design."""


@dataclass(frozen=True)
class Need:
    """One cloth for a group of fabrics: what is cut from it and how much to buy.

    ``yardage`` is in the pattern's unit, rounded up to 1/8 yd or 5 cm; its ``needed`` length
    includes squaring and the backs. ``yards`` and ``metres`` are both rounded up from the exact
    needed length plus the least room, in steps of 1/8 and 0.05.
    """

    fabrics: Group
    usable_width: Fraction
    demand: Demand
    plan: Plan
    backs: Backs | None
    yardage: Yardage
    yards: Fraction
    metres: Fraction


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
    played = tuple(_played(design, publication))
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


def need_for(found: Requirements, fabrics: Group, usable_width: Fraction) -> Need:
    """The need of a group at a width; `StopIteration` is never met for groups of the design."""
    return next(n for n in found.needs if (n.fabrics, n.usable_width) == (fabrics, usable_width))


def _used(design: Design, publication: Publication) -> Group:
    cut = {piece.fabric for piece in publication.pieces}
    finishing = {part.fabric for part in _finishing(publication)}
    return tuple(fabric for fabric in design.fabrics if fabric in cut | finishing)


def _finishing(publication: Publication) -> Iterator[BindingFacts | BackingFacts | SleeveFacts]:
    parts = (publication.binding, publication.backing, publication.sleeve)
    return (part for part in parts if part is not None)


def _played(design: Design, publication: Publication) -> Iterator[Played]:
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
    measure = design.measure
    demand = _demand(publication, group, width, SQUARING[measure])
    planned, sentences = plan(demand)
    backing = publication.backing
    backs = None
    if backing is not None and backing.fabric in group:
        backs = plan_backs(design, publication, width)
    first = backs.chosen.total if backs else Fraction(0)
    with_backs = replace(planned, squaring=planned.squaring + first)
    step = EIGHTH_YARD_IN if measure is Measure.INCH else FIVE_CM
    room = ROOM[measure] if planned.strips else Fraction(0)
    yardage = published_length(with_backs, room, step)
    yards, metres = _sold(measure, yardage.needed + room)
    return Need(group, width, demand, planned, backs, yardage, yards, metres), sentences


def _sold(measure: Measure, needed: Fraction) -> tuple[Fraction, Fraction]:
    """Yards and metres, each rounded up from the exact length."""
    inches = needed if measure is Measure.INCH else needed / CM_PER_INCH
    centimetres = needed * CM_PER_INCH if measure is Measure.INCH else needed
    return rounded_up(inches, EIGHTH_YARD_IN) / 36, rounded_up(centimetres, FIVE_CM) / 100


def _demand(publication: Publication, group: Group, width: Fraction, squaring: Fraction) -> Demand:
    pieces = [piece for piece in publication.pieces if piece.fabric in group]
    wants = tuple(
        Want(piece.letter, piece.short, piece.long, piece.count, turnable=True)
        for piece in pieces
        if not _is_joined(piece, width)
    )
    longs = [
        _long(publication, piece.letter, piece.short, piece.long, piece.count)
        for piece in pieces
        if _is_joined(piece, width)
    ]
    more, strips = _finishing_cuts(publication, group, width)
    return Demand((*wants, *more), (*longs, *strips), width, publication.step, squaring)


def _finishing_cuts(
    publication: Publication, group: Group, width: Fraction
) -> tuple[Sequence[Want], Sequence[Long]]:
    """Binding strips, or the square of a bias binding; and sleeves, joined where they must be."""
    binding, sleeve, count = publication.binding, publication.sleeve, publication.quantity
    wants, longs = [], []
    if binding is not None and binding.fabric in group:
        if binding.square is not None:
            wants.append(Want(BINDING, binding.square, binding.square, count, turnable=True))
        else:
            length = ceil_to(binding.length, publication.step)
            longs.append(_long(publication, BINDING, binding.cut_width, length, count))
    if sleeve is not None and sleeve.fabric in group:
        if sleeve.length <= width:
            wants.append(Want(SLEEVE, sleeve.cut_width, sleeve.length, count, turnable=True))
        else:
            longs.append(_long(publication, SLEEVE, sleeve.cut_width, sleeve.length, count))
    return wants, longs


def _is_joined(piece: Piece, width: Fraction) -> bool:
    """Borders and sashing too long for the cloth are joined; anything else is cut in one.

    What is short for its width looks better whole, along the selvage: common practice.
    """
    is_strip = set(piece.uses) <= {TOP, CENTRE} and piece.long >= 4 * piece.short
    return is_strip and piece.long > width > 2 * piece.short


def _long(
    publication: Publication, letter: str, width: Fraction, length: Fraction, count: int
) -> Long:
    """Joined on the diagonal, which eats more than a straight join: enough for either."""
    return Long(letter, width, length, count, "diagonal", publication.seam)


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
