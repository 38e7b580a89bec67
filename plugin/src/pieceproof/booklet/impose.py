"""A booklet's pages laid two on a side, so that printed sheets fold into the booklet.

In: a PDF whose pages are half a sheet. Out: a PDF of sheets on their sides, fronts and backs in
turn, to be printed on both sides and turned over on the short edge. Pages are not scaled; blank
ones fill the last sheet, before the last page. The pages' tags are lost: this file is for a
printer, the booklet itself for reading.

pikepdf does it because pages stay what they are: drawings and fonts are placed, not drawn again.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from io import BytesIO
from typing import Any

POINTS_PER_MM = 72 / 25.4


def imposed(pdf: bytes, sheet_mm: tuple[float, float]) -> bytes:
    """The sheets of a booklet; ``sheet_mm`` is the width and height of a sheet held upright."""
    pikepdf: Any = import_module("pikepdf")
    tall, wide = (side * POINTS_PER_MM for side in sheet_mm)
    with pikepdf.open(BytesIO(pdf)) as pages, pikepdf.new() as sheets:
        for left, right in sides(len(pages.pages)):
            sheet = sheets.add_blank_page(page_size=(wide, tall))
            for number, x in ((left, 0.0), (right, wide / 2)):
                if number:
                    box = pikepdf.Rectangle(x, 0, x + wide / 2, tall)
                    sheet.add_overlay(pages.pages[number - 1], box, shrink=False, expand=False)
        sheets.Root.Lang = pages.Root.Lang
        sheets.Root.ViewerPreferences = pikepdf.Dictionary(
            PrintScaling=pikepdf.Name.None_, Duplex=pikepdf.Name.DuplexFlipShortEdge
        )
        with sheets.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as about:
            about["dc:title"] = str(pages.docinfo.get("/Title", ""))
        done = BytesIO()
        sheets.save(done, deterministic_id=True)
    return done.getvalue()


def sides(pages: int) -> Iterator[tuple[int, int]]:
    """Which pages lie left and right on each side, counted from 1; 0 is blank.

    >>> list(sides(4))
    [(4, 1), (2, 3)]
    >>> list(sides(5))
    [(5, 1), (2, 0), (0, 3), (4, 0)]
    """
    whole = -(-pages // 4) * 4
    for front in range(1, whole // 2 + 1, 2):
        back = whole + 1 - front
        yield _page(back, pages, whole), _page(front, pages, whole)
        yield _page(front + 1, pages, whole), _page(back - 1, pages, whole)


def _page(place: int, pages: int, whole: int) -> int:
    """The page at a place: the last page comes last, blank ones before it."""
    if place == whole:
        return pages
    return place if place < pages else 0
