"""What shows where cloth lies on cloth.

In: faces that may overlap, the one on top first. Out: the parts that show, not overlapping.
"""

from __future__ import annotations

from collections.abc import Iterable

from pieceproof.bench.table import Face, Faces
from pieceproof.shapes import Polygon, apart, bounds, cut, line_through, overlap


def visible(faces: Faces) -> Faces:
    """Every face less the ones before it; a face that is not overlapped stays in one."""
    shown: list[Face] = []
    for face in faces:
        parts = [face.outline]
        for above in shown:
            parts = [rest for part in parts for rest in _less(part, above.outline)]
        shown += [face.outlined(part) for part in parts]
    return tuple(shown)


def _less(outline: Polygon, above: Polygon) -> Iterable[Polygon]:
    if apart(bounds([outline]), bounds([above])) or not overlap(outline, above):
        return (outline,)
    parts = []
    under = outline
    for i, corner in enumerate(above):
        inside = line_through(corner, above[(i + 1) % len(above)])
        outside = cut(under, inside.flipped())
        parts += [outside] if outside else []
        under = cut(under, inside)
    return parts
