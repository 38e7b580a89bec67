"""Designs with one setting each, made by hand, taken through all stages but the cloth's."""

from __future__ import annotations

from collections.abc import Callable, Mapping
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
    CopingRound,
    Design,
    Fabric,
    FabricName,
    Grid,
    Measure,
    Medallion,
    OnPoint,
    PiecedRound,
    PiecedSashing,
    PiecedSashingOnPoint,
    PlainRound,
    SashingOnPoint,
    SetRow,
    Setting,
    Size,
    Strip,
    UnequalColumns,
    UnequalRows,
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


def two_coloured(side: Fraction, name: str = "flag") -> dict[str, Unit | Grid]:
    """A square of two rectangles, which looks different in every turn and is not trimmed."""
    half, halve = f"{name} top", f"{name} foot"
    return {
        half: plain(side, side / 2, WING),
        halve: plain(side, side / 2, GROUND),
        name: Grid(((Cell(half),), (Cell(halve),))),
    }


def on_point() -> Built:
    """Two rows, with both kinds of ends, whose floats differ both ways."""
    return build(design(OnPoint(cells("flag flag/1"), HEART), two_coloured(F(4))))


def upright_on_point() -> Built:
    """Rows that go on to the left, with a border."""
    setting = OnPoint(cells("flag", "flag/1"), HEART, STONE, float=F(1, 2))
    return build(design(setting, two_coloured(F(3)), borders=(Border(WATER, F(1)),)))


def sashed_on_point() -> Built:
    """Two plain blocks, sashes with squares of another fabric."""
    sashing = SashingOnPoint(STONE, F(1), WATER)
    setting = OnPoint(cells("block block"), GROUND, sashing=sashing)
    return build(design(setting, {"block": plain(F(4), F(4))}))


def pieced_on_point() -> Built:
    """One plain block, sashes of two colours, the squares floating off the edge."""
    units = {"bar": plain(F(1), F(2), STONE), "rung": plain(F(1), F(2)), "block": plain(F(4), F(4))}
    sashing = PiecedSashingOnPoint(Cell("sash"), WATER)
    setting = OnPoint(cells("block"), GROUND, float=F(1), pieced_sashing=sashing)
    return build(design(setting, {**units, "sash": Grid(cells("bar", "rung"))}))


def lone_block() -> Built:
    """One block in four corners, trimmed wider than high."""
    setting = OnPoint(cells("flag"), HEART, trim_to=Size(F(9), F(8)))
    return build(design(setting, two_coloured(F(5))))


def rows() -> Built:
    """A row that fits, one with spacers, one made up by coping strips of two widths."""
    setting = UnequalRows(
        (
            SetRow(cells("flag flag/1")[0]),
            SetRow(cells("bar bar")[0], spacers=Strip(GROUND, F(2))),
            SetRow(cells("bar")[0], coping=WATER),
        ),
        Strip(STONE, F(1)),
    )
    return build(design(setting, {"bar": plain(F(3), F(2), STONE), **two_coloured(F(4))}))


def columns() -> Built:
    """Two columns of different width and a strip between."""
    setting = UnequalColumns(
        (SetRow(cells("flag flag/1")[0]), SetRow(cells("bar")[0], coping=WATER)),
        Strip(STONE, F(1)),
    )
    return build(design(setting, {"bar": plain(F(3), F(2), STONE), **two_coloured(F(4))}))


def medallion() -> Built:
    """Coping one way, a pieced round with pieced corners, a plain round with plain corners."""
    rounds = (
        CopingRound(GROUND, Size(F(6), F(4))),
        PiecedRound(Cell("bar"), Cell("flag", 1)),
        PlainRound(WATER, F(1), Cell("stone")),
    )
    units = {"square": plain(F(4), F(4)), "bar": plain(F(2), F(3), WING), **two_coloured(F(3))}
    return build(design(Medallion(Cell("square"), rounds), units))


def pieced_sashing() -> Built:
    """Blocks and plain ones turn about between sashes of two colours."""
    units = {"bar": plain(F(1), F(2), STONE), "rung": plain(F(1), F(2)), **two_coloured(F(4))}
    sashing = PiecedSashing(Cell("sash"), Cell("water"))
    setting = Setting(cells("flag ground", "ground flag/1"), pieced_sashing=sashing)
    return build(design(setting, units | {"sash": Grid(cells("bar", "rung"))}))


SAMPLES: dict[str, Callable[[], Built]] = {
    "on point": on_point,
    "upright on point": upright_on_point,
    "sashed on point": sashed_on_point,
    "pieced sashing on point": pieced_on_point,
    "lone block": lone_block,
    "rows": rows,
    "columns": columns,
    "medallion": medallion,
    "pieced sashing": pieced_sashing,
}
