"""Templates and their seams in words and facts.

In: pieces with templates, and steps that sew them by their marks. Out: lines of facts, and what
the words of the steps cite. Nothing is computed here but text.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from quicktions import Fraction

from pieceproof.lengths import Number, Surd, show_exact
from pieceproof.model import Measure
from pieceproof.published import Arc, Make, Numbering, Template
from pieceproof.shapes import Point
from pieceproof.steps import JoinMarks, LayOn, Press, SeamEnd, Stretch

Line = tuple[str, str]


class Lettered(Protocol):
    """What words need to know of a piece: it prints as its letter."""

    @property
    def letter(self) -> str:
        """Its letter."""


@dataclass(frozen=True)
class SeamWords:
    """One seam by marks: the letters along both sides, how it turns, stops and is pressed."""

    base: str
    added: str
    turns: int
    stops: int
    press: str


def seam_words(make: Make, things: Mapping[str, Lettered]) -> list[SeamWords]:
    """All seams by marks of a make, in sewing order."""
    return [_seam(step, things) for step in make.steps if isinstance(step, JoinMarks)]


def set_in_seams(make: Make) -> int:
    """How many seams turn at a corner."""
    return sum(1 for step in make.steps if isinstance(step, JoinMarks) and step.turns)


def laid_words(
    make: Make, things: Mapping[str, Lettered], show: Callable[[Fraction], str]
) -> Mapping[str, object]:
    """Where shapes are laid, what of them is turned under, and whether nothing is."""
    laid = [step for step in make.steps if isinstance(step, LayOn)]
    allowance = max((step.allowance for step in laid), default=Fraction(0))
    return {
        "places": [
            (step.added, things[step.added], _from_the_middle(step, show))
            for step in laid
            if step.added in things
        ],
        "turned_under": show(allowance),
        "raw_edges": allowance == 0,
    }


def _from_the_middle(step: LayOn, show: Callable[[Fraction], str]) -> str:
    across, down = _rational(step.across), _rational(step.down)
    ways = ((across, "right of", "left of"), (down, "below", "above"))
    parts = [f"{show(abs(far))} {more if far > 0 else less}" for far, more, less in ways if far]
    return f"{' and '.join(parts)} the middle of the ground" if parts else "on that of the ground"


def _rational(number: Number) -> Fraction:
    assert not isinstance(number, Surd)
    return number


def template_lines(measure: Measure, template: Template) -> Iterator[Line]:
    """What follows a piece's name in keys, and the words: every corner that is no part of an arc.

    The corners inside an arc are told by its circle.
    """
    if template.allowance:
        yield "allowance", measure.show(template.allowance)
    for number, i in enumerate(numbered_marks(template), 1):
        yield f"mark {number}", _place(measure, template.seam_lines[i])
    for number, arc in enumerate(template.arcs, 1):
        yield f"arc {number}", _arc(measure, template, arc)
    yield "marks numbered", template.numbering.value
    if not template.arcs:
        for number, place in enumerate(template.cut, 1):
            yield f"raw corner {number}", _place(measure, place)
    yield "straight grain", "along the sides of its rectangle"


def numbered_marks(template: Template) -> list[int]:
    """Which corners of the seam lines are marks, in the order of their numbers."""
    inside, count = _inside(template), len(template.seam_lines)
    marks = [i for i in range(count) if i not in inside]
    return marks if template.numbering is Numbering.CLOCKWISE else marks[::-1]


def _inside(template: Template) -> set[int]:
    count = len(template.seam_lines)
    return {i % count for arc in template.arcs for i in range(arc.first + 1, arc.last)}


def _arc(measure: Measure, template: Template, arc: Arc) -> str:
    count = len(template.seam_lines)
    start, end = (_place(measure, template.seam_lines[i % count]) for i in (arc.first, arc.last))
    return (
        f"{arc.degrees} degrees of a circle of radius {_exact(measure, arc.radius)} round "
        f"{_place(measure, arc.centre)}, from {start} to {end}, in {arc.last - arc.first} stretches"
    )


def _place(measure: Measure, place: Point) -> str:
    return f"{_exact(measure, place[0])} across {_exact(measure, place[1])} down"


def _exact(measure: Measure, value: Number) -> str:
    return f"({show_exact(value)})" if isinstance(value, Surd) else measure.show(value)


def _seam(step: JoinMarks, things: Mapping[str, Lettered]) -> SeamWords:
    base, added = (_letters(step.stretches, things, side) for side in ("piece", "added_piece"))
    press = {Press.OPEN: "open", Press.ONTO_ADDED: f"toward {added}"}.get(
        step.press, f"toward {base}"
    )
    stops = (step.begin, step.end).count(SeamEnd.CORNER)
    return SeamWords(base, added, step.turns, stops, press)


def _letters(stretches: tuple[Stretch, ...], things: Mapping[str, Lettered], side: str) -> str:
    """The pieces along one side of a seam, each letter once."""
    letters = dict.fromkeys(str(things[getattr(s, side)]) for s in stretches)
    *most, last = letters
    return f"{', '.join(most)} and {last}" if most else last
