"""The bench with random sizes and seams: right numbers pass, and Shapely sews the same cloth."""

from __future__ import annotations

import pytest
from bench_samples import (
    INCH_SAMPLES,
    Sample,
    flying_geese,
    half_square_triangles,
    hourglasses,
    nine_patch,
    stitched_corners,
)
from bites import shapely_differs
from hypothesis import given, settings
from hypothesis import strategies as st
from judge import is_same_cloth
from mutate import mutations
from quicktions import Fraction

from pieceproof.bench import prove
from pieceproof.bench.table import Face, Flat, cloth, covered, cut_faces, flat, turned, turned_over
from pieceproof.shapes import Line, rectangle

# Seams as sewn: 1/4 and 3/8 in; 0.75 cm in Germany, others 6 mm or 0.7 cm (forum pages).
SEAMS = st.sampled_from([Fraction(1, 4), Fraction(3, 8), Fraction(3, 4), Fraction(3, 5)])


def sizes(least: int, most: int) -> st.SearchStrategy[Fraction]:
    """Finished sizes in quarters, so that half of them lies on an inch ruler."""
    return st.integers(4 * least, 4 * most).map(lambda n: Fraction(n, 4))


def on_the_ruler(size: Fraction, seam: Fraction) -> Fraction:
    """The size on the grid of the seam's measure: quarters of an inch or half centimetres."""
    return size if (8 * seam).denominator == 1 else Fraction(int(2 * size), 2)


@st.composite
def samples(draw: st.DrawFn) -> Sample:
    """Any of the units in any size."""
    seam = draw(SEAMS)
    side = on_the_ruler(draw(sizes(1, 12)), seam)
    maker = draw(st.sampled_from([nine_patch, half_square_triangles, hourglasses, flying_geese]))
    return maker(side, seam)


@settings(max_examples=60, deadline=None)
@given(samples())
def test_right_numbers_pass(sample: Sample) -> None:
    assert prove(*sample) == ()


@settings(max_examples=30, deadline=None)
@given(sizes(1, 6), sizes(0, 6), sizes(0, 6), SEAMS)
def test_stitched_corners_pass(
    leg: Fraction, more: Fraction, still_more: Fraction, seam: Fraction
) -> None:
    leg, more, still_more = (on_the_ruler(v, seam) for v in (leg, more, still_more))
    if more + still_more == 0:
        more = Fraction(1)
    assert prove(*stitched_corners(leg + more, leg + still_more, leg, seam)) == ()


@settings(max_examples=40, deadline=None)
@given(samples(), st.randoms(use_true_random=False))
def test_one_changed_number_does_not_pass(sample: Sample, random: object) -> None:
    publication, drawing = sample
    change = random.choice(list(mutations(publication)))  # type: ignore[attr-defined]
    same = change.is_direction and is_same_cloth(publication, change.publication)
    assert bool(prove(change.publication, drawing)) != same, (change.path, change.change)


@pytest.mark.parametrize("name", INCH_SAMPLES)
def test_an_outside_library_sews_the_same(name: str) -> None:
    publication, drawing = INCH_SAMPLES[name]()
    assert not shapely_differs(publication, drawing)


ROUGH = st.fractions(-4, 4, max_denominator=8)


@given(st.fractions(1, 5, max_denominator=8), st.fractions(1, 5, max_denominator=8), ROUGH, ROUGH)
def test_cutting_apart_loses_no_cloth(w: Fraction, h: Fraction, a: Fraction, c: Fraction) -> None:
    line = Line(a, Fraction(1), c)
    faces = cloth("red", "A", w, h).faces
    assert covered(cut_faces(faces, line)) + covered(cut_faces(faces, line.flipped())) == w * h


@given(st.integers(0, 7), st.fractions(1, 5, max_denominator=8))
def test_turning_over_reverses_turning(turns: int, side: Fraction) -> None:
    halves: Flat = flat(
        (
            Face("red", "A", rectangle(side, side)),
            Face("blue", "B", rectangle(side, 2 * side, (side, Fraction(0)))),
        )
    )
    there = turned_over(turned(halves, turns))
    back = turned(turned_over(halves), -turns)
    assert {(f.fabric, frozenset(f.outline)) for f in there.faces} == {
        (f.fabric, frozenset(f.outline)) for f in back.faces
    }
