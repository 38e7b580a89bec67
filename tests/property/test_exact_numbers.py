"""Surds obey the laws of arithmetic and agree with high-precision decimals (an outside library)."""

from decimal import Decimal, getcontext

from hypothesis import given
from hypothesis import strategies as st
from quicktions import Fraction

from pieceproof.lengths import Number, Surd, ceil_to, floor_to, side_sign, sign, square_root

getcontext().prec = 60

fractions = st.fractions(min_value=-50, max_value=50, max_denominator=64)


@st.composite
def numbers(draw: st.DrawFn) -> Number:
    total: Number = draw(fractions)
    for radicand in (2, 3, 6):
        total = total + draw(fractions) * square_root(radicand)
    return total


def as_decimal(value: Number) -> Decimal:
    terms = value.terms if isinstance(value, Surd) else ((1, value),)
    return sum(
        (Decimal(c.numerator) / Decimal(c.denominator) * Decimal(n).sqrt() for n, c in terms),
        Decimal(0),
    )


@given(numbers(), numbers(), numbers())
def test_arithmetic_laws(a: Number, b: Number, c: Number) -> None:
    assert a + b == b + a
    assert a * (b + c) == a * b + a * c
    assert (a - b) + b == a
    if sign(b) != 0:
        assert (a / b) * b == a


@given(numbers(), numbers())
def test_order_agrees_with_decimals(a: Number, b: Number) -> None:
    difference = as_decimal(a) - as_decimal(b)
    if abs(difference) > Decimal("1e-40"):
        assert (a < b) == (difference < 0)
    else:
        assert a == b


@given(numbers(), numbers(), numbers(), st.sampled_from([-1, 0, 1]))
def test_a_point_beside_a_line_is_told_from_one_on_it(
    a: Number, x: Number, y: Number, by: int
) -> None:
    """Also where it lies a 2**-90th part off, far below what a float can tell."""
    through = a * x + square_root(2) * y
    assert side_sign(a, x, square_root(2), y, through - by * Fraction(1, 2**90)) == by
    assert side_sign(a, x, square_root(2), y, through - by) == by


@given(numbers(), st.sampled_from([Fraction(1, 8), Fraction(1, 10), Fraction(9, 2)]))
def test_steps_enclose_the_value(a: Number, step: Fraction) -> None:
    low, high = floor_to(a, step), ceil_to(a, step)
    assert low <= a <= high
    assert high - low in (0, step)
    assert (low / step).denominator == 1
