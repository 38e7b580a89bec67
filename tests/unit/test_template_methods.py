"""Template methods as their writers state them: read from a file, published, or refused."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

import pytest
from mutate import mutations
from quicktions import Fraction

from pieceproof.compile import Pattern, compile_pattern
from pieceproof.facts import facts_of
from pieceproof.methods import method_of
from pieceproof.methods.full_circle import FullCircle
from pieceproof.methods.hexagons import Hexagons
from pieceproof.methods.quarter_circle import QuarterCircle
from pieceproof.methods.six_point_star import SixPointStar
from pieceproof.methods.square_in_square import SquareInSquare
from pieceproof.model import FabricName, Measure, Size
from pieceproof.published import Publication

F = Fraction
A, B = FabricName("a"), FabricName("b")

HEAD = """\
name: Lock Gate
kind: sampler
summary: A sampler of template units.
measure: inch
seam: 1/4
fabrics:
  ground: {called: background, value: light}
  wing: {called: star, value: dark}
  heart: {called: centre, value: medium}
cloths:
  mist: {name: Mist, colour: "#eceae1"}
  slate: {name: Slate, colour: "#3b5166"}
  amber: {name: Amber, colour: "#d09a3e"}
colourways:
  low-water: {name: Low Water, parts: {ground: mist, wing: slate, heart: amber}}
setting: {layout: straight, rows: [[unit, unit turned 1]]}
binding: {fabric: wing}
backing: {fabric: ground}
units:
  unit:
"""

BOAT = """\
    method: template patches
    size: 8 x 8
    points:
      mast: 3 across 1 down
      foot: 3 across 5 down
      bow: 7 across 5 down
      stern: 1 across 5 down
      keel: 4 across 7 down
      top: 3 across 0 down
      water left: 0 across 5 down
      water right: 8 across 5 down
    patches:
      sail: {fabric: wing, corners: [mast, bow, foot]}
      jib: {fabric: heart, corners: [mast, foot, stern]}
      sky left: {fabric: ground, corners: [top left, top, mast, stern, water left]}
      sky right: {fabric: ground, corners: [top, top right, water right, bow, mast]}
      hull: {fabric: wing, corners: [stern, bow, keel]}
      water:
        fabric: ground
        corners: [water left, stern, keel, bow, water right, bottom right, bottom left]
    order: [[sail, jib], [sail, sky left, sky right], [hull, water], [sail, hull]]
"""

UNITS = {
    "boat": BOAT,
    "star": "    {method: eight-point star, size: 8, points: wing, other points: heart, "
    "corners: ground, sides: ground}\n",
    "six": "    {method: six-point star, size: 8 x 8, side: 2, points: wing, "
    "other points: heart, ground: ground}\n",
    "flower": "    {method: hexagons, size: 8 x 8, side: 1 1/2, rings: [heart, wing], "
    "ground: ground}\n",
    "moon": "    {method: quarter circle, size: 6, radius: 4, quarter: wing, ground: heart}\n",
    "full moon": "    {method: full circle, size: 8, radius: 3, quarters: wing, "
    "other quarters: heart, ground: ground}\n",
    "leaf": """\
    method: applique
    size: 8 x 8
    ground: ground
    turn under: 1/4
    points: {a: 4 across 1 down, b: 6 across 3 down, c: 4 across 6 down, eye: 5 across 5 down}
    shapes:
      leaf: {fabric: wing, corners: [a, b, c]}
      berry: {fabric: heart, centre: eye, radius: 1 1/4}
""",
    "tips": "    {method: sixty-degree triangles, size: 8 x 8, "
    "rows: [[ground, wing], [heart], [ground, wing], [heart]]}\n",
}


def compiled(unit: str) -> Pattern:
    return compile_pattern("lock-gate", {"pattern.yaml": (HEAD + unit).encode()})


@pytest.mark.parametrize("name", UNITS)
def test_a_unit_is_read_and_published(name: str) -> None:
    pattern = compiled(UNITS[name])
    assert not pattern.problems
    (size,) = pattern.sizes
    steps = [step for found in size.instructions for step in found.steps]
    assert all("{" not in step and "None" not in step for step in steps)
    told = "\n".join(f"{fact.key}: {fact.exact}" for fact in size.facts)
    for piece in size.publication.pieces:
        if piece.template is not None:
            assert f"piece {piece.letter}, " in told
            assert "template, mark 1: " in told


def test_set_in_seams_are_counted() -> None:
    (size,) = compiled(BOAT).sizes
    facts = {fact.key: fact.published for fact in size.facts}
    assert facts["unit unit, set-in seams"] == "2"
    (star,) = compiled(UNITS["star"]).sizes
    assert {f.key: f.published for f in star.facts}["unit unit, set-in seams"] == "8"


def test_arcs_are_published_by_radius_and_angle() -> None:
    (size,) = compiled(UNITS["moon"]).sizes
    arcs = [fact.published for fact in size.facts if ", template, arc " in fact.key]
    assert len(arcs) == 4
    assert all(arc.startswith("45 degrees of a circle of radius 4 round ") for arc in arcs)


@pytest.mark.parametrize("name", ["boat", "star", "moon", "leaf"])
def test_every_number_of_templates_and_their_steps_is_a_fact(name: str) -> None:
    """But for the corners inside arcs, which follow from the circle, and raw edges beside them."""
    (size,) = compiled(UNITS[name]).sizes
    told = set(facts_of(size.design, size.publication, size.requirements))
    missed = []
    for change in mutations(size.publication):
        of_templates = ".template." in change.path or change.path.startswith("makes[0].steps")
        if of_templates and not _inside_an_arc(change.path, size.publication):
            changed = facts_of(size.design, change.publication, size.requirements)
            if set(changed) == told:
                missed.append(f"{change.path}: {change.change}")
    assert not missed


def _inside_an_arc(path: str, publication: Publication) -> bool:
    """Whether a path leads to a corner that is told by its circle."""
    found = re.match(r"pieces\[(\d+)\]\.template\.(cut|seam_lines)\[(\d+)\]", path)
    if found is None:
        return False
    template = publication.pieces[int(found[1])].template
    assert template is not None
    if found[2] == "cut":
        return bool(template.arcs)
    corner, count = int(found[3]), len(template.seam_lines)
    return any(0 < (corner - a.first) % count < a.last - a.first for a in template.arcs)


FAULTS: Mapping[str, tuple[str, str, str]] = {
    "unknown point": ("jib: {fabric: heart, corners: [mast, foot", "[mast, fut", "at `fut`"),
    "point outside": ("bow: 7 across", "bow: 9 across", "point `bow` at 9 across 5 down"),
    "own corner": ("top: 3", "top left: 3", "a point named `top left`"),
    "a gap": ("sail: {fabric: wing, corners: [mast, bow, foot]}",
              "sail: {fabric: wing, corners: [mast, bow, keel]}", "nothing or several patches"),
    "crossing": ("corners: [top, top right, water right, bow, mast]",
                 "corners: [top, water right, top right, bow, mast]", "crosses itself"),
    "unknown patch": ("[sail, hull]]", "[sail, hill]]", "`hill` in the order"),
    "two seams at once": ("[[sail, jib], [sail, sky left, sky right], [hull, water], [sail, hull]]",
                          "[[sky left, sky right, water, sail, jib, hull]]", "several seams"),
    "apart": ("[[sail, jib]", "[[jib, sky right]", "meet nowhere"),
    "joined before": ("[sail, hull]]", "[sail, hull], [sail, water]]", "are joined already"),
    "left out": (", [hull, water], [sail, hull]]", "]", "never joined"),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_patches_that_cannot_be_sewn_are_refused(name: str) -> None:
    old, new, said = FAULTS[name]
    changed = BOAT.replace(old, old[: old.index("[")] + new if new.startswith("[mast, f") else new)
    assert changed != BOAT
    (problem,) = compiled(changed).problems
    assert said in problem.found
    assert problem.code == "cannot-make"
    assert problem.place.line > 20


@pytest.mark.parametrize(
    ("unit", "said"),
    [
        (UNITS["flower"].replace("size: 8 x 8", "size: 8 x 7"), "8 x 7 around 1 ring "),
        (UNITS["six"].replace("side: 2", "side: 3"), "8 x 8 around diamonds with sides of 3"),
        (UNITS["moon"].replace("radius: 4", "radius: 6"), "a radius of 6"),
        (UNITS["moon"].replace("radius: 4", "radius: 3/8"), "a radius of 3/8"),
        (UNITS["tips"].replace("8 x", "9 1/2 x"), "a width of 9 1/2"),
        (UNITS["leaf"].replace(", radius: 1 1/4", ""), "shape `berry` with `centre`"),
        (UNITS["leaf"].replace("radius: 1 1/4", "radius: 4"), "beyond the ground"),
        (UNITS["leaf"].replace("[a, b, c]", "[a, b, d]"), "`d` in shape `leaf`"),
        (UNITS["leaf"].replace("[a, b, c]", "[a, b]"), "holds no cloth"),
        (UNITS["leaf"].replace("leaf:", "ground:"), "a shape named `ground`"),
    ],
)
def test_shapes_that_cannot_be_made_are_refused(unit: str, said: str) -> None:
    problems = compiled(unit).problems
    assert any(said in problem.found for problem in problems), problems


SIX = SixPointStar(Size(F(8), F(8)), F(3), A, B, A)
FLOWER = Hexagons(Size(F(8), F(7)), F(3, 2), (A, B), A)
NEAREST = {
    "write 9 1/8 x 10 1/2": (SIX, {"size": Size(F(73, 8), F(21, 2))}),
    "diamonds with sides of 2 1/4": (SIX, {"side": F(9, 4)}),
    "write 8 x 7 5/8": (FLOWER, {"size": Size(F(8), F(61, 8))}),
    "sides of 1 3/8": (FLOWER, {"side": F(11, 8)}),
    "1 fabric under `rings`": (FLOWER, {"rings": (A,)}),
    "write a radius of 5 7/8": (QuarterCircle(F(6), F(6), A, B), {"radius": F(47, 8)}),
    "write a unit 6 1/8 wide": (QuarterCircle(F(6), F(6), A, B), {"size": F(49, 8)}),
    "write a radius of 3 7/8": (FullCircle(F(8), F(5), A, B, A), {"radius": F(31, 8)}),
    "write a unit 10 1/4 wide": (FullCircle(F(8), F(5), A, B, A), {"size": F(41, 4)}),
    "or a unit of 4 1/4": (SquareInSquare(F(3), F(3), A, B), {"size": F(17, 4)}),
}
"""What is proposed of a unit that cannot be made, and the unit's keys by that."""


@pytest.mark.parametrize("said", NEAREST)
def test_what_is_proposed_can_be_made(said: str) -> None:
    unit, proposed = NEAREST[said]
    method = method_of(unit)
    fault = method.fault(unit, Measure.INCH, F(1, 4))
    assert fault is not None
    assert said in str(fault.remedy)
    assert method.fault(replace(unit, **proposed), Measure.INCH, F(1, 4)) is None
