"""The sewing steps in words, for every make of one size.

In: a design and its publication. Out: one `Instruction` a make, its sentences in Markdown. The
words of a method stand in ``templates/steps/<method>.md``, one step a paragraph; they cite
letters and sizes of the publication and compute nothing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from jinja2 import Environment, PackageLoader, StrictUndefined
from quicktions import Fraction

from pieceproof.bench.nesting import Meeting
from pieceproof.border_words import Band, bands
from pieceproof.inside_seams import inside_seams
from pieceproof.lengths import ceil_to
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.model import Design, Measure, Medallion
from pieceproof.on_point import SIDE_TRIANGLE
from pieceproof.pressing_words import PressWords, in_turn, press_words
from pieceproof.published import Make, MakeKind, Piece, Publication
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    Cover,
    CrossCut,
    CutApart,
    Foundation,
    Join,
    JoinEdges,
    JoinMitred,
    JoinPart,
    Layer,
    Open,
    Press,
    Take,
    TrimEven,
)
from pieceproof.template_words import SeamWords, laid_words, seam_words
from pieceproof.usual import usual_addition

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
class _Begun:
    """A thing sewn to part of a side, from one end."""

    thing: _Thing
    side: str
    start: str
    press: Press

    @property
    def way(self) -> str:
        """Where the seam goes, by what was added."""
        return _by_added(self.press, self.thing)


@dataclass(frozen=True)
class _Joined:
    """A thing sewn to one side of another after a thing ``before``, and where the seam goes."""

    thing: _Thing
    before: _Thing
    side: str
    press: Press

    @property
    def way(self) -> str:
        """Where the seam goes, by what was added."""
        return _by_added(self.press, self.thing)

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
    corners: tuple[str, ...]
    made: int
    spare: int


def instructions(
    design: Design, publication: Publication, meetings: Sequence[Meeting]
) -> tuple[Instruction, ...]:
    """Words for all makes of a publication, in sewing order; ``meetings`` are the bench's."""
    pieces = {piece.letter: piece for piece in publication.pieces}
    met: dict[str, list[Meeting]] = {}
    for meeting in meetings:
        met.setdefault(meeting.make, []).append(meeting)
    return tuple(
        _instruction(design, publication, pieces, make, met.get(make.name, []))
        for make in publication.makes
    )


def show_length(measure: Measure, length: Fraction) -> str:
    """A length with its unit sign: ``3 1/4"`` or ``7.5 cm``."""
    return f'{measure.show(length)}"' if measure is Measure.INCH else f"{measure.show(length)} cm"


def show_size(measure: Measure, width: Fraction, height: Fraction) -> str:
    """A width and height with their unit sign."""
    if measure is Measure.INCH:
        return f"{show_length(measure, width)} x {show_length(measure, height)}"
    return f"{measure.show(width)} x {measure.show(height)} cm"


def show_unfinished(measure: Measure, make: Make) -> str:
    """The size to check a make against; of a triangle the sides that a ruler shows."""
    if make.kind is not MakeKind.TRIANGLE:
        return show_size(measure, make.width, make.height)
    which = "short sides" if make.width == make.height else "long side"
    return f"{show_length(measure, make.width)} along the {which}"


def show_made(make: Make) -> str:
    """How many are made: ``4``, or ``4 as drawn and 4 mirrored`` where a round gives both."""
    other, made = make.other_hand, make.rounds * make.each
    return f"{made} as drawn and {make.rounds * other.each} mirrored" if other else str(made)


def show_spare(make: Make) -> str:
    """How many of them are spare: ``2``, ``2 as drawn and 1 mirrored``, "" for none."""
    other = make.other_hand
    if other is None:
        return str(make.spare) if make.spare else ""
    spares = ((make.spare, "as drawn"), (make.spare_of(other), "mirrored"))
    return " and ".join(f"{count} {hand}" for count, hand in spares if count)


def _instruction(
    design: Design,
    publication: Publication,
    pieces: Mapping[str, Piece],
    make: Make,
    meetings: Sequence[Meeting],
) -> Instruction:
    template = _ENVIRONMENT.get_template(f"steps/{_template_of(design, make)}.md")
    pressing = _pressing(make, pieces, meetings)
    text = template.render(_words(design, publication, pieces, make), pressing=pressing)
    steps = (" ".join(paragraph.split()) for paragraph in text.split("\n\n"))
    said = (_SET_B,) if make.name.endswith(SET_B) else ()
    return Instruction(make, (*said, *(step for step in steps if step)))


_SET_B = (
    "Set B is sewn like the others; only its seams go the other way, so that they lock together "
    "with those of its neighbours. Keep the two piles apart."
)


def _pressing(
    make: Make, pieces: Mapping[str, Piece], meetings: Sequence[Meeting]
) -> PressWords | None:
    kinds = (Assemble, AssembleOnPoint)
    step = next((step for step in make.steps if isinstance(step, kinds)), None)
    return None if step is None else press_words(step, pieces, meetings)


def _template_of(design: Design, make: Make) -> str:
    if make.method:
        return make.method.replace(" ", "-")
    kinds = {type(step) for step in make.steps}
    if AssembleOnPoint in kinds:
        return "on-point"
    if Join in kinds or JoinMitred in kinds:
        return "borders"
    return "rounds" if _is_round(design, make) else "rows"


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
        "two_seams": show_length(measure, 2 * publication.seam),
        "unfinished": show_size(measure, make.width, make.height),
        "press": _press_words(make, things),
        "pressed": _pressed(make, things),
        "presses": [seam.press.value for seam in inside_seams(make.steps)],
        "trim": _trim_words(measure, publication.step, make),
        "oversize": show_length(measure, make.oversize),
        "large": _large(make, things, pieces),
        "extras": _extras(measure, make),
        "made": show_made(make),
        "usual": _usual(publication, pieces, make, measure),
        "spare": show_spare(make),
        "rows": _rows(make),
        "joined": _joined(make, things),
        "sliced": _sliced(measure, make),
        "covers": _covers(make, things),
        "again": _foundation_before(publication, make),
        "begun": _begun(make, things),
        "corners": _corners(make, things),
        "seams": seam_words(make, things),
        "ways": _ways,
        "in_turn": in_turn,
        "settled": make.name.removesuffix(SET_B).removesuffix(MIRRORED) in design.pressing,
        **laid_words(make, things, lambda length: show_length(measure, length)),
        "diagonal": _diagonal(design, pieces, make),
        "round": _round(design, pieces, make),
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


def _pressed(make: Make, things: Mapping[str, _Thing]) -> list[str]:
    """Where each seam goes that was sewn by itself, by what was added."""
    seams = inside_seams(make.steps)
    known = ((seam.press, things.get(seam.added[-1])) for seam in seams)
    return [_by_added(press, thing) for press, thing in known if thing is not None]


def _by_added(press: Press, added: _Thing) -> str:
    words = {Press.ONTO_ADDED: "toward", Press.ONTO_BASE: "away from"}
    return f"{words[press]} {added}" if press in words else press.value


def _ways(seams: Sequence[SeamWords]) -> str:
    return in_turn([seam.press for seam in seams])


def _extras(measure: Measure, make: Make) -> list[_Besides]:
    corners = _corners_cut_off(make)
    return [
        _Besides(
            extra.name,
            show_size(measure, extra.width, extra.height),
            tuple(corners[i] for i, name in make.besides.items() if name == extra.name),
            make.rounds * extra.each,
            make.spare_of(extra),
        )
        for extra in make.extras
    ]


def _usual(
    publication: Publication, pieces: Mapping[str, Piece], make: Make, measure: Measure
) -> dict[str, str] | None:
    """The metric handbooks' addition, what it lacks to a tenth of a millimetre, and the piece."""
    found = usual_addition(measure, publication.seam, make, pieces)
    if found is None:
        return None
    return {
        "letter": found.letter,
        "addition": show_length(measure, found.addition),
        "short": f"{measure.show(10 * found.shown)} mm",
    }


def _corners_cut_off(make: Make) -> Mapping[str, str]:
    """For every part cut from layers, the corner on which the last layer was laid before."""
    corners: dict[str, str] = {}
    last = ""
    for step in make.steps:
        if isinstance(step, Layer):
            last = step.corner.value
        elif isinstance(step, CutApart):
            corners |= dict.fromkeys((step.first, step.second), last)
    return corners


def _corners(make: Make, things: Mapping[str, _Thing]) -> list[tuple[str, _Thing]]:
    """Corners in sewing order with the pieces laid on them."""
    layers = (step for step in make.steps if isinstance(step, Layer))
    return [(step.corner.value, things[step.upper]) for step in layers if step.upper in things]


def _begun(make: Make, things: Mapping[str, _Thing]) -> _Begun | None:
    """The seam that is left open at first."""
    part = next((step for step in make.steps if isinstance(step, JoinPart)), None)
    if part is None or part.added not in things:
        return None
    return _Begun(things[part.added], part.side.value, part.start.value, part.press)


def _foundation_before(publication: Publication, make: Make) -> str:
    """The first make sewn on a foundation, "" where this is it: it tells how, others repeat it."""
    first = next((m for m in publication.makes if _has_foundation(m)), make)
    return "" if first is make else first.name


def _has_foundation(make: Make) -> bool:
    return any(isinstance(step, Foundation) for step in make.steps)


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


def _large(make: Make, things: Mapping[str, _Thing], pieces: Mapping[str, Piece]) -> list[_Thing]:
    """What is cut larger than needed on purpose, each once."""
    taken = (s for s in make.steps if isinstance(s, Take) and s.item in things)
    return list(dict.fromkeys(things[s.item] for s in taken if pieces[s.source].oversize))


def _trim_words(measure: Measure, step: Fraction, make: Make) -> str:
    """How much the trim takes off the width in all, up to the ruler's next step."""
    trim = make.trim
    if trim is None or not trim.off_left + trim.off_right:
        return ""
    return show_length(measure, ceil_to(trim.off_left + trim.off_right, step))


@dataclass(frozen=True)
class _Diagonal:
    """Diagonal rows as the words cite them.

    ``ends`` groups the rows by the triangles at their lower left and upper right ends. ``size`` is
    the one to trim to. ``raw`` is the piece at the ends of rows of sashes, ``sash`` and ``post``
    are what lies between; "" where there are none.
    """

    rows: int
    ends: tuple[tuple[str, str, str], ...]
    size: str
    raw: str = ""
    sash: str = ""
    post: str = ""

    @property
    def has_sides(self) -> bool:
        return any(SIDE_TRIANGLE in ends for _, *ends in self.ends)


def _diagonal(design: Design, pieces: Mapping[str, Piece], make: Make) -> _Diagonal | None:
    join = next((s for s in make.steps if isinstance(s, AssembleOnPoint)), None)
    trim = next((s for s in make.steps if isinstance(s, TrimEven)), None)
    if join is None or trim is None:
        return None
    pairs = {
        number: (row.first.source, row.last.source)
        for number, row in enumerate(join.rows, 1)
        if row.first and row.last
    }
    numbers = [
        (pair, [str(n) for n, other in pairs.items() if other == pair])
        for pair in dict.fromkeys(pairs.values())
    ]
    ends = tuple((_row_words(rows), *pair) for pair, rows in numbers)
    sashed = next((row.cells for row in join.rows[1:] if row.first is None), ())
    sashes = tuple(_cited(pieces, cell.source) for cell in sashed[:3])
    size = show_size(design.measure, trim.width, trim.height)
    return _Diagonal(len(join.rows), ends, size, *sashes)


def _row_words(numbers: list[str]) -> str:
    """``Row 1``, ``Rows 1 and 2``, ``Rows 1, 2 and 5``, ``Rows 1 to 4``."""
    if len(numbers) == 1:
        return f"Row {numbers[0]}"
    if len(numbers) > 3 and int(numbers[-1]) - int(numbers[0]) == len(numbers) - 1:
        return f"Rows {numbers[0]} to {numbers[-1]}"
    return f"Rows {', '.join(numbers[:-1])} and {numbers[-1]}"


@dataclass(frozen=True)
class _Round:
    """A round as the words cite it: what it is about, its strips and corners, "" for none.

    From the second round on it is about the centre, which is what is sewn so far.
    """

    inner: str
    side: str
    end: str
    corner: str


def _round(design: Design, pieces: Mapping[str, Piece], make: Make) -> _Round | None:
    join = _rows(make)
    if join is None or not _is_round(design, make):
        return None
    rows = [[_cited(pieces, cell.source) for cell in row] for row in join.rows]
    above, middle = (rows[0], rows[1]) if len(rows) == 3 else ([], rows[0])
    return _Round(
        re.sub(r"round \d+", "centre", middle[len(middle) // 2]),
        middle[0] if len(middle) > 1 else "",
        above[len(above) // 2] if above else "",
        above[0] if len(above) > 1 else "",
    )


def _is_round(design: Design, make: Make) -> bool:
    """A round of a medallion about what is sewn so far, pressed as rounds usually are."""
    join = _rows(make)
    if not isinstance(design.setting, Medallion) or make.name in design.blocks or join is None:
        return False
    pressed = [
        (len(row), press if len(row) > 1 else "")
        for row, press in zip(join.rows, join.row_press, strict=True)
    ]
    beside, corners, alone = (3, "outward"), (3, "inward"), (1, "")
    usual = ([beside], [alone, beside, alone], [corners, beside, corners], [alone] * 3)
    return pressed in usual and (len(pressed) == 1 or join.between == "outward")


def _cited(pieces: Mapping[str, Piece], source: str) -> str:
    """A piece by its letter, a make by its name."""
    return f"**{source}**" if source in pieces else source


def _rows(make: Make) -> Assemble | None:
    return next((step for step in make.steps if isinstance(step, Assemble)), None)


def _bands(design: Design, pieces: Mapping[str, Piece], make: Make) -> list[Band[_Thing | str]]:
    """The borders from the inside out, as they are sewn."""

    def cited(source: str) -> _Thing | str:
        return _thing(design, pieces[source]) if source in pieces else source

    show = partial(show_length, design.measure)
    return list(bands(design.borders, make, cited, show))
