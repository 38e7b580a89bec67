"""The sewing steps in words, for every make of one size.

In: a design and its publication. Out: one `Instruction` a make, its sentences in Markdown. The
words of a method stand in ``templates/steps/<method>.md``, one step a paragraph; they cite
letters and sizes of the publication and compute nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from jinja2 import Environment, PackageLoader, StrictUndefined

from pieceproof.border_words import Band, bands
from pieceproof.lengths import ceil_to
from pieceproof.model import Design, Measure
from pieceproof.published import Make, MakeKind, Piece, Publication
from pieceproof.steps import (
    Assemble,
    Cover,
    CrossCut,
    Join,
    JoinEdges,
    JoinMitred,
    Open,
    Press,
    Take,
    Trim,
)

_ENVIRONMENT = Environment(
    loader=PackageLoader("pieceproof"),
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
    autoescape=False,  # Markdown, from our own templates and checked names
)


@dataclass(frozen=True)
class Instruction:
    """How one make is sewn: what to make, the steps in order, the size to check."""

    make: Make
    steps: tuple[str, ...]


@dataclass(frozen=True)
class _Thing:
    """A piece or make as the words cite it."""

    letter: str
    called: str
    size: str
    square: bool

    def __str__(self) -> str:
        return f"**{self.letter}**"


@dataclass(frozen=True)
class _Sliced:
    """Segments cut across a set."""

    count: int
    width: str


@dataclass(frozen=True)
class _Covering:
    """A section of a foundation, its piece, and which edge of the piece lies along the line."""

    number: int
    name: str
    thing: _Thing
    edge: str


@dataclass(frozen=True)
class _Joined:
    """A thing sewn to one side of another after a thing ``before``, and where the seam goes."""

    thing: _Thing
    before: _Thing
    side: str
    press: Press

    @property
    def toward(self) -> str:
        """The seam's direction where the two lie side by side."""
        if self.press is Press.OPEN:
            return "open"
        return f"toward {self.thing if self.press is Press.ONTO_ADDED else self.before}"


@dataclass(frozen=True)
class _Besides:
    """What the rounds of a make give besides, as the words cite it."""

    name: str
    size: str
    each: int
    made: int
    spare: int


def instructions(design: Design, publication: Publication) -> tuple[Instruction, ...]:
    """Words for all makes of a publication, in sewing order."""
    pieces = {piece.letter: piece for piece in publication.pieces}
    return tuple(_instruction(design, publication, pieces, make) for make in publication.makes)


def show_length(measure: Measure, length: Fraction) -> str:
    """A length with its unit sign: ``3 1/4"`` or ``7.5 cm``."""
    return f'{measure.show(length)}"' if measure is Measure.INCH else f"{measure.show(length)} cm"


def show_size(measure: Measure, width: Fraction, height: Fraction) -> str:
    """A width and height with their unit sign."""
    if measure is Measure.INCH:
        return f"{show_length(measure, width)} x {show_length(measure, height)}"
    return f"{measure.show(width)} x {measure.show(height)} cm"


def _instruction(
    design: Design, publication: Publication, pieces: Mapping[str, Piece], make: Make
) -> Instruction:
    template = _ENVIRONMENT.get_template(f"steps/{_template_of(make)}.md")
    text = template.render(_words(design, publication, pieces, make))
    steps = (" ".join(paragraph.split()) for paragraph in text.split("\n\n"))
    return Instruction(make, tuple(step for step in steps if step))


def _template_of(make: Make) -> str:
    if make.method:
        return make.method.replace(" ", "-")
    return "borders" if any(isinstance(step, Join | JoinMitred) for step in make.steps) else "rows"


def _words(
    design: Design, publication: Publication, pieces: Mapping[str, Piece], make: Make
) -> dict[str, object]:
    measure = design.measure
    things = {
        step.item: _thing(design, pieces[step.source])
        for step in make.steps
        if isinstance(step, Take) and step.source in pieces
    }
    return {
        "make": make,
        "things": things,
        "listed": list(things.values()),
        "seam": show_length(measure, publication.seam),
        "unfinished": show_size(measure, make.width, make.height),
        "press": _press_words(make, things),
        "trim": _trim_words(measure, publication.step, make),
        "extras": _extras(measure, make),
        "rows": _rows(make),
        "joined": _joined(make, things),
        "sliced": _sliced(measure, make),
        "covers": _covers(make, things),
        "corners": _corners(make, things),
        "bands": _bands(design, pieces, make) if make.kind is MakeKind.TOP else [],
    }


def _thing(design: Design, piece: Piece) -> _Thing:
    size = show_size(design.measure, piece.short, piece.long)
    called = design.fabrics[piece.fabric].called
    return _Thing(piece.letter, called, size, piece.short == piece.long)


def _press_words(make: Make, things: Mapping[str, _Thing]) -> str:
    """Where the first opened seam goes, by the letter of the piece it goes to."""
    opened = next((step for step in make.steps if isinstance(step, Open | JoinEdges)), None)
    listed = list(things.values())
    if opened is None or len(listed) < 2:
        return ""
    if opened.press is Press.OPEN:
        return "open"
    return f"toward {listed[1] if opened.press is Press.ONTO_ADDED else listed[0]}"


def _extras(measure: Measure, make: Make) -> list[_Besides]:
    return [
        _Besides(
            extra.name,
            show_size(measure, extra.width, extra.height),
            extra.each,
            make.rounds * extra.each,
            make.spare_of(extra),
        )
        for extra in make.extras
    ]


def _corners(make: Make, things: Mapping[str, _Thing]) -> list[tuple[str, _Thing]]:
    """Corners in sewing order with the pieces sewn across them."""
    opened = [step.toward.value for step in make.steps if isinstance(step, Open)]
    return [(corner, things[corner]) for corner in opened if corner in things]


def _covers(make: Make, things: Mapping[str, _Thing]) -> list[_Covering]:
    """Sections in sewing order with their pieces."""
    turns = {step.item: step.turn for step in make.steps if isinstance(step, Take)}
    covers = []
    for step in (s for s in make.steps if isinstance(s, Cover) and s.added in things):
        thing = things[step.added]
        edge = "long" if turns[step.added] % 2 else "short"
        covers.append(
            _Covering(
                step.section, step.added, thing, "an edge " if thing.square else f"a {edge} edge "
            )
        )
    return covers


def _sliced(measure: Measure, make: Make) -> _Sliced | None:
    """How a set is cut across."""
    cut = next((step for step in make.steps if isinstance(step, CrossCut)), None)
    return None if cut is None else _Sliced(cut.count, show_length(measure, cut.width))


def _joined(make: Make, things: Mapping[str, _Thing]) -> list[_Joined]:
    """What is sewn to a side, in sewing order."""
    joins = [step for step in make.steps if isinstance(step, Join) and step.added in things]
    if not joins:
        return []
    before = [things.get(joins[0].item), *(things[step.added] for step in joins)]
    return [
        _Joined(things[step.added], last or things[step.added], step.side.value, step.press)
        for step, last in zip(joins, before, strict=False)
    ]


def _trim_words(measure: Measure, step: Fraction, make: Make) -> str:
    """How much the trim takes off the width in all, up to the ruler's next step."""
    trim = next((s for s in make.steps if isinstance(s, Trim)), None)
    if trim is None or not trim.off_left + trim.off_right:
        return ""
    return show_length(measure, ceil_to(trim.off_left + trim.off_right, step))


def _rows(make: Make) -> Assemble | None:
    return next((step for step in make.steps if isinstance(step, Assemble)), None)


def _bands(design: Design, pieces: Mapping[str, Piece], make: Make) -> list[Band[_Thing | str]]:
    """The borders from the inside out, as they are sewn."""

    def cited(source: str) -> _Thing | str:
        return _thing(design, pieces[source]) if source in pieces else source

    show = partial(show_length, design.measure)
    return list(bands(design.borders, make, cited, show))
