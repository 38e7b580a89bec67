"""The triangle family the whole way: drawn, made, lettered, and sewn without a disagreement."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from judge import finished_makes, shows
from triangle_units import BOTH_HANDS, FAMILIES, ONE, SAMPLES, SEAMS, on_the_ruler
from whole_path import build

from pieceproof.model import Measure

SEAM = Fraction(1, 4)


@pytest.mark.parametrize("measure", Measure)
@pytest.mark.parametrize("family", FAMILIES)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_any_size_and_seam_fits(family: str, measure: Measure, data: st.DataObject) -> None:
    seam = data.draw(SEAMS[measure])
    unit = data.draw(FAMILIES[family](on_the_ruler(measure.step, 8, 120)))
    cells = data.draw(st.sampled_from((ONE, BOTH_HANDS)))
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
