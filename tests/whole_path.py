"""A small design taken the whole way from its units to what is published, for tests of methods."""

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
    Cloth,
    Colour,
    Colourway,
    Design,
    Fabric,
    FabricName,
    Measure,
    Setting,
    Unit,
    Value,
)
from pieceproof.problems import Problem
from pieceproof.published import Drawing, Publication

FABRICS = {
    "ground": Fabric("background", Value.LIGHT),
    "wing": Fabric("wings", Value.DARK),
    "heart": Fabric("centres", Value.MEDIUM),
    "water": Fabric("border", Value.DARK),
}
GROUND, WING, HEART, WATER = map(FabricName, FABRICS)

Row = tuple[Cell, ...]


@dataclass(frozen=True)
class Built:
    """What came of a design; only ``problems`` where there are any."""

    design: Design
    problems: tuple[Problem, ...]
    publication: Publication
    drawing: Drawing

    def disagreements(self) -> list[str]:
        """What the bench says, in words."""
        return [show_disagreement(d) for d in prove(self.publication, self.drawing)]

    def instructions(self) -> tuple[Instruction, ...]:
        """The steps in words."""
        return instructions(self.design, self.publication, meetings(self.publication))


def build(
    unit: Unit, measure: Measure, seam: Fraction, cells: tuple[Cell, ...] = (Cell("unit"),) * 2
) -> Built:
    """A top of one row of cells, all showing one unit under the name ``unit``."""
    return build_rows({"unit": unit}, measure, seam, (cells,))


def build_rows(
    units: Mapping[str, Unit], measure: Measure, seam: Fraction, rows: tuple[Row, ...]
) -> Built:
    """A top of rows of units. The author's problems end it, as they end a build."""
    design = Design(
        "test", "only", "Only", "Test", "test", "A test.", measure, seam, FABRICS,
        {"mist": Cloth("Mist", Colour("#eceae1"))},
        {"way": Colourway("Way", {})},
        Setting(rows),
        units,
    )  # fmt: skip
    layouts, problems = lay_out(design)
    problems = (*check_methods(design), *problems)
    assert not problems, problems
    drawing = draw(design, layouts)
    draft, problems = construct(design, layouts, drawing)
    (publication,) = publish([draft])
    return Built(design, problems, publication, with_mirror_images(drawing, draft.names))
