"""Every method has all that a method must have, so that none is added by halves.

The samples are those whose every number the tests that bite change, and which Shapely sews
besides; the families are those that the property tests draw any size and seam from.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest
import strip_jobs
import strip_units
import template_units
import triangle_units
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from method_path import Sewn, sewn_unit
from pattern_designs import ROOT, designs
from quicktions import Fraction
from text_boxes import overlaps
from whole_path import Built, build

from pieceproof.compile import compile_pattern
from pieceproof.diagrams.making import making
from pieceproof.diagrams.subject import subject
from pieceproof.drawing.scene import Scene
from pieceproof.methods import METHODS
from pieceproof.methods.method import Method
from pieceproof.model import (
    Measure,
    Unit,
)
from pieceproof.problems import show_problem
from pieceproof.steps import Join, JoinEdges, Open, Trim, TrimToFoundation

QUARTER = Fraction(1, 4)
WIDTHS = (360, 900)

SEWN_IN_ONE_GO = {"plain patch"}
"""Methods without words or drawings of their own: a piece is used as it is cut."""

_TRIANGLES, _STRIPS = "test_cut_sizes_triangles.py::test_", "test_strip_geometry.py::test_"
_TEMPLATES = "test_template_shapes.py::test_"

OUTSIDE = {
    "plain patch": "test_cut_sizes.py::test_plain_patches",
    "half-square triangles": "test_cut_sizes.py::test_half_square_triangles_add_seven_eighths",
    "half-square triangles four at a time": _TRIANGLES + "four_at_a_time",
    "half-square triangles eight at a time": _TRIANGLES + "eight_at_a_time",
    "quarter-square triangles": _TRIANGLES + "quarter_square_triangles",
    "half-rectangle triangles": _TRIANGLES + "half_rectangles_keep_the_slant",
    "flying geese": "test_cut_sizes.py::test_flying_geese_by_stitch_and_flip",
    "flying geese four at a time": _TRIANGLES + "geese_four_at_a_time",
    "stitched corners": "test_cut_sizes.py::test_stitched_corners_of_a_floating_star",
    "square in square": _TRIANGLES + "corner_triangles_of_a_square_on_point",
    "log cabin": _STRIPS + "logs_are_cut_to_length",
    "courthouse steps": _STRIPS + "logs_are_cut_to_length",
    "strip sets": "test_strip_numbers.py::test_nine_patch_of_six_inches",
    "foundation piecing": _STRIPS + "pieces_on_a_foundation_are_an_inch_larger",
    "strings": _STRIPS + "strings_reach_from_corner_to_corner",
    "partial seams": _STRIPS + "strips_of_a_ring_reach_over_one_neighbour",
    "template patches": _TEMPLATES + "raw_edges_are_buffers_of_the_seam_lines",
    "eight-point star": _TEMPLATES + "a_star_of_45_degree_diamonds",
    "six-point star": _TEMPLATES + "a_star_of_60_degree_diamonds",
    "hexagons": _TEMPLATES + "a_hexagon_is_2a_high_and_root_3_a_wide",
    "quarter circle": _TEMPLATES + "quarter_circle_radii_and_area",
    "full circle": _TEMPLATES + "raw_edges_are_buffers_of_the_seam_lines",
    "applique": _TEMPLATES + "raw_edges_are_buffers_of_the_seam_lines",
    "sixty-degree triangles": _TEMPLATES + "a_triangle_with_equal_sides",
}
"""The test of each method against a value in print, a closed form or Shapely."""


def _folder(path: Path) -> str:
    return path.parent.name


@cache
def _kinds_tried() -> frozenset[type[Unit]]:
    """The classes of the units that the families of the property tests give."""
    lengths = st.integers(8, 120).map(lambda n: n * Measure.INCH.step)
    families = (*triangle_units.FAMILIES.values(), *template_units.FAMILIES.values())
    found: set[type[Unit]] = set()
    for units in (*(f(lengths) for f in families), strip_jobs.jobs.map(lambda job: job[0])):

        @settings(max_examples=40, phases=[Phase.generate], database=None, derandomize=True)
        @given(units)
        def collect(unit: Unit) -> None:
            found.add(type(unit))

        collect()
    return frozenset(found)


def _samples(method: Method) -> Iterator[Built | Sewn]:
    for unit, cells in (*triangle_units.SAMPLES.values(), *template_units.SAMPLES.values()):
        if isinstance(unit, method.design):
            yield build(unit, Measure.INCH, QUARTER, cells)
    for make in strip_units.UNITS.values():
        if isinstance(make(), method.design):
            yield sewn_unit(make(), Measure.INCH, QUARTER)


def _makings(sample: Built | Sewn) -> Iterator[tuple[int, Scene]]:
    drawn = subject(sample.design, sample.publication, sample.drawing)
    for make in sample.publication.makes:
        if make.method:
            yield from ((width, making(drawn, make.name, width)) for width in WIDTHS)


by_name: Mapping[str, Method] = {method.name: method for method in METHODS}
every_method = pytest.mark.parametrize("name", by_name)


@every_method
def test_it_has_a_sample_that_both_proofs_agree_on(name: str) -> None:
    samples = list(_samples(by_name[name]))
    assert samples
    assert not [d for sample in samples for d in sample.disagreements()]


@every_method
def test_its_size_and_seam_are_tried_at_random(name: str) -> None:
    assert by_name[name].design in _kinds_tried()


@pytest.mark.parametrize("name", sorted(set(by_name) - SEWN_IN_ONE_GO))
def test_its_making_is_drawn_and_can_be_read(name: str) -> None:
    scenes = [found for sample in _samples(by_name[name]) for found in _makings(sample)]
    assert scenes
    for width, scene in scenes:
        assert scene.title.startswith("Making unit")
        assert not overlaps(scene, width), scene.title


@pytest.mark.parametrize("name", sorted(set(by_name) - SEWN_IN_ONE_GO))
def test_it_has_words(name: str) -> None:
    folder = ROOT / "plugin" / "src" / "pieceproof" / "templates" / "steps"
    assert (folder / f"{name.replace(' ', '-')}.md").is_file()


@every_method
def test_it_is_checked_against_the_outside(name: str) -> None:
    file, _, function = OUTSIDE[name].partition("::")
    assert f"def {function}(" in (ROOT / "tests" / "external" / file).read_text("utf-8")


@pytest.mark.parametrize("name", sorted(set(by_name) - SEWN_IN_ONE_GO))
def test_its_words_say_to_press_and_to_trim_where_it_is_done(name: str) -> None:
    for sample in _samples(by_name[name]):
        for instruction in sample.instructions():
            if not instruction.make.method:
                continue
            words, steps = " ".join(instruction.steps).lower(), instruction.make.steps
            kinds = {type(step) for step in steps}
            assert "press" in words or not kinds & {Open, Join, JoinEdges}, instruction.make.name
            assert "trim" in words or not kinds & {Trim, TrimToFoundation}, instruction.make.name


@every_method
def test_a_pattern_uses_it(name: str) -> None:
    kind = by_name[name].design
    assert any(isinstance(unit, kind) for d in designs() for unit in d.units.values())


@pytest.mark.parametrize("path", sorted(ROOT.glob("tests/patterns/*/pattern.yaml")), ids=_folder)
def test_a_pattern_for_tests_is_proved(path: Path) -> None:
    found = compile_pattern(path.parent.name, {path.name: path.read_bytes()})
    assert [show_problem(problem, "") for problem in found.problems] == []
    assert found.sizes
