"""The handbook's pages of the construction methods, each made of the method's own example.

In: the methods. Out: a page for each by its address, and their index with pictures. All numbers
are those of a small pattern that has the example in it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from inspect import getdoc

from markupsafe import Markup

from pieceproof.compared import Compared, compared
from pieceproof.comparison import HEADS, numbers_of
from pieceproof.diagrams.making import making
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.subject import area
from pieceproof.drawing.scene import AreaKind, Box, Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.instructions import show_size
from pieceproof.methods import METHODS
from pieceproof.methods.method import SET_B, Method
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.sewing import PICTURE_PX, heading_of
from pieceproof.workers import each
from pieceproof.writing.samples_of_methods import NAME, WANTED, Sample, sample_of, unit_text
from pieceproof.writing.tracing import Line, Trace, sides_of, sum_of

FOLDER = "handbook/methods"
INDEX = f"{FOLDER}/index.md"
_UNIT_PX = 160


@dataclass(frozen=True)
class Making:
    """One thing that is made: its heading, its drawing, and its steps."""

    heading: str
    drawing: Markup
    steps: tuple[str, ...]


@dataclass(frozen=True)
class Cutting:
    """Pieces that are cut alike, and the sum that each of their sides is."""

    words: str
    sums: tuple[tuple[str, tuple[Line, ...]], ...]


@dataclass(frozen=True)
class Told:
    """What the page of a method shows."""

    name: str
    title: str
    file: str
    what: str
    good_for: str
    picture: Markup
    example: str
    makings: tuple[Making, ...]
    pieces: tuple[Cutting, ...]
    wanted: int
    outcome: str
    methods: tuple[tuple[str, str], ...]
    numbers: tuple[tuple[str, ...], ...]


def method_pages() -> Mapping[str, Page]:
    """The index and a page for every method, by address."""
    methods = each(told, [method.name for method in METHODS])
    pages = {f"{FOLDER}/{one.file}": method_page(one) for one in methods}
    return {INDEX: render_page("methods.md", {"methods": methods}), **pages}


def method_page(told: Told) -> Page:
    """The page of one method."""
    return render_page("method.md", {"told": told})


def told(name: str) -> Told:
    """What is told of the method of this name."""
    method = next(method for method in METHODS if method.name == name)
    sample = sample_of(method)
    rows = compared(sample.design, NAME, WANTED)
    own = next(row for row in rows if row.chosen)
    numbers = (numbers_of(sample.design.measure, row) for row in rows)
    return Told(
        name,
        _title(name),
        _file(name),
        (getdoc(method.design) or "").partition("\n\n")[0].replace("\n", " "),
        method.lesson.good_for,
        _picture(method, sample),
        unit_text(method),
        tuple(_makings(sample)),
        tuple(_pieces(sample)),
        WANTED,
        _outcome(own),
        tuple((row.method, "" if row.chosen else _file(row.method)) for row in rows),
        tuple(zip(HEADS[1:], *numbers, strict=True)),
    )


def _title(name: str) -> str:
    return name[:1].upper() + name[1:]


def _file(name: str) -> str:
    return f"{name.replace(' ', '-')}.md"


def _picture(method: Method, sample: Sample) -> Markup:
    """The finished unit, nothing else."""
    unit = sample.design.units[NAME]
    size = method.size(unit)
    patches = (
        area(sample.row, p.fabric, p.outline, AreaKind.PATCH, p.layer) for p in method.patches(unit)
    )
    scene = Scene(
        f"{_title(method.name)}, finished", "", Box(0, 0, size.width, size.height), tuple(patches)
    )
    return _svg(sample, scene, f"{_ident(method.name)}-unit", _UNIT_PX)


def _makings(sample: Sample) -> Iterator[Making]:
    """What is made of pieces, in sewing order; the same pressed the other way is left out."""
    for number, instruction in enumerate(sample.instructions, 1):
        make = instruction.make
        if make.method and not make.name.endswith(SET_B):
            scene = making(sample.row, make.name)
            drawing = _svg(sample, scene, f"making-{number}", PICTURE_PX)
            yield Making(heading_of(make), drawing, instruction.steps)


def _svg(sample: Sample, scene: Scene, ident: str, width_px: int) -> Markup:
    colours = palette(sample.design, next(iter(sample.design.colourways)))
    return Markup(to_svg(scene, Look.COLOUR, f"pp-{ident}", width_px, colours))


def _pieces(sample: Sample) -> Iterator[Cutting]:
    """The pieces of one size that come about alike, together, and the sums of their sides."""
    measure = sample.design.measure
    alike: dict[tuple[object, ...], list[Trace]] = {}
    for trace in sample.traces:
        ways = tuple(dict.fromkeys((use.short, use.long) for use in trace.uses))
        alike.setdefault((trace.piece.short, trace.piece.long, ways), []).append(trace)
    for traces in alike.values():
        piece = traces[0].piece
        sums = {
            words: tuple(sum_of(way, cut, measure))
            for use in traces[0].uses
            for words, (way, cut) in sides_of(piece, use.short, use.long).items()
        }
        letters = ", ".join(f"**{trace.piece.letter}**" for trace in traces)
        size = show_size(measure, piece.short, piece.long)
        yield Cutting(f"{letters}: cut {size}", tuple(sums.items()))


def _outcome(own: Compared) -> str:
    """What a number of rounds gives."""
    rounds = "1 round makes" if own.rounds == 1 else f"{own.rounds} rounds make"
    spare = (
        f"{own.spare} {'is' if own.spare == 1 else 'are'} spare" if own.spare else "none is spare"
    )
    return f"A round gives {own.each}. For {WANTED}, {rounds} {own.made}; {spare}."


def _ident(name: str) -> str:
    return f"method-{name.replace(' ', '-')}"
