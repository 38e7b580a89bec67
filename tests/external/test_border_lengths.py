"""Borders against published examples. Numbers in brackets are lines of the check values.

BRAE: a borders note on a quilter's page. SLIDE: school slides on quilt yardage. ANN: border lengths
on a needlework shop's page. All lines were recomputed.
"""

import pytest
from finishing_samples import design_of, finish
from quicktions import Fraction
from whole_path import WATER

from pieceproof.model import Border, BorderOrder, MitredBorder
from pieceproof.requirements import need_for

F = Fraction


def strips(width: int, height: int, border: Border | MitredBorder) -> list[Fraction]:
    """Lengths of all strips of one border, each as often as it is cut."""
    finished = finish(design_of(F(width), F(height), (border,)))
    pieces = [p for p in finished.publication.pieces if p.fabric == "water"]
    return sorted(p.long for p in pieces for _ in range(p.count))


@pytest.mark.parametrize("order", list(BorderOrder))
def test_four_strips_of_a_border_cut_six_and_a_half(order: BorderOrder) -> None:
    """[71] SLIDE: 70 x 86 becomes 82 x 98; strips of 2 w + 2 l + 4 b = 338 in all, b as cut."""
    border = Border(WATER, F(6), order)
    assert sum(strips(70, 86, border)) == 338
    publication = finish(design_of(F(70), F(86), (border,))).publication
    assert (publication.width, publication.height) == (82, 98)


def test_nine_strips_of_forty_go_round_sixty_by_eighty() -> None:
    """[70] BRAE: 280 / 40 = 7 strips of 4 in, 8 advised; neither counts corners and joins.

    With its corners the border takes 296 in. Eight strips joined straight give that, 8 x 40 less
    seven joins of 1/2; joined on the diagonal, which is what we ask cloth for, they do not.
    """
    finished = finish(design_of(F(60), F(80), (Border(WATER, F(7, 2)),)))
    wanted = sum(p.long * p.count for p in finished.publication.pieces if p.fabric == "water")
    assert wanted == 296
    assert 8 * 40 - 7 * 4 < wanted <= 8 * 40 - 7 * F(1, 2)
    plan = need_for(finished.needs, ("water",), F(40)).plan
    assert sum(run.strips for run in plan.joined) == 9


def test_borders_are_measured_through_the_middle_and_sides_go_on_first() -> None:
    """[72] ANN; a class handout, two more pages: the middle, never the edge; side borders first."""
    made = finish(design_of(F(60), F(80), (Border(WATER, F(4)),)))
    (steps,) = (i.steps for i in made.instructions() if "border" in " ".join(i.steps))
    assert "Measure the quilt centre through the middle before you cut" in steps[0]
    assert "Sew one to each side." in steps[0]
    assert "to the top and the bottom" in " ".join(steps[1:])


@pytest.mark.parametrize(("side", "width"), [(40, 3), (60, 5), (72, 8)])
def test_the_second_pair_is_two_widths_and_a_half_inch_longer(side: int, width: int) -> None:
    """[73] ANN: centre width + 2 x finished side border + 1/2."""
    assert strips(side, 30, Border(WATER, F(width)))[-1] == side + 2 * width + F(1, 2)


@pytest.mark.parametrize(("side", "width"), [(40, 3), (60, 5), (72, 8)])
def test_a_mitred_strip_adds_at_least_two_widths(side: int, width: int) -> None:
    """[73] ANN: for mitres at least 2 x the border's width; trade practice adds 1 to 6 in more."""
    longest = strips(side, 30, MitredBorder(WATER, F(width)))[-1]
    assert 1 <= longest - (side + F(1, 2) + 2 * width) <= 6
