"""Drawings of three designs: complete, exact where it counts, legible on a phone, told in words.

The sizes that are asserted are those of the design, worked out by hand; what is said about
letters, cells and strips is held against the publication and the plan.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from examples import EXAMPLES, demand, design_of_corners, publish_one, quilt, runner
from hypothesis import given
from hypothesis import strategies as st
from method_path import sewn_unit
from quicktions import Fraction
from strip_units import log_cabin
from text_boxes import frame_of, overlaps

from pieceproof import diagrams
from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.cutting.plan import Plan, pieces_cut, placed_in_strip, strip_count
from pieceproof.cutting.planner import plan
from pieceproof.diagrams.blocks import exploded
from pieceproof.diagrams.legible import room_in, settled, wrapped
from pieceproof.diagrams.making import making
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.pressing import between_rows, in_row
from pieceproof.diagrams.strips import cutting
from pieceproof.diagrams.subject import (
    WRONG_SIDE,
    Subject,
    cells_of,
    make_named,
    rows_of,
    subject,
    values,
)
from pieceproof.diagrams.tops import top
from pieceproof.drawing.scene import (
    Area,
    AreaKind,
    Arrow,
    ArrowKind,
    Box,
    Flat,
    Letter,
    Line,
    LineKind,
    Measure,
    Note,
    Scene,
    TextKind,
    flat,
)
from pieceproof.drawing.style import Look, luminance
from pieceproof.drawing.svg import to_svg
from pieceproof.methods import METHODS
from pieceproof.model import Fabric, Value
from pieceproof.model import Measure as Ruler
from pieceproof.shapes import area, cut, line_through, overlap, rectangle

USABLE = {"runner": Fraction(42), "quilt": Fraction(42), "place mat": Fraction(108)}
WIDTHS = (360, 900)


@cache
def drawn(example: str) -> Subject:
    return subject(*publish_one(EXAMPLES[example]()))


@cache
def planned(example: str, fabric: str) -> Plan:
    result, problems = plan(demand(drawn(example).publication, fabric, USABLE[example]))
    assert not problems
    return result


@cache
def scenes(example: str, width: int) -> Mapping[str, Scene]:
    """All drawings of an example, the cutting of every fabric included."""
    design = drawn(example).design
    cuttings = {
        f"cutting {fabric}": cutting(drawn(example), (fabric,), planned(example, fabric), (), width)
        for fabric in design.fabrics
    }
    return {**plates(drawn(example), width), **cuttings}


ALL = [
    pytest.param(example, width, name, id=f"{example} {width}: {name}")
    for example in EXAMPLES
    for width in WIDTHS
    for name in scenes(example, width)
]
ASSEMBLED = [
    pytest.param(example, make.name, id=f"{example}: {make.name}")
    for example in EXAMPLES
    for make in drawn(example).publication.makes
    if not make.method
]


def items(scene: Scene, kind: type) -> list[Flat]:
    return [item for item in flat(scene.items) if isinstance(item, kind)]


def letters(scene: Scene) -> set[str]:
    """Letters of pieces in a drawing, inside the pieces or below them."""
    inside = {i.text for i in items(scene, Letter) if i.kind is TextKind.PIECE}
    labels = {i.text.split(" × ")[-1] for i in items(scene, Note) if i.kind is TextKind.LABEL}
    return inside | {label for label in labels if re.fullmatch("[A-Z]{1,2}", label)}


# What is shown


@pytest.mark.parametrize(("example", "width", "name"), ALL)
def test_every_scene_is_told_and_names_every_fabric_it_shows(
    example: str, width: int, name: str
) -> None:
    scene = scenes(example, width)[name]
    called = {k: f.called for k, f in drawn(example).design.fabrics.items()}
    shown = {a.cloth.removesuffix(WRONG_SIDE) for a in items(scene, Area) if a.cloth}
    assert shown
    assert scene.title.strip()
    assert len(scene.desc) > 30
    missing = {called[f] for f in shown if called[f] not in f"{scene.title} {scene.desc}".lower()}
    assert not missing


@pytest.mark.parametrize(("example", "width", "name"), ALL)
@pytest.mark.parametrize("look", list(Look))
def test_every_scene_is_well_formed_and_keeps_its_width(
    example: str, width: int, name: str, look: Look
) -> None:
    """Texts that do not fit would make the drawing wider."""
    colours = palette(drawn(example).design, "first")
    svg = to_svg(scenes(example, width)[name], look, "d", width, colours)
    assert ElementTree.fromstring(svg).attrib["width"] == str(width)


@pytest.mark.parametrize(("example", "width", "name"), ALL)
def test_no_two_texts_overlap(example: str, width: int, name: str) -> None:
    assert not overlaps(scenes(example, width)[name], width)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(("example", "make"), ASSEMBLED)
def test_letters_stand_exactly_where_the_cutting_list_says(
    example: str, make: str, width: int
) -> None:
    used = {p.letter for p in drawn(example).publication.pieces if make in p.uses}
    for kind in ("exploded", "assembly"):
        scene = scenes(example, width).get(f"{kind} {make}")
        if scene is not None:
            assert letters(scene) == used, kind


@pytest.mark.parametrize("example", EXAMPLES)
def test_letters_of_a_unit_are_those_of_its_pieces(example: str) -> None:
    publication = drawn(example).publication
    for make in (m for m in publication.makes if m.method):
        used = {p.letter for p in publication.pieces if make.name in p.uses}
        assert letters(scenes(example, 360)[f"making {make.name}"]) == used


@pytest.mark.parametrize(("example", "make"), ASSEMBLED)
def test_every_cell_is_drawn_once(example: str, make: str) -> None:
    """Cell for cell, the cloth of an assembly adds up to the cloth that is sewn."""
    step = rows_of(make_named(drawn(example), make))
    if step is None or f"assembly {make}" not in scenes(example, 360):
        return
    cells = [cell for row in cells_of(drawn(example), step) for cell in row]
    scene = scenes(example, 360)[f"assembly {make}"]
    assert len(items(scene, Area)) == sum(len(cell.flat.faces) for cell in cells)
    found = sum(float(area(tuple(i.points))) for i in items(scene, Area))
    assert found == pytest.approx(sum(cell.width * cell.height for cell in cells))


def test_rows_are_numbered_and_every_seam_has_its_arrow() -> None:
    scene = scenes("quilt", 360)["assembly quilt centre"]
    numbers = [i.text for i in items(scene, Letter) if i.kind is TextKind.STEP]
    assert numbers == [str(n) for n in range(1, 11)]
    assert len(items(scene, Arrow)) == 10 * 7 + 9


def test_sashed_rows_are_pressed_toward_the_sashing() -> None:
    """Common practice: allowances lie under the sashing, away from blocks and cornerstones."""
    step = rows_of(make_named(drawn("runner"), "quilt centre"))
    assert step is not None
    assert in_row(step, 0) == (1, -1) * 5
    assert in_row(step, 1) == (-1, 1) * 5
    assert between_rows(step) == ((-1, -1), (1, 1))


def test_arrows_of_one_row_stay_clear_of_each_other() -> None:
    scene = scenes("runner", 360)["assembly quilt centre"]
    rows: dict[float, list[tuple[float, float]]] = {}
    for arrow in items(scene, Arrow):
        if arrow.start[1] == arrow.end[1]:
            ends = sorted((arrow.start[0], arrow.end[0]))
            rows.setdefault(round(arrow.start[1], 6), []).append((ends[0], ends[1]))
    assert [len(row) for row in rows.values()] == [10, 10, 10]
    for row in rows.values():
        ordered = sorted(row)
        assert all(a[1] < b[0] for a, b in pairwise(ordered))


def test_borders_come_off_in_the_order_they_are_sewn() -> None:
    scene = scenes("quilt", 360)["assembly top"]
    numbers = Counter(i.text for i in items(scene, Letter) if i.kind is TextKind.STEP)
    assert numbers == {"1": 2, "2": 2, "3": 2, "4": 2}
    marked = Counter(i.text for i in items(scene, Letter) if i.kind is TextKind.PIECE)
    counts = {p.letter: p.count for p in drawn("quilt").publication.pieces if "top" in p.uses}
    assert marked == counts


# Sizes


def test_a_finished_block_shows_the_sizes_of_the_design() -> None:
    """Point 4 1/2 x 2 3/4 in, so the block is 2 3/4 + 4 1/2 + 2 3/4 = 10 in."""
    scene = scenes("runner", 360)["finished star"]
    assert [m.text for m in items(scene, Measure)] == ['2 3/4"', '4 1/2"', '2 3/4"'] * 2
    assert [n.text for n in items(scene, Note)] == ['10" x 10" finished']


def test_an_exploded_block_shows_unfinished_sizes_and_says_so() -> None:
    """Finished plus two seams of 1/4 in: 3 1/4, 5, 3 1/4."""
    scene = scenes("runner", 360)["exploded star"]
    assert [m.text for m in items(scene, Measure)] == [
        '3 1/4"', '5"', '3 1/4"', '3 1/4"', '5"', '3 1/4"',
    ]  # fmt: skip
    assert "All sizes unfinished" in [n.text for n in items(scene, Note)]


@pytest.mark.parametrize("example", EXAMPLES)
def test_a_unit_ends_with_its_count_and_its_unfinished_size(example: str) -> None:
    measure = drawn(example).design.measure
    for make in (m for m in drawn(example).publication.makes if m.method):
        scene = scenes(example, 360)[f"making {make.name}"]
        sign = '"' if measure.value == "inch" else " cm"
        shown = [m.text for m in items(scene, Measure)]
        assert shown == [measure.show(make.width) + sign, measure.show(make.height) + sign]
        last = items(scene, Note)[-1].text.replace("\n", " ")
        assert f"Make {make.wanted + make.spare}" in last
        assert "nfinished" in last


def test_a_top_is_covered_patch_by_patch() -> None:
    """Eddy Runner: 5 x 10 + 6 x 1 1/2 + 2 x 2 = 63 by 10 + 2 x 1 1/2 + 2 x 2 = 17 in."""
    scene = scenes("runner", 360)["top"]
    assert (scene.box.width, scene.box.height) == (63, 17)
    assert sum(area(tuple(a.points)) for a in items(scene, Area)) == pytest.approx(63 * 17)
    assert '63" x 17" finished' in scene.desc
    assert "five star blocks in one row" in scene.desc.lower()


# Making


def test_stages_are_numbered_and_captioned() -> None:
    scene = scenes("runner", 360)["making point"]
    assert [i.text for i in items(scene, Letter) if i.kind is TextKind.STEP] == list("12345")
    assert len(items(scene, Note)) == 5
    assert [a.kind for a in items(scene, Arrow)].count(ArrowKind.PRESS) == 2


def test_a_wide_drawing_has_more_stages_in_a_row() -> None:
    tops = {
        width: len(
            {round(float(i.at[1]), 3) for i in items(scene, Letter) if i.kind is TextKind.STEP}
        )
        for width in WIDTHS
        for scene in [scenes("runner", width)["making point"]]
    }
    assert tops == {360: 3, 900: 1}


def test_what_lies_face_down_is_pale_and_unhatched() -> None:
    for example in EXAMPLES:
        colours = palette(drawn(example).design, "first")
        over = [a for s in scenes(example, 360).values() for a in items(s, Area)]
        wrong = [a for a in over if a.cloth and a.cloth.endswith(WRONG_SIDE)]
        assert wrong
        for face_down in wrong:
            assert face_down.value is None
            right = colours[face_down.cloth.removesuffix(WRONG_SIDE)]
            assert luminance(colours[face_down.cloth]) > luminance(right)


def test_an_upper_layer_that_hides_all_has_a_corner_turned_back() -> None:
    scene = scenes("quilt", 360)["making blade"]
    shown = [a for a in items(scene, Area) if a.layer == 2]
    assert [a.cloth for a in shown] == ["stream"]
    assert any(line.kind is LineKind.DRAWN for line in items(scene, Line))


def test_skipped_corners_are_mentioned() -> None:
    made = subject(*publish_one(design_of_corners(Fraction(4), Fraction(3, 2))))
    last = items(making(made, "cut square"), Note)[-1].text.replace("\n", " ")
    assert last.startswith("Two more corners in the same way")


def test_skipped_joins_are_mentioned() -> None:
    """Two rounds are eight logs: four are shown, three told, the last is shown again."""
    sewn = sewn_unit(log_cabin(), Ruler.INCH, Fraction(1, 4))
    made = subject(sewn.design, sewn.publication, sewn.drawing)
    last = items(making(made, "unit"), Note)[-1].text.replace("\n", " ")
    assert last.startswith("Three more seams in the same way. Sew H to the left.")


# Strips

CUTTINGS = [
    pytest.param(example, fabric, id=f"{example}: {fabric}")
    for example in EXAMPLES
    for fabric in drawn(example).design.fabrics
]


@pytest.mark.parametrize(("example", "fabric"), CUTTINGS)
def test_strips_drawn_are_strips_planned(example: str, fabric: str) -> None:
    scene, cut_plan = scenes(example, 360)[f"cutting {fabric}"], planned(example, fabric)
    headings = [n.text for n in items(scene, Note) if n.kind is TextKind.LABEL]
    counted = [int(m[1]) for h in headings if (m := re.match(r"(\d+) strips? ", h))]
    assert sum(counted) == strip_count(cut_plan)
    assert len(counted) == len(cut_plan.strips)


@pytest.mark.parametrize(("example", "fabric"), CUTTINGS)
def test_pieces_drawn_are_pieces_planned(example: str, fabric: str) -> None:
    """Each strip once, all its pieces in it, to scale; then the lengths cut from joined runs."""
    scene, cut_plan = scenes(example, 360)[f"cutting {fabric}"], planned(example, fabric)
    pieces = [a for a in items(scene, Area) if a.kind is AreaKind.PIECE]
    strips = [p for s in cut_plan.strips for p in placed_in_strip(s, Fraction(0), 0)]
    assert len(pieces) == len(strips) + sum(run.count for run in cut_plan.joined)
    for drawn_piece, placed in zip(pieces, strips, strict=False):
        xs, ys = zip(*drawn_piece.points, strict=True)
        size = (max(xs) - min(xs), max(ys) - min(ys))
        assert size == pytest.approx((float(placed.across), float(placed.along)))


@pytest.mark.parametrize(("example", "fabric"), CUTTINGS)
def test_every_letter_of_a_plan_is_drawn_and_told(example: str, fabric: str) -> None:
    scene, cut_plan = scenes(example, 360)[f"cutting {fabric}"], planned(example, fabric)
    assert letters(scene) == set(pieces_cut(cut_plan))
    for letter in pieces_cut(cut_plan):
        assert re.search(rf"\b{letter}\b", scene.desc)


def test_a_tall_strip_and_a_long_run_are_drawn_broken() -> None:
    wants = (Want("A", Fraction(8), Fraction(70), 4, turnable=False),)
    longs = (Long("B", Fraction(5, 2), Fraction(400), 9, "straight", Fraction(1, 4)),)
    wanted = Demand(wants, longs, Fraction(42), Fraction(1, 8), Fraction(1))
    cut_plan, problems = plan(wanted)
    assert not problems
    scene = cutting(drawn("runner"), ("water",), cut_plan, ())
    assert [a for a in items(scene, Area) if a.kind is AreaKind.CLOTH and a.layer == 3]
    frame = frame_of(scene, 360)
    assert frame.height < 900
    assert "9 B at 400" in scene.desc


# Value, room, text


def test_values_differ_where_they_can() -> None:
    def of(*kinds: Value) -> list[int]:
        fabrics = {f"f{i}": Fabric(f"fabric {i}", value) for i, value in enumerate(kinds)}
        return list(values(replace(runner(), fabrics=fabrics)).values())

    light, medium, dark = Value.LIGHT, Value.MEDIUM, Value.DARK
    assert of(light, dark) == [1, 5]
    assert of(light, medium, dark) == [1, 3, 5]
    assert of(light, medium, medium, dark, dark) == [1, 3, 2, 5, 4]
    assert sorted(of(light, light, medium, dark, dark)) == [1, 2, 3, 4, 5]
    assert of(light, light, light) == [1, 2, 1]


@given(st.integers(1, 40), st.integers(1, 40))
def test_the_room_in_a_rectangle_is_its_short_side_in_its_middle(w: int, h: int) -> None:
    place, room = room_in(rectangle(Fraction(w), Fraction(h)))
    assert room == pytest.approx(min(w, h))
    assert place == pytest.approx((w / 2, h / 2))


@given(st.integers(1, 40))
def test_the_room_in_a_right_triangle_is_half_its_leg(leg: int) -> None:
    """A square in the right angle of an isosceles right triangle: side = leg / 2 (Euclid)."""
    zero, side = Fraction(0), Fraction(leg)
    place, room = room_in(((zero, zero), (side, zero), (zero, side)))
    assert room == pytest.approx(leg / 2)
    assert place == pytest.approx((leg / 4, leg / 4))


@given(
    st.lists(st.tuples(st.integers(-20, 20), st.integers(-20, 20), st.integers(1, 15)), max_size=4)
)
def test_the_room_lies_inside_the_polygon(cuts: list[tuple[int, int, int]]) -> None:
    polygon = rectangle(Fraction(10), Fraction(10))
    for x, y, along in cuts:
        p, q = (Fraction(x), Fraction(y)), (Fraction(x + along), Fraction(y + 7))
        polygon = cut(polygon, line_through(p, q)) or polygon
    (x, y), room = room_in(polygon)
    square = rectangle(*[Fraction(room)] * 2, (Fraction(x - room / 2), Fraction(y - room / 2)))
    assert float(area(overlap(polygon, square) or square)) == pytest.approx(room * room, abs=1e-6)


def test_lines_never_break_within_a_size() -> None:
    lines = wrapped('cut 2 C at 50 1/2" and trim to 3 1/2" x 4 1/2" each', 60, TextKind.CAPTION)
    plain = lines.replace("\N{NO-BREAK SPACE}", " ").split("\n")
    assert '50 1/2"' in plain
    assert '3 1/2" x 4 1/2"' in plain


def test_a_drawing_settles() -> None:
    def build(pixel: float) -> Scene:
        return Scene("", "", Box(0, 0, 10 + 100 * pixel, 1), ())

    scene = settled(build, 10)
    assert float(scene.box.width) == pytest.approx(10 * 344 / 244, rel=0.01)


# The same again


def test_the_same_publication_gives_the_same_scenes() -> None:
    again = plates(subject(*publish_one(quilt())))
    assert again == {n: s for n, s in scenes("quilt", 360).items() if not n.startswith("cutting")}


def test_only_colours_differ_between_colourways() -> None:
    scene = top(drawn("runner"))
    colours = palette(drawn("runner").design, "first")
    other = dict.fromkeys(colours, "#123456")
    one, two = (to_svg(scene, Look.COLOUR, "d", 360, c) for c in (colours, other))
    assert (
        re.sub("#[0-9a-f]{6}", "", one).split("<path")[1:6]
        == re.sub("#[0-9a-f]{6}", "", two).split("<path")[1:6]
    )
    assert to_svg(scene, Look.INK, "d", 360, colours) == to_svg(scene, Look.INK, "d", 360, other)


def test_what_cannot_be_pulled_apart_says_so() -> None:
    with pytest.raises(ValueError, match="not made of rows"):
        exploded(drawn("quilt"), "blade")


def test_no_drawing_knows_a_method() -> None:
    folder = Path(diagrams.__file__).parent
    text = " ".join(path.read_text("utf-8").lower() for path in sorted(folder.glob("*.py")))
    for method in METHODS:
        assert method.name not in text
        assert method.design.__name__.lower() not in text
