"""Where the solver thinks that the seams of a unit end, against where the bench finds them."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
import template_units
import triangle_units
from quicktions import Fraction
from whole_path import Built, build

from pieceproof.bench.marks import cut_cloth
from pieceproof.bench.ridges import followed
from pieceproof.bench.sewing import Shop
from pieceproof.lengths import Number
from pieceproof.methods import method_of
from pieceproof.methods.method import workroom
from pieceproof.model import Measure
from pieceproof.steps import Side
from pieceproof.unit_ends import Slot, unit_ended

SEAM = Fraction(1, 4)
SAMPLES = {**triangle_units.SAMPLES, **template_units.SAMPLES}


def expected(built: Built) -> Iterator[tuple[Side, Number, int]]:
    """Side, finished place and way of every end that the solver knows of."""
    unit = built.design.units["unit"]
    method, room = method_of(unit), workroom(built.design)
    recipe = method.recipe(unit, room)
    slots = [Slot(cut.slot, cut.fabric) for cut in recipe.cuts]
    picture = built.drawing.pictures["unit"]
    rule = method.pressing
    toward = method.toward(unit, room)
    ended = unit_ended(picture, rule, recipe.steps, slots, room.values, toward)
    for side, ends in ended.edges.items():
        for end in ends:
            yield side, end.place, 1 if end.after else -1


def found(built: Built) -> dict[tuple[Side, Number], int | None]:
    """The way of every seam that ends on an edge, 0 for open, None if it depends on the unit."""
    publication = built.publication
    cloth = {piece.letter: cut_cloth(piece) for piece in publication.pieces}
    make = next(make for make in publication.makes if make.name == "unit")
    hems, _ = followed(make.steps, Shop(cloth, publication.seam))
    edges = hems[""].edges
    return {(s, ridge.place - SEAM): ridge.way for s in Side for ridge in edges[s]}


@pytest.mark.parametrize("name", SAMPLES)
def test_the_solver_knows_of_a_unit_what_the_bench_finds(name: str) -> None:
    """All of it, but for what differs among the units of one round."""
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, SEAM, cells)
    if not any(make.name == "unit" for make in built.publication.makes):
        return
    on_the_bench = found(built)
    told = {(side, place): way for side, place, way in expected(built)}
    assert all(on_the_bench[end] == way for end, way in told.items())
    assert {end for end, way in on_the_bench.items() if way} == set(told)
