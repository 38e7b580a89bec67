"""The template family the whole way: drawn, made, lettered, and sewn without a disagreement."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from judge import finished_makes, shows
from quicktions import Fraction
from template_units import BOTH_HANDS, FAMILIES, ONE, SAMPLES, SEAMS
from whole_path import build

from pieceproof.methods import method_of
from pieceproof.model import Measure
from pieceproof.shapes import area

SEAM = Fraction(1, 4)


@pytest.mark.parametrize("measure", Measure)
@pytest.mark.parametrize("family", FAMILIES)
@settings(max_examples=6, deadline=None)
@given(data=st.data())
def test_any_size_and_seam_fits(family: str, measure: Measure, data: st.DataObject) -> None:
    seam = data.draw(SEAMS[measure])
    lengths = st.integers(8, 120).map(lambda n: n * measure.step)
    unit = data.draw(FAMILIES[family](lengths))
    assume(method_of(unit).fault(unit, measure, seam) is None)
    size = method_of(unit).size(unit)
    turned = (ONE, BOTH_HANDS) if size.width == size.height else (ONE[:1], BOTH_HANDS[:2])
    cells = data.draw(st.sampled_from(turned))
    built = build(unit, measure, seam, cells)
    assert not built.problems
    assert not built.disagreements()


@pytest.mark.parametrize("name", SAMPLES)
def test_shapely_sews_the_same(name: str) -> None:
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, SEAM, cells)
    assert not built.disagreements()
    for make, things in finished_makes(built.publication).items():
        assert all(shows(thing, built.drawing.pictures[make]) for thing in things), make


@pytest.mark.parametrize("name", SAMPLES)
def test_patches_fill_the_unit(name: str) -> None:
    unit, _ = SAMPLES[name]
    size = method_of(unit).size(unit)
    outlines = [p.outline for p in method_of(unit).patches(unit) if p.layer == 0]
    assert sum((area(o) for o in outlines), Fraction(0)) == size.width * size.height
