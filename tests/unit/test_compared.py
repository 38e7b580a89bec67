"""Methods compared: against numbers worked by hand from the trade's rules for a 1/4 in seam."""

from __future__ import annotations

import pytest
from quicktions import Fraction
from triangle_units import SAMPLES
from whole_path import build

from pieceproof.compared import Compared, compared
from pieceproof.comparison import comparison_text
from pieceproof.methods import METHODS
from pieceproof.model import Measure

F = Fraction
ROWS = {
    # 3 in, 20 wanted: squares of 3 7/8 by twos, 5 1/2 by fours, 7 3/4 by eights, 3 1/2 stitched.
    "half-square triangles": {
        "half-square triangles": (20, 20 * F(31, 8) ** 2, 10, 20, 20, F(0), 0),
        "half-square triangles four at a time": (10, 10 * F(11, 2) ** 2, 15, 20, 20, F(14), 0),
        "half-square triangles eight at a time": (6, 6 * F(31, 4) ** 2, 21, 12, 24, F(0), 4),
        "stitched corners": (40, 40 * F(7, 2) ** 2, 20, 20, 0, F(0), 0),
    },
    # 2 x 4 in, 20 wanted: 2 1/2 x 4 1/2 and two 2 1/2, or one 5 1/4 and four 2 7/8 for four.
    "flying geese four at a time": {
        "flying geese": (60, 20 * (F(45, 4) + 2 * F(25, 4)), 40, 40, 0, F(0), 0),
        "flying geese four at a time": (
            25, 5 * (F(21, 4) ** 2 + 4 * F(23, 8) ** 2), 15, 30, 20, F(0), 0
        ),
        "stitched corners": (60, 20 * (F(45, 4) + 2 * F(25, 4)), 40, 40, 0, F(0), 0),
    },
    # 3 in, 20 wanted: two squares of 4 1/4 for two; three lines sewn twice a pair.
    "hourglass of two fabrics": {
        "quarter-square triangles": (20, 20 * F(17, 4) ** 2, 20, 40, 20, F(0), 0),
    },
}  # fmt: skip
"""Pieces, cloth, cuts through sewn layers, seams, trims, bias outside and spares by method."""


@pytest.mark.parametrize("name", ROWS)
def test_numbers_worked_by_hand(name: str) -> None:
    built = build(SAMPLES[name][0], Measure.INCH, F(1, 4))
    found = {row.method: _numbers(row) for row in compared(built.design, "unit", 20)}
    assert found == ROWS[name]


def _numbers(row: Compared) -> tuple[object, ...]:
    return (row.pieces, row.area, row.cuts_apart, row.seams, row.trims, row.bias, row.spare)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_method_of_the_pattern_is_among_them(name: str) -> None:
    built = build(SAMPLES[name][0], Measure.INCH, F(1, 4), SAMPLES[name][1])
    (chosen,) = (row for row in compared(built.design, "unit", 7) if row.chosen)
    assert chosen.made - chosen.spare == 7
    assert chosen.area == sum(chosen.cloth.values())


def test_the_house_order_is_kept() -> None:
    built = build(SAMPLES["half-square triangles"][0], Measure.INCH, F(1, 4))
    order = [method.name for method in METHODS]
    found = [row.method for row in compared(built.design, "unit", 4)]
    assert found == sorted(found, key=order.index)


def test_the_table() -> None:
    built = build(SAMPLES["flying geese four at a time"][0], Measure.INCH, F(1, 4))
    assert (
        comparison_text(built.design, built.publication, ["unit"])
        == """\
unit, 2 wanted
  method                         cloth     pieces  cut apart  seams  trims  bias outside  spare
    flying geese                 48 sq in  6       4          4      0      none          0
  * flying geese four at a time  61 sq in  5       3          6      4      none          2
    stitched corners             48 sq in  6       4          4      0      none          0"""
    )
