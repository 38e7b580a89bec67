"""Why a piece is cut at its size: the way from the design to the cut, as a sum.

In: the designs of all sizes of a pattern that compiles, and a letter or a fact of a piece. Out: the
sums of its sides for each thing that takes it, with the lines of the file they begin at, as text.
The pieces are constructed again; that they are right is for the bench.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.borders import border_width
from pieceproof.cells import Layout
from pieceproof.construct import Draft, Part, construct
from pieceproof.forms import told
from pieceproof.geometry import draw
from pieceproof.layout import CENTRE, AnyLayout, lay_out
from pieceproof.lengths import Number, Surd, show_exact
from pieceproof.lettering import letters_of, publish
from pieceproof.methods.method import MIRRORED
from pieceproof.model import Design, Measure, Node, Position, Size
from pieceproof.problems import Place
from pieceproof.published import Piece
from pieceproof.ways import Way

_LENGTHS = (Fraction, Size, Position)


@dataclass(frozen=True)
class Use:
    """What takes a piece: the make, the part it plays there, how many, and how its sides come."""

    make: str
    slot: str
    count: int
    rounds: int
    short: Way
    long: Way


@dataclass(frozen=True)
class Trace:
    """A piece of one size with everything that takes it."""

    design: Design
    layouts: Mapping[str, AnyLayout]
    piece: Piece
    uses: tuple[Use, ...]


@dataclass(frozen=True)
class Line:
    """A line of a sum: the sign before an amount, the amount, and what it is."""

    sign: str
    amount: str
    words: str


def traces_of(designs: Sequence[Design], size: str) -> Mapping[str, Trace]:
    """The traces of all pieces of one size, by letter."""
    laid = [lay_out(design)[0] for design in designs]
    drafts = [_draft(*both) for both in zip(designs, laid, strict=True)]
    letters = letters_of(drafts)
    number = next(n for n, design in enumerate(designs) if design.size == size)
    draft, layouts = drafts[number], laid[number]
    rounds = {make.name: make.rounds for make in draft.makes}
    return {
        piece.letter: Trace(
            designs[number],
            layouts,
            piece,
            tuple(_use(p, rounds[p.make]) for p in draft.parts if letters[p.role] == piece.letter),
        )
        for piece in publish(drafts)[number].pieces
    }


def letter_in(words: str) -> str:
    """The letter that a writer asks for: by itself, or in a fact such as ``piece D, sky, cut``."""
    return words.removeprefix("piece ").partition(",")[0].strip().upper()


def sum_of(way: Way, cut: Fraction, measure: Measure) -> Iterator[Line]:
    """The shares of a side, what they add up to, the ruler's step and the size to cut."""
    for number, share in enumerate(way.shares):
        rounded = share.taken != share.exact
        exact = f", exactly {_show(share.exact, measure)}, on the ruler" if rounded else ""
        sign = "+" if number else ""
        yield Line(sign, _show(share.taken, measure), share.words + exact)
    total = sum((share.taken for share in way.shares), Fraction(0))
    ruler = way.on_ruler(measure.step)
    yield Line("=", _show(total, measure), "")
    if total != ruler:
        yield Line("", measure.show(ruler), f"rounded up to {measure.show(measure.step)}")
    if cut != ruler:
        yield Line("+", measure.show(cut - ruler), way.reason)
        yield Line("=", measure.show(cut), "")


def trace_text(trace: Trace, lines: Mapping[str, Sequence[str]]) -> str:
    """The whole way, for the terminal. ``lines`` are those of the pattern's files."""
    piece, design = trace.piece, trace.design
    show = design.measure.show
    called = design.fabrics[piece.fabric].called
    sides = f"{show(piece.short)} x {show(piece.long)}"
    parts = [f"piece {piece.letter}, {called}, {design.label}: {sides}, {piece.count} of it"]
    for ways in dict.fromkeys((use.short, use.long) for use in trace.uses):
        alike = [use for use in trace.uses if (use.short, use.long) == ways]
        parts.append("\n".join(_use_lines(trace, alike, lines)))
        parts.append("\n".join(_sums(trace, *ways)))
    return "\n\n".join(parts)


def sides_of(piece: Piece, short: Way, long: Way) -> Mapping[str, tuple[Way, Fraction]]:
    """How each side of a piece comes about in one use of it, and its cut length; by its name."""
    if short == long and piece.short == piece.long:
        return {"each side": (short, piece.short)}
    return {"short side": (short, piece.short), "long side": (long, piece.long)}


def _draft(design: Design, layouts: Mapping[str, AnyLayout]) -> Draft:
    return construct(design, layouts, draw(design, layouts))[0]


def _use(part: Part, rounds: int) -> Use:
    cut = part.cut
    ways = (cut.down, cut.across) if cut.width > cut.height else (cut.across, cut.down)
    return Use(part.make, part.role.partition(": ")[2], part.count, rounds, *ways)


def _use_lines(
    trace: Trace, uses: Sequence[Use], lines: Mapping[str, Sequence[str]]
) -> Iterator[str]:
    for use in uses:
        each = use.count // use.rounds
        yield f"{use.make}: {use.slot}, {use.count} = {use.rounds} x {each}"
    yield from dict.fromkeys(line for use in uses for line in _laid(trace, use))
    places = (place for use in uses for place in _places(trace.design, use))
    for file, number in dict.fromkeys((place.file, place.line) for place in places):
        text = lines[file][number - 1].strip() if file in lines else ""
        yield f"  {file}:{number}: {text}"


def _laid(trace: Trace, use: Use) -> Iterator[str]:
    """What a grid's cells measure, or the size that a border goes round."""
    layout, show = trace.layouts.get(use.make.removesuffix(MIRRORED)), trace.design.measure.show
    if isinstance(layout, Layout):
        yield f"  columns {', '.join(show(cell.size.width) for cell in layout.rows[0])}"
        yield f"  rows {', '.join(show(row[0].size.height) for row in layout.rows)}"
    number = _border_of(use.slot)
    if number is not None:
        inner = _inside(trace, number)
        yield f"  goes round {show(inner.width)} x {show(inner.height)}, finished"


def _inside(trace: Trace, number: int) -> Size:
    """The finished size inside a border."""
    size = trace.layouts[CENTRE].size
    borders = trace.design.borders[: number - 1]
    widths = (border_width(n, b, trace.layouts) for n, b in enumerate(borders, 1))
    around = 2 * sum(widths, Fraction(0))
    return Size(size.width + around, size.height + around)


def _border_of(slot: str) -> int | None:
    words = slot.split(" ")
    return int(words[1]) if words[0] == "border" and words[1].isdecimal() else None


def _places(design: Design, use: Use) -> Iterator[Place]:
    """Where the lengths stand from which a piece comes."""
    things = {**design.units, **design.blocks}
    name = max((n for n in things if use.make.startswith(n)), key=len, default="")
    number = _border_of(use.slot)
    record: Node = things.get(name) or design.setting
    if not name and number is not None:
        record = design.borders[number - 1]
    yield record.at.here
    yield from (text.place for text in told(record) if text.kind in _LENGTHS)


def _sums(trace: Trace, short: Way, long: Way) -> Iterator[str]:
    measure = trace.design.measure
    for words, (way, cut) in sides_of(trace.piece, short, long).items():
        yield f"  {words}, with a seam allowance of {measure.show(trace.design.seam)}:"
        for line in sum_of(way, cut, measure):
            yield f"    {line.sign or ' '} {line.amount:<12} {line.words}".rstrip()


def _show(length: Number, measure: Measure) -> str:
    return show_exact(length) if isinstance(length, Surd) else measure.show(length)
