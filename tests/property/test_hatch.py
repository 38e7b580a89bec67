"""Hatching and shared outlines against shapely, which shares no code with ours."""

from math import cos, pi, sin

from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon
from shapely.geometry import MultiPoint

from pieceproof.drawing.hatch import hatch_lines
from pieceproof.drawing.outlines import shared_stretches
from pieceproof.drawing.style import HATCHES

coordinate = st.integers(-200, 200)
angles = st.sampled_from(sorted({angle for hatch in HATCHES.values() for angle in hatch.angles}))
any_angle = st.floats(-180, 180)
spacings = st.floats(1.5, 30)


@st.composite
def convex(draw):
    points = draw(st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=8, unique=True))
    hull = MultiPoint(points).convex_hull
    assume(hull.geom_type == "Polygon" and hull.area > 1)
    return list(hull.exterior.coords)[:-1]


@st.composite
def hollowed(draw):
    """Star-shaped round (0, 0), so simple whatever the radii."""
    radii = draw(st.lists(st.floats(5, 200), min_size=3, max_size=12))
    return [
        (radius * cos(2 * pi * at / len(radii)), radius * sin(2 * pi * at / len(radii)))
        for at, radius in enumerate(radii)
    ]


@given(st.one_of(convex(), hollowed()), any_angle, spacings)
def test_every_stretch_lies_inside(corners, angle, spacing):
    inside = Polygon(corners).buffer(1e-6)
    assert all(
        inside.covers(LineString(stretch)) for stretch in hatch_lines(corners, angle, spacing)
    )


@given(st.one_of(convex(), hollowed()), angles, spacings)
def test_same_length_as_shapely_cuts_from_endless_lines(corners, angle, spacing):
    ux, uy = cos(angle * pi / 180), sin(angle * pi / 180)
    lines = MultiLineString(
        [
            (
                (-uy * away - 400 * ux, ux * away - 400 * uy),
                (-uy * away + 400 * ux, ux * away + 400 * uy),
            )
            for away in (
                step * spacing for step in range(-int(400 / spacing), int(400 / spacing) + 1)
            )
        ]
    )
    ours = MultiLineString(hatch_lines(corners, angle, spacing)).length
    theirs = Polygon(corners).intersection(lines).length
    assert abs(ours - theirs) < 1e-6 * (1 + theirs)


@given(convex(), any_angle, spacings)
def test_length_is_area_by_spacing(corners, angle, spacing):
    # A convex shape's chord rises once and falls once across the lines, so the sum of chords
    # misses the integral by at most one longest chord (bound of a Riemann sum by its variation).
    polygon = Polygon(corners)
    longest = max(MultiPoint(corners).minimum_rotated_rectangle.length, 1.0)
    total = MultiLineString(hatch_lines(corners, angle, spacing)).length
    assert abs(total - polygon.area / spacing) <= longest


@given(hollowed(), any_angle, spacings)
def test_abutting_halves_hatch_like_the_whole(corners, angle, spacing):
    # Cut through corner 0 and one opposite: (0, 0) is inside, both halves are simple.
    half = len(corners) // 2
    one = [*corners[: half + 1], (0.0, 0.0)]
    other = [*corners[half:], corners[0], (0.0, 0.0)]
    whole = MultiLineString(hatch_lines(corners, angle, spacing)).length
    parts = sum(MultiLineString(hatch_lines(p, angle, spacing)).length for p in (one, other))
    assert abs(whole - parts) < 1e-6 * (1 + whole)


def test_degenerate_polygons_have_no_hatch():
    assert hatch_lines([], 30, 2) == []
    assert hatch_lines([(0, 0), (9, 9)], 30, 2) == []
    assert hatch_lines([(0, 0), (9, 0), (18, 0)], 0, 2) == []


@given(
    st.lists(st.integers(1, 40), min_size=2, max_size=6),
    st.lists(st.integers(1, 40), min_size=2, max_size=6),
    st.floats(0, 360),
)
def test_shared_outlines_of_two_rows(upper, lower, turn):
    """Two abutting rows of rectangles with seams that need not meet, turned by any angle."""
    rectangles = [*_row(upper, 0, 10), *_row(lower, 10, 25)]
    turned = [[_turned(corner, turn) for corner in corners] for corners in rectangles]
    ours = MultiLineString(shared_stretches(turned)).length
    theirs = min(sum(upper), sum(lower)) + 10 * (len(upper) - 1) + 15 * (len(lower) - 1)
    assert abs(ours - theirs) < 1e-6 * theirs


def _row(widths, top, bottom):
    left = 0
    for width in widths:
        yield [(left, top), (left + width, top), (left + width, bottom), (left, bottom)]
        left += width


def _turned(corner, degrees):
    c, s = cos(degrees * pi / 180), sin(degrees * pi / 180)
    return corner[0] * c - corner[1] * s, corner[0] * s + corner[1] * c
