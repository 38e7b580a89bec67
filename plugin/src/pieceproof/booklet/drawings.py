"""Drawings for a booklet's page, as HTML.

In: scenes, sheets of shapes at true scale. Out: one ``<svg>`` each. A sheet's SVG has a width and
height in millimetres and the same lengths in CSS pixels in its viewBox, so that a millimetre is a
millimetre (CSS Values and Units 4, section 6.2: 96 px are 25.4 mm).
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Iterator, Mapping

from markupsafe import Markup

from pieceproof.booklet.sheets import Laid, Room, Sheet
from pieceproof.booklet.true_scale import DOT, Ink, Place, Run, Word
from pieceproof.drawing.markup import escaped, number, path_data, tag
from pieceproof.drawing.photographs import Photograph
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import CAPITAL_CENTRE, FONT, Look
from pieceproof.drawing.svg import to_svg

FAMILY = "Alegreya Drawings"

_INKS: Mapping[Ink, tuple[float, tuple[float, ...]]] = {
    # Weight in millimetres, dashes.
    Ink.CUT: (0.35, ()),
    Ink.SEAM: (0.25, (2.4, 1.4)),
    Ink.SEW: (0.3, ()),
    Ink.NOTCH: (0.3, ()),
    Ink.GRAIN: (0.3, ()),
    Ink.JOIN: (0.2, (0.6, 1.8)),
}
_BLACK = "#000000"
_PX = 96 / 25.4
"""CSS pixels in a millimetre: the unit inside a sheet's SVG, in which type sets well."""
_CAPTION_MM = 3.6
_HEAD, _HEAD_HALF = 3.0, 1.0


def figure(
    scene: Scene,
    look: Look,
    ident: str,
    width_px: int,
    colours: Mapping[str, str],
    prints: Mapping[str, Photograph] | None = None,
) -> Markup:
    """A scene with the booklet's own type in it."""
    svg = to_svg(scene, look, ident, width_px, colours, prints)
    return Markup(svg.replace(f'font-family="{FONT}"', f'font-family="{FAMILY}"'))


def sheet_svg(sheet: Sheet, room: Room) -> Markup:
    """All that lies on a sheet."""
    titles = " ".join(dict.fromkeys(laid.shape.title for laid in sheet.laid))
    parts = [tag("title", {}, escaped(f"{titles} {sheet.part}".strip()))]
    for laid in sheet.laid:
        parts += _laid(laid)
    return _svg(parts, room.width, room.height)


def square_to_measure(side_mm: float, label: str) -> Markup:
    """A square to measure; its sides are the middles of its lines."""
    half = 0.2
    corners = ((half, half), (half + side_mm, half))
    square = (*corners, (half + side_mm, half + side_mm), (half, half + side_mm))
    middle = half + side_mm / 2
    parts = [
        tag("title", {}, escaped(f"Test square. Each side must measure {label}.")),
        _run(Run(Ink.CUT, square, True)),
        *_word(Word((middle, middle), label, 5.0, True)),
    ]
    return _svg(parts, side_mm + 2 * half, side_mm + 2 * half)


_WATER = ("#a9c8cb", "#5a95a1", "#1f5566")
_WAVE = 4.6
"""Height of a row of waves in millimetres."""


def water(width_mm: float) -> str:
    """The address of a picture of patchwork water, an ornament: rows of triangles."""
    half = width_mm / 2 / round(width_mm / 2 / (_WAVE * 1.35))
    parts = [part for row in range(len(_WATER)) for part in _waves(row, half, width_mm)]
    svg = _svg(parts, width_mm, len(_WATER) * _WAVE)
    return f"data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}"


def _waves(row: int, half: float, width: float) -> Iterator[str]:
    """Triangles on the colour of the row above; every other row begins with half of one."""
    top, bottom = row * _WAVE, (row + 1) * _WAVE
    if row:
        field = ((0.0, top), (width, top), (width, bottom), (0.0, bottom))
        yield tag("path", {"fill": _WATER[row - 1], "d": path_data([_px(field)], "Z")})
    for at in range(row % 2 == 0, round(width / half) + 1, 2):
        x = at * half
        wave = ((max(0.0, x - half), bottom), (x, top), (min(width, x + half), bottom))
        yield tag("path", {"fill": _WATER[row], "d": path_data([_px(wave)], "Z")})


def _svg(parts: Iterable[str], width: float, height: float) -> Markup:
    attributes: dict[str, str | float] = {
        "xmlns": "http://www.w3.org/2000/svg",
        "class": "true-scale",
        "width": f"{width:.2f}mm",
        "height": f"{height:.2f}mm",
        "viewBox": f"0 0 {width * _PX:.4f} {height * _PX:.4f}",
        "role": "img",
    }
    return Markup(tag("svg", attributes, "\n".join(parts)))


def _laid(laid: Laid) -> Iterable[str]:
    shape = laid.shape.moved(laid.left, laid.top)
    yield from _word(Word((laid.left, laid.top - 3.4), shape.caption, _CAPTION_MM), "start")
    for run in shape.runs:
        yield _run(run)
        if run.ink is Ink.GRAIN:
            yield from _heads(run)
    for x, y in shape.dots:
        yield tag("circle", {"cx": x * _PX, "cy": y * _PX, "r": DOT * _PX, "fill": _BLACK})
    for word in shape.words:
        yield from _word(word)


def _run(run: Run) -> str:
    weight, dashes = _INKS[run.ink]
    return tag(
        "path",
        {
            "fill": "none",
            "stroke": _BLACK,
            "stroke-width": weight * _PX,
            "stroke-dasharray": " ".join(number(dash * _PX) for dash in dashes),
            "stroke-linejoin": "round",
            "d": path_data([_px(run.places)], "Z" if run.closed else ""),
        },
    )


def _heads(run: Run) -> Iterable[str]:
    """Both heads of a grain arrow, which is level or upright."""
    for tip, other in (run.places, run.places[::-1]):
        yield tag("path", {"fill": _BLACK, "d": path_data([_px(_head(tip, other))], "Z")})


def _head(tip: Place, other: Place) -> tuple[Place, ...]:
    (x, y), dx, dy = tip, other[0] - tip[0], other[1] - tip[1]
    along = (1 if dx > 0 else -1, 0) if abs(dx) > abs(dy) else (0, 1 if dy > 0 else -1)
    bx, by = x + along[0] * _HEAD, y + along[1] * _HEAD
    aside = (along[1] * _HEAD_HALF, along[0] * _HEAD_HALF)
    return (tip, (bx + aside[0], by + aside[1]), (bx - aside[0], by - aside[1]))


def _px(places: Iterable[Place]) -> list[Place]:
    return [(x * _PX, y * _PX) for x, y in places]


def _word(word: Word, anchor: str = "middle") -> Iterable[str]:
    if not word.text:
        return
    place: dict[str, str | float] = {
        "x": word.at[0] * _PX,
        "y": (word.at[1] + CAPITAL_CENTRE * word.size) * _PX,
        "font-family": FAMILY,
        "font-size": word.size * _PX,
        "font-weight": "bold" if word.bold else "normal",
        "text-anchor": anchor,
    }
    yield tag("text", {**place, "fill": _BLACK}, escaped(word.text))
