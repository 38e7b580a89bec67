"""What can be read on a phone: scale, room for letters, lines of text.

In: scenes and outlines. Out: numbers. Drawings are laid out for a width of 360 CSS pixels and
scale up from there. It decides nothing about patchwork.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations, pairwise
from typing import SupportsFloat

from pieceproof.drawing.frame import fit
from pieceproof.drawing.marks import reaches
from pieceproof.drawing.scene import Area, Box, Place, Scene, TextKind, flat
from pieceproof.drawing.style import LETTER_ROOM, TEXTS, text_width
from pieceproof.shapes import Polygon, line_through

PHONE = 360
TEXT_ROOM = 300.0
"""The widest line of text, in pixels, that does not squeeze a drawing."""
_TRIES = 8
_MANY = 12
_FINE = 24
_WITHIN_SIZE = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=[\d\"]) (?=x \d|cm)|(?<= x) (?=\d)")
_TALLEST = 1.3


def settled(build: Callable[[float], Scene], about: SupportsFloat, width: int = PHONE) -> Scene:
    """The scene of ``build``, told how many cloth units one pixel is in the very scene it builds.

    ``about`` is a first guess of the drawing's width in cloth units, ``width`` its width in CSS
    pixels. Gaps and texts of a fixed size on the screen depend on the scale, and the scale on
    them: a few rounds settle both.
    """
    pixel = float(about) / width
    for _ in range(_TRIES):
        scene = build(pixel)
        finer = 1 / scale_of(scene, width)
        if abs(finer - pixel) < 0.002 * finer:
            break
        pixel = finer
    return scene


def scale_of(scene: Scene, width: int = PHONE) -> float:
    """Pixels per cloth unit when the scene is drawn this wide."""
    x, y = float(scene.box.x), float(scene.box.y)
    box = Area(((x, y), (x + float(scene.box.width), y + float(scene.box.height))))
    return fit([r for item in (box, *flat(scene.items)) for r in reaches(item)], width).scale


def not_tall(scene: Scene) -> Scene:
    """The scene with room at its sides where it is much taller than wide."""
    box = scene.box
    extra = float(box.height) / _TALLEST - float(box.width)
    if extra <= 0:
        return scene
    wider = Box(float(box.x) - extra / 2, box.y, float(box.width) + extra, box.height)
    return replace(scene, box=wider)


def letter_fits(room: float, pixel: float, text: str = "A") -> bool:
    """Whether a letter can stand in an upright square of this side, in cloth units."""
    return room >= LETTER_ROOM * pixel * (1 + 0.4 * (len(text) - 1))


def wide(text: str, kind: TextKind) -> float:
    """The width of a text in pixels."""
    return text_width(text, TEXTS[kind])


def wrapped(text: str, pixels: float, kind: TextKind) -> str:
    """The text in lines no wider than this, broken at spaces but not within a length or size."""
    lines: list[str] = []
    for word in _WITHIN_SIZE.sub("\N{NO-BREAK SPACE}", text).split(" "):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and wide(joined, kind) <= pixels:
            lines[-1] = joined
        else:
            lines.append(word)
    return "\n".join(lines)


def middles_clear(places: Sequence[float], texts: Sequence[str], kind: TextKind) -> bool:
    """Whether texts centred on places (in pixels, ascending) stay clear of each other."""
    halves = [wide(text, kind) / 2 for text in texts]
    ends = [(p - half, p + half) for p, half in zip(places, halves, strict=True)]
    return all(before[1] + 4 <= after[0] for before, after in pairwise(ends))


def room_in(outline: Polygon) -> tuple[Place, float]:
    """The middle and side of the largest upright square in a polygon.

    Exact for convex polygons of few corners, else as near as a grid of places finds it.
    """
    corners = [(float(x), float(y)) for x, y in outline]
    if len(corners) > _MANY or not _is_convex(corners):
        return _room_on_a_grid(corners)
    return _room_in_convex(outline)


def _is_convex(corners: list[tuple[float, float]]) -> bool:
    threes = zip(corners, corners[1:] + corners[:1], corners[2:] + corners[:2], strict=True)
    return all(
        (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]) > -1e-9 for p, q, r in threes
    )


def _room_on_a_grid(corners: list[tuple[float, float]]) -> tuple[Place, float]:
    """The best of places spread evenly over the polygon's extent, the middle one of equals."""
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    wide, tall = max(xs) - min(xs), max(ys) - min(ys)
    places = [
        (min(xs) + wide * i / _FINE, min(ys) + tall * j / _FINE)
        for i in range(1, _FINE)
        for j in range(1, _FINE)
    ]
    edges = list(zip(corners, corners[1:] + corners[:1], strict=True))
    found = [(round(_half_side(edges, place), 6), place) for place in places]
    best = max(half for half, _ in found)
    equals = [place for half, place in found if half == best]
    return equals[len(equals) // 2], 2 * max(best, 0.0)


def _half_side(edges: Sequence[tuple[tuple[float, float], ...]], place: Place) -> float:
    """Half the side of the largest square around a place that no edge enters; -1 outside."""
    x, y = float(place[0]), float(place[1])
    crossings, half = 0, float("inf")
    for (ax, ay), (bx, by) in edges:
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            crossings += 1
        dx, dy = bx - ax, by - ay
        ways = ((dx, x - ax), (dy, y - ay), (dx - dy, x - ax - y + ay), (dx + dy, x - ax + y - ay))
        shares = [0.0, 1.0] + [far / way for way, far in ways if way]
        near = min(max(abs(ax + t * dx - x), abs(ay + t * dy - y)) for t in shares if 0 <= t <= 1)
        half = min(half, near)
    return half if crossings % 2 else -1.0


def _room_in_convex(outline: Polygon) -> tuple[Place, float]:
    """The largest upright square in a convex polygon.

    The square's corners must lie on the inner side of every edge: in its centre and half side,
    each edge is one linear bound, and the best place is where three bounds meet. Where several
    places are equally good, the middle of them.
    """
    bounds = [_bound(outline, i) for i in range(len(outline))]
    found = [s for three in combinations(bounds, 3) if (s := _meeting(three)) is not None]
    inside = [s for s in found if all(_slack(b, s) > -1e-9 for b in bounds)]
    best = max(s[2] for s in inside)
    places = [s for s in inside if s[2] > best - 1e-9]
    x, y = (sum(s[i] for s in places) / len(places) for i in (0, 1))
    return (x, y), 2 * best


_Bound = tuple[float, float, float, float]
_Square = tuple[float, float, float]


def _bound(outline: Polygon, index: int) -> _Bound:
    line = line_through(outline[index], outline[(index + 1) % len(outline)])
    a, b, c = float(line.a), float(line.b), float(line.c)
    long = (a * a + b * b) ** 0.5
    return a / long, b / long, (abs(a) + abs(b)) / long, c / long


def _slack(bound: _Bound, square: _Square) -> float:
    a, b, reach, c = bound
    return a * square[0] + b * square[1] - reach * square[2] - c


def _meeting(three: tuple[_Bound, ...]) -> _Square | None:
    """Where three bounds hold exactly, by Cramer's rule."""
    rows = [(a, b, -reach) for a, b, reach, _ in three]
    right = [c for *_, c in three]
    whole = _determinant(rows)
    if abs(whole) < 1e-9:
        return None
    x, y, half = (
        _determinant([(*row[:i], c, *row[i + 1 :]) for row, c in zip(rows, right, strict=True)])
        / whole
        for i in range(3)
    )
    return x, y, half


def _determinant(rows: Sequence[Sequence[float]]) -> float:
    (a, b, c), (d, e, f), (g, h, i) = rows
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
