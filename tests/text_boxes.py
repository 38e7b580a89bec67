"""Where the texts of a scene stand on the screen, and which of them overlap."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from pieceproof.drawing.frame import Frame, fit, on_screen
from pieceproof.drawing.marks import measure_lines, reaches, text_block
from pieceproof.drawing.scene import Area, Letter, Measure, Note, Scene, TextKind, flat
from pieceproof.drawing.style import TEXTS, text_width


def overlaps(scene: Scene, width: int) -> list[tuple[str, str]]:
    """Texts that overlap. Widths are estimated on the generous side; a tenth is given back."""
    return [
        (text, other)
        for (text, a), (other, b) in combinations(text_boxes(scene, width), 2)
        if not (a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1])
    ]


def frame_of(scene: Scene, width: int) -> Frame:
    x, y = float(scene.box.x), float(scene.box.y)
    corners = Area(((x, y), (x + float(scene.box.width), y + float(scene.box.height))))
    return fit([r for item in (corners, *flat(scene.items)) for r in reaches(item)], width)


def text_boxes(scene: Scene, width: int) -> Iterator[tuple[str, tuple[float, float, float, float]]]:
    frame = frame_of(scene, width)
    for item in flat(scene.items):
        if isinstance(item, Letter | Note):
            block = text_block(item)
            x, y = on_screen((float(item.at[0]), float(item.at[1])), frame)
            yield item.text, around(x + block.dx, y + block.dy, block.width, block.height)
        elif isinstance(item, Measure):
            ends = [on_screen((float(p[0]), float(p[1])), frame) for p in (item.start, item.end)]
            x, y = measure_lines(*ends, item).text_at
            face = TEXTS[TextKind.MEASURE]
            yield item.text, around(x, y, text_width(item.text, face), face.size)


def around(x: float, y: float, width: float, height: float) -> tuple[float, float, float, float]:
    return x - width * 0.45, y - height * 0.45, x + width * 0.45, y + height * 0.45
