"""Straight cuts, overlaps and motions against shapely (a general-purpose geometry library)."""

from hypothesis import assume, given
from hypothesis import strategies as st
from quicktions import Fraction
from shapely.geometry import MultiPoint
from shapely.geometry import Polygon as Shape

from pieceproof.lengths import Number, sign, square_root
from pieceproof.shapes import (
    Line,
    Point,
    Polygon,
    area,
    bounds,
    canonical,
    cut,
    is_convex,
    line_through,
    mirror_left_right,
    overlap,
    quarter_turns,
    rectangle,
    reflection,
    tidy,
)

coordinates = st.fractions(min_value=0, max_value=20, max_denominator=8)
points = st.tuples(coordinates, coordinates)
numbers = st.builds(lambda p, q: p + q * square_root(2), coordinates, coordinates)


@st.composite
def convex_polygons(draw: st.DrawFn) -> Polygon:
    drawn = draw(st.lists(points, min_size=3, max_size=8, unique=True))
    hull = MultiPoint([(float(x), float(y)) for x, y in drawn]).convex_hull
    assume(hull.geom_type == "Polygon" and hull.area > 0.01)
    exact = {(float(x), float(y)): (x, y) for x, y in drawn}
    corners = tidy([exact[c] for c in hull.exterior.coords[:-1]])
    return corners if area(corners) > 0 else corners[::-1]


def shape(polygon: Polygon) -> Shape:
    return Shape([(float(x), float(y)) for x, y in polygon])


@given(convex_polygons())
def test_area_agrees(polygon: Polygon) -> None:
    assert is_convex(polygon)
    assert abs(float(area(polygon)) - shape(polygon).area) < 1e-9


@given(convex_polygons(), convex_polygons())
def test_overlap_agrees(p: Polygon, q: Polygon) -> None:
    shared = overlap(p, q)
    expected = shape(p).intersection(shape(q)).area
    assert abs((float(area(shared)) if shared else 0.0) - expected) < 1e-9


@given(convex_polygons(), points, points)
def test_a_cut_divides_the_area(polygon: Polygon, start, end) -> None:
    assume(start != end)
    line = line_through(start, end)
    parts = [cut(polygon, line), cut(polygon, line.flipped())]
    assert sum((area(part) for part in parts if part), Fraction(0)) == area(polygon)


@given(convex_polygons(), points, points)
def test_reflecting_twice_changes_nothing(polygon: Polygon, start, end) -> None:
    assume(start != end)
    mirror = reflection(line_through(start, end))
    once = mirror.polygon(polygon)
    assert area(once) == area(polygon)
    assert canonical(mirror.polygon(once)) == canonical(polygon)


@given(convex_polygons(), st.integers(0, 3))
def test_turns_keep_the_rectangle(polygon: Polygon, turns: int) -> None:
    box = bounds([polygon])
    turned = quarter_turns(turns, Fraction(20), Fraction(20)).polygon(polygon)
    assert area(turned) == area(polygon)
    whole = rectangle(Fraction(20), Fraction(20))
    assert canonical(quarter_turns(turns, Fraction(20), Fraction(20)).polygon(whole)) == whole
    assert {bounds([turned]).width, bounds([turned]).height} == {box.width, box.height}
    mirrored = mirror_left_right(Fraction(20)).polygon(turned)
    assert area(mirrored) == area(polygon)


@given(st.tuples(numbers, numbers), *[st.sampled_from((1, -1, 0, 2))] * 2, numbers)
def test_the_side_of_a_line_is_the_sign_of_the_distance(
    point: Point, a: int, b: int, c: Number
) -> None:
    line = Line(Fraction(a), Fraction(b), c)
    assert line.side(point) == sign(line.at(point))
