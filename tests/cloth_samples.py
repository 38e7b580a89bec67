"""Designs and publications for the tests of cloth, facts and prose.

`published` takes one of the repository's own patterns through the package's stages. `small` builds
one from a bare cutting list, for lists that no pattern here has.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

from quicktions import Fraction

from pieceproof.construct import construct
from pieceproof.geometry import draw
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods import METHODS
from pieceproof.model import (
    Cell,
    Cloth,
    ClothName,
    Colour,
    Colourway,
    Design,
    Fabric,
    FabricName,
    Measure,
    Motif,
    Print,
    Setting,
)
from pieceproof.published import (
    BackingFacts,
    BindingFacts,
    Make,
    MakeKind,
    Piece,
    Publication,
)
from pieceproof.reading import read_pattern

F = Fraction
PATTERNS = Path(__file__).parents[1] / "patterns"
SLUGS = ("ferry-wake", "heron-landing", "weir-pool")

Sized = tuple[Design, Publication]


@cache
def published(slug: str) -> tuple[Sized, ...]:
    """All sizes of one of the repository's patterns; no problems are expected on the way."""
    file = f"patterns/{slug}/pattern.yaml"
    designs, problems, _ = read_pattern(
        file, (PATTERNS / slug / "pattern.yaml").read_bytes(), METHODS
    )
    assert not problems, problems
    drafts = []
    for design in designs:
        layouts, problems = lay_out(design)
        assert not problems, problems
        draft, problems = construct(design, layouts, draw(design, layouts))
        assert not problems, problems
        drafts.append(draft)
    return tuple(zip(designs, publish(drafts), strict=True))


def small(
    lists: Mapping[str, Sequence[tuple[Fraction, Fraction, int, str]]],
    measure: Measure = Measure.INCH,
    binding: tuple[str, Fraction, Fraction] | None = None,
    backing: tuple[str, Fraction, Fraction] | None = None,
    colourways: Mapping[str, Mapping[str, str]] | None = None,
    quantity: int = 1,
) -> Sized:
    """A cutting list by fabric, each line short, long, count and the make that takes it.

    ``binding`` is fabric, cut width and length; ``backing`` is fabric, width and height.
    """
    fabrics = [*lists, *(part[0] for part in (binding, backing) if part and part[0] not in lists)]
    ways = colourways or {"plain": {fabric: fabric for fabric in fabrics}}
    cloths = {
        cloth: Cloth(cloth, Colour("#808080")) for way in ways.values() for cloth in way.values()
    }
    design = Design(
        "sample", "one size", "One size", "Sample", "runner", "For tests.", measure,
        seam_of(measure),
        {fabric: Fabric(f"the {fabric}") for fabric in fabrics},
        cloths,
        {
            name: Colourway(name, {FabricName(f): ClothName(c) for f, c in way.items()})
            for name, way in ways.items()
        },
        Setting(((Cell(fabrics[0]),),)),
    )  # fmt: skip
    lines = [(fabric, *line) for fabric, lines in lists.items() for line in lines]
    pieces = tuple(
        Piece(chr(ord("A") + i), fabric, short, long, short, long, count, (use,))
        for i, (fabric, short, long, count, use) in enumerate(lines)
    )
    publication = Publication(
        "sample", "one size", measure.value, measure.step, design.seam, F(10), F(20), pieces,
        (Make("top", MakeKind.TOP, "", quantity, quantity, 1, F(10), F(20), ()),),
        BindingFacts(binding[0], binding[1], F(10), binding[2]) if binding else None,
        BackingFacts(backing[0], F(4), backing[1], backing[2]) if backing else None,
        None,
        quantity,
    )  # fmt: skip
    return design, publication


def seam_of(measure: Measure) -> Fraction:
    return F(1, 4) if measure is Measure.INCH else F(3, 4)


def with_prints(sized: Sized) -> Sized:
    """The runner with directional background, sashing and border, and a motif in each star."""
    design, publication = sized
    directional = {
        name: replace(design.fabrics[name], print=Print.DIRECTIONAL)
        for name in ("ground", "stage", "water")
    }
    heart = replace(design.fabrics["heart"], motif=Motif(F(4), F(6)))
    fabrics = {**design.fabrics, **directional, "heart": heart}
    return replace(design, fabrics=fabrics), publication
