"""All drawings of one size but the cutting plans, by the names under which pages ask for them.

In: a subject. Out: scenes by name: ``top``, ``finished star``, ``exploded star``...
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pieceproof.diagrams.assembly import assembly
from pieceproof.diagrams.blocks import exploded, finished
from pieceproof.diagrams.legible import PHONE
from pieceproof.diagrams.making import making
from pieceproof.diagrams.subject import Subject, rows_of
from pieceproof.diagrams.tops import measured_top, top
from pieceproof.drawing.scene import Scene
from pieceproof.published import Make, MakeKind


def plates(subject: Subject, width: int = PHONE) -> Mapping[str, Scene]:
    """Every drawing, in the order in which a maker meets them.

    ``width`` is the width in CSS pixels at which they are to be drawn, at least 360; a drawing
    may be enlarged afterwards as a whole.
    """
    return dict(_plates(subject, width))


def _plates(subject: Subject, width: int) -> Iterator[tuple[str, Scene]]:
    yield "top", top(subject)
    yield "measured top", measured_top(subject)
    for make in subject.publication.makes:
        if make.method:
            yield f"making {make.name}", making(subject, make.name, width)
        if make.kind in (MakeKind.UNIT, MakeKind.BLOCK):
            yield f"finished {make.name}", finished(subject, make.name, width)
            if _cells(make) > 1:
                yield f"exploded {make.name}", exploded(subject, make.name, width)
        if not make.method and _cells(make) != 1:
            yield f"assembly {make.name}", assembly(subject, make.name, width)


def _cells(make: Make) -> int:
    """How many cells a make is assembled from; 0 if it is made otherwise."""
    step = rows_of(make)
    return sum(len(row) for row in step.rows) if step else 0
