"""The parts of a drawing as SVG elements, in the order they are painted.

Goes in: flat items and a `Sheet`. Comes out: elements as text: areas by layer with their hatching,
then lines, measures, arrows, and the halos of all texts before the texts themselves.
It does not know the page around the drawing.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from . import style
from .frame import Frame, on_screen
from .hatch import hatch_lines
from .marks import MeasureLines, arrow_shape, measure_lines, text_block
from .markup import escaped, number, path_data, tag
from .outlines import shared_stretches
from .photographs import Photograph, repeated
from .scene import (
    Area,
    AreaKind,
    Arrow,
    Flat,
    Letter,
    Line,
    Measure,
    Note,
    Place,
    Point,
    TextKind,
)
from .style import Look, Stroke

Attributes = dict[str, str | float]


@dataclass(frozen=True)
class Sheet:
    """Where cloth falls on the screen, and how it is shown; ``prefix`` starts every id."""

    frame: Frame
    look: Look
    colours: Mapping[str, str]
    prefix: str
    prints: Mapping[str, Photograph]


class Run(NamedTuple):
    """One line of text, its flush side as in `TextBlock`, and its place at half its height."""

    kind: TextKind
    flush: int
    words: str
    at: Place


def painted(items: Sequence[Flat], sheet: Sheet) -> list[str]:
    """Return the elements of all items."""
    measures = [item for item in items if isinstance(item, Measure)]
    return [
        *_areas([item for item in items if isinstance(item, Area)], sheet),
        *_lines([item for item in items if isinstance(item, Line)], sheet),
        *_measures(measures, sheet),
        *_arrows([item for item in items if isinstance(item, Arrow)], sheet),
        *_texts([item for item in items if isinstance(item, Letter | Note)], measures, sheet),
    ]


def cloth_class(cloth: str) -> str:
    """Return the hook class of a cloth; names have no underscores, so different ones stay so.

    >>> cloth_class("dark point"), cloth_class("dark-point")
    ('pp-cloth-dark_point', 'pp-cloth-dark-point')
    """
    return f"pp-cloth-{re.sub(r'[^a-z0-9-]', '_', cloth)}"


def _areas(areas: Sequence[Area], sheet: Sheet) -> list[str]:
    elements = []
    layers = sorted({area.layer for area in areas})
    for layer in layers:
        of_layer = [area for area in areas if area.layer == layer]
        if layer > layers[0]:
            elements += _clearings(of_layer, sheet)
        elements += _cloths(of_layer, sheet)
        if sheet.look is Look.INK:
            elements += _hatches(of_layer, sheet)
        if sheet.look is Look.COLOUR:
            elements += _seams_between_dark(of_layer, sheet)
    return elements


def _clearings(areas: Sequence[Area], sheet: Sheet) -> list[str]:
    """Return a paper edge round the areas that lie on others."""
    elements = []
    for kind, stroke in style.AREA_EDGE.items():
        of_kind = [area for area in areas if area.kind is kind]
        if of_kind and stroke.casing:
            casing = _casing(stroke.weight / 2 + stroke.casing)
            elements.append(tag("path", {**casing, "d": _outlines(of_kind, sheet)}))
    return elements


def _cloths(areas: Sequence[Area], sheet: Sheet) -> list[str]:
    """Return one path per kind and cloth."""
    by_cloth: dict[tuple[str, str], list[Area]] = {}
    for area in areas:
        by_cloth.setdefault((area.kind.value, area.cloth or ""), []).append(area)
    return [_cloth(by_cloth[key], sheet) for key in sorted(by_cloth)]


def _cloth(areas: Sequence[Area], sheet: Sheet) -> str:
    kind, cloth = areas[0].kind, areas[0].cloth
    classes = f"pp-{kind}" + (f" {cloth_class(cloth)}" if cloth else "")
    fill = "none" if kind is AreaKind.GHOST else _fill(areas[0], sheet)
    pen = _pen(style.AREA_EDGE[kind], sheet)
    path: Attributes = {"class": classes, "fill": fill, **pen, "d": _outlines(areas, sheet)}
    photograph = sheet.prints.get(cloth or "")
    if photograph is None or not _is_filled(areas[0], sheet):
        return tag("path", path)
    return _printed(areas, path, photograph, sheet)


def _printed(areas: Sequence[Area], path: Attributes, photograph: Photograph, sheet: Sheet) -> str:
    """Return the path filled with a photograph, in a group that starts at its top left corner."""
    first, runs = areas[0], [_screen(area.points, sheet) for area in areas]
    left, top = (round(min(place[axis] for run in runs for place in run), 2) for axis in (0, 1))
    data = path_data(([(x - left, y - top) for x, y in run] for run in runs), "Z")
    ident = f"{sheet.prefix}-print-{first.kind}-{first.layer}-{cloth_class(first.cloth or '')}"
    pattern = tag("defs", {}, repeated(photograph, ident, sheet.frame.scale))
    filled = tag("path", {**path, "fill": f"url(#{ident})", "d": data})
    return tag("g", {"transform": f"translate({number(left)} {number(top)})"}, pattern + filled)


def _outlines(areas: Sequence[Area], sheet: Sheet) -> str:
    return path_data((_screen(area.points, sheet) for area in areas), "Z")


def _seams_between_dark(areas: Sequence[Area], sheet: Sheet) -> list[str]:
    elements = []
    for kind, stroke in style.AREA_EDGE.items():
        of_kind = [area for area in areas if area.kind is kind]
        dark = [_screen(a.points, sheet) for a in of_kind if style.is_dark(_fill(a, sheet))]
        pale = Stroke(stroke.weight * style.PALE_PART, ink=style.PALE_SEAM)
        elements += _stroked("pp-dark-seam", shared_stretches(dark), pale, sheet)
    return elements


def _fill(area: Area, sheet: Sheet) -> str:
    if area.cloth is not None and _is_filled(area, sheet):
        return sheet.colours[area.cloth]
    return style.PAPER


def _is_filled(area: Area, sheet: Sheet) -> bool:
    return sheet.look is Look.COLOUR and area.kind not in style.NEVER_FILLED


def _hatches(areas: Sequence[Area], sheet: Sheet) -> list[str]:
    by_value: dict[tuple[int, AreaKind], list[Area]] = {}
    for area in areas:
        if area.value is not None and area.kind not in style.NEVER_FILLED:
            by_value.setdefault((area.value, area.kind), []).append(area)
    hatches = (_hatch(by_value[key], *key, sheet) for key in sorted(by_value))
    return [hatch for hatch in hatches if hatch]


def _hatch(areas: Sequence[Area], value: int, kind: AreaKind, sheet: Sheet) -> str:
    hatch = style.hatch_of(value, kind)
    stretches = [
        stretch
        for area in areas
        for angle in hatch.angles
        for stretch in hatch_lines(_screen(area.points, sheet), angle, hatch.spacing)
    ]
    if not stretches:
        return ""
    pen = _pen(Stroke(hatch.weight), sheet)
    return tag(
        "path", {"class": f"pp-hatch-{value}", **pen, "fill": "none", "d": path_data(stretches)}
    )


def _lines(lines: Sequence[Line], sheet: Sheet) -> list[str]:
    elements = []
    for kind, stroke in style.LINES.items():
        runs = [_screen(line.points, sheet) for line in lines if line.kind is kind]
        elements += _stroked(f"pp-{kind}", runs, stroke, sheet)
    return elements


def _measures(measures: Sequence[Measure], sheet: Sheet) -> list[str]:
    runs = [run for measure in measures for run in _measured(measure, sheet).stretches]
    return _stroked("pp-measure", runs, style.MEASURE_LINE, sheet)


def _arrows(arrows: Sequence[Arrow], sheet: Sheet) -> list[str]:
    elements = []
    for kind, stroke in style.ARROWS.items():
        shapes = [
            arrow_shape(_on(arrow.start, sheet), _on(arrow.end, sheet), kind)
            for arrow in arrows
            if arrow.kind is kind
        ]
        heads = path_data((head for shape in shapes for head in shape.heads), "Z")
        ink = _ink(stroke.ink, sheet)
        if shapes and stroke.casing:
            elements.append(tag("path", {**_casing(stroke.casing), "d": heads}))
        elements += _stroked(f"pp-{kind}", [shape.shaft for shape in shapes], stroke, sheet)
        if shapes:
            elements.append(tag("path", {"class": f"pp-{kind}-head", "fill": ink, "d": heads}))
    return elements


def _stroked(name: str, runs: Sequence[Sequence[Place]], stroke: Stroke, sheet: Sheet) -> list[str]:
    """Return one path for all runs, over its paper casing where the stroke has one."""
    if not runs:
        return []
    data = path_data(runs)
    line = {"class": name, "fill": "none", **_pen(stroke, sheet), "d": data}
    if not stroke.casing:
        return [tag("path", line)]
    casing = {**_casing(stroke.weight / 2 + stroke.casing), "fill": "none", "d": data}
    return [tag("path", casing), tag("path", line)]


def _texts(texts: Sequence[Letter | Note], measures: Sequence[Measure], sheet: Sheet) -> list[str]:
    runs = [run for text in texts if _fits(text, sheet) for run in _runs(text, sheet)]
    runs += [
        Run(TextKind.MEASURE, 0, measure.text, _measured(measure, sheet).text_at)
        for measure in measures
    ]
    by_kind: dict[tuple[TextKind, int], list[Run]] = {}
    for run in runs:
        if run.words.strip():  # CairoSVG cannot draw an empty text
            by_kind.setdefault((run.kind, run.flush), []).append(run)
    kinds = sorted(by_kind)
    return [
        *(_disc(run.at, sheet) for run in runs if run.kind is TextKind.STEP),
        *(_halos(by_kind[kind]) for kind in kinds if kind[0] is not TextKind.STEP),
        *(_words(by_kind[kind], sheet) for kind in kinds),
    ]


def _fits(text: Letter | Note, sheet: Sheet) -> bool:
    if isinstance(text, Note) or text.room is None:
        return True
    return float(text.room) * sheet.frame.scale >= style.LETTER_ROOM


def _runs(text: Letter | Note, sheet: Sheet) -> Iterable[Run]:
    block = text_block(text)
    (x, y), step = _on(text.at, sheet), block.face.size * style.LINE_STEP
    edge = x + block.dx + block.flush * block.width / 2
    first = y + block.dy - step * (len(block.lines) - 1) / 2
    for at, line in enumerate(block.lines):
        yield Run(text.kind, block.flush, line, (edge, first + at * step))


def _halos(runs: Sequence[Run]) -> str:
    return _group(runs, {**_casing(style.HALO), **_type(runs[0])})


def _words(runs: Sequence[Run], sheet: Sheet) -> str:
    ink = _ink(style.TEXTS[runs[0].kind].ink, sheet)
    return _group(runs, {"class": f"pp-{runs[0].kind}", "fill": ink, **_type(runs[0])})


def _group(runs: Sequence[Run], attributes: Attributes) -> str:
    drop = style.CAPITAL_CENTRE * style.TEXTS[runs[0].kind].size
    texts = (tag("text", {"x": x, "y": y + drop}, escaped(words)) for _, _, words, (x, y) in runs)
    return tag("g", attributes, "".join(texts))


def _type(run: Run) -> Attributes:
    face = style.TEXTS[run.kind]
    return {
        "font-family": style.FONT,
        "font-size": face.size,
        "font-weight": face.weight,
        "text-anchor": ("middle", "end", "start")[run.flush],
    }


def _disc(middle: Place, sheet: Sheet) -> str:
    place: Attributes = {"cx": middle[0], "cy": middle[1], "r": style.DISC}
    return tag("circle", {"class": "pp-disc", **place, "fill": _ink(style.ACCENT, sheet)})


def _measured(measure: Measure, sheet: Sheet) -> MeasureLines:
    return measure_lines(_on(measure.start, sheet), _on(measure.end, sheet), measure)


def _casing(reach: float) -> Attributes:
    return {
        "class": "pp-casing",
        "fill": style.PAPER,
        "stroke": style.PAPER,
        "stroke-width": 2 * reach,
        "stroke-linejoin": "round",
    }


def _pen(stroke: Stroke, sheet: Sheet) -> Attributes:
    return {
        "stroke": _ink(stroke.ink, sheet),
        "stroke-width": stroke.weight,
        "stroke-dasharray": stroke.dashes,
        "stroke-linejoin": "round",
    }


def _ink(ink: str, sheet: Sheet) -> str:
    """Return the ink, which is the same dark one everywhere in a drawing without colours."""
    return style.INK if ink == style.ACCENT and sheet.look is not Look.COLOUR else ink


def _screen(points: Iterable[Point], sheet: Sheet) -> list[Place]:
    return [_on(point, sheet) for point in points]


def _on(point: Point, sheet: Sheet) -> Place:
    return on_screen((float(point[0]), float(point[1])), sheet.frame)
