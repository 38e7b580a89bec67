"""Exact lengths: text, roots, comparison, ruler steps."""

import pytest
from quicktions import Fraction

from pieceproof.lengths import (
    ceil_to,
    floor_to,
    parse_length,
    show_decimal,
    show_exact,
    show_fraction,
    sign,
    square_root,
)

EIGHTH = Fraction(1, 8)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("10", Fraction(10)),
        ("3 1/4", Fraction(13, 4)),
        ("7/8", Fraction(7, 8)),
        ("2.5", Fraction(5, 2)),
        ("0.75", Fraction(3, 4)),
        (" 4 1/2 ", Fraction(9, 2)),
    ],
)
def test_reads_lengths_as_the_trade_writes_them(text: str, value: Fraction) -> None:
    assert parse_length(text) == value


@pytest.mark.parametrize("text", ["", "abc", "-1", "1/0", "3 1/0", "1e3", "3-1/4", "1 2", "nan"])
def test_refuses_anything_else(text: str) -> None:
    assert parse_length(text) is None


def test_shows_mixed_fractions_decimals_and_roots() -> None:
    assert show_fraction(Fraction(13, 4)) == "3 1/4"
    assert show_fraction(Fraction(-7, 8)) == "-7/8"
    assert show_fraction(Fraction(0)) == "0"
    assert show_decimal(Fraction(15, 2)) == "7.5"
    assert show_decimal(Fraction(40)) == "40"
    assert show_exact(Fraction(7, 2) + square_root(2) / 4) == "3 1/2 + 1/4 root 2"
    assert show_exact(3 - square_root(3)) == "3 - root 3"


def test_roots_that_cancel_give_plain_fractions() -> None:
    root = square_root(2)
    assert root * root == Fraction(2)
    assert root - root == 0
    assert (1 + root) * (1 - root) == Fraction(-1)
    assert 1 / (1 + root) == root - 1
    assert square_root(Fraction(9, 4)) == Fraction(3, 2)
    assert square_root(Fraction(1, 2)) == root / 2


def test_signs_are_decided_however_close() -> None:
    near = Fraction(1_414_213_562_373_095_048_801_688_724_209, 10**30)
    assert sign(square_root(2) - near) == 1
    assert sign(near - square_root(2)) == -1
    assert sign(square_root(2) * square_root(3) - square_root(6)) == 0


def test_rounds_to_the_ruler_exactly() -> None:
    assert ceil_to(Fraction(1, 4) * (2 + square_root(2)), EIGHTH) == Fraction(7, 8)
    assert ceil_to(Fraction(7, 8), EIGHTH) == Fraction(7, 8)
    assert floor_to(square_root(2), EIGHTH) == Fraction(11, 8)
    assert ceil_to(Fraction(-1, 16), EIGHTH) == 0
