"""Strips, logs and foundations: finished patches fill the unit, and any size sews as drawn.

Every unit is taken the whole way: drawn, cut, lettered, sewn on the bench.
"""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from judge import is_same_cloth
from method_path import sewn_unit
from mutate import mutations
from quicktions import Fraction
from shapely import union_all
from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from strip_jobs import Job, jobs

from pieceproof.bench import prove
from pieceproof.methods import method_of
from pieceproof.model import Cell, Size
from pieceproof.shapes import area


@settings(max_examples=60, deadline=None)
@given(jobs)
def test_patches_fill_the_unit(job: Job) -> None:
    unit = job[0]
    method = method_of(unit)
    pictures = [(method.size(unit), method.patches(unit))]
    pictures += [(Size(p.width, p.height), p.patches) for p in method.parts(unit)]
    for size, patches in pictures:
        outlines = [patch.outline for patch in patches]
        assert sum((area(o) for o in outlines), Fraction(0)) == size.width * size.height
        shapes = [Shape([(float(x), float(y)) for x, y in o]) for o in outlines]
        whole = union_all(shapes)
        assert abs(whole.area - float(size.width * size.height)) < 1e-6
        assert whole.difference(box(0, 0, float(size.width), float(size.height))).area < 1e-6


@settings(max_examples=25, deadline=None)
@given(jobs, st.integers(1, 9), st.booleans())
def test_any_size_sews_as_drawn(job: Job, count: int, mirrored: bool) -> None:
    cells = (*(Cell("unit", turn % 2 * 2) for turn in range(count)), Cell("unit", 0, mirrored))
    assert sewn_unit(*job, cells).disagreements() == []


@settings(max_examples=25, deadline=None)
@given(jobs, st.randoms(use_true_random=False))
def test_one_changed_number_does_not_pass(job: Job, random: object) -> None:
    """Unless the judge sees the same cloth; the bench may still mind, as where a piece turned on a
    foundation covers its section but no longer with the margin of the rule."""
    built = sewn_unit(*job)
    change = random.choice(list(mutations(built.publication)))  # type: ignore[attr-defined]
    same = change.is_direction and is_same_cloth(built.publication, change.publication)
    assert prove(change.publication, built.drawing) or same, (change.path, change.change)
