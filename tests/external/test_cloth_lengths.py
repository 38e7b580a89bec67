"""Lengths of cloth against published examples and an independent unit library.

Numbers in brackets are lines of the check values. BIND: binding examples (blogs of three pattern
designers). QB: quilting forum posts. TC: a page on backing yardage. STC: a backing page. QC: a
magazine's page on bed sizes. All lines were recomputed.
"""

from fractions import Fraction

import pint
import pytest
from cloth_samples import small

from pieceproof.beds import target
from pieceproof.cloth_proof import cloth_faults
from pieceproof.cutting.yardage import rounded_up
from pieceproof.model import Bed, Mattress, Measure, Size
from pieceproof.requirements import ROOM, Need, requirements

F = Fraction
UNITS = pint.UnitRegistry(non_int_type=F)


def only_need(sized: tuple, width: int) -> Need:  # type: ignore[type-arg]
    found, problems = requirements(*sized, [F(width)])
    assert not problems
    assert cloth_faults(*sized, found) == ()
    (need,) = found.needs
    return need


@pytest.mark.parametrize("cut_width", [F(2), F(9, 4), F(5, 2)])
def test_binding_of_fifty_by_sixty_takes_six_strips(cut_width: F) -> None:
    """[76] BIND: 220 / (40 - 2) = 5.79, so 6 strips of 40 in; [80] BIND: 2 1/4 or 2 1/2 wide."""
    need = only_need(small({}, binding=("edge", cut_width, F(220))), 40)
    assert [run.strips for run in need.plan.joined] == [6]


def test_two_widths_of_forty_give_a_back_of_seventy_nine() -> None:
    """[85] QB: two widths of 56 in are 112 in; the forum's 80 counts no seam, ours takes 1 in."""
    need = only_need(small({}, backing=("back", F(79), F(56))), 40)
    assert need.backs is not None
    assert (need.backs.chosen.panels, need.backs.chosen.total) == (2, 112)


def test_two_widths_of_forty_two_give_a_back_of_eighty_three() -> None:
    """[87] QB: 3 3/4 yd of 42 in make about 83 x 67 1/2 (84 less the seam); 83 1/8 is too much."""
    need = only_need(small({}, backing=("back", F(83), F(135, 2))), 42)
    assert need.backs is not None
    upright = next(w for w in (need.backs.chosen, need.backs.other) if w.seams.value == "upright")
    assert (upright.panels, upright.total) == (2, F(15, 4) * 36)
    wider = only_need(small({}, backing=("back", F(83) + F(1, 8), F(135, 2))), 42).backs
    assert wider is not None
    assert max(wider.chosen.panels, wider.other.panels) == 3


def test_a_back_of_two_lengths_of_seventy_four() -> None:
    """[88] TC: 148 in, 4 1/4 yd. (teacherscollegesj.org)"""
    need = only_need(small({}, backing=("back", F(83), F(74))), 42)
    assert need.backs is not None
    assert (need.backs.chosen.total, need.yards) == (148, F(17, 4))


def back_for(top: Size, beyond: int, width: int = 42) -> Need:
    """The cloth for the back of a top, this much larger on each side."""
    return only_need(small({}, backing=("back", top.width + 2 * beyond, top.height + 2 * beyond)),
                     width)  # fmt: skip


def in_quarters(need: Need) -> F:
    """The panels alone, in yards rounded up to a quarter."""
    assert need.backs is not None
    return rounded_up(need.backs.chosen.total / 36, F(1, 4))


@pytest.mark.parametrize(
    ("bed", "printed", "ours"),
    [
        (Mattress.TWIN, F(21, 4), F(43, 8)),
        (Mattress.FULL, F(21, 4), F(29, 4)),
        (Mattress.QUEEN, F(15, 2), F(31, 4)),
        (Mattress.KING, F(8), F(67, 8)),
    ],
)
def test_backs_for_beds(bed: Mattress, printed: F, ours: F) -> None:
    """[90] STC prints 5 1/4 yd for twin and double, 7 1/2 for queen, 8 for king, without sizes.

    Tops that hang down 12 in (QC's example), the back 2 in larger on each side (STC's own least),
    give just that in whole quarters. Ours is more: 4 in larger on each side, sold by the eighth;
    so a double's back is 86 in wide, which takes a third width of 42.
    """
    top = target(Bed(bed, F(12)), Measure.INCH)
    assert in_quarters(back_for(top, 2)) == printed
    assert back_for(top, 4).yards == ours


def test_the_back_of_a_small_quilt() -> None:
    """[91] STC: about 1 1/2 yd for 40 x 45: one width of 44 in cloth, 2 in larger on each side.

    Of 42 in cloth and 4 in larger it is two widths, 2 x 48 in, which ours asks for.
    """
    top = Size(F(40), F(45))
    assert in_quarters(back_for(top, 2, 44)) == F(3, 2)
    wide = back_for(top, 4)
    assert wide.backs is not None
    assert (wide.backs.chosen.panels, wide.backs.chosen.total) == (2, 96)


def test_a_hundred_and_sixty_eight_squares_of_five_inches() -> None:
    """[53] QB: 8 to a strip of 40 in, 21 strips, 105 in; and 1 in for squaring, so 3 yd."""
    need = only_need(small({"ground": [(F(5), F(5), 168, "block")]}), 40)
    assert (need.plan.length, need.yards) == (105, 3)


@pytest.mark.parametrize("eighths", range(1, 90, 7))
@pytest.mark.parametrize("measure", list(Measure))
def test_yards_and_metres_are_the_least_that_are_sold(measure: Measure, eighths: int) -> None:
    """The yard is 0.9144 m and the inch 25.4 mm exactly, by pint's own definitions."""
    side = 3 + eighths * measure.step
    need = only_need(small({"ground": [(side, side, 1, "star")]}, measure), 42)
    needed = (need.yardage.needed + ROOM[measure]) * UNITS(measure.value)
    for bought, step in (
        (need.yards * UNITS.yard, F(1, 8) * UNITS.yard),
        (need.metres * UNITS.metre, 5 * UNITS.centimetre),
    ):
        assert (bought / step).to("").magnitude.denominator == 1
        assert needed <= bought < needed + step
