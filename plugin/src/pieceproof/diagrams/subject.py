"""One size of a pattern as its drawings need it.

In: a design, its publication (proved) and its drawing. Out: a `Subject`: the same, how dark each
fabric is drawn, and one of each make as it comes off the bench. It draws nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.table import Face, Flat, turned
from pieceproof.bench.watch import sewn_makes
from pieceproof.drawing.scene import Area, AreaKind
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import Number
from pieceproof.model import Design, Value
from pieceproof.published import Drawing, Make, MakeKind, Piece, Publication
from pieceproof.shapes import Polygon
from pieceproof.steps import Assemble, Placed

WRONG_SIDE = ", wrong side"
"""Added to a fabric's name, it names the cloth seen from its wrong side."""


@dataclass(frozen=True)
class Subject:
    """What all drawings of one size share. ``things`` are pieces by letter and makes by name."""

    design: Design
    publication: Publication
    drawing: Drawing
    values: Mapping[str, int]
    things: Mapping[str, Flat]


@dataclass(frozen=True)
class Cell:
    """One cell of an assembly as it is sewn in: unfinished, turned; ``letter`` if a piece."""

    source: str
    turn: int
    flat: Flat
    letter: str

    @property
    def width(self) -> float:
        return float(self.flat.width)

    @property
    def height(self) -> float:
        return float(self.flat.height)


def subject(design: Design, publication: Publication, drawing: Drawing) -> Subject:
    """What the drawings of one size share; the publication must be proved."""
    whole = (MakeKind.CENTRE, MakeKind.TOP)
    small = [make for make in publication.makes if make.kind not in whole]
    return Subject(design, publication, drawing, values(design), sewn_makes(publication, small))


def values(design: Design) -> Mapping[str, int]:
    """How dark each fabric is drawn without colours, 1 to 5, as different as they can be.

    Light fabrics get 1 and 2, dark ones 5 and 4, medium ones 3 and what the others leave of 2
    and 4, in order of use.
    """
    groups = {v: [n for n, f in design.fabrics.items() if f.value is v] for v in Value}
    light = (1,) if len(groups[Value.LIGHT]) == 1 else (1, 2)
    dark = (5,) if len(groups[Value.DARK]) == 1 else (5, 4)
    medium = tuple(v for v in (3, 2, 4) if v not in (*light, *dark))
    scales = {Value.LIGHT: light, Value.MEDIUM: medium, Value.DARK: dark}
    return {
        name: scales[value][index % len(scales[value])]
        for value in Value
        for index, name in enumerate(groups[value])
    }


def make_named(subject: Subject, name: str) -> Make:
    """The make of this name."""
    return next(make for make in subject.publication.makes if make.name == name)


def piece_of(subject: Subject, letter: str) -> Piece | None:
    """The piece with this letter, None if it is not a letter."""
    return next((p for p in subject.publication.pieces if p.letter == letter), None)


def called(subject: Subject, fabric: str) -> str:
    """What the text calls a fabric."""
    return subject.design.fabrics[fabric].called


def length(subject: Subject, value: Fraction) -> str:
    """A length with its unit sign."""
    return show_length(subject.design.measure, value)


def size(subject: Subject, width: Fraction, height: Fraction) -> str:
    """A size with its unit sign."""
    return show_size(subject.design.measure, width, height)


def rows_of(make: Make) -> Assemble | None:
    """The step that joins the make from rows of cells, if it is made so."""
    return next((step for step in make.steps if isinstance(step, Assemble)), None)


def cells_of(subject: Subject, step: Assemble) -> Sequence[Sequence[Cell]]:
    """The cells of an assembly, row by row."""
    return [[_cell(subject, placed) for placed in row] for row in step.rows]


def areas(subject: Subject, faces: Iterable[Face], kind: AreaKind, layer: int = 0) -> list[Area]:
    """Faces that show their right side."""
    return [area(subject, face.fabric, face.outline, kind, layer + face.layer) for face in faces]


def area(subject: Subject, fabric: str, outline: Polygon, kind: AreaKind, layer: int = 0) -> Area:
    """A polygon of one fabric, right side up."""
    return Area(outline, fabric, subject.values[fabric], kind, layer)


def in_order(subject: Subject, fabrics: Iterable[str]) -> list[str]:
    """Fabrics in the order of the pattern, each once."""
    shown = set(fabrics)
    return [name for name in subject.design.fabrics if name in shown]


def whole(value: Number) -> Fraction:
    """A length that is known to be rational."""
    if not isinstance(value, Fraction):
        raise TypeError(f"{value!r} is not on the ruler")
    return value


def _cell(subject: Subject, placed: Placed) -> Cell:
    piece = piece_of(subject, placed.source)
    flat = turned(subject.things[placed.source], placed.turn)
    return Cell(placed.source, placed.turn, flat, piece.letter if piece else "")
