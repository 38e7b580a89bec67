"""Shapes of template pieces against closed forms and an outside geometry library.

Closed forms stand beside each check. Areas and distances are measured by Shapely (GEOS).
"""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, hypot, pi, radians, sin, sqrt

import pytest
from quicktions import Fraction
from shapely import Point, Polygon, union_all
from template_units import SAMPLES
from whole_path import GROUND, HEART, WING, build

from pieceproof.methods import method_of
from pieceproof.methods.arcs import quarter, steps_for
from pieceproof.methods.eight_point_star import EightPointStar, diamond_side
from pieceproof.methods.hexagons import flower_size, hexagon, ring
from pieceproof.methods.quarter_circle import QuarterCircle
from pieceproof.methods.six_point_star import SixPointStar
from pieceproof.methods.sixty_degree_triangles import triangle_side
from pieceproof.model import Measure, Size
from pieceproof.published import Template
from pieceproof.shapes import Polygon as Outline

F = Fraction
ORIGIN = (F(0), F(0))


def shape(outline: Outline) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in outline])


@pytest.mark.parametrize("side", [F(1), F(3, 4), F(5, 2)])
def test_a_hexagon_is_2a_high_and_root_3_a_wide(side: Fraction) -> None:
    """Closed form: area 3 root 3 / 2 a a; the trade's 2a x 1.732a."""
    found = shape(hexagon(ORIGIN, side))
    a = float(side)
    assert found.area == pytest.approx(3 * sqrt(3) / 2 * a * a)
    left, top, right, bottom = found.bounds
    assert (right - left, bottom - top) == pytest.approx((sqrt(3) * a, 2 * a))
    edges = zip(found.exterior.coords, found.exterior.coords[1:], strict=False)
    assert [hypot(q[0] - p[0], q[1] - p[1]) for p, q in edges] == pytest.approx([a] * 6)


@pytest.mark.parametrize("number", range(1, 6))
def test_ring_n_adds_6n_hexagons(number: int) -> None:
    """Closed form: 6 n in ring n, 1 + 3 n (n + 1) up to it; none twice, each beside the next."""
    rings = [list(ring(n)) for n in range(number + 1)]
    assert len(rings[number]) == 6 * number
    places = {place for one in rings for place in one}
    assert len(places) == 1 + 3 * number * (number + 1)
    wide, tall = flower_size(F(1), number)
    centres = [(sqrt(3) * (a + d / 2), 1.5 * d) for a, d in places]
    assert 2 * max(x for x, _ in centres) + sqrt(3) == pytest.approx(float(wide))
    assert 2 * max(y for _, y in centres) + 2 == pytest.approx(float(tall))


@pytest.mark.parametrize("side", [F(12), F(9, 2)])
def test_a_star_of_45_degree_diamonds(side: Fraction) -> None:
    """Closed forms: side of the square a (2 + root 2); a diamond's area a a sin 45 degrees."""
    a = float(diamond_side(side))
    assert a * (2 + sqrt(2)) == pytest.approx(float(side))
    unit = EightPointStar(side, WING, HEART, GROUND, GROUND)
    shapes = [shape(p.outline) for p in method_of(unit).patches(unit)]
    diamonds, triangles, squares = shapes[:8], shapes[8:12], shapes[12:]
    assert [d.area for d in diamonds] == pytest.approx([a * a * sin(radians(45))] * 8)
    assert [t.area for t in triangles] == pytest.approx([a * a / 2] * 4)
    assert [s.area for s in squares] == pytest.approx([a * a] * 4)
    tips = [max(hypot(x - float(side) / 2, y - float(side) / 2) for x, y in d.exterior.coords)
            for d in diamonds]  # fmt: skip
    assert tips == pytest.approx([2 * a * cos(radians(22.5))] * 8)


def test_a_star_of_60_degree_diamonds() -> None:
    """Closed forms: tips 3 a and 2 root 3 a apart; a diamond's area root 3 / 2 a a."""
    unit = SixPointStar(Size(F(10), F(12)), F(3), WING, HEART, GROUND)
    diamonds = [shape(p.outline) for p in method_of(unit).patches(unit)[:6]]
    assert [d.area for d in diamonds] == pytest.approx([sqrt(3) / 2 * 9] * 6)
    left, top, right, bottom = union_all(diamonds).bounds
    assert (right - left, bottom - top) == pytest.approx((9, 2 * sqrt(3) * 3))


def test_a_triangle_with_equal_sides() -> None:
    """Closed form: height root 3 / 2 a."""
    assert float(triangle_side(F(3))) * sqrt(3) / 2 == pytest.approx(3)


@pytest.mark.parametrize(
    ("radius", "inch"),
    [(F(1), True), (F(7, 2), True), (F(10), True), (F(30), True), (F(5), False), (F(60), False)],
)
def test_arcs_stay_within_a_tenth_of_a_millimetre(radius: Fraction, inch: bool) -> None:
    """Between its corners, which lie on it exactly, a polygon leaves the circle least midway."""
    corners = quarter(ORIGIN, radius, 0)
    assert all(x * x + y * y == radius * radius for x, y in corners)
    assert corners[0] == (radius, F(0))
    assert corners[-1] == (F(0), radius)
    unit_mm = 25.4 if inch else 10.0  # exact: international yard, 1959
    floats = [(float(x), float(y)) for x, y in corners]
    gaps = [
        float(radius) - hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in pairwise(floats)
    ]
    assert 0 < max(gaps) * unit_mm < 0.05
    assert max(gaps) * 2 * unit_mm < 0.1
    assert steps_for(radius) <= 256


def test_quarter_circle_radii_and_area() -> None:
    """The trade's rule: convex R + s, concave R - s. Area of a quarter: pi R R / 4."""
    radius, seam = F(7, 2), F(1, 4)
    unit = QuarterCircle(F(5), radius, WING, GROUND)
    quarter_patch = shape(method_of(unit).patches(unit)[0].outline)
    assert quarter_patch.area == pytest.approx(pi * 3.5**2 / 4, rel=1e-3)
    pieces = build(unit, Measure.INCH, seam).publication.pieces
    for piece in pieces:
        template = piece.template
        assert template is not None
        wanted = radius + seam if piece.fabric == WING else radius - seam
        for arc in template.arcs:
            centre = Point(float(arc.centre[0]), float(arc.centre[1]))
            near = [
                p for p in shape(template.cut).exterior.coords
                if abs(Point(p).distance(centre) - float(wanted)) < 1e-9
            ]  # fmt: skip
            assert len(near) >= arc.last - arc.first + 1


@pytest.mark.parametrize("name", SAMPLES)
def test_raw_edges_are_buffers_of_the_seam_lines(name: str) -> None:
    """Shapely's buffer with mitred corners, but where tips are cut off or arcs go straight on.

    Closed form: cut off halfway, a tip of angle t loses s s / (2 sin t).
    """
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, F(1, 4), cells[:1])
    for piece in built.publication.pieces:
        if piece.template is not None:
            _check_raw_edge(piece.template)


def _check_raw_edge(template: Template) -> None:
    finished, raw = shape(template.seam_lines), shape(template.cut)
    s = float(template.allowance)
    assert raw.is_valid
    assert raw.buffer(1e-9).contains(finished)
    if template.arcs:
        assert finished.exterior.hausdorff_distance(raw.exterior) < s * 1.5 + 1e-9
        return
    whole = finished.buffer(s, join_style="mitre", mitre_limit=1000)
    assert whole.buffer(1e-9).contains(raw)
    lost = whole.difference(raw.buffer(1e-9))
    tips = [(p, angle) for p, angle in _angles(template) if angle <= radians(60) + 1e-9]
    expected = sum(s * s / (2 * sin(angle)) for _, angle in tips)
    assert lost.area == pytest.approx(expected, abs=1e-6)


def _angles(template: Template) -> list[tuple[tuple[float, float], float]]:
    """Inner angles at the corners of the seam lines that are not straight."""
    places = [(float(x), float(y)) for x, y in template.seam_lines]
    found = []
    for before, p, after in zip(
        places[-1:] + places, places, places[1:] + places[:1], strict=False
    ):
        u = (before[0] - p[0], before[1] - p[1])
        v = (after[0] - p[0], after[1] - p[1])
        dot = u[0] * v[0] + u[1] * v[1]
        cross = v[0] * u[1] - v[1] * u[0]
        angle = atan2(cross, dot) % (2 * pi)
        if abs(angle - pi) > 1e-9:
            found.append((p, angle))
    return found
