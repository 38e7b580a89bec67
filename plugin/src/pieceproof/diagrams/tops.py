"""The whole top.

In: a subject. Out: a scene of all patches; only the colours differ between colourways.
"""

from __future__ import annotations

from pieceproof.diagrams import words
from pieceproof.diagrams.subject import Subject, area, length
from pieceproof.drawing.scene import Area, AreaKind, Box, Measure, Scene


def top(subject: Subject) -> Scene:
    """The finished top, nothing else: for pages, cards and colouring."""
    picture = subject.drawing.pictures[subject.publication.makes[-1].name]
    return Scene(
        f"{subject.design.name}, {subject.design.label}: the finished top",
        words.whole_top(subject),
        Box(0, 0, picture.width, picture.height),
        _patches(subject),
    )


def measured_top(subject: Subject) -> Scene:
    """The finished top with its finished width and height."""
    plain = top(subject)
    width, height = subject.publication.width, subject.publication.height
    measures = (
        Measure((0, 0), (width, 0), f"{length(subject, width)} finished"),
        Measure((width, 0), (width, height), length(subject, height)),
    )
    return Scene(plain.title, plain.desc, plain.box, (*plain.items, *measures))


def _patches(subject: Subject) -> tuple[Area, ...]:
    picture = subject.drawing.pictures[subject.publication.makes[-1].name]
    return tuple(area(subject, p.fabric, p.outline, AreaKind.TOP, p.layer) for p in picture.patches)
