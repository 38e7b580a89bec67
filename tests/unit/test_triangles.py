"""The triangle family from the file to the page: keys, faults, counts of extras, words."""

from __future__ import annotations

import pytest
from quicktions import Fraction
from triangle_units import SAMPLES
from whole_path import GROUND, HEART, WATER, WING, build

from pieceproof.methods import METHODS, method_of
from pieceproof.methods.flying_geese import FlyingGeese
from pieceproof.methods.half_rectangle_triangles import HalfRectangleTriangles
from pieceproof.methods.method import Fault
from pieceproof.methods.quarter_square_triangles import QuarterSquareTriangles
from pieceproof.methods.square_in_square import SquareInSquare
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import Cell, Measure, Size, Unit
from pieceproof.reading import read_pattern
from pieceproof.steps import Corner

F = Fraction
QUARTER = F(1, 4)


def fault_of(unit: Unit, seam: Fraction = QUARTER) -> Fault | None:
    return method_of(unit).fault(unit, Measure.INCH, seam)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_samples_have_no_fault(name: str) -> None:
    assert fault_of(SAMPLES[name][0]) is None


@pytest.mark.parametrize(
    ("unit", "key", "remedy"),
    [
        (
            QuarterSquareTriangles(F(3), GROUND, GROUND, WING, WING),
            "top",
            "change a fabric, or use half-square triangles, or a plain patch if all are alike",
        ),
        (SquareInSquare(F(6), F(17, 4), WING, GROUND), "centre side", None),  # 6 / 1.414 = 4.243
        (SquareInSquare(F(6), F(33, 16), WING, GROUND), "centre side", "write 2"),
        (HalfRectangleTriangles(Size(F(3), F(3)), WING, GROUND), "size", None),
        (HalfRectangleTriangles(Size(F(5), F(23, 8)), WING, GROUND), "size", None),
        (FlyingGeese(Size(F(4), F(2)), WING, GROUND, bonus=F(11, 8)), "bonus", "write 1 1/4"),
        (FlyingGeese(Size(F(1), F(1, 2)), WING, GROUND, bonus=F(1, 8)), "bonus", None),
    ],
)
def test_faults_name_the_key_and_the_remedy(unit: Unit, key: str, remedy: str | None) -> None:
    fault = fault_of(unit)
    assert fault is not None
    assert fault.key == key
    if remedy is not None:
        assert fault.remedy == remedy


def test_the_remedies_work() -> None:
    assert fault_of(SquareInSquare(F(6), F(33, 8), WING, GROUND)) is None
    assert fault_of(SquareInSquare(F(6), F(2), WING, GROUND)) is None
    awkward = fault_of(HalfRectangleTriangles(Size(F(5), F(23, 8)), WING, GROUND))
    assert awkward is not None
    assert awkward.remedy == "write 5 3/4 x 2 7/8"
    assert fault_of(HalfRectangleTriangles(Size(F(23, 4), F(23, 8)), WING, GROUND)) is None


def test_a_bonus_must_be_clear_of_the_corner_before() -> None:
    corners = {
        Corner.TOP_LEFT: StitchedCorner(WING, F(3)),
        Corner.TOP_RIGHT: StitchedCorner(WING, F(3), F(2)),
    }
    fault = fault_of(StitchedCorners(Size(F(5), F(4)), GROUND, corners))
    assert fault is not None
    assert "clear of the corner sewn on before it, top left" in fault.expected
    assert fault_of(StitchedCorners(Size(F(6), F(4)), GROUND, corners)) is None


@pytest.mark.parametrize(
    ("as_drawn", "mirrored", "rounds"), [(2, 2, 1), (3, 1, 2), (1, 4, 2), (0, 2, 1)]
)
def test_both_hands_come_from_the_same_rounds(as_drawn: int, mirrored: int, rounds: int) -> None:
    unit = QuarterSquareTriangles(F(3), GROUND, WING, HEART, WATER)
    cells = (Cell("unit"),) * as_drawn + (Cell("unit", 0, True),) * mirrored
    built = build(unit, Measure.INCH, QUARTER, cells)
    assert not built.disagreements()
    make = built.publication.makes[0]
    (extra,) = make.extras
    assert (make.wanted, extra.wanted, make.rounds) == (as_drawn, mirrored, rounds)
    assert (make.spare, make.spare_of(extra)) == (2 * rounds - as_drawn, 2 * rounds - mirrored)
    assert all(piece.count == rounds for piece in built.publication.pieces)


def test_an_hourglass_needs_no_second_hand() -> None:
    unit = QuarterSquareTriangles(F(3), GROUND, WING, HEART, WING)
    built = build(unit, Measure.INCH, QUARTER, (Cell("unit"), Cell("unit", 0, True)))
    assert [make.name for make in built.publication.makes] == ["unit", "top"]
    assert not built.publication.makes[0].extras


def test_words_of_a_mirrored_unit_lay_each_square_on_its_own_corner() -> None:
    corners = {
        Corner.TOP_LEFT: StitchedCorner(WING, F(2)),
        Corner.TOP_RIGHT: StitchedCorner(HEART, F(1)),
    }
    unit = StitchedCorners(Size(F(6), F(4)), GROUND, corners)
    built = build(unit, Measure.INCH, QUARTER, (Cell("unit"), Cell("unit", 0, True)))
    letter = {p.fabric: p.letter for p in built.publication.pieces}
    drawn, mirrored, _ = (" ".join(i.steps) for i in built.instructions())
    assert f"Lay one **{letter['wing']}** on its top left corner" in drawn
    assert f"Lay one **{letter['wing']}** on its top right corner" in mirrored
    assert f"Sew one **{letter['heart']}** to the top left corner" in mirrored


@pytest.mark.parametrize("name", sorted(set(SAMPLES) - {"plain patch"}))
def test_words_are_complete_sentences_with_every_letter(name: str) -> None:
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, QUARTER, cells)
    steps = built.instructions()[0].steps
    assert all(step[0].isupper() and step.endswith((".", ":")) for step in steps), steps
    letters = {piece.letter for piece in built.publication.pieces}
    assert all(f"**{letter}**" in " ".join(steps) for letter in letters)


UNITS = """\
  two: {method: half-square triangles, size: 3, top left: a, bottom right: b}
  four: {method: half-square triangles four at a time, size: 3, top left: a, bottom right: b}
  eight: {method: half-square triangles eight at a time, size: 3, top left: a, bottom right: b}
  quarters: {method: quarter-square triangles, size: 3, top: a, right: b, bottom: a, left: b}
  geese: {method: flying geese four at a time, size: 6 x 3, goose: a, sky: b}
  bonus: {method: flying geese, size: 6 x 3, goose: a, sky: b, bonus: 2 1/4}
  point: {method: square in square, size: 3, centre side: 2, centre: a, corners: b}
  slant: {method: half-rectangle triangles, size: 6 x 3, upper: a, lower: b,
          slant: top left to bottom right}
  corner: {method: stitched corners, size: 6 x 3, fabric: a,
           corners: {top left: {fabric: b, leg: 2, bonus: 1}}}
"""


def test_the_keys_of_the_file() -> None:
    text = (
        "name: Ford\nkind: mat\nsummary: Triangles.\nmeasure: inch\nseam: 1/4\n"
        "fabrics: {a: {called: light}, b: {called: dark}}\nunits:\n" + UNITS + "setting:\n"
        "  layout: straight\n  rows: [[two, four, eight, quarters, geese, bonus, point, slant, "
        'corner]]\ncloths: {m: {name: Mist, colour: "#eceae1"}}\n'
        "colourways: {fog: {name: Fog, parts: {a: m, b: m}}}\n"
    )
    designs, problems, _ = read_pattern("patterns/ford/pattern.yaml", text.encode(), METHODS)
    assert problems == ()
    assert len(designs[0].units) == 9
    assert all(fault_of(unit) is None for unit in designs[0].units.values())
