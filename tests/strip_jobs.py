"""Units of the strip, log and foundation family of any size, each with a ruler and a seam."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from hypothesis import assume
from hypothesis import strategies as st
from method_path import CLAY, FABRICS
from quicktions import Fraction

from pieceproof.methods import foundation_piecing
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
from pieceproof.model import FabricName, Measure, Size, Unit

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
    pieced = draw(st.sampled_from([((CLAY,),), ((CLAY, draw(fabrics)),), ((CLAY,) * 2,) * 2]))
    plain = len(pieced[0]) == 1
    across, down = len(pieced[0]), len(pieced)
    size = Size(centre.width * across, centre.height * down)
    unit = kind(
        size,
        logs(rounds),
        logs(rounds - half),
        centre=CLAY if plain else None,
        centre_rows=() if plain else pieced,
    )
    return unit, ruler, seam


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
