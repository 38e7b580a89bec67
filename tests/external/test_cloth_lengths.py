"""Lengths of cloth against published examples and an independent unit library.

Numbers in brackets are lines of the check values. BIND: binding examples (blogs of three pattern
designers). QB: quilting forum posts. TC: a page on backing yardage. All lines were recomputed.
"""

from fractions import Fraction

import pint
import pytest
from cloth_samples import small

from pieceproof.cloth_proof import cloth_faults
from pieceproof.model import Measure
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
