"""Template pieces on the judge's table: seams by marks and shapes laid on, in floating point.

It follows the marks and turns pieces by angles; it knows no allowance but as a frame around what
is finished, and no exact number.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import atan2, cos, degrees, hypot, sin
from typing import Any

from shapely import Polygon, affinity, box

from pieceproof.published import Template

Place = tuple[float, float]
Patches = list[tuple[str, Polygon]]

_TINY = 1e-6


class TemplateCloth(list[tuple[str, Polygon]]):
    """Patches of a piece that is cut by a template."""

    def __init__(self, fabric: str, template: Template) -> None:
        super().__init__([(fabric, Polygon(floats(template.cut)))])
        self.fabric, self.template = fabric, template


@dataclass(frozen=True)
class Shape:
    """A piece where it lies: its seam lines and the corners that are marks."""

    name: str
    fabric: str
    places: tuple[Place, ...]
    marks: tuple[int, ...]


def floats(places: Any) -> tuple[Place, ...]:
    return tuple((float(x), float(y)) for x, y in places)


def shape_of(name: str, cloth: TemplateCloth) -> Shape:
    template = cloth.template
    count = len(template.seam_lines)
    inside = {i % count for arc in template.arcs for i in range(arc.first + 1, arc.last)}
    marks = [i for i in range(count) if i not in inside]
    if template.numbering.value == "anticlockwise":
        marks.reverse()
    return Shape(name, cloth.fabric, floats(template.seam_lines), tuple(marks))


def joined(base: Sequence[Shape], added: Sequence[Shape], step: Any) -> list[Shape]:
    here: list[Place] = []
    there: list[Place] = []
    for s in step.stretches:
        here += _path(_named(base, s.piece), s.start, s.end)
        there += _path(_named(added, s.added_piece), s.added_end, s.added_start)[::-1]
    if len(here) != len(there):
        raise ValueError("seams of different corners")
    (x, y), (p, q) = here[0], there[0]
    to = next(i for i, place in enumerate(here) if _far(place, here[0]) > _TINY)
    angle = atan2(here[to][1] - y, here[to][0] - x) - atan2(there[to][1] - q, there[to][0] - p)
    turned = [_moved(s, angle, (p, q), (x, y)) for s in added]
    for place, other in zip(here, there, strict=True):
        if _far(place, _turned(other, angle, (p, q), (x, y))) > _TINY:
            raise ValueError("marks that do not meet")
    return [*base, *turned]


def turned_upright(shapes: Sequence[Shape], step: Any) -> list[Shape]:
    path = _path(_named(shapes, step.piece), step.start, step.end)
    (x, y), (u, v) = path[0], path[-1]
    wanted = {"top": 0, "right": 90, "bottom": 180, "left": 270}[step.side.value]
    angle = wanted - degrees(atan2(v - y, u - x))
    return [_moved(s, angle / 57.29577951308232, (0, 0), (0, 0)) for s in shapes]


def finished(shapes: Sequence[Shape], seam: float) -> Patches:
    """What shows, and a frame of nothing around it as its seam allowance."""
    patches = [(s.fabric, Polygon(s.places)) for s in shapes]
    x0, y0, x1, y1 = extent(shapes)
    frame = (
        box(x0 - seam, y0 - seam, x0, y1 + seam),
        box(x1, y0 - seam, x1 + seam, y1 + seam),
        box(x0, y0 - seam, x1, y0),
        box(x0, y1, x1, y1 + seam),
    )
    patches = [*(("", strip) for strip in frame), *patches]
    return [(f, affinity.translate(g, seam - x0, seam - y0)) for f, g in patches]


def extent(shapes: Sequence[Shape]) -> tuple[float, float, float, float]:
    xs = [x for s in shapes for x, _ in s.places]
    ys = [y for s in shapes for _, y in s.places]
    return min(xs), min(ys), max(xs), max(ys)


def _named(shapes: Sequence[Shape], name: str) -> Shape:
    return {s.name: s for s in shapes}[name]


def _path(shape: Shape, start: int, end: int) -> list[Place]:
    first, last = (shape.marks[number - 1] for number in (start, end))
    count = len(shape.places)
    steps = (last - first) % count or count
    return [shape.places[(first + i) % count] for i in range(steps + 1)]


def _moved(shape: Shape, angle: float, pivot: Place, to: Place) -> Shape:
    return replace(shape, places=tuple(_turned(p, angle, pivot, to) for p in shape.places))


def _turned(place: Place, angle: float, pivot: Place, to: Place) -> Place:
    x, y = place[0] - pivot[0], place[1] - pivot[1]
    return (to[0] + x * cos(angle) - y * sin(angle), to[1] + x * sin(angle) + y * cos(angle))


def _far(p: Place, q: Place) -> float:
    return hypot(p[0] - q[0], p[1] - q[1])
