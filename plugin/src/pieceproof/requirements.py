"""How much cloth one size needs, for each part alone and for parts played by one cloth.

In: a design, its publication and the usable widths to plan for. Out: `Requirements`: for each
group of fabrics and each width what is cut, the cutting plan, the back's panels and the lengths to
buy; problems where something cannot be cut. Directional prints and precut cloth are not planned.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

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
from pieceproof.published import BackingFacts, Piece, Publication

BINDING = "binding"
"""The binding's place among the letters of a demand."""

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
BACK_SEAM: Mapping[Measure, Fraction] = {
    # Backs are sewn with a deeper seam, pressed open: common practice.
    Measure.INCH: Fraction(1, 2),
    Measure.CENTIMETRE: Fraction(3, 2),
}
CM_PER_INCH = Fraction(254, 100)  # exact since 1959 (check value 108: YARD)

Group = tuple[str, ...]
"""Names of fabrics in the order of the design."""


class Seams(Enum):
    """Which way a back's seams run in the quilt as drawn; the cloth's length runs with them."""

    UPRIGHT = "upright"
    LEVEL = "level"


@dataclass(frozen=True)
class BackPlan:
    """One way to make the backs of all tops.

    One back is ``panels`` lengths of cloth sewn side by side with ``seam``; a back of one panel
    has no seam, and ``abreast`` of them lie side by side on one length. ``lengths`` pieces of
    cloth, full width, ``length`` long each, are ``total`` of cloth.
    """

    seams: Seams
    panels: int
    abreast: int
    lengths: int
    length: Fraction
    seam: Fraction
    total: Fraction


@dataclass(frozen=True)
class Backs:
    """The back by the way that takes less cloth, and by the other one."""

    chosen: BackPlan
    other: BackPlan


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
    finishing = {part.fabric for part in (publication.binding, publication.backing) if part}
    return tuple(fabric for fabric in design.fabrics if fabric in cut | finishing)


def _played(design: Design, publication: Publication) -> Iterator[Played]:
    used = _used(design, publication)
    for name, colourway in design.colourways.items():
        cloth_of = {str(part): str(cloth) for part, cloth in colourway.parts.items()}
        cloths: dict[str, Group] = {}
        for fabric in used:
            cloths[cloth_of[fabric]] = (*cloths.get(cloth_of[fabric], ()), fabric)
        for cloth, group in cloths.items():
            yield Played(name, cloth, group)


def _need(
    design: Design, publication: Publication, group: Group, width: Fraction
) -> tuple[Need, tuple[str, ...]]:
    measure = design.measure
    demand = _demand(publication, group, width, SQUARING[measure])
    planned, sentences = plan(demand)
    backing = publication.backing
    backs = None
    if backing is not None and backing.fabric in group:
        backs = _backs(publication, backing, width, BACK_SEAM[measure])
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
    binding = publication.binding
    if binding is not None and binding.fabric in group:
        length = ceil_to(binding.length, publication.step)
        count = publication.quantity
        longs.append(_long(publication, BINDING, binding.cut_width, length, count))
    return Demand(wants, tuple(longs), width, publication.step, squaring)


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


def _backs(publication: Publication, back: BackingFacts, width: Fraction, seam: Fraction) -> Backs:
    sides = {Seams.UPRIGHT: (back.width, back.height), Seams.LEVEL: (back.height, back.width)}
    chosen, other = sorted(
        (
            _back_plan(publication, seams, across, along, width, seam)
            for seams, (across, along) in sides.items()
        ),
        key=lambda way: (way.total, way.panels),
    )
    return Backs(chosen, other)


def _back_plan(
    publication: Publication,
    seams: Seams,
    across: Fraction,
    along: Fraction,
    width: Fraction,
    seam: Fraction,
) -> BackPlan:
    """n panels of the cloth's width W sewn with seam s cover n W - 2 s (n - 1)."""
    panels = 1 if across <= width else -((2 * seam - across) // (width - 2 * seam))
    abreast = width // across if panels == 1 else 1
    lengths = -(-publication.quantity // abreast) * panels
    length = ceil_to(along, publication.step)
    return BackPlan(seams, panels, abreast, lengths, length, seam, lengths * length)


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
    return design.fabrics[group[0]].at.here
