"""Patterns to designs: values, sizes, places, and recovery from mistakes."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated, Any

import pytest
from quicktions import Fraction

from pieceproof import layout, on_point
from pieceproof.checks import RESERVED, check_designs
from pieceproof.forms import form_of, keys_of, told
from pieceproof.methods import METHODS
from pieceproof.model import (
    BORDER_SEAMS,
    SETTING_SEAMS,
    Binding,
    BorderOrder,
    Cell,
    Design,
    Fabric,
    FabricName,
    Grid,
    Measure,
    Size,
    Unit,
    Value,
    ZeroToo,
)
from pieceproof.problems import Place
from pieceproof.reading import read_pattern
from pieceproof.scalars import read_scalar

ROOT = Path(__file__).parents[2]
PATTERNS = sorted(ROOT.glob("patterns/*/pattern.yaml"))
FILE = "patterns/low-water/pattern.yaml"

GOOD = """\
name: Low Water
kind: place mat
summary: One patch.
measure: centimetre
seam: 0.75
fabrics:
  ground: {called: background}
  edge: {called: binding, value: dark}
units:
  mat:
    method: board
    size: 30 x 45
    fabric: ground
setting:
  layout: straight
  rows:
    - [mat, mat turned 2]
  across: 2
binding: {fabric: edge}
borders: [{fabric: ground, width: 2.5, order: top and bottom first}]
cloths:
  mist: {name: Morning Mist, colour: "#E9ECE6"}
colourways:
  fog: {name: Fog, parts: {ground: mist, edge: mist}}
"""


@dataclass(frozen=True)
class Board(Unit):
    """One rectangle."""

    size: Annotated[Size, "Width x height"]
    fabric: Annotated[FabricName, "Its fabric"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.fabric,)


@dataclass(frozen=True)
class BoardMethod:
    name: str = "board"
    design: type[Any] = Board


def read(text: str) -> tuple[tuple[Design, ...], list[str]]:
    designs, problems, _ = read_pattern(FILE, text.encode(), (BoardMethod(),))
    problems += check_designs(designs, problems)
    return designs, [problem.code for problem in problems]


def test_every_kind_of_value() -> None:
    (design,), codes = read(GOOD)
    assert codes == []
    assert (design.slug, design.size, design.label) == ("low-water", "one size", "One size")
    assert (design.measure, design.seam) == (Measure.CENTIMETRE, Fraction(3, 4))
    assert design.fabrics == {
        "ground": Fabric("background", Value.MEDIUM),
        "edge": Fabric("binding", Value.DARK),
    }
    assert design.units == {"mat": Board(Size(Fraction(30), Fraction(45)), FabricName("ground"))}
    assert design.setting.rows == ((Cell("mat"), Cell("mat", 2)),)
    assert (design.setting.across, design.setting.down) == (2, None)
    assert design.borders[0].order is BorderOrder.ENDS_FIRST
    assert design.binding == Binding(FabricName("edge"))
    assert design.backing is None
    assert design.cloths["mist"].colour == "#e9ece6"


def test_a_unit_may_be_a_grid_of_units() -> None:
    unit = "  pair: {method: grid, rows: [[mat, mat]]}\nsetting:"
    (design,), codes = read(
        GOOD.replace("setting:", unit, 1).replace("[mat, mat t", "[pair, mat t")
    )
    assert codes == []
    assert design.units["pair"] == Grid(((Cell("mat"), Cell("mat")),))


def test_sizes_change_small_parts_of_the_same_design() -> None:
    sizes = """\
sizes:
  small: {label: Small, setting: {across: 1}, units: {mat: {size: 20 x 30}}, borders: []}
  plain: {label: Plain, binding: none}
  large: {label: Large, setting: {down: 3}, quantity: 2}
"""
    (small, plain, large), codes = read(GOOD + sizes)
    assert codes == []
    assert (small.size, small.label, small.setting.across) == ("small", "Small", 1)
    assert small.units == {"mat": Board(Size(Fraction(20), Fraction(30)), FabricName("ground"))}
    assert small.borders == ()
    assert plain.binding is None
    assert (large.setting.across, large.setting.down, large.quantity) == (2, 3, 2)
    assert replace(large, size="x", label="x", quantity=1, setting=plain.setting) == replace(
        plain, size="x", label="x", binding=large.binding
    )


def test_a_size_may_make_a_unit_by_another_method() -> None:
    size = "sizes:\n  s: {label: S, units: {mat: {method: grid, rows: [[edge]]}}}\n"
    (design,), codes = read(GOOD + size)
    assert design.units["mat"] == Grid(((Cell("edge"),),))
    assert codes == []


def test_mistakes_in_the_common_part_are_told_once_for_all_sizes() -> None:
    sizes = "sizes: {a: {label: A}, b: {label: B}, c: {label: C, setting: {acros: 1}}}\n"
    designs, codes = read(
        GOOD.replace("0.75", "wide").replace("fabric: ground\ns", "fabric: grund\ns") + sizes
    )
    assert len(designs) == 3
    assert sorted(codes) == ["bad-length", "undeclared", "unknown-key"]


def test_a_misspelt_key_is_read_as_the_key_that_was_meant() -> None:
    designs, codes = read(GOOD.replace("units:", "unit:").replace("method:", "methd:"))
    assert codes == ["unknown-key", "unknown-key"]
    assert isinstance(designs[0].units["mat"], Board)


@pytest.mark.parametrize(
    ("old", "new", "codes"),
    [
        ("fabrics:\n", "fabrics: []\nfabrics2:\n", {"wrong-type", "unknown-key"}),
        ("    size: 30 x 45\n", "    size: [30, 45]\n", {"wrong-type"}),
        ("    method: board\n", "    method: felt\n", {"unknown-choice"}),
        ("    method: board\n", "    method: [board]\n", {"wrong-type"}),
        ("  rows:\n    - [mat, mat turned 2]\n", "", {"missing-key"}),
        ("parts: {ground: mist, edge: mist}", "parts: mist", {"wrong-type"}),
        ("parts: {ground: mist, edge: mist}", "parts: *fog", {"anchor"}),
    ],
)
def test_one_mistake_is_not_told_as_several(old: str, new: str, codes: set[str]) -> None:
    assert set(read(GOOD.replace(old, new, 1))[1]) == codes


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.parent.name)
def test_every_text_of_the_demo_stands_where_its_place_says(path: Path) -> None:
    file = f"patterns/{path.parent.name}/pattern.yaml"
    designs, problems, lines = read_pattern(file, path.read_bytes(), METHODS)
    assert problems + check_designs(designs, problems) == ()
    for design in designs:
        for text in told(design):
            rest = lines[text.place.line - 1][text.place.column - 1 :]
            assert text.place.file == file
            assert _stands(text.kind, text.value, rest), (text, rest)


def _stands(kind: Any, value: Any, rest: str) -> bool:
    """Whether a line's rest begins with a text that reads as the value."""
    if kind is str:
        return rest.startswith((str(value), ">"))
    form = form_of(Annotated[kind, ZeroToo()])
    texts = (rest[:end].strip('"') for end in range(1, len(rest) + 1))
    return any(read_scalar(form, text, Place("", 1, 1))[0] == value for text in texts)  # type: ignore[arg-type]


def test_places_of_keys_and_values() -> None:
    (design,), _ = read(GOOD)
    assert design.at["seam"] == Place(FILE, 5, 7)
    assert design.at.key("fabrics/edge") == Place(FILE, 8, 3)
    assert design.fabrics["edge"].at.here == Place(FILE, 8, 3)
    assert design.fabrics["edge"].at["value"] == Place(FILE, 8, 34)
    assert design.units["mat"].at["method"] == Place(FILE, 11, 13)
    assert design.setting.at["rows/1"] == Place(FILE, 17, 7)
    assert design.setting.rows[0][1].place == Place(FILE, 17, 13)
    assert design.borders[0].at.here == Place(FILE, 20, 11)
    assert design.colourways["fog"].at["parts/edge"] == Place(FILE, 24, 48)
    assert design.colourways["fog"].at.key("parts/edge") == Place(FILE, 24, 42)


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_every_key_of_every_method_has_a_form(method: Any) -> None:
    assert keys_of(method.design)


def test_names_of_drawings_and_of_pressing_are_reserved() -> None:
    triangles = {on_point.SIDE_TRIANGLE, on_point.CORNER_TRIANGLE}
    assert set(RESERVED) == {layout.TOP, layout.CENTRE, SETTING_SEAMS, BORDER_SEAMS} | triangles


@pytest.mark.parametrize(
    "old", ["{name: Fog, parts: {ground: mist, edge: mist}}", "{fabric: edge}"]
)
def test_stand_ins_know_the_place_of_their_problem(old: str) -> None:
    designs, problems, _ = read_pattern(FILE, GOOD.replace(old, "7").encode(), (BoardMethod(),))
    problems += check_designs(designs, problems)
    assert [(p.code, p.place.file) for p in problems] == [("wrong-type", FILE)]
