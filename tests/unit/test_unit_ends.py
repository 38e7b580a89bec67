"""Where the solver thinks that the seams of a unit end, against where the bench finds them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest
import template_units
import triangle_units
from quicktions import Fraction
from whole_path import Built, build

from pieceproof.bench.marks import cut_cloth
from pieceproof.bench.ridges import followed
from pieceproof.bench.sewing import Shop
from pieceproof.inside_seams import inside_seams, pressed_as
from pieceproof.lengths import Number
from pieceproof.methods import method_of
from pieceproof.methods.method import Pressing, workroom
from pieceproof.model import Measure
from pieceproof.steps import Press, Side, Yield
from pieceproof.unit_ends import Slot, unit_ended

SEAM = Fraction(1, 4)
OPPOSITE = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
SAMPLES = {**triangle_units.SAMPLES, **template_units.SAMPLES}


def expected(built: Built, chosen: Mapping[int, Press]) -> Iterator[tuple[Side, Number, int]]:
    """Side, finished place and way of every end that the solver knows of."""
    unit = built.design.units["unit"]
    method, room = method_of(unit), workroom(built.design)
    recipe = method.recipe(unit, room)
    steps = pressed_as(recipe.steps, chosen)
    slots = [Slot(cut.slot, cut.fabric) for cut in recipe.cuts]
    picture = built.drawing.pictures["unit"]
    settled = method.pressing is Pressing.DARKER and chosen
    rule = Pressing.IN_STEPS if settled else method.pressing
    toward = method.toward(unit, [seam.press for seam in inside_seams(steps)])
    ended = unit_ended(picture, rule, steps, slots, room.values, toward)
    for side, ends in ended.edges.items():
        for end in ends:
            yield side, end.place, 1 if end.after else -1


def found(built: Built, chosen: Mapping[int, Press]) -> dict[tuple[Side, Number], int | None]:
    """The way of every seam that ends on an edge, 0 for open, None if it depends on the unit."""
    publication = built.publication
    cloth = {piece.letter: cut_cloth(piece) for piece in publication.pieces}
    make = next(make for make in publication.makes if make.name == "unit")
    hems, _ = followed(pressed_as(make.steps, chosen), Shop(cloth, publication.seam))
    edges = hems[""].edges
    return {(s, ridge.place - SEAM): ridge.way for s in Side for ridge in edges[s]}


def sewn(name: str) -> Built | None:
    """The sample, None where it is one bare piece."""
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, SEAM, cells)
    return built if any(make.name == "unit" for make in built.publication.makes) else None


@pytest.mark.parametrize("name", SAMPLES)
def test_the_solver_knows_of_a_unit_what_the_bench_finds(name: str) -> None:
    """All of it, but for what differs among the units of one round."""
    built = sewn(name)
    if built is None:
        return
    on_the_bench = found(built, {})
    told = {(side, place): way for side, place, way in expected(built, {})}
    assert all(on_the_bench[end] == way for end, way in told.items())
    assert {end for end, way in on_the_bench.items() if way} == set(told)


@pytest.mark.parametrize("name", SAMPLES)
def test_what_the_solver_knows_of_settled_seams_is_true_on_the_bench(name: str) -> None:
    """Seams by themselves, up to six of a unit and by turns each way; and all of them, each way.

    Some ends the solver may not know.
    """
    built = sewn(name)
    if built is None:
        return
    make = next(make for make in built.publication.makes if make.name == "unit")
    numbers, ways = range(1, len(inside_seams(make.steps)) + 1), list(Press)
    spread = numbers[:: 1 + len(numbers) // 6]
    alone = ({number: ways[turn % len(ways)]} for turn, number in enumerate(spread))
    for chosen in (*alone, *(dict.fromkeys(numbers, way) for way in ways)):
        on_the_bench = found(built, chosen)
        for side, place, way in expected(built, chosen):
            assert on_the_bench[side, place] == way, (chosen, side, place)


@pytest.mark.parametrize("name", SAMPLES)
def test_units_whose_seams_end_either_way_are_of_two_kinds(name: str) -> None:
    """One is the other's mirror image, so a seam that clashes in one locks in the other."""
    built = sewn(name)
    if built is None or None not in found(built, {}).values():
        return
    publication = built.publication
    cloth = {piece.letter: cut_cloth(piece) for piece in publication.pieces}
    make = next(make for make in publication.makes if make.name == "unit")
    last = next(step for step in make.steps if isinstance(step, Yield))
    ends = []
    for item in last.items:
        alone = tuple(step for step in make.steps if step is not last)
        hems, _ = followed((*alone, replace(last, items=(item,))), Shop(cloth, publication.seam))
        edges = hems[""].edges
        ends.append({(s, ridge.place): ridge.way for s in Side for ridge in edges[s]})
    kinds = [ways for n, ways in enumerate(ends) if ways not in ends[:n]]
    assert len(kinds) == 2
    first, second = kinds
    length = {Side.TOP: make.width, Side.BOTTOM: make.width}
    mirrored = {
        (OPPOSITE.get(side, side), length[side] - place if side in length else place): (
            -way if side in length else way
        )
        for (side, place), way in first.items()
        if way is not None
    }
    assert mirrored == second
    unsure = [end for end in first if first[end] != second[end]]
    assert unsure
    assert all(first[end] == -(second[end] or 0) for end in unsure)
