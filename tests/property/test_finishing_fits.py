"""Finishing of any size passes both proofs; the square of a bias binding is the least that does."""

from __future__ import annotations

from finishing_samples import design_of, finished_with
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import HEART, WATER, WING

from pieceproof.bench.bias import bias_strip
from pieceproof.bias import square_for, strip_length
from pieceproof.model import (
    Backing,
    Batting,
    Binding,
    BindingFold,
    BindingGrain,
    Measure,
    MiddleSeam,
    Sleeve,
)

F = Fraction
EIGHTHS = st.integers(8, 40).map(lambda n: F(n, 8))


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 60), EIGHTHS, st.sampled_from([F(1, 4), F(3, 8), F(3, 4)]))
def test_both_sides_measure_one_strip(side: int, width: Fraction, seam: Fraction) -> None:
    assert strip_length(F(side), width, seam) == bias_strip(F(side), width, seam)
    assert strip_length(F(side), width, seam) <= F(side * side) / width


@settings(max_examples=60, deadline=None)
@given(st.integers(20, 500), EIGHTHS)
def test_the_square_is_the_least_that_gives_the_strip(length: int, width: Fraction) -> None:
    side = square_for(F(length), width, F(1, 4))
    assert bias_strip(side, width, F(1, 4)) >= length > bias_strip(side - 1, width, F(1, 4))


@settings(max_examples=50, deadline=None)
@given(
    st.integers(24, 400),
    st.integers(24, 400),
    st.sampled_from(Measure),
    st.sampled_from(BindingFold),
    st.sampled_from(BindingGrain),
    st.sampled_from(MiddleSeam),
    st.integers(1, 4),
)
def test_finishing_is_proved(
    width: int,
    height: int,
    measure: Measure,
    fold: BindingFold,
    grain: BindingGrain,
    middle: MiddleSeam,
    quantity: int,
) -> None:
    unit = F(1, 8) if measure is Measure.INCH else F(1, 5)
    finished = finished_with(
        design_of(width * unit, height * unit, measure=measure),
        binding=Binding(HEART, fold, grain),
        backing=Backing(WING, middle_seam=middle),
        batting=Batting(),
        sleeve=Sleeve(WATER, shorter=F(1)),
        quantity=quantity,
    )
    assume(not finished.problems)
    assert not finished.faults()
