"""The triangle family the whole way: drawn, made, lettered, and sewn without a disagreement."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from judge import finished_makes, shows
from quicktions import Fraction
from triangle_units import BOTH_HANDS, FAMILIES, ONE, SAMPLES, SEAMS, on_the_ruler
from whole_path import GROUND, HEART, WING, build

from pieceproof.lengths import floor_to, square_root
from pieceproof.methods import method_of
from pieceproof.methods.oversize import Oversized
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import Cell, Measure, Size
from pieceproof.steps import Corner

SEAM = Fraction(1, 4)


@pytest.mark.parametrize("measure", Measure)
@pytest.mark.parametrize("family", FAMILIES)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_any_size_and_seam_fits(family: str, measure: Measure, data: st.DataObject) -> None:
    seam = data.draw(SEAMS[measure])
    unit = data.draw(FAMILIES[family](on_the_ruler(measure.step, 8, 120)))
    if isinstance(unit, Oversized):
        unit = replace(unit, oversize=data.draw(st.integers(0, 6)) * measure.step / 2)
        assume(method_of(unit).fault(unit, measure, seam) is None)
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


@pytest.mark.parametrize("measure", Measure)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_any_bonus_fits(measure: Measure, data: st.DataObject) -> None:
    """Two corners that do not meet; a bonus of any size that the offcut has room for."""
    seam, step = data.draw(SEAMS[measure]), measure.step
    legs = [data.draw(on_the_ruler(step, 10, 60)) for _ in range(2)]
    places = data.draw(st.lists(st.sampled_from(Corner), min_size=2, max_size=2, unique=True))
    corners = {}
    for place, leg in zip(places, legs, strict=True):
        most = floor_to(leg + 2 * seam - 2 * seam * square_root(2), step) - 2 * seam
        steps = int(most / step)
        bonus = most - data.draw(st.integers(0, max(0, steps - 1))) * step if steps > 0 else None
        corners[place] = StitchedCorner(data.draw(st.sampled_from((WING, HEART))), leg, bonus)
    unit = StitchedCorners(Size(sum(legs), sum(legs) + step), GROUND, corners)
    built = build(unit, measure, seam, (Cell("unit"), Cell("unit", 0, True)))
    assert not built.problems
    assert not built.disagreements()
