"""Strips, logs and foundations against published numbers. The source stands beside each value.

APQ: American Patchwork & Quilting (magazine pages). SEAM: seam test of a quilting site. QB: a
quilting board's worked example. HARR: a yardage article. L4: Lesson 4, yardage (teaching handout).
"""

import pytest
from quicktions import Fraction

from pieceproof.lengths import parse_length
from pieceproof.methods import strip_sets
from pieceproof.methods.method import Workroom
from pieceproof.methods.strip_sets import StripSets
from pieceproof.model import FabricName, Value
from pieceproof.published import Patch
from pieceproof.steps import CrossCut

LIGHT, DARK = FabricName("light"), FabricName("dark")
VALUES = {"light": Value.LIGHT, "dark": Value.DARK}
QUARTER, HALF = Fraction(1, 4), Fraction(1, 2)


def length(text: str) -> Fraction:
    value = parse_length(text)
    assert value is not None
    return value


def room(usable: str) -> Workroom:
    """Quarter-inch seams and cloth of this width; 1/2 in to square up: common practice."""
    return Workroom(QUARTER, Fraction(1, 8), VALUES, length(usable), HALF)


def row(count: int, finished: str) -> StripSets:
    size = length(finished)
    return StripSets(((LIGHT, DARK) * (count // 2) + (LIGHT,) * (count % 2),), (size,), (size,))


def test_nine_patch_of_six_inches() -> None:
    """APQ: five and four squares of 2 1/2 in make a block of 6 1/2 in unfinished."""
    odd, even = (DARK, LIGHT, DARK), (LIGHT, DARK, LIGHT)
    unit = StripSets((odd, even, odd), (Fraction(2),), (Fraction(2),))
    patches: tuple[Patch, ...] = strip_sets.METHOD.patches(unit)
    assert [sum(p.fabric == f for p in patches) for f in (DARK, LIGHT)] == [5, 4]
    recipe = strip_sets.METHOD.recipe(unit, room("40"))
    assert {cut.width for part in recipe.parts.values() for cut in part.cuts} == {length("2 1/2")}
    cuts = [s for part in recipe.parts.values() for s in part.steps if isinstance(s, CrossCut)]
    assert {cut.width for cut in cuts} == {length("2 1/2")}
    assert strip_sets.METHOD.size(unit).width + 2 * QUARTER == length("6 1/2")


def test_three_strips_sewn_together() -> None:
    """SEAM: three strips of 1 1/2 in give 3 1/2 in, the middle one shows 1 in."""
    unit = row(3, "1")
    recipe = strip_sets.METHOD.recipe(unit, room("40"))
    assert {cut.width for cut in recipe.cuts} == {length("1 1/2")}
    assert strip_sets.METHOD.size(unit).width + 2 * QUARTER == length("3 1/2")


@pytest.mark.parametrize(
    ("finished", "usable", "segments"),
    [
        ("9", "42", 4),  # QB: squares of 9 1/2 in, four from a strip of 42
        ("3", "44", 12),  # HARR: squares of 3 1/2 in, twelve from a strip of 44
        ("4 1/2", "42", 8),  # L4: eight squares of 5 in from one strip
    ],
)
def test_segments_from_a_strip(finished: str, usable: str, segments: int) -> None:
    recipe = strip_sets.METHOD.recipe(row(2, finished), room(usable))
    assert recipe.each == segments


def test_squaring_up_is_counted() -> None:
    """QB cuts eight 5 in squares from 40 in with nothing to square up; we leave room for it."""
    assert strip_sets.METHOD.recipe(row(2, "4 1/2"), room("40")).each == 7
