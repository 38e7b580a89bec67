"""Texts to values, and what is suggested where that fails."""

import pytest
from quicktions import Fraction

from pieceproof.model import NOWHERE, Cell, Colour, Size
from pieceproof.scalars import (
    name_complaint,
    read_cell,
    read_colour,
    read_count,
    read_length,
    read_size,
)


@pytest.mark.parametrize(
    ("text", "length"),
    [("10", 10), ("3 1/4", Fraction(13, 4)), ("7/8", Fraction(7, 8)), ("2.5", Fraction(5, 2))],
)
def test_lengths(text: str, length: Fraction) -> None:
    assert read_length(text, zero=False) == (length, None)


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ('3 1/4"', "3 1/4"),
        ("3-1/4", "3 1/4"),
        ("3 - 1/4", "3 1/4"),
        ("3 and 1/4", "3 1/4"),
        ("3¼", "3 1/4"),
        ("¾", "3/4"),
        ("3 1 / 4", "3 1/4"),
        ("2,5 cm", "2.5"),
        (".5", "0.5"),
        ("10in", "10"),
        ("10 inches", "10"),
        ("4″", "4"),
    ],
)
def test_lengths_as_people_write_them_are_recognised(text: str, near: str) -> None:
    complaint = read_length(text, zero=False)[1]
    assert complaint is not None
    assert complaint.remedy.startswith(f"write `{near}`;")


@pytest.mark.parametrize("text", ["1/0", "two", "1e3", "٣", "3 1/", "9" * 5000, "1 1/2 1/2", "x"])
def test_other_texts_are_no_lengths(text: str) -> None:
    complaint = read_length(text, zero=False)[1]
    assert complaint is not None
    assert complaint.code == "bad-length"


def test_zero_only_where_it_makes_sense() -> None:
    assert read_length("0", zero=True) == (0, None)
    assert read_length("0", zero=False)[1] is not None


@pytest.mark.parametrize("text", ["4 1/2 x 2 3/4", "4 1/2x2 3/4", "4.5  x  2.75"])
def test_sizes(text: str) -> None:
    assert read_size(text) == (Size(Fraction(9, 2), Fraction(11, 4)), None)


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ('4" x 2 1/2"', "4 x 2 1/2"),
        ("4 × 2½", "4 x 2 1/2"),
        ("4 by 2", "4 x 2"),
        ("4 X 2", "4 x 2"),
        ("4", "4 x 4"),
    ],
)
def test_sizes_as_people_write_them_are_recognised(text: str, near: str) -> None:
    complaint = read_size(text)[1]
    assert complaint is not None
    assert f"`{near}`" in complaint.remedy


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("point", Cell("point")),
        ("point mirrored", Cell("point", 0, True)),
        ("point turned 3", Cell("point", 3)),
        ("wide point mirrored turned 1", Cell("wide point", 1, True)),
    ],
)
def test_cells(text: str, cell: Cell) -> None:
    assert read_cell(text, NOWHERE) == (cell, None)


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("point turned right", "point turned 1"),
        ("point turned 180", "point turned 2"),
        ("point turned 4", "point"),
        ("point turned 1 mirrored", "point mirrored turned 1"),
        ("point rotated 270", "point turned 3"),
        ("point turned 1 2", ""),
        ("turned 1", ""),
        ("point turned", ""),
    ],
)
def test_cells_as_people_write_them_are_recognised(text: str, near: str) -> None:
    complaint = read_cell(text, NOWHERE)[1]
    assert complaint is not None
    assert complaint.remedy == (f"write `{near}`" if near else complaint.remedy)
    assert complaint.remedy.startswith("write" if near else "count")


def test_colours_are_lower_case() -> None:
    assert read_colour("#B5532F") == (Colour("#b5532f"), None)


@pytest.mark.parametrize("text", ["0", "101", "-1", "5.0", "five", "9" * 400, "٣", ""])
def test_counts_are_whole_and_within_reach(text: str) -> None:
    complaint = read_count(text, 100)[1]
    assert complaint is not None


@pytest.mark.parametrize("name", ["a", "star", "night-crossing", "star 2", "wide point"])
def test_names(name: str) -> None:
    assert name_complaint(name) is None


@pytest.mark.parametrize(
    "name", ["", "Star", "2 star", "a  b", "a_b", "é", " a", "a-", "a" * 41, "yes", "point turned"]
)
def test_other_words_are_no_names(name: str) -> None:
    assert name_complaint(name) is not None
