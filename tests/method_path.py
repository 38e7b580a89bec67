"""One small top taken the whole way, from its design to words and proof, for tests of methods."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench import prove, show_disagreement
from pieceproof.bench.nesting import meetings
from pieceproof.construct import construct
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.instructions import Instruction, instructions
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods import check_methods
from pieceproof.model import (
    Cell,
    Design,
    Fabric,
    FabricName,
    Measure,
    Setting,
    Unit,
    Value,
)
from pieceproof.problems import Problem
from pieceproof.published import Drawing, Make, Publication

FABRICS = {
    "mist": Fabric("background", Value.LIGHT),
    "reed": Fabric("second light", Value.LIGHT),
    "clay": Fabric("centres", Value.MEDIUM),
    "slate": Fabric("first dark", Value.DARK),
    "night": Fabric("second dark", Value.DARK),
}
MIST, REED, CLAY, SLATE, NIGHT = map(FabricName, FABRICS)


@dataclass(frozen=True)
class Sewn:
    """What came of a design: its numbers, its pictures, its words."""

    design: Design
    publication: Publication
    drawing: Drawing

    def make(self, name: str) -> Make:
        """A make by its name."""
        return next(make for make in self.publication.makes if make.name == name)

    def cut(self, use: str) -> list[tuple[str, Fraction, Fraction, int]]:
        """Fabric, short side, long side and count of the pieces that a make takes."""
        return [
            (p.fabric, p.short, p.long, p.count) for p in self.publication.pieces if use in p.uses
        ]

    def disagreements(self) -> list[str]:
        """What the bench says."""
        return [show_disagreement(d) for d in prove(self.publication, self.drawing)]

    def instructions(self) -> tuple[Instruction, ...]:
        """The steps in words."""
        return instructions(self.design, self.publication, meetings(self.publication))

    def words(self, name: str) -> tuple[str, ...]:
        """The steps of a make in words."""
        return next(i.steps for i in self.instructions() if i.make.name == name)


def design_of(
    units: Mapping[str, Unit],
    measure: Measure,
    seam: Fraction,
    rows: tuple[tuple[Cell, ...], ...],
    usable_width: Fraction | None = None,
) -> Design:
    """A top of these rows of units."""
    return Design(
        "test", "only", "Only", "Test", "test", "A test.", measure, seam, FABRICS, {}, {},
        Setting(rows), units, usable_width=usable_width,
    )  # fmt: skip


def faults(
    unit: Unit, measure: Measure = Measure.INCH, seam: Fraction = Fraction(1, 4)
) -> list[str]:
    """What the method says of a unit: found, expected and remedy."""
    problems = check_methods(design_of({"unit": unit}, measure, seam, ((Cell("unit"),),)))
    return [f"{p.found}; {p.expected}; {p.remedy}" for p in problems]


def sewn(design: Design) -> Sewn:
    """The design taken the whole way; an author's problems are a mistake of the test."""
    problems: tuple[Problem, ...] = check_methods(design)
    assert not problems, problems
    layouts, problems = lay_out(design)
    assert not problems, problems
    drawing = draw(design, layouts)
    draft, problems = construct(design, layouts, drawing)
    assert not problems, problems
    (publication,) = publish([draft])
    return Sewn(design, publication, with_mirror_images(drawing, draft.names))


def sewn_unit(
    unit: Unit, measure: Measure, seam: Fraction, cells: tuple[Cell, ...] = (Cell("unit"),) * 2
) -> Sewn:
    """A top of one row of cells, all of one unit under the name ``unit``."""
    return sewn(design_of({"unit": unit}, measure, seam, (cells,)))
