"""Strips, logs and foundations: finished patches fill the unit, and any size sews as drawn.

Every unit is taken the whole way: drawn, cut, lettered, sewn on the bench.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from judge import is_same_cloth
from method_path import CLAY, FABRICS, sewn_unit
from mutate import mutations
from quicktions import Fraction
from shapely import union_all
from shapely.geometry import Polygon as Shape
from shapely.geometry import box

from pieceproof.bench import prove
from pieceproof.methods import foundation_piecing, method_of
from pieceproof.methods import strings as strings_method
from pieceproof.methods.courthouse_steps import CourthouseSteps
from pieceproof.methods.foundation_piecing import (
    FoundationPiecing,
    FoundationPoint,
    FoundationSection,
    Toward,
)
from pieceproof.methods.log_cabin import LogCabin
from pieceproof.methods.logs import Logs, LogUnit
from pieceproof.methods.partial_seams import PartialSeams, RingStrip
from pieceproof.methods.strings import Strings, StringStrip
from pieceproof.methods.strip_sets import StripSets
from pieceproof.model import Cell, FabricName, Measure, Size, Unit
from pieceproof.shapes import area

Job = tuple[Unit, Measure, Fraction]
"""A unit, the pattern's ruler and its seam allowance."""

fabrics = st.sampled_from([FabricName(name) for name in FABRICS])


@st.composite
def rulers(draw: st.DrawFn) -> tuple[Measure, Fraction]:
    """Inches with seams of 1/8 to 1/2, centimetres with seams of 0.3 to 1.3."""
    if draw(st.booleans()):
        return Measure.INCH, Fraction(draw(st.integers(2, 8)), 16)
    return Measure.CENTIMETRE, Fraction(draw(st.integers(6, 26)), 20)


def sizes(ruler: Measure, most: int = 6) -> st.SearchStrategy[Fraction]:
    """Finished sizes on the ruler, inches up to ``most`` or as many double centimetres."""
    step = ruler.step
    least = int(Fraction(1, 2) / step) if ruler is Measure.INCH else int(1 / step)
    top = most if ruler is Measure.INCH else 2 * most
    return st.integers(least, int(top / step)).map(lambda n: n * step)


@st.composite
def log_units(draw: st.DrawFn) -> Job:
    ruler, seam = draw(rulers())
    rounds = draw(st.integers(1, 5))
    half = draw(st.integers(0, 1)) if rounds > 1 else 0
    width = sizes(ruler, 3)

    def logs(count: int) -> Logs:
        many = draw(st.sampled_from([1, count]))
        names = draw(st.lists(fabrics, min_size=count, max_size=count))
        return Logs(tuple(names), tuple(draw(st.lists(width, min_size=many, max_size=many))))

    kind: type[LogUnit] = draw(st.sampled_from([LogCabin, CourthouseSteps]))
    centre = Size(draw(width), draw(width))
    return kind(CLAY, centre, logs(rounds), logs(rounds - half)), ruler, seam


@st.composite
def strip_sets(draw: st.DrawFn) -> Job:
    ruler, seam = draw(rulers())
    across, down = draw(st.integers(2, 5)), draw(st.integers(1, 4))
    row = st.lists(fabrics, min_size=across, max_size=across).map(tuple)
    rows = tuple(draw(st.lists(row, min_size=down, max_size=down)))

    def lengths(count: int) -> tuple[Fraction, ...]:
        many = draw(st.sampled_from([1, count]))
        return tuple(draw(st.lists(sizes(ruler), min_size=many, max_size=many)))

    return StripSets(rows, lengths(across), lengths(down)), ruler, seam


@st.composite
def foundations(draw: st.DrawFn) -> Job:
    """Lines through points on a grid; one that would leave a section bare is left out."""
    ruler, seam = draw(rulers())
    size = Size(draw(sizes(ruler, 5)), draw(sizes(ruler, 5)))
    eighths = st.integers(0, 8)
    points = {
        f"p{number}": FoundationPoint(*(side * draw(eighths) / 8 for side in _sides(size)))
        for number in range(draw(st.integers(2, 8)))
    }
    unit = FoundationPiecing(size, draw(fabrics), (), points, draw(_extra(ruler)))
    for _ in range(draw(st.integers(2, 8))):
        line = tuple(draw(st.lists(st.sampled_from([*points, "top left", "bottom right"]),
                                   min_size=2, max_size=2, unique=True)))  # fmt: skip
        section = FoundationSection(draw(fabrics), line, draw(st.sampled_from(Toward)))
        longer = replace(unit, sections=(*unit.sections, section))
        if foundation_piecing.METHOD.fault(longer, ruler, seam) is None:
            unit = longer
    assume(unit.sections)
    return unit, ruler, seam


def _sides(size: Size) -> tuple[Fraction, Fraction]:
    return size.width, size.height


def _extra(ruler: Measure) -> st.SearchStrategy[Fraction | None]:
    """The usual one or any, on the ruler or not."""
    return st.none() | st.integers(0, 40).map(lambda n: n * ruler.step / 4)


@st.composite
def string_units(draw: st.DrawFn) -> Job:
    """Strips are added until they cover both corners."""
    ruler, seam = draw(rulers())
    unit = Strings(draw(sizes(ruler, 5)), StringStrip(CLAY, draw(sizes(ruler, 2))), (), ())

    def strips(fits: Callable[[tuple[StringStrip, ...]], Strings]) -> Strings:
        found: tuple[StringStrip, ...] = ()
        for _ in range(12):
            found = (*found, StringStrip(draw(fabrics), draw(sizes(ruler, 2))))
            if strings_method.METHOD.fault(fits(found), ruler, seam) is None:
                break
        return fits(found)

    unit = strips(lambda found: replace(unit, top_left=found))
    unit = strips(lambda found: replace(unit, bottom_right=found))
    assume(strings_method.METHOD.fault(unit, ruler, seam) is None)
    return unit, ruler, seam


@st.composite
def rings(draw: st.DrawFn) -> Job:
    ruler, seam = draw(rulers())
    width = sizes(ruler, 4)
    strips = (RingStrip(draw(fabrics), draw(width)) for _ in range(4))
    return PartialSeams(CLAY, Size(draw(width), draw(width)), *strips), ruler, seam


jobs = st.one_of(log_units(), strip_sets(), foundations(), string_units(), rings())


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
