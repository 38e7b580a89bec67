"""Designs made by hand that tests may share: a runner, a quilt and a set of place mats.

Only the design is stated here; `publish_one` takes it through the package's own stages.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quicktions import Fraction

from pieceproof.construct import construct
from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods.flying_geese import FlyingGeese
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import (
    Backing,
    Batting,
    Binding,
    Border,
    Cell,
    Cloth,
    ClothName,
    Colour,
    Colourway,
    Design,
    Fabric,
    FabricName,
    Grid,
    Measure,
    Sashing,
    SashingPlace,
    Setting,
    Size,
    Value,
)
from pieceproof.published import Drawing, Publication
from pieceproof.steps import Corner

F = Fraction
Published = tuple[Design, Publication, Drawing]


def publish_one(design: Design) -> Published:
    """A design with its publication and its drawing; no problems are expected on the way."""
    layouts, problems = lay_out(design)
    assert not problems, problems
    drawing = draw(design, layouts)
    draft, problems = construct(design, layouts, drawing)
    assert not problems, problems
    (publication,) = publish((draft,))
    return design, publication, with_mirror_images(drawing, draft.names)


def runner() -> Design:
    """Five stars of stitched corners, sashed all round, in one border."""
    wing = StitchedCorner(FabricName("wing"), F(5, 2))
    return _design(
        "eddy-runner",
        "Eddy Runner",
        "table runner",
        Measure.INCH,
        F(1, 4),
        {
            "ground": ("background", Value.LIGHT, "#eceae1"),
            "wing": ("dark point", Value.DARK, "#3b5166"),
            "heart": ("star centre", Value.MEDIUM, "#d09a3e"),
            "stage": ("sashing", Value.MEDIUM, "#9aa884"),
            "post": ("cornerstone", Value.DARK, "#223347"),
            "water": ("border", Value.DARK, "#7b4a3a"),
        },
        units={
            "point": StitchedCorners(
                Size(F(9, 2), F(11, 4)),
                FabricName("ground"),
                {Corner.BOTTOM_LEFT: wing, Corner.BOTTOM_RIGHT: wing},
            )
        },
        blocks={
            "star": grid("ground point ground", "point/3 heart point/1", "ground point/2 ground")
        },
        setting=Setting(
            ((Cell("star"),),),
            across=5,
            down=1,
            sashing=Sashing(FabricName("stage"), F(3, 2), FabricName("post"), SashingPlace.AROUND),
        ),
        borders=(Border(FabricName("water"), F(2)),),
    )


def quilt() -> Design:
    """Half-square triangles, eight across and ten down, in two borders, one with cornerstones."""
    return _design(
        "weir-quilt",
        "Weir Quilt",
        "lap quilt",
        Measure.INCH,
        F(1, 4),
        {
            "foam": ("background", Value.LIGHT, "#f3eee2"),
            "stream": ("pinwheels", Value.DARK, "#27405c"),
            "bank": ("inner border", Value.DARK, "#c4523c"),
            "meadow": ("outer border", Value.MEDIUM, "#7fa8bf"),
            "stone": ("border corner", Value.MEDIUM, "#8fa05f"),
        },
        units={"blade": HalfSquareTriangles(F(5), FabricName("foam"), FabricName("stream"))},
        blocks={},
        setting=Setting(grid("blade blade/1", "blade/3 blade/2").rows, across=8, down=10),
        borders=(
            Border(FabricName("bank"), F(3, 2)),
            Border(FabricName("meadow"), F(4), cornerstones=FabricName("stone")),
        ),
    )


def place_mat() -> Design:
    """A metric set of four mats: flying geese round a plain centre."""
    return _design(
        "goose-mat",
        "Goose Mat",
        "place mat",
        Measure.CENTIMETRE,
        F(3, 4),
        {
            "sky": ("sky", Value.LIGHT, "#dfe3ec"),
            "goose": ("geese", Value.DARK, "#2c7f86"),
            "table": ("centre", Value.MEDIUM, "#d8b98a"),
            "corner": ("corners", Value.DARK, "#4f3a63"),
        },
        units={"goose unit": FlyingGeese(Size(F(6), F(3)), FabricName("goose"), FabricName("sky"))},
        blocks={
            "long edge": grid(" ".join(["goose_unit"] * 6)),
            "short edge": grid(*["goose_unit/1"] * 4),
            "mat": grid(
                "corner long_edge corner",
                "short_edge/2 table short_edge",
                "corner long_edge/2 corner",
            ),
        },
        setting=Setting(((Cell("mat"),),)),
        borders=(),
        quantity=4,
    )


def design_of_corners(side: Fraction, leg: Fraction) -> Design:
    """One square unit with a stitched corner on each of its corners, four of them in a row."""
    corner = StitchedCorner(FabricName("tip"), leg)
    return _design(
        "corner-strip",
        "Corner Strip",
        "strip",
        Measure.INCH,
        F(1, 4),
        {
            "ground": ("background", Value.LIGHT, "#eceae1"),
            "tip": ("tips", Value.DARK, "#3b5166"),
        },
        units={
            "cut square": StitchedCorners(
                Size(side, side), FabricName("ground"), dict.fromkeys(Corner, corner)
            )
        },
        blocks={},
        setting=Setting(((Cell("cut square"),),), across=4),
        borders=(),
    )


def grid(*rows: str) -> Grid:
    """Rows of cells written as ``name`` or ``name/quarter turns``; ``_`` for a space."""
    return Grid(tuple(tuple(_cell(word) for word in row.split()) for row in rows))


EXAMPLES: Mapping[str, Callable[[], Design]] = {
    "runner": runner,
    "quilt": quilt,
    "place mat": place_mat,
}


def demand(publication: Publication, fabric: str, usable_width: Fraction) -> Demand:
    """All pieces of one fabric from one cloth; what is longer than the cloth is wide is joined."""
    pieces = [piece for piece in publication.pieces if piece.fabric == fabric]
    wants = tuple(
        Want(p.letter, p.short, p.long, p.count, turnable=True)
        for p in pieces
        if p.long <= usable_width
    )
    longs = tuple(
        Long(p.letter, p.short, p.long, p.count, "diagonal", publication.seam)
        for p in pieces
        if p.long > usable_width
    )
    squaring = F(1, 2) if publication.measure == "inch" else F(1)
    return Demand(wants, longs, usable_width, publication.step, squaring)


def _cell(word: str) -> Cell:
    name, _, turn = word.partition("/")
    return Cell(name.replace("_", " "), int(turn or 0))


def _design(
    slug: str,
    name: str,
    kind: str,
    measure: Measure,
    seam: Fraction,
    fabrics: dict[str, tuple[str, Value, str]],
    quantity: int = 1,
    **parts: object,
) -> Design:
    return Design(
        slug=slug,
        size="middle",
        label="Middle",
        name=name,
        kind=kind,
        summary="A design for tests.",
        measure=measure,
        seam=seam,
        fabrics={key: Fabric(called, value) for key, (called, value, _) in fabrics.items()},
        cloths={key: Cloth(f"Cloth {key}", Colour(c)) for key, (_, _, c) in fabrics.items()},
        colourways={
            "first": Colourway("First", {FabricName(key): ClothName(key) for key in fabrics})
        },
        binding=Binding(FabricName(next(iter(fabrics)))),
        backing=Backing(FabricName(next(iter(fabrics)))),
        batting=Batting(),
        quantity=quantity,
        **parts,  # type: ignore[arg-type]
    )
