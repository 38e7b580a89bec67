"""Borders of any size, seam and order pass both proofs; Shapely sews the same corners."""

from __future__ import annotations

from bites import shapely_differs
from finishing_samples import BORDERED, GOOSE, OF_GEESE, design_of, finish
from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import HEART, WATER

from pieceproof.layout import lay_out
from pieceproof.model import AnyBorder, Border, BorderOrder, Measure, MitredBorder

F = Fraction
SEAMS = {Measure.INCH: [F(1, 4), F(3, 8)], Measure.CENTIMETRE: [F(3, 4), F(7, 10)]}


@st.composite
def plain_borders(draw: st.DrawFn) -> tuple[Measure, Fraction, Fraction, tuple[AnyBorder, ...]]:
    """Measure, two sides and up to four borders; in centimetres on half ones, as the seam asks."""
    measure = draw(st.sampled_from(Measure))
    unit = F(1, 8) if measure is Measure.INCH else F(1, 2)

    def length(least: int, most: int) -> Fraction:
        return draw(st.integers(least * 8, most * 8)) * unit

    def border() -> AnyBorder:
        kind = draw(st.sampled_from(["mitred", "butted", "posts"]))
        if kind == "mitred":
            return MitredBorder(WATER, length(1, 6), draw(st.none() | st.just(length(2, 6))))
        posts = HEART if kind == "posts" else None
        return Border(WATER, length(1, 6), draw(st.sampled_from(BorderOrder)), posts)

    count = draw(st.integers(1, 3))
    return measure, length(2, 16), length(2, 16), tuple(border() for _ in range(count))


@settings(max_examples=40, deadline=None)
@given(plain_borders(), st.integers(0, 1))
def test_plain_borders_are_proved(
    sample: tuple[Measure, Fraction, Fraction, tuple[AnyBorder, ...]], which: int
) -> None:
    measure, width, height, borders = sample
    design = design_of(width, height, borders, measure, seam=SEAMS[measure][which])
    finished = finish(design)
    assert not finished.problems
    assert not finished.faults()
    assert not shapely_differs(finished.publication, finished.drawing)


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 12), st.integers(1, 12))
def test_units_that_fit_are_proved(across: int, down: int) -> None:
    finished = finish(design_of(F(3 * across), F(3 * down), (OF_GEESE,), units={"goose": GOOSE}))
    assert not finished.faults()
    made = {make.name: make for make in finished.publication.makes}
    assert made["goose"].wanted == 2 * (across + down)


@settings(max_examples=60, deadline=None)
@given(st.integers(8, 200), st.integers(8, 200))
def test_units_fit_exactly_where_they_divide_both_sides(width: int, height: int) -> None:
    design = design_of(F(width, 8), F(height, 8), (OF_GEESE,), units={"goose": GOOSE})
    problems = lay_out(design)[1]
    assert bool(problems) == bool(width % 24 or height % 24)


def test_the_samples_are_of_all_kinds() -> None:
    kinds = {type(border) for design in BORDERED.values() for border in design.borders}
    assert len(kinds) == 3
