"""Binding, batting and sleeves against published examples.

Numbers in brackets are lines of the check values. BIAS: two pages on continuous bias. BIND: binding
examples of three pattern designers. BATT: two pages on batting sizes. STC: a backing page
(stcroixquilters.com). SHRK: two forum posts on shrinkage. QC: a magazine's page on bed sizes. Where
sources conflict or leave out seams, the test says so.
"""

from __future__ import annotations

import pytest
from finishing_samples import design_of, finished_with
from quicktions import Fraction
from shapely import Polygon, affinity
from whole_path import HEART, WING

from pieceproof.bench.bias import bias_strip
from pieceproof.bias import square_for, strip_length
from pieceproof.finishing import PACKAGES_IN
from pieceproof.lengths import ceil_to, square_root
from pieceproof.model import Backing, Batting, Binding

F = Fraction
QUARTER = F(1, 4)


def test_a_square_of_twenty_gives_two_hundred_inches_without_seams() -> None:
    """[81] BIAS: 20 x 20 / 2 = 200 in, which counts neither seams nor whole strips.

    Without seams the square gives seven whole strips, 198 in; with seams of 1/4 it gives 162,
    and 200 take a square of 22.
    """
    assert ceil_to(square_root(F(200 * 2)), F(1)) == 20
    assert 197 < strip_length(F(20), F(2), F(0)) <= 200
    assert 161 < strip_length(F(20), F(2), QUARTER) < 162
    assert square_for(F(200), F(2), QUARTER) == 22


def test_a_square_of_eighteen_is_eight_inches_of_cloth() -> None:
    """[84] BIAS: 18 x 18 is as much cloth as 7.714 of 42, so 8 x 42; a square needs its 18."""
    assert ceil_to(F(18 * 18, 42), F(1)) == 8
    assert 8 * 42 >= 18 * 18


@pytest.mark.parametrize(("side", "width"), [(14, F(2)), (22, F(2)), (25, F(5, 2)), (36, F(9, 4))])
def test_shapely_measures_the_same_strip(side: int, width: Fraction) -> None:
    """The parallelogram laid out with its seams sewn, cut along every line, area by area."""
    found = strips_by_shapely(float(side), float(width), 0.25)
    assert float(strip_length(F(side), width, QUARTER)) == pytest.approx(found, abs=1e-6)
    assert bias_strip(F(side), width, QUARTER) == strip_length(F(side), width, QUARTER)


def strips_by_shapely(side: float, width: float, seam: float) -> float:
    """Both triangles cut back by their seams and closed up, sliced along the bias.

    Between the sewn-off points both triangles lie in every strip, so what is left of a strip,
    divided by its width, is how long it runs from tube seam to tube seam; the two ends of the
    whole strip keep their allowance.
    """
    long, high, lost = side * 2**0.5, side / 2**0.5, seam * 2**0.5
    first = Polygon([(0, 0), (long, 0), (long / 2, high)])
    second = affinity.translate(affinity.rotate(first, 180, origin=(0, 0)), 1.5 * long, high)
    inside = [
        Polygon([(lost, 0), (long - lost, 0), (long / 2, high - lost)]),
        Polygon([(long / 2 + lost, high), (1.5 * long - lost, high), (long, lost)]),
    ]
    total, low = 0.0, lost
    while low + width <= high - lost + 1e-9:
        band = Polygon([(-1, low), (2 * long, low), (2 * long, low + width), (-1, low + width)])
        parts = zip((first, second), inside, strict=True)
        total += sum(whole.intersection(left).intersection(band).area for whole, left in parts)
        low += width
    return total / width + 2 * lost


@pytest.mark.parametrize("extra", [8, 10, 20, 24])
def test_the_extra_on_the_edge_is_a_setting(extra: int) -> None:
    """[79] 8, 10, 20 and 24 in are all printed; ours is 10 unless the writer says otherwise."""
    binding = Binding(HEART, extra=F(extra))
    finished = finished_with(design_of(F(20), F(30)), binding=binding)
    assert finished.publication.binding is not None
    assert finished.publication.binding.length == 100 + extra
    assert not finished.faults()


@pytest.mark.parametrize("width", [F(9, 4), F(5, 2)])
def test_the_widths_in_print_pass(width: Fraction) -> None:
    """[80] BIND: 2 1/4 or 2 1/2 in, folded double."""
    finished = finished_with(design_of(F(20), F(30)), binding=Binding(HEART, cut_width=width))
    assert not finished.problems
    assert not finished.faults()


def test_packages_are_those_in_print() -> None:
    """[92] BATT: 45x60, 72x90, 81x96 (or 84x96), 90x108, 120x120 (or 120x124): the smaller ones.

    The sixth in print, 34 x 45 for a crib, is left out: few shops have it.
    """
    sizes = [(int(p.short), int(p.long)) for p in PACKAGES_IN]
    assert sizes == [(45, 60), (72, 90), (81, 96), (90, 108), (120, 120)]


@pytest.mark.parametrize("beyond", [2, 3, 4])
def test_what_the_back_is_larger_by_is_a_setting(beyond: int) -> None:
    """[89] 2 to 3 (STC), 3 and 4 in on each side are all printed; ours is 4 if nothing is said."""
    stated = finished_with(design_of(F(20), F(30)), backing=Backing(WING, F(beyond)))
    assert stated.publication.backing is not None
    assert stated.publication.backing.width == 20 + 2 * beyond
    assert not stated.faults()
    usual = finished_with(design_of(F(20), F(30)), backing=Backing(WING)).publication.backing
    assert usual is not None
    assert usual.beyond == 4


@pytest.mark.parametrize(("percent", "lost"), [(3, F(27, 10)), (5, F(9, 2))])
def test_what_the_batting_is_larger_by_outlasts_its_shrinking(percent: int, lost: F) -> None:
    """[93] SHRK: cotton batting shrinks by 3 to 5 %; 5 % of 90 in are 4.5. [94] QC: quilting takes
    up 1 to 3 in overall. We print neither: 4 in on each side hold both up to 100 in."""
    batting = finished_with(design_of(F(82), F(82)), batting=Batting()).publication.batting
    assert batting is not None
    assert (batting.width, batting.width * percent / 100) == (90, lost)
    taken_up = 3
    assert 82 + lost + taken_up <= batting.width
    assert 2 * batting.beyond - taken_up == F(100 * 5, 100), "at 5 % of 100 in no more is left"
