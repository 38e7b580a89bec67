"""The clearance worked out from the drawing is what the sewn cloth shows."""

from __future__ import annotations

from collections import Counter

import pytest
import triangle_units
from bench_samples import INCH_SAMPLES, flying_geese, half_square_triangles, stitched_corners
from examples import EXAMPLES, design_of_corners, publish_one
from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import build

from pieceproof.bench.points import spots
from pieceproof.bench.table import Flat, pared, turned
from pieceproof.bench.watch import sewn_makes
from pieceproof.model import Measure
from pieceproof.published import Drawing, Make, Publication
from pieceproof.shapes import Point
from pieceproof.steps import Side
from pieceproof.tips import Tip, picture_tips

F = Fraction
TO_TOP = {Side.TOP: 0, Side.LEFT: 1, Side.BOTTOM: 2, Side.RIGHT: 3}
FINENESS = F(1, 4096)

SAMPLES: dict[str, tuple[Publication, Drawing]] = {
    **{name: publish_one(example())[1:] for name, example in EXAMPLES.items()},
    **{name: sample() for name, sample in INCH_SAMPLES.items()},
    **{
        f"triangles: {name}": (built.publication, built.drawing)
        for name, (unit, cells) in triangle_units.SAMPLES.items()
        for built in [build(unit, Measure.INCH, F(1, 4), cells)]
    },
    "metric geese": flying_geese(F(5), F(3, 4)),
    "metric triangles": half_square_triangles(F(8), F(3, 4)),
}


def units(publication: Publication) -> list[Make]:
    return [make for make in publication.makes if make.method]


def check_unit(publication: Publication, drawing: Drawing, make: Make) -> None:
    """Same tips, same distances; and each is whole exactly up to its clearance."""
    seam = publication.seam
    thing = sewn_makes(publication, publication.makes[:-1])[make.name]
    drawn = picture_tips(drawing.pictures[make.name], seam, 2 * seam)
    sewn = spots(thing, seam, 2 * seam)
    assert Counter((t.fabric, t.toward, t.clearance) for t in drawn) == Counter(
        (s.fabric, s.toward, s.clearance) for s in sewn
    )
    for tip in drawn:
        if tip.clearance >= 0:
            assert 0 <= tip.clearance - widest(thing, tip, seam) < FINENESS


def widest(thing: Flat, tip: Tip, seam: Fraction) -> Fraction:
    """The largest extra seam, to `FINENESS`, at which the sewn unit still comes to that point."""
    low, high = F(0), 3 * seam
    while high - low >= FINENESS:
        middle = (low + high) / 2
        low, high = (middle, high) if is_whole(thing, tip, seam, middle) else (low, middle)
    return low


def is_whole(thing: Flat, tip: Tip, seam: Fraction, extra: Fraction) -> bool:
    """Whether the point still shows when the seam on its side is sewn that much wider."""
    turns = TO_TOP[tip.toward]
    upright = turned(thing, turns)
    faces = pared(upright, seam, seam + extra, seam, seam)
    place = turned_place(thing, tip.at, turns, seam)
    return any(place in f.outline for f in faces if f.fabric == tip.fabric)


def turned_place(thing: Flat, at: Point, turns: int, seam: Fraction) -> Point:
    """A place of the finished drawing on the unfinished thing, turned with it."""
    x, y = at[0] + seam, at[1] + seam
    width, height = thing.width, thing.height
    for _ in range(turns):
        x, y, width, height = height - y, x, height, width
    return x, y


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_tips_of_samples(name: str) -> None:
    publication, drawing = SAMPLES[name]
    for make in units(publication):
        check_unit(publication, drawing, make)


@settings(max_examples=30, deadline=None)
@given(side=st.integers(16, 48), leg=st.integers(6, 48))
def test_tips_of_a_square_with_four_corners(side: int, leg: int) -> None:
    size, corner = F(side, 8), F(min(leg, side), 8)
    _, publication, drawing = publish_one(design_of_corners(size, corner))
    for make in units(publication):
        check_unit(publication, drawing, make)


@settings(max_examples=30, deadline=None)
@given(width=st.integers(16, 48), height=st.integers(16, 48), leg=st.integers(6, 48))
def test_tips_of_a_rectangle_with_one_corner(width: int, height: int, leg: int) -> None:
    least = min(width, height, leg)
    publication, drawing = stitched_corners(F(width, 8), F(height, 8), F(least, 8))
    for make in units(publication):
        check_unit(publication, drawing, make)
