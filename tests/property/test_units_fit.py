"""Triangles and templates the whole way: drawn, made, lettered, sewn without a disagreement."""

from __future__ import annotations

from dataclasses import replace

import pytest
import template_units
import triangle_units
from bites import shapely_differs
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import GROUND, HEART, WING, build

from pieceproof.lengths import floor_to, square_root
from pieceproof.methods import method_of
from pieceproof.methods.oversize import Oversized
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import Cell, Measure, Size, Unit
from pieceproof.shapes import area
from pieceproof.steps import Corner

SAMPLES = {**triangle_units.SAMPLES, **template_units.SAMPLES}


def check(unit: Unit, measure: Measure, seam: Fraction, cells: tuple[Cell, ...]) -> None:
    built = build(unit, measure, seam, cells)
    assert not built.problems
    assert not built.disagreements()


@pytest.mark.parametrize("measure", Measure)
@pytest.mark.parametrize("family", triangle_units.FAMILIES)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_any_triangles_fit(family: str, measure: Measure, data: st.DataObject) -> None:
    seam = data.draw(triangle_units.SEAMS[measure])
    lengths = triangle_units.on_the_ruler(measure.step, 8, 120)
    unit = data.draw(triangle_units.FAMILIES[family](lengths))
    if isinstance(unit, Oversized):
        unit = replace(unit, oversize=data.draw(st.integers(0, 6)) * measure.step / 2)
        assume(method_of(unit).fault(unit, measure, seam) is None)
    cells = data.draw(st.sampled_from((triangle_units.ONE, triangle_units.BOTH_HANDS)))
    check(unit, measure, seam, cells)


@pytest.mark.parametrize("measure", Measure)
@pytest.mark.parametrize("family", template_units.FAMILIES)
@settings(max_examples=6, deadline=None)
@given(data=st.data())
def test_any_templates_fit(family: str, measure: Measure, data: st.DataObject) -> None:
    seam = data.draw(template_units.SEAMS[measure])
    lengths = triangle_units.on_the_ruler(measure.step, 8, 120)
    unit = data.draw(template_units.FAMILIES[family](lengths))
    assume(method_of(unit).fault(unit, measure, seam) is None)
    size, one, both = method_of(unit).size(unit), template_units.ONE, template_units.BOTH_HANDS
    turned = (one, both) if size.width == size.height else (one[:1], both[:2])
    check(unit, measure, seam, data.draw(st.sampled_from(turned)))


@pytest.mark.parametrize("name", SAMPLES)
def test_shapely_sews_the_same(name: str) -> None:
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, Fraction(1, 4), cells)
    assert not built.disagreements()
    assert not shapely_differs(built.publication, built.drawing)


@pytest.mark.parametrize("name", template_units.SAMPLES)
def test_patches_fill_the_unit(name: str) -> None:
    unit, _ = SAMPLES[name]
    size = method_of(unit).size(unit)
    outlines = [p.outline for p in method_of(unit).patches(unit) if p.layer == 0]
    assert sum((area(o) for o in outlines), Fraction(0)) == size.width * size.height


@pytest.mark.parametrize("measure", Measure)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_any_bonus_fits(measure: Measure, data: st.DataObject) -> None:
    """Two corners that do not meet; a bonus of any size that the offcut has room for."""
    seam, step = data.draw(triangle_units.SEAMS[measure]), measure.step
    legs = [data.draw(triangle_units.on_the_ruler(step, 10, 60)) for _ in range(2)]
    places = data.draw(st.lists(st.sampled_from(Corner), min_size=2, max_size=2, unique=True))
    corners = {}
    for place, leg in zip(places, legs, strict=True):
        most = floor_to(leg + 2 * seam - 2 * seam * square_root(2), step) - 2 * seam
        steps = int(most / step)
        bonus = most - data.draw(st.integers(0, max(0, steps - 1))) * step if steps > 0 else None
        corners[place] = StitchedCorner(data.draw(st.sampled_from((WING, HEART))), leg, bonus)
    unit = StitchedCorners(Size(sum(legs), sum(legs) + step), GROUND, corners)
    check(unit, measure, seam, (Cell("unit"), Cell("unit", 0, True)))
