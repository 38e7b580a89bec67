"""Logs, rings, strings and foundations against closed forms and Shapely.

No table in print is known for these; the rules of the trade (logs cut to length, pieces on
foundations an inch larger each way) are common practice. Shapely measures what is drawn.
"""

from __future__ import annotations

from math import sqrt

import pytest
from quicktions import Fraction
from shapely import Polygon, union_all
from strip_units import UNITS, arrow, ring, strings

from pieceproof.methods import method_of
from pieceproof.methods.courthouse_steps import CourthouseSteps
from pieceproof.methods.foundation_piecing import FoundationPiecing
from pieceproof.methods.log_cabin import LogCabin
from pieceproof.methods.logs import Logs, LogUnit
from pieceproof.methods.method import Recipe, Workroom
from pieceproof.methods.partial_seams import PartialSeams
from pieceproof.methods.strings import Strings
from pieceproof.model import FabricName, Size, Unit, Value

F = Fraction
A, B, C = (FabricName(name) for name in "abc")
NAMES = ("a", "b", "c", "mist", "reed", "clay", "slate", "night")
ROOM = Workroom(F(1, 4), F(1, 8), dict.fromkeys(NAMES, Value.MEDIUM), F(40), F(1, 2))


def recipe(unit: Unit) -> Recipe:
    return method_of(unit).recipe(unit, ROOM)


def shapes(unit: Unit) -> list[Polygon]:
    patches = method_of(unit).patches(unit)
    return [Polygon([(float(x), float(y)) for x, y in p.outline]) for p in patches]


@pytest.mark.parametrize("rounds", [1, 2, 5])
@pytest.mark.parametrize(
    ("kind", "steps"), [(LogCabin, (0, 1, 1, 2)), (CourthouseSteps, (0, 0, 2, 2))]
)
def test_logs_are_cut_to_length(kind: type[LogUnit], steps: tuple[int, ...], rounds: int) -> None:
    """Around a centre c, logs w wide: in a cabin c, c + w, c + w, c + 2 w long, in courthouse steps
    c, c, c + 2 w, c + 2 w; every round 2 w more; all cut 1/2 in larger (common practice)."""
    centre, wide = F(2), F(3, 2)
    light, dark = (Logs((fabric,) * rounds, (wide,)) for fabric in (A, B))
    unit = kind(Size(centre, centre), light, dark, centre=C)
    logs = [cut for cut in recipe(unit).cuts if cut.fabric != C]
    expected = [centre + (2 * n + s) * wide + F(1, 2) for n in range(rounds) for s in steps]
    assert sorted(max(cut.width, cut.height) for cut in logs) == sorted(expected)
    assert {min(cut.width, cut.height) for cut in logs} == {wide + F(1, 2)}
    assert method_of(unit).size(unit) == Size(*[centre + 2 * rounds * wide] * 2)


@pytest.mark.parametrize("name", UNITS)
def test_patches_cover_the_unit_once(name: str) -> None:
    unit = UNITS[name]()
    size = method_of(unit).size(unit)
    laid = shapes(unit)
    assert sum(s.area for s in laid) == pytest.approx(float(size.width * size.height))
    assert union_all(laid).area == pytest.approx(float(size.width * size.height))


def test_strips_of_a_ring_reach_over_one_neighbour() -> None:
    """Each is as long as its side of the centre and the strip before it is wide, and 1/2 in."""
    unit = ring()
    assert isinstance(unit, PartialSeams)
    w, h = unit.centre_size.width, unit.centre_size.height
    top, right, bottom, left = (s.width for s in (unit.top, unit.right, unit.bottom, unit.left))
    lengths = {
        unit.top: w + left,
        unit.right: h + top,
        unit.bottom: w + right,
        unit.left: h + bottom,
    }
    for strip, long in lengths.items():
        (cut,) = (c for c in recipe(unit).cuts if c.fabric == strip.fabric)
        assert {cut.width, cut.height} == {strip.width + F(1, 2), long + F(1, 2)}
    assert method_of(unit).size(unit) == Size(w + left + right, h + top + bottom)


def test_strings_reach_from_corner_to_corner() -> None:
    """A strip of width m on the diagonal of a square S leaves two corners S / root 2 - m / 2 high,
    and all strips together are at least as wide as the other diagonal is long."""
    unit = strings()
    assert isinstance(unit, Strings)
    widths = [s.width for s in (unit.middle, *unit.top_left, *unit.bottom_right)]
    assert float(sum(widths)) >= float(unit.size) * sqrt(2)
    patches = method_of(unit).patches(unit)
    (middle,) = (s for s, p in zip(shapes(unit), patches, strict=True)
                 if p.fabric == unit.middle.fabric)  # fmt: skip
    side, wide = float(unit.size), float(unit.middle.width)
    assert middle.area == pytest.approx(side**2 - 2 * (side / sqrt(2) - wide / 2) ** 2)


def test_pieces_on_a_foundation_are_an_inch_larger() -> None:
    """1 in each way with seams of 1/4 (common practice), measured along the line that is sewn."""
    unit = arrow()
    assert isinstance(unit, FoundationPiecing)
    for cut, section in zip(recipe(unit).cuts, shapes(unit), strict=True):
        box = section.minimum_rotated_rectangle
        x, y = box.exterior.coords.xy
        sides = sorted(sqrt((x[i] - x[i + 1]) ** 2 + (y[i] - y[i + 1]) ** 2) for i in range(2))
        short, long = sorted((float(cut.width), float(cut.height)))
        assert short * long >= (sides[0] + 1) * (sides[1] + 1) - 1e-9
