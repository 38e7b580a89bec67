"""Where the tips of a unit are, and how far from the seam lines, on the unfinished unit.

In: a subject and a make's name. Out: a scene. Every tip has a mark in a disc beside the unit and a
line to it: + floats, 0 is exact, × is cut off; the dashed lines are the seams to come. Below it the
tips stand in words, or not, for pages that say them beside the drawing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quicktions import Fraction

from pieceproof.diagrams.legible import PHONE, settled, wrapped
from pieceproof.diagrams.subject import Subject, areas, make_named
from pieceproof.diagrams.words import faces_in_words, sentence
from pieceproof.drawing.scene import (
    AreaKind,
    Box,
    Item,
    Letter,
    Line,
    LineKind,
    Note,
    Scene,
    Side,
    TextKind,
)
from pieceproof.drawing.style import DISC
from pieceproof.instructions import show_length
from pieceproof.lengths import Surd, floor_to, magnitude
from pieceproof.published import Make
from pieceproof.shapes import Point
from pieceproof.steps import Side as Toward
from pieceproof.tips import TipGroup, TipKind, in_words, tips_of

MARKS = {TipKind.FLOATING: "+", TipKind.EXACT: "0", TipKind.CUT: "×"}
"""What stands in the discs."""

_BESIDE = 20.0
_BESIDE_DISC = 20.0
_DISC_ROW = 28.0
_LINE = 18.0
_TALLEST = 1.3


def tips(subject: Subject, name: str, width: int = PHONE) -> Scene:
    """The unfinished unit or block with all its tips; one without tips is drawn without marks."""
    make = make_named(subject, name)
    found = tips_of(subject.design, subject.publication, subject.drawing).of(name)
    return settled(lambda pixel: _scene(subject, make, found, found, pixel), make.width, width)


def marked_tips(subject: Subject, name: str, found: Sequence[TipGroup], width: int) -> Scene:
    """The same with marks alone, for a page that has the words."""
    make = make_named(subject, name)
    return settled(lambda pixel: _scene(subject, make, found, (), pixel), make.width, width)


def _scene(
    subject: Subject,
    make: Make,
    found: Sequence[TipGroup],
    legend: Sequence[TipGroup],
    pixel: float,
) -> Scene:
    told = [told_of(subject, group) for group in found]
    room = 2 * _BESIDE * pixel
    wide = max(float(make.width) + 2 * room, (float(make.height) + 2 * room) / _TALLEST)
    left = (float(make.width) - wide) / 2
    texts = [
        wrapped(words, wide / pixel - _BESIDE_DISC - 4, TextKind.CAPTION)
        for words in told[: len(legend)]
    ]
    rows = [text.count("\n") * _LINE + _DISC_ROW for text in texts]
    return Scene(
        f"{make.name}: how far its tips are from the seams",
        " ".join(
            sentence(text)
            for text in (
                f"the {make.name} shows {faces_in_words(subject, make.name)}",
                *(told or ["it has no tips near a seam"]),
            )
        ),
        Box(left, 0, wide, float(make.height) + room + sum(rows) * pixel),
        (
            *areas(subject, subject.things[make.name].faces, AreaKind.PIECE),
            _seam_lines(make, subject.publication.seam),
            *_discs(make, found, subject.publication.seam, pixel),
            *_legend(legend, texts, (left, float(make.height) + room), pixel),
        ),
    )


def _seam_lines(make: Make, seam: Fraction) -> Line:
    right, bottom = make.width - seam, make.height - seam
    corners = ((seam, seam), (right, seam), (right, bottom), (seam, bottom), (seam, seam))
    return Line(corners, LineKind.SEAM)


def _discs(make: Make, found: Sequence[TipGroup], seam: Fraction, pixel: float) -> Iterator[Item]:
    """One disc for tips of neighbours that meet; the one nearest to the seam line counts."""
    states: dict[tuple[Point, Toward], TipKind] = {}
    for group in found:
        for tip in group.tips:
            states.setdefault((tip.at, tip.toward), group.state)
    for (at, toward), state in states.items():
        x, y = float(at[0] + seam), float(at[1] + seam)
        away = _BESIDE * pixel
        disc = {
            Toward.TOP: (x, -away),
            Toward.BOTTOM: (x, float(make.height) + away),
            Toward.LEFT: (-away, y),
            Toward.RIGHT: (float(make.width) + away, y),
        }[toward]
        yield Line(((x, y), disc), LineKind.LEADER)
        yield Letter(disc, MARKS[state], TextKind.STEP)


def _legend(
    found: Sequence[TipGroup], texts: Sequence[str], start: tuple[float, float], pixel: float
) -> Iterator[Item]:
    """Each group in words, below the unit, beside its mark."""
    left, y = start
    for group, text in zip(found, texts, strict=True):
        lines = text.count("\n") + 1
        middle = y + lines * _LINE / 2 * pixel
        disc = (left + DISC * pixel, y + _LINE / 2 * pixel)
        yield Letter(disc, MARKS[group.state], TextKind.STEP)
        yield Note((left + _BESIDE_DISC * pixel, middle), text, Side.RIGHT, TextKind.CAPTION)
        y += ((lines - 1) * _LINE + _DISC_ROW) * pixel


def told_of(subject: Subject, group: TipGroup) -> str:
    """Which tips, and how far they are from their seam line."""
    called = {name: fabric.called for name, fabric in subject.design.fabrics.items()}
    words, clearance = in_words(group, called), group.clearance
    if group.state is TipKind.EXACT:
        return f"{words}: exactly on the seam line"
    size = floor_to(magnitude(clearance), subject.publication.step / 2)
    exactly = "about " if isinstance(clearance, Surd) else ""
    shown = f"{exactly}{show_length(subject.design.measure, size)}"
    if group.state is TipKind.FLOATING:
        return f"{words}: {shown} to spare"
    return f"{words}: cut off by {shown}"
