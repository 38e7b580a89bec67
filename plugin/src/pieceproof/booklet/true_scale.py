"""Templates and foundations as they are printed: in millimetres, with all their marks.

In: a piece's template or the foundation of a make. Out: a `Shape` to lay on a sheet. Nothing is
enlarged or rounded but to a hundredth of a millimetre when it is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from math import hypot

from pieceproof.diagrams.legible import room_in
from pieceproof.lengths import Number
from pieceproof.model import Design, Measure
from pieceproof.published import Arc, Make, Piece, Publication, Template
from pieceproof.shapes import Point, Polygon, overlap, rectangle
from pieceproof.steps import Cover, Foundation, Take
from pieceproof.template_words import numbered_marks

Place = tuple[float, float]

MM: Mapping[Measure, float] = {Measure.INCH: 25.4, Measure.CENTIMETRE: 10.0}

DOT = 0.7
_NUMBER = 2.9
_INWARD, _CLEAR = 3.0, 2.0
_LEAST_LETTER, _LARGEST_LETTER = 3.2, 13.0
_LEAST_GRAIN, _LONGEST_GRAIN = 7.0, 60.0


class Ink(Enum):
    """What a line on the paper stands for."""

    CUT = "cut"
    SEAM = "seam"
    SEW = "sew"
    """A line of a foundation to sew on."""
    NOTCH = "notch"
    GRAIN = "grain"
    JOIN = "join"
    """Where two sheets are glued together."""


@dataclass(frozen=True)
class Run:
    """Straight stretches, closed for an outline."""

    ink: Ink
    places: tuple[Place, ...]
    closed: bool = False


@dataclass(frozen=True)
class Word:
    """A text centred on a place; ``size`` is that of the type."""

    at: Place
    text: str
    size: float
    bold: bool = False


@dataclass(frozen=True)
class Shape:
    """One thing to print, its extent at the origin.

    ``title`` says what it is to somebody who cannot see it; ``copies`` are needed in all.
    """

    name: str
    title: str
    caption: str
    copies: int
    width: float
    height: float
    runs: tuple[Run, ...]
    dots: tuple[Place, ...] = ()
    words: tuple[Word, ...] = ()

    def turned(self) -> Shape:
        """The same, turned a quarter clockwise; words stay upright."""

        def turn(place: Place) -> Place:
            return self.height - place[1], place[0]

        return replace(
            self,
            width=self.height,
            height=self.width,
            runs=tuple(replace(r, places=tuple(turn(p) for p in r.places)) for r in self.runs),
            dots=tuple(turn(p) for p in self.dots),
            words=tuple(replace(word, at=turn(word.at)) for word in self.words),
        )

    def moved(self, dx: float, dy: float) -> Shape:
        """The same, moved."""

        def move(place: Place) -> Place:
            return place[0] + dx, place[1] + dy

        return replace(
            self,
            runs=tuple(replace(r, places=tuple(move(p) for p in r.places)) for r in self.runs),
            dots=tuple(move(p) for p in self.dots),
            words=tuple(replace(word, at=move(word.at)) for word in self.words),
        )


def shapes_of(design: Design, publication: Publication) -> tuple[Shape, ...]:
    """Every template and foundation of a size, templates first.

    Pieces that are cut to the same shape from different fabrics share a template.
    """
    alike: dict[Template, list[Piece]] = {}
    for piece in publication.pieces:
        if piece.template is not None:
            alike.setdefault(piece.template, []).append(piece)
    return (
        *(template_shape(design, pieces, template) for template, pieces in alike.items()),
        *(
            foundation_shape(design, publication, make, step)
            for make in publication.makes
            for step in make.steps
            if isinstance(step, Foundation)
        ),
    )


def template_shape(design: Design, pieces: Sequence[Piece], template: Template) -> Shape:
    """A template of some pieces: raw edge, seam lines, numbered marks, notches, grain, letters."""
    scale = MM[design.measure]
    cut, seam = _in_mm(template.cut, scale), _in_mm(template.seam_lines, scale)
    marks = numbered_marks(template)
    middle, room = room_in(template.seam_lines)
    centre, free = (float(middle[0]) * scale, float(middle[1]) * scale), room * scale
    runs = [Run(Ink.CUT, cut, True)]
    if template.allowance:
        runs.append(Run(Ink.SEAM, seam, True))
        runs += (_notch(template, arc, scale) for arc in template.arcs if _has_middle(arc))
    letters = ", ".join(piece.letter for piece in pieces)
    grain, words = _inside(letters, _counts(pieces), centre, free)
    told = (f"{p.letter}: cut {p.count}, {design.fabrics[p.fabric].called}" for p in pieces)
    return Shape(
        letters,
        f"Template at true size. {'. '.join(told)}.",
        _caption(design, pieces),
        1,
        max(x for x, _ in cut),
        max(y for _, y in cut),
        (*runs, *grain),
        tuple(seam[i] for i in marks) if template.allowance else (),
        (*words, *(_mark_numbers(seam, marks, free) if template.allowance else ())),
    )


def _caption(design: Design, pieces: Sequence[Piece]) -> str:
    if len(pieces) == 1:
        return (
            f"{pieces[0].letter}: cut {pieces[0].count}, {design.fabrics[pieces[0].fabric].called}"
        )
    if len({piece.count for piece in pieces}) == 1:
        return f"{', '.join(piece.letter for piece in pieces)}: {_counts(pieces)}"
    return "; ".join(f"{piece.letter}: cut {piece.count}" for piece in pieces)


def _counts(pieces: Sequence[Piece]) -> str:
    """How many to cut, where one number says it."""
    counts = {piece.count for piece in pieces}
    if len(counts) > 1:
        return ""
    return f"cut {counts.pop()}" + (" of each" if len(pieces) > 1 else "")


def foundation_shape(
    design: Design, publication: Publication, make: Make, step: Foundation
) -> Shape:
    """A foundation as printed, the mirror image of its unit: sections numbered and lettered."""
    scale = MM[design.measure]
    letters = _letters_of_sections(make)
    seam, raw = publication.seam, rectangle(step.width, step.height)
    sewn = rectangle(step.width - 2 * seam, step.height - 2 * seam, (seam, seam))
    outer, inner = _in_mm(raw, scale), _in_mm(sewn, scale)
    words = [
        word
        for number, section in enumerate(step.sections, start=1)
        for word in _section_words(number, letters.get(number, ""), overlap(section, sewn), scale)
    ]
    sections = (Run(Ink.SEW, _in_mm(section, scale), True) for section in step.sections)
    return Shape(
        make.name,
        f"Foundation for {make.name}, printed side, at true size; {len(step.sections)} sections.",
        f"{make.name}, printed side",
        make.rounds,
        outer[2][0],
        outer[2][1],
        (*sections, Run(Ink.SEAM, inner, True), Run(Ink.CUT, outer, True)),
        (),
        tuple(words),
    )


def _letters_of_sections(make: Make) -> Mapping[int, str]:
    sources = {step.item: step.source for step in make.steps if isinstance(step, Take)}
    return {s.section: sources.get(s.added, "") for s in make.steps if isinstance(s, Cover)}


def _section_words(number: int, letter: str, section: Polygon, scale: float) -> Iterator[Word]:
    """The number with the piece's letter, or only the number where there is no room for both."""
    if not section:
        return
    (x, y), room = room_in(section)
    free = room * scale
    size = min(5.0, max(2.2, free * 0.45))
    text = f"{number} {letter}".strip() if free >= 5 else str(number)
    yield Word((float(x) * scale, float(y) * scale), text, size, True)


def _inside(
    letter: str, count: str, centre: Place, free: float
) -> tuple[tuple[Run, ...], tuple[Word, ...]]:
    """The letter, how many to cut and the grain arrow, as large as a square of ``free`` allows."""
    x, y = centre
    size = max(_LEAST_LETTER, min(_LARGEST_LETTER, free * 0.42, free * 1.1 / len(letter)))
    long = min(_LONGEST_GRAIN, max(_LEAST_GRAIN, free * 0.8))
    aside = max(size * 0.75, free * 0.3)
    grain = Run(Ink.GRAIN, ((x + aside, y - long / 2), (x + aside, y + long / 2)))
    left = x - size * 0.25
    if free < 15:
        return (grain,), (Word((left, y), letter, size, True),)
    below = y + size * 0.85
    words = (Word((left, y - size * 0.2), letter, size, True), Word((left, below), count, 3.4))
    return (grain,), words


def _mark_numbers(seam: Sequence[Place], marks: Sequence[int], free: float) -> Iterator[Word]:
    """Each mark's number beside it, inside the seam lines; none where all would be crowded."""
    if free < 9:
        return
    for number, i in enumerate(marks, start=1):
        (x, y), (dx, dy) = seam[i], _inward(seam, i)
        yield Word((x + dx, y + dy), str(number), _NUMBER)


def _inward(seam: Sequence[Place], i: int) -> Place:
    """From a corner along the line that halves it, further in where it is sharper."""
    x, y = seam[i]
    ax, ay = _unit(seam[i - 1][0] - x, seam[i - 1][1] - y)
    bx, by = _unit(seam[(i + 1) % len(seam)][0] - x, seam[(i + 1) % len(seam)][1] - y)
    if hypot(ax + bx, ay + by) < 0.2:
        return ay * _INWARD, -ax * _INWARD
    wx, wy = _unit(ax + bx, ay + by)
    sine = abs(ax * wy - ay * wx)
    inside = 1 if ax * by < ay * bx else -1
    far = inside * max(_INWARD, _CLEAR / sine)
    return wx * far, wy * far


def _unit(dx: float, dy: float) -> Place:
    far = hypot(dx, dy)
    return dx / far, dy / far


def _has_middle(arc: Arc) -> bool:
    return (arc.last - arc.first) % 2 == 0 and arc.degrees < 360


def _notch(template: Template, arc: Arc, scale: float) -> Run:
    """A line through the allowance at the middle of an arc, which two pieces have alike."""
    count = len(template.seam_lines)
    x, y = _mm(template.seam_lines[(arc.first + arc.last) // 2 % count], scale)
    cx, cy = _mm(arc.centre, scale)
    way = _outward(template, arc)
    far, depth = hypot(x - cx, y - cy), float(template.allowance) * scale * way
    return Run(Ink.NOTCH, ((x, y), (x + (x - cx) / far * depth, y + (y - cy) / far * depth)))


def _outward(template: Template, arc: Arc) -> int:
    """1 where the raw edge lies beyond the arc seen from its centre, -1 where it lies nearer."""
    count = len(template.seam_lines)
    cx, cy = float(arc.centre[0]), float(arc.centre[1])
    (px, py), (qx, qy) = (
        (float(x) - cx, float(y) - cy)
        for x, y in (template.seam_lines[(arc.first + step) % count] for step in (0, 1))
    )
    return 1 if px * qy > py * qx else -1


def _in_mm(outline: Polygon, scale: float) -> tuple[Place, ...]:
    return tuple(_mm(place, scale) for place in outline)


def _mm(place: Point, scale: float) -> Place:
    return _float(place[0]) * scale, _float(place[1]) * scale


def _float(number: Number) -> float:
    return float(number)
