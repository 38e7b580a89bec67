"""What a pattern asks of its maker, counted from what is sewn.

In: a publication (proved), its drawing and its seam check. Out: a `Skill`: counts and the smallest
piece, the level they come to and the reasons for it. Nothing is a matter of opinion but the bounds
in `_demands`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum

from quicktions import Fraction

from pieceproof.model import Measure
from pieceproof.published import Drawing, Make, MakeKind, Numbering, Piece, Publication, Template
from pieceproof.requirements import CM_PER_INCH
from pieceproof.seam_check import SeamCheck
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    CloseSeam,
    Cover,
    CutApart,
    Diagonal,
    Join,
    JoinEdges,
    JoinMarks,
    JoinMitred,
    LayOn,
    Sew,
    Step,
    Stretch,
    Take,
)

_EDGES_OF_A_CUT = 2


class Level(IntEnum):
    """How much a maker should have sewn before."""

    FIRST = 1
    PRACTISED = 2
    EXPERIENCED = 3


@dataclass(frozen=True)
class Skill:
    """Counts for one size, all tops of a set together.

    ``seams`` are sewn one by one: each join, each line through layers, each section of a foundation
    but the first. ``bias_edges`` are cut across the grain where no seam holds them: two for each
    diagonal cut, and the slanting sides of templates. ``joins`` are points of the top where four or
    more patches meet. ``smallest`` is the piece of the units, blocks and centre with the
    least area; ``side`` is its short side in inches. ``lost`` counts the kinds of tips that are cut
    off when every seam is a little too wide; None where the seam check cannot follow a make.
    """

    seams: int
    bias_edges: int
    curved: int
    set_in: int
    joins: int
    smallest: Piece
    side: Fraction
    lost: int | None

    @property
    def forgives(self) -> bool:
        """Whether every tip stays whole when every seam is a little too wide."""
        return self.lost == 0

    @property
    def level(self) -> Level:
        """The level of what is most demanding."""
        return max((level for level, _ in _demands(self)), default=Level.FIRST)

    @property
    def reasons(self) -> tuple[str, ...]:
        """What brings it to that level; none for a first project."""
        return tuple(what for level, what in _demands(self) if level is self.level)


def skill_of(publication: Publication, drawing: Drawing, check: SeamCheck) -> Skill:
    """What one size asks for."""
    makes = publication.makes
    templates = {p.letter: p.template for p in publication.pieces if p.template is not None}
    smallest = _smallest(publication)
    inch = 1 if publication.measure == Measure.INCH.value else CM_PER_INCH
    return Skill(
        sum(make.rounds * sum(map(_seams, make.steps)) for make in makes),
        sum(make.rounds * _bias_cuts(make) * _EDGES_OF_A_CUT for make in makes)
        + sum(p.count * _slanting(p.template) for p in publication.pieces if p.template),
        sum(
            make.rounds * sum(_is_curved(make, s, templates) for s in make.steps) for make in makes
        ),
        sum(make.rounds * sum(_turns(step) for step in make.steps) for make in makes),
        publication.quantity * _joins(drawing, makes[-1].name),
        smallest,
        smallest.short / inch,
        _lost(check),
    )


def _demands(skill: Skill) -> Iterator[tuple[Level, str]]:
    """Common practice: what classes for beginners leave out, and what only the patient enjoy."""
    if skill.set_in:
        yield Level.EXPERIENCED, "set-in seams"
    if skill.curved:
        yield Level.PRACTISED, "curved seams"
    if skill.lost:
        yield Level.PRACTISED, "points that a wide seam cuts off"
    if skill.side < Fraction(3, 2):
        yield Level.EXPERIENCED, "very small pieces"
    if skill.joins > 200:
        yield Level.EXPERIENCED, "very many joins to match"
    if skill.bias_edges:
        yield Level.PRACTISED, "edges on the bias"
    if skill.side < 2:
        yield Level.PRACTISED, "small pieces"
    if skill.joins > 60:
        yield Level.PRACTISED, "many joins to match"


def _lost(check: SeamCheck) -> int | None:
    wide = next(row for row in check.rows if row.error > 0)
    return None if wide.not_followed else len(wide.lost)


def _seams(step: Step) -> int:
    match step:
        case Assemble():
            return sum(len(row) - 1 for row in step.rows) + len(step.rows) - 1
        case AssembleOnPoint():
            return sum(len(row.cells) + 1 for row in step.rows) + len(step.rows) + 1
        case JoinMitred():
            return 8
        case Cover():
            return 1 if step.section > 1 else 0
        case Sew() | Join() | JoinEdges() | JoinMarks() | CloseSeam() | LayOn():
            return 1
        case _:
            return 0


def _bias_cuts(make: Make) -> int:
    """Diagonal cuts that no seam along the same diagonal holds."""
    sewn = {s.line.slope for s in make.steps if isinstance(s, Sew) and isinstance(s.line, Diagonal)}
    return sum(
        isinstance(step, CutApart)
        and isinstance(step.line, Diagonal)
        and step.line.slope not in sewn
        for step in make.steps
    )


def _slanting(template: Template) -> int:
    """Straight seam lines of a template that run neither along nor across the grain."""
    count = len(template.seam_lines)
    curved = {i % count for arc in template.arcs for i in range(arc.first, arc.last)}
    ends = [(template.seam_lines[i], template.seam_lines[(i + 1) % count]) for i in range(count)]
    return sum(
        i not in curved and start[0] != end[0] and start[1] != end[1]
        for i, (start, end) in enumerate(ends)
    )


def _turns(step: Step) -> bool:
    return isinstance(step, JoinMarks) and step.turns > 0


def _is_curved(make: Make, step: Step, templates: Mapping[str, Template]) -> bool:
    if not isinstance(step, JoinMarks):
        return False
    taken = {s.item: templates.get(s.source) for s in make.steps if isinstance(s, Take)}
    return any(_follows_arc(stretch, taken.get(stretch.piece)) for stretch in step.stretches)


def _follows_arc(stretch: Stretch, template: Template | None) -> bool:
    if template is None:
        return False
    count = len(template.seam_lines)
    inside = {i % count for arc in template.arcs for i in range(arc.first + 1, arc.last)}
    marks = [i for i in range(count) if i not in inside]
    if template.numbering is Numbering.ANTICLOCKWISE:
        marks.reverse()
    start, end = marks[stretch.start - 1], marks[stretch.end - 1]
    reach = (end - start) % count or count
    return any((arc.first - start) % count + arc.last - arc.first <= reach for arc in template.arcs)


def _joins(drawing: Drawing, top: str) -> int:
    patches = drawing.pictures[top].patches
    corners = Counter(c for p in patches if p.layer == 0 for c in dict.fromkeys(p.outline))
    return sum(meeting >= 4 for meeting in corners.values())


def _smallest(publication: Publication) -> Piece:
    inside = {m.name for m in publication.makes if m.kind not in (MakeKind.BORDER, MakeKind.TOP)}
    pieces = [piece for piece in publication.pieces if inside.intersection(piece.uses)]
    return min(pieces or publication.pieces, key=lambda piece: piece.short * piece.long)
