"""One size's booklet as HTML that is complete in itself.

In: a size with its prose, the edition and the paper. Out: HTML for `pdf.to_pdf`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup
from quicktions import Fraction

from pieceproof.booklet.content import Work, booklet_words, is_wide
from pieceproof.booklet.cover import Wall, spots
from pieceproof.booklet.drawings import sheet_svg, square_to_measure, water
from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.booklet.fonts import font_addresses
from pieceproof.booklet.sheets import Room, Sheet, sheets_of
from pieceproof.booklet.true_scale import MM, Ink, Shape, shapes_of
from pieceproof.booklet.wording import page_html
from pieceproof.instructions import show_length
from pieceproof.model import Measure
from pieceproof.pages.page import render_html

SQUARES: Mapping[Measure, Fraction] = {
    Measure.INCH: Fraction(1),
    Measure.CENTIMETRE: Fraction(5, 2),
}
"""The side of the test square on every sheet."""

SHEET_MARGIN = (12.0, 12.0, 13.0)
"""Top, sides, bottom: what printers cannot reach is less than this. Common practice."""
HEAD = 31.0
_MARGINS = {
    Edition.FULL: (16.0, 18.0, 18.0),
    Edition.LARGE: (16.0, 15.0, 20.0),
    Edition.FOLDED: (12.0, 11.0, 14.0),
    Edition.SHEETS: SHEET_MARGIN,
}


@dataclass(frozen=True)
class CoverRoom:
    """What a cover needs but for its pictures, in millimetres."""

    margins: tuple[float, float, float]
    """Top, sides, bottom."""
    head: float
    foot: float
    padding: float
    name: float
    """The height of a colourway's name."""
    title: float
    """The size of a short title in points."""


_COVERS = {
    Edition.FULL: CoverRoom((12.0, 13.0, 15.0), 54.0, 57.0, 8.0, 6.5, 58.0),
    Edition.LARGE: CoverRoom((12.0, 13.0, 17.0), 56.0, 101.0, 6.0, 11.0, 54.0),
    Edition.FOLDED: CoverRoom((9.0, 9.0, 11.0), 38.0, 46.0, 5.0, 5.0, 36.0),
}
_LETTERS_OF_A_TITLE = 14
"""Names with more letters are set smaller, so that they stay on one line."""
_LEAST_TITLE = 0.4


@dataclass(frozen=True)
class PrintedSheet:
    """A sheet as its template shows it."""

    title: str
    part: str
    times: int
    drawing: Markup


def has_sheets(work: Work) -> bool:
    """Whether there is anything to print at true size."""
    return bool(shapes_of(work.sized.design, work.sized.publication))


def booklets_html(work: Work, copies: Sequence[Copy]) -> list[str]:
    """The HTML of each copy; what they share is worked out once."""
    words = booklet_words(work)
    shapes = shapes_of(work.sized.design, work.sized.publication)
    return [_html(work, words, shapes, copy) for copy in copies]


def room_of(paper: Paper) -> Room:
    """What a sheet has for drawing, below its head."""
    width, height = paper.sheet_mm
    top, side, bottom = SHEET_MARGIN
    return Room(width - 2 * side, height - top - bottom - HEAD - 1)


def _html(work: Work, words: Mapping[str, object], shapes: Sequence[Shape], copy: Copy) -> str:
    design = work.sized.design
    sheets = () if copy.edition is Edition.FOLDED else sheets_of(shapes, room_of(copy.paper))
    side, scale = SQUARES[design.measure], MM[design.measure]
    label = show_length(design.measure, side)
    html = render_html(
        "booklet/booklet.html",
        {
            **words,
            "style": Markup(render_html("booklet/booklet.css", _style(work, copy))),
            "cover": _cover(work, copy),
            "edition": copy.edition.value,
            "paper": copy.paper.value,
            "paper_called": copy.paper.called,
            "sheets": [_printed(sheet, room_of(copy.paper)) for sheet in sheets],
            "has_templates": any(_has(shape, Ink.GRAIN) for shape in shapes),
            "has_notches": any(_has(shape, Ink.NOTCH) for shape in shapes),
            "has_foundations": any(_has(shape, Ink.SEW) for shape in shapes),
            "has_tiles": any(sheet.part for sheet in sheets),
            "square": label,
            "test_square": square_to_measure(float(side) * scale, label),
        },
    )
    return page_html(html)


def _has(shape: Shape, ink: Ink) -> bool:
    return any(run.ink is ink for run in shape.runs)


def _printed(sheet: Sheet, room: Room) -> PrintedSheet:
    return PrintedSheet(sheet.title, sheet.part, sheet.times, sheet_svg(sheet, room))


def _style(work: Work, copy: Copy) -> Mapping[str, object]:
    folded = copy.edition is Edition.FOLDED
    width, height = copy.paper.half_mm if folded else copy.paper.sheet_mm
    top, side, bottom = _MARGINS[copy.edition]
    turned = is_wide(work) and not folded
    return {
        "fonts": font_addresses(),
        "edition": copy.edition.value,
        "width": width,
        "height": height,
        "margin": f"{top}mm {side}mm {bottom}mm",
        "sheet_margin": "{}mm {}mm {}mm".format(*SHEET_MARGIN),
        "head_height": HEAD,
        "cover": _cover(work, copy),
        "drawing_height": height - top - bottom - 1,
        "colouring_height": (min(width, height) if turned else height) - top - bottom - 34,
    }


def _cover(work: Work, copy: Copy) -> Mapping[str, object]:
    """Places on the cover. Templates alone have none, and take what a booklet's would be."""
    room = _COVERS.get(copy.edition, _COVERS[Edition.FULL])
    folded = copy.edition is Edition.FOLDED
    width, height = copy.paper.half_mm if folded else copy.paper.sheet_mm
    top, side, bottom = room.margins
    across, down = width - 2 * side, height - top - bottom
    panel = down - room.head - room.foot
    publication, design = work.sized.publication, work.sized.design
    ratio = float(publication.width) / float(publication.height)
    wall = Wall(across - 2 * room.padding, panel - 2 * room.padding, ratio, room.name)
    fitted = min(1.0, max(_LEAST_TITLE, _LETTERS_OF_A_TITLE / len(design.name)))
    return {
        "margins": f"{top}mm {side}mm {bottom}mm",
        "width": across,
        "height": down,
        "panel": panel,
        "foot": room.foot,
        "padding": room.padding,
        "title": f"{room.title * fitted:.1f}",
        "spots": spots(wall, len(design.colourways)),
        "water": water(across),
    }
