"""How many pieces a length of cloth yields, against published tables and worked examples.

Numbers in brackets are lines of the check values. HOHN: M. Hohn, charts, 2002. DBAY: handout,
squares from a fat quarter. WOF4: table of squares per yard for 39 to 42 in. QB: quilting forum
posts. HARR: worked square example. L4: The Math of Quilting, Lesson 4, 2016. APQ: a magazine.
All lines were recomputed.
"""

from fractions import Fraction

import pytest

from pieceproof.cutting.demand import EIGHTH_INCH, Demand, Want
from pieceproof.cutting.plan import Plan, strip_count
from pieceproof.cutting.planner import plan
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, rounded_up

F = Fraction

PER_YARD_44 = """1:1584 1.5:696 1.875:437 2:396 2.5:238 2.875:180 3:168 3.5:120 3.875:99 4:99
4.5:72 4.875:63 5:56 5.5:48 5.875:42 6:42 6.5:30 6.875:30 7.5:20 7.875:20 8:20 8.5:20 8.875:16 9:16
9.5:12 9.875:12 10:12 10.5:12 10.875:12 11:12 11.5:9 11.875:9 12:9 12.5:6 12.875:6"""
PER_FAT_QUARTER = """2:99 2.5:56 2.875:42 3:42 3.5:30 3.875:20 4:20 4.5:16 4.875:12 5:12 5.5:12
5.875:9 6:9 6.5:6 6.875:6"""
PER_YARD_39_TO_42 = """2:342/360/360/378 2.5:210/224/224/224 3:156/156/156/168 3.5:110/110/110/120
4:81/90/90/90 4.5:64/64/72/72 5:49/56/56/56 5.5:42/42/42/42 6:36/36/36/42 6.5:30/30/30/30
7:25/25/25/30 8:16/20/20/20 8.5:16/16/16/16 9.5:12/12/12/12"""


def planned(across: Fraction, along: Fraction, count: int, width: int) -> Plan:
    demand = Demand((Want("A", across, along, count, True),), (), F(width), EIGHTH_INCH, F(0))
    found, problems = plan(demand)
    assert problems == ()
    assert found.proven
    return found


def squares_from(side: Fraction, width: int, length: int) -> int:
    """The most squares whose plan is not longer than the cloth."""
    fewest, too_many = 0, 2000
    while too_many - fewest > 1:
        count = (fewest + too_many) // 2
        if planned(side, side, count, width).length <= length:
            fewest = count
        else:
            too_many = count
    return fewest


def entries(table: str) -> list[tuple[Fraction, str]]:
    pairs = [entry.split(":") for entry in table.split()]
    return [(F(side), count) for side, count in pairs]


@pytest.mark.parametrize(("side", "count"), entries(PER_YARD_44))
def test_squares_per_yard_of_forty_four(side: Fraction, count: str) -> None:
    """[42] HOHN; the page's heading says 42 x 36, its values are for 44."""
    assert squares_from(side, 44, 36) == int(count)


def test_seven_inch_squares_per_yard_are_misprinted() -> None:
    """[42] HOHN prints 35 for 7 in: 6 across 44 and 5 along 36 are 30."""
    assert squares_from(F(7), 44, 36) == 6 * 5 == 30


@pytest.mark.parametrize(("side", "count"), entries(PER_FAT_QUARTER))
def test_squares_per_fat_quarter(side: Fraction, count: str) -> None:
    """[43] HOHN, DBAY: 18 x 22."""
    assert squares_from(side, 22, 18) == int(count)


@pytest.mark.parametrize(("side", "counts"), entries(PER_YARD_39_TO_42))
def test_squares_per_yard_of_four_widths(side: Fraction, counts: str) -> None:
    """[44] WOF4: usable widths of 39, 40, 41, 42 in."""
    found = [squares_from(side, width, 36) for width in (39, 40, 41, 42)]
    assert found == [int(count) for count in counts.split("/")]


def test_sixty_three_squares_of_nine_and_a_half() -> None:
    """[52] QB: 4 to a strip, 16 strips, 152 in, 4.222 yd. The page misprints 4 x 9.5 as 37."""
    found = planned(F(19, 2), F(19, 2), 63, 42)
    assert (found.strips[0].segments[0].count, strip_count(found), found.length) == (4, 16, 152)
    assert round(float(found.length / 36), 3) == 4.222


def test_a_hundred_squares_of_three_and_a_half() -> None:
    """[56] HARR: 44 in, 12 to a strip, 9 strips."""
    found = planned(F(7, 2), F(7, 2), 100, 44)
    assert (found.strips[0].segments[0].count, strip_count(found)) == (12, 9)


def test_five_strips_of_six() -> None:
    """[57] L4: five 6 in strips across 42 in are 30 in."""
    assert planned(F(42), F(6), 5, 42).length == 30


def test_eight_squares_of_five() -> None:
    """[58] L4: one 5 in strip of 42 in."""
    found = planned(F(5), F(5), 8, 42)
    assert (strip_count(found), found.length) == (1, 5)


def test_thirty_six_squares_of_four() -> None:
    """[65] L4 sets it without an answer; own reckoning: 10 to a strip of 42 in, 4 strips, 16 in."""
    found = planned(F(4), F(4), 36, 42)
    assert (found.strips[0].segments[0].count, strip_count(found), found.length) == (10, 4, 16)


@pytest.mark.parametrize(("yards", "inches"), [
    (F(1, 8), F(9, 2)), (F(1, 4), F(9)), (F(3, 8), F(27, 2)), (F(1, 2), F(18)),
    (F(5, 8), F(45, 2)), (F(3, 4), F(27)), (F(7, 8), F(63, 2)),
])  # fmt: skip
def test_eighths_of_a_yard(yards: Fraction, inches: Fraction) -> None:
    """[47] QB: eighths of a yard in inches; they are sold as they are, a hair more is not."""
    assert rounded_up(inches, EIGHTH_YARD_IN) == inches == 36 * yards
    assert rounded_up(inches + EIGHTH_INCH, EIGHTH_YARD_IN) == inches + EIGHTH_YARD_IN
