"""Small designs with borders and finishing, taken the whole way, for tests of both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from quicktions import Fraction
from whole_path import FABRICS, GROUND, HEART, WATER, WING

from pieceproof.bench import prove, show_disagreement
from pieceproof.bench.nesting import meetings
from pieceproof.cloth_proof import cloth_faults
from pieceproof.construct import construct
from pieceproof.finishing import finishing_problems
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.instructions import Instruction, instructions
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods.flying_geese import FlyingGeese
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.plain_patch import PlainPatch
from pieceproof.model import (
    AnyBorder,
    Border,
    BorderOrder,
    Cell,
    Cloth,
    ClothName,
    Colour,
    Colourway,
    Design,
    FabricName,
    Measure,
    MitredBorder,
    OnPoint,
    PiecedBorder,
    Setting,
    Size,
    Unit,
)
from pieceproof.problems import Problem
from pieceproof.published import Drawing, Publication
from pieceproof.requirements import USABLE_WIDTHS, Requirements, requirements

F = Fraction
SEAMS = {Measure.INCH: F(1, 4), Measure.CENTIMETRE: F(3, 4)}


@dataclass(frozen=True)
class Finished:
    """What came of a design."""

    design: Design
    publication: Publication
    drawing: Drawing
    needs: Requirements
    problems: tuple[Problem, ...]

    def faults(self) -> list[str]:
        """What either proof says, in words."""
        unproved = [show_disagreement(d) for d in prove(self.publication, self.drawing)]
        return unproved + list(cloth_faults(self.design, self.publication, self.needs))

    def instructions(self) -> tuple[Instruction, ...]:
        """The steps in words."""
        return instructions(self.design, self.publication, meetings(self.publication))


def design_of(
    width: Fraction,
    height: Fraction,
    borders: tuple[AnyBorder, ...] = (),
    measure: Measure = Measure.INCH,
    units: Mapping[str, Unit] | None = None,
    seam: Fraction | None = None,
) -> Design:
    """One plain patch of a size, in borders."""
    middle = PlainPatch(Size(width, height), GROUND)
    return Design(
        "test", "only", "Only", "Test", "test", "A test.", measure,
        SEAMS[measure] if seam is None else seam,
        FABRICS,
        {name: Cloth(name.capitalize(), Colour("#eceae1")) for name in FABRICS},
        {"way": Colourway("Way", {FabricName(n): ClothName(n) for n in FABRICS})},
        Setting(((Cell("middle"),),)),
        {"middle": middle, **(units or {})},
        borders=borders,
    )  # fmt: skip


def finish(design: Design) -> Finished:
    """A design the whole way; problems of its layout are not expected."""
    layouts, problems = lay_out(design)
    assert not problems, problems
    drawing = draw(design, layouts)
    draft, problems = construct(design, layouts, drawing)
    (publication,) = publish([draft])
    needs, short = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
    drawing = with_mirror_images(drawing, draft.names)
    stated = finishing_problems(design, publication)
    return Finished(design, publication, drawing, needs, (*problems, *stated, *short))


BLADE = HalfSquareTriangles(F(3), GROUND, WING)
GOOSE = FlyingGeese(Size(F(3), F(3, 2)), WING, GROUND)
POST = PlainPatch(Size(F(3, 2), F(3, 2)), HEART)

BUTTED = Border(WATER, F(2))
ENDS_FIRST = Border(WATER, F(5, 2), BorderOrder.ENDS_FIRST)
CORNERED = Border(WATER, F(2), cornerstones=HEART)
MITRED = MitredBorder(WATER, F(3))
OF_BLADES = PiecedBorder((Cell("blade"),), Cell("blade", 1))
OF_GEESE = PiecedBorder((Cell("goose"),), Cell("heart"))
OF_BOTH = PiecedBorder((Cell("goose"), Cell("post")), Cell("post"))

BORDERED: Mapping[str, Design] = {
    "mitred": design_of(F(12), F(9), (MITRED,)),
    "mitred of two widths": design_of(F(9), F(9), (replace(MITRED, width=F(1)), MITRED)),
    "blades": design_of(F(12), F(9), (OF_BLADES,), units={"blade": BLADE}),
    "geese": design_of(F(9), F(12), (OF_GEESE,), units={"goose": GOOSE}),
    "motif": design_of(F(9), F(15, 2), (OF_BOTH,), units={"goose": GOOSE, "post": POST}),
    "all kinds": design_of(
        F(9), F(12), (OF_GEESE, CORNERED, MITRED, ENDS_FIRST), units={"goose": GOOSE}
    ),
    "round blocks on point": replace(
        design_of(F(6), F(6), (MITRED, CORNERED)),
        setting=OnPoint(((Cell("middle"),),), WING, across=2, down=2),
    ),
}


def finished_with(design: Design, **parts: object) -> Finished:
    """The design with other parts, such as a binding, the whole way."""
    return finish(replace(design, **parts))  # type: ignore[arg-type]
