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

QUARTER = Fraction(1, 4)
WIDTHS = (360, 900)

SEWN_IN_ONE_GO = {"plain patch"}
"""Methods without words or drawings of their own: a piece is used as it is cut."""

OUTSIDE = {
    "plain patch": "L1",
    "half-square triangles": "NHQ",
    "half-square triangles four at a time": "common practice",
    "half-square triangles eight at a time": "HST8",
    "quarter-square triangles": "NHQ",
    "flying geese": "common practice",
    "flying geese four at a time": "BEV",
    "square in square": "DARW",
    "strip sets": "APQ",
    "hexagons": "closed form",
    "eight-point star": "closed form",
}
"""Methods with a published value or a closed form to check against, and where that is from."""


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


@pytest.mark.parametrize("name", OUTSIDE)
def test_it_is_checked_against_the_outside(name: str) -> None:
    """The class is named in a test with outside values; the values stand there."""
    texts = [path.read_text("utf-8") for path in (ROOT / "tests" / "external").glob("*.py")]
    assert any(by_name[name].design.__name__ in text for text in texts), OUTSIDE[name]


@every_method
def test_a_pattern_uses_it(name: str) -> None:
    kind = by_name[name].design
    assert any(isinstance(unit, kind) for d in designs() for unit in d.units.values())


@pytest.mark.parametrize("path", sorted(ROOT.glob("tests/patterns/*/pattern.yaml")), ids=_folder)
def test_a_pattern_for_tests_is_proved(path: Path) -> None:
    found = compile_pattern(path.parent.name, {path.name: path.read_bytes()})
    assert [show_problem(problem, "") for problem in found.problems] == []
    assert found.sizes
