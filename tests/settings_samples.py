"""Designs with one setting each, made by hand, taken through all stages but the cloth's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench import prove, show_disagreement
from pieceproof.bench.nesting import meetings
from pieceproof.construct import construct
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.instructions import instructions
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods import check_methods
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.plain_patch import PlainPatch
from pieceproof.model import (
    AnySetting,
    Border,
    Cell,
    Cloth,
    Colour,
    Colourway,
    Design,
    Fabric,
    FabricName,
    Grid,
    Measure,
    Size,
    Unit,
    Value,
)
from pieceproof.problems import Problem
from pieceproof.published import Drawing, Publication

F = Fraction
FABRICS = {
    "ground": Fabric("background", Value.LIGHT),
    "wing": Fabric("wings", Value.DARK),
    "heart": Fabric("centres", Value.MEDIUM),
    "water": Fabric("border", Value.DARK),
    "stone": Fabric("stones", Value.MEDIUM),
}
GROUND, WING, HEART, WATER, STONE = map(FabricName, FABRICS)
SEAMS = {Measure.INCH: F(1, 4), Measure.CENTIMETRE: F(3, 4)}


@dataclass(frozen=True)
class Built:
    """What came of a design."""

    design: Design
    publication: Publication
    drawing: Drawing

    def disagreements(self) -> list[str]:
        """What the bench says, in words."""
        return [show_disagreement(d) for d in prove(self.publication, self.drawing)]

    def words(self) -> str:
        """All steps in words."""
        made = instructions(self.design, self.publication, meetings(self.publication))
        return "\n".join(step for instruction in made for step in instruction.steps)

    def cut(self, make: str) -> Fraction:
        """The short side of the one piece that a make takes."""
        (piece,) = (p for p in self.publication.pieces if make in p.uses)
        return piece.short

    def wanted(self, make: str) -> int:
        """How many of a make the top takes, 0 if there is none."""
        return sum(m.wanted for m in self.publication.makes if m.name == make)


def blade(size: Fraction) -> HalfSquareTriangles:
    """A block that looks different in every turn."""
    return HalfSquareTriangles(size, GROUND, WING)


def plain(width: Fraction, height: Fraction, fabric: FabricName = HEART) -> PlainPatch:
    """A rectangle of one fabric."""
    return PlainPatch(Size(width, height), fabric)


def design(
    setting: AnySetting,
    units: Mapping[str, Unit | Grid],
    measure: Measure = Measure.INCH,
    borders: tuple[Border, ...] = (),
    seam: Fraction | None = None,
    blocks: Mapping[str, Grid] | None = None,
) -> Design:
    """One size of a pattern around a setting."""
    return Design(
        "test", "only", "Only", "Test", "test", "A test.", measure, seam or SEAMS[measure],
        FABRICS, {"mist": Cloth("Mist", Colour("#eceae1"))}, {"way": Colourway("Way", {})},
        setting, units, blocks or {}, borders,
    )  # fmt: skip


def problems_of(made: Design) -> tuple[Problem, ...]:
    """What the stages behind the reading say about a design."""
    layouts, problems = lay_out(made)
    problems = (*check_methods(made), *problems)
    if problems:
        return problems
    return construct(made, layouts, draw(made, layouts))[1]


def build(made: Design) -> Built:
    """A design without problems, published."""
    layouts, problems = lay_out(made)
    assert not problems, problems
    drawing = draw(made, layouts)
    draft, problems = construct(made, layouts, drawing)
    assert not problems, problems
    (publication,) = publish([draft])
    names = [make.name for make in publication.makes]
    return Built(made, publication, with_mirror_images(drawing, names))


def cells(*rows: str) -> tuple[tuple[Cell, ...], ...]:
    """Rows of names; a slash and a number add quarter turns, a star mirrors."""
    return tuple(tuple(_cell(word) for word in row.split()) for row in rows)


def _cell(word: str) -> Cell:
    name, _, turn = word.partition("/")
    return Cell(name.rstrip("*"), int(turn or 0), name.endswith("*"))
