"""A wider seam never makes anything larger."""

from __future__ import annotations

from itertools import pairwise

import pytest
from bench_samples import INCH_SAMPLES, stitched_corners
from examples import EXAMPLES, publish_one
from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction

from pieceproof.bench.error import outcomes, yardstick
from pieceproof.published import Publication

F = Fraction
SAMPLES: dict[str, Publication] = {
    **{name: publish_one(EXAMPLES[name]())[1] for name in ("runner", "place mat")},
    **{
        name: INCH_SAMPLES[name]()[0]
        for name in ("nine patch", "half-square triangles", "flying geese", "star", "sashed top")
    },
}


def check_shrinking(publication: Publication, errors: list[Fraction]) -> None:
    found = outcomes(yardstick(publication), sorted(errors))
    for narrow, wide in pairwise(found):
        for before, after in zip(narrow.sizes, wide.sizes, strict=True):
            assert after.width <= before.width
            assert after.height <= before.height


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_samples_shrink(name: str) -> None:
    seam = SAMPLES[name].seam
    check_shrinking(SAMPLES[name], [seam * F(n, 8) for n in (-3, -1, 0, 1, 2, 4)])


@settings(max_examples=20, deadline=None)
@given(
    width=st.integers(16, 40),
    leg=st.integers(4, 16),
    errors=st.lists(st.integers(-12, 12), min_size=2, max_size=4, unique=True),
)
def test_rectangles_with_a_corner_shrink(width: int, leg: int, errors: list[int]) -> None:
    publication, _ = stitched_corners(F(width, 8), F(40, 8), F(leg, 8))
    check_shrinking(publication, [F(n, 64) for n in errors])
