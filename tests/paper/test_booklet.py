"""A whole booklet, looked at with another library: structure, text, order of folded pages.

Structure by ISO 14289-1 (PDF/UA-1): tagged (7.1), a title and a language (7.1, 7.2), alternative
text on figures (7.3). Entries by ISO 32000-1: 7.7.2 (catalogue), 12.2 (PrintScaling), 12.3.3
(outline), 14.7 (structure).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pikepdf
import pypdfium2
import pytest
from booklet_samples import order, printed
from pypdfium2 import raw

from pieceproof.booklet.content import booklet_words
from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.booklet.press import Order, pressed

BOOKLET = ("heron-landing", "short", Edition.FULL, Paper.LETTER)


@pytest.fixture
def booklet() -> pikepdf.Pdf:
    return pikepdf.open(BytesIO(printed(*BOOKLET)))


def texts(pdf: bytes) -> list[str]:
    pages = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range() for page in pages]


def plain(text: str) -> str:
    return " ".join(text.replace("\u2044", "/").split())


def elements(node: Any) -> Iterator[Any]:
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from elements(kid)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        yield node
        yield from elements(node.get("/K", pikepdf.Array()))


def test_it_is_tagged_and_names_itself(booklet: pikepdf.Pdf) -> None:
    root = booklet.Root
    assert root.MarkInfo.Marked
    assert str(root.Lang) == "en"
    assert root.ViewerPreferences.DisplayDocTitle
    assert root.ViewerPreferences.PrintScaling == "/None"
    with booklet.open_metadata() as about:
        assert about["dc:title"] == "Heron Landing, Three stars"
        assert about["pdfuaid:part"] == "1"


def test_every_figure_says_what_it_shows(booklet: pikepdf.Pdf) -> None:
    found = list(elements(booklet.Root.StructTreeRoot.K))
    kinds = {str(element.S) for element in found}
    assert {"/H1", "/H2", "/H3", "/P", "/Table", "/TH", "/Figure", "/LI"} <= kinds
    figures = [element for element in found if element.S == "/Figure"]
    assert len(figures) > 10
    assert all(str(figure.get("/Alt", "")).strip() for figure in figures)


def test_bookmarks_lead_through_the_chapters(booklet: pikepdf.Pdf) -> None:
    with booklet.open_outline() as outline:
        chapters = [entry.title for top in outline.root for entry in (top, *top.children)]
    wanted = ["Before you start", "Materials", "Cutting", "Units", "Blocks", "Finishing"]
    assert [title for title in chapters if title in wanted] == wanted


def test_its_numbers_are_the_published_ones() -> None:
    """Every piece's letter, count and size, every make's count, every length of cloth to buy of
    the usual width or less.
    """
    sized = order("heron-landing", "short").work.sized
    text = plain(" ".join(texts(printed(*BOOKLET))))
    facts = {fact.key: fact for fact in sized.facts}
    for piece in sized.publication.pieces:
        if f"{piece.letter} (" in text:
            assert f"{piece.letter} ({piece.count})" in text or "in all" in text
    for make in sized.publication.makes:
        assert f"Make {make.rounds * make.each} unfinished" in text
    for key, fact in facts.items():
        if key.endswith((" width 42, yards", " width 40, yards")) and " + " not in key:
            assert f"{fact.published} yd (" in text, key


def test_each_page_has_its_number_and_the_version() -> None:
    found = texts(printed(*BOOKLET))
    for number, text in enumerate(found, start=1):
        assert f"page {number} of {len(found)}" in plain(text)
        assert "Edition 1.1, 5 October 2026" in plain(text)


def test_nothing_runs_over_its_page() -> None:
    """Text keeps 10 mm from the sides; the line at the foot 8 mm, which printers reach."""
    for page in pypdfium2.PdfDocument(printed(*BOOKLET)):
        width, height = page.get_size()
        words = page.get_textpage()
        boxes = [words.get_rect(i) for i in range(words.count_rects())]
        near = 10 * 72 / 25.4
        for left, bottom, right, top in boxes:
            assert near <= left <= right <= width - near
            assert near * 0.8 <= bottom <= top <= height - near


def test_the_type_is_in_the_file(booklet: pikepdf.Pdf) -> None:
    fonts = [o for o in booklet.objects if isinstance(o, pikepdf.Dictionary) and "/FontName" in o]
    assert fonts
    for font in fonts:
        assert "/FontFile2" in font or "/FontFile3" in font
        assert re.search(r"\+Alegreya", str(font.FontName))


def test_two_runs_give_the_same_bytes() -> None:
    first = printed("pilot-star", "tray", Edition.SHEETS, Paper.A4)
    again, _ = pressed(
        Order(order("pilot-star", "tray").work, (Copy(Edition.SHEETS, Paper.A4),), "")
    )
    assert [first] == list(again.values())


def test_folded_pages_come_in_fours_and_in_order() -> None:
    """Folding a stack of sheets: fronts and backs add up to one more than the number of places."""
    pdf = printed("heron-landing", "short", Edition.FOLDED, Paper.LETTER)
    sheets = pypdfium2.PdfDocument(pdf)
    sides = [
        [int(n) for n in re.findall(r"page (\d+) of", text.replace("\r\n", " "))]
        for text in texts(pdf)
    ]
    total = max(number for side in sides for number in side)
    places = -(-total // 4) * 4
    assert len(sides) == places // 2
    assert sorted(number for side in sides for number in side) == [*range(1, total + 1)]
    assert sides[0] == [total, 1]
    for index, side in enumerate(sides):
        inner = {index + 1, places - index}
        assert set(side) <= inner | {total}
    assert [round(side * 25.4 / 72, 1) for side in sheets[0].get_size()] == [279.4, 215.9]


def test_large_print_is_large_upright_and_in_one_column() -> None:
    """Type of 22 pt at least but for drawings and the line at the foot; no slanted face."""
    pdf = printed("heron-landing", "short", Edition.LARGE, Paper.A4)
    document = pikepdf.open(BytesIO(pdf))
    found = [o for o in document.objects if isinstance(o, pikepdf.Dictionary) and "/FontName" in o]
    assert not [font.FontName for font in found if "Italic" in str(font.FontName)]
    contents = pypdfium2.PdfDocument(pdf)[1]
    words = contents.get_textpage()
    assert "Contents" in words.get_text_range()
    for i in range(words.count_chars()):
        _, bottom, _, top = words.get_charbox(i)
        if top > bottom and bottom > 20 * 72 / 25.4 and words.get_text_range(i, 1).strip():
            matrix = raw.FS_MATRIX()
            raw.FPDFText_GetMatrix(words.raw, i, matrix)
            assert matrix.a * raw.FPDFText_GetFontSize(words.raw, i) >= 21.99


def test_cautions_stand_before_blade_iron_and_pins_and_the_edition_is_named() -> None:
    text = plain(" ".join(texts(printed(*BOOKLET))))
    assert text.index("Blades.") > text.index("Fabrics are called by the part")
    for caution in ("Heat and needles.", "Pins. Count the pins"):
        assert caution in text
    assert "This is edition 1.1, 5 October 2026." in text


def test_lists_name_the_page_of_narrower_cloth() -> None:
    found = [plain(text) for text in texts(printed(*BOOKLET))]
    pages = {int(n) for text in found for n in re.findall(r'From cloth 40" wide: page (\d+)', text)}
    assert pages
    for number in pages:
        assert 'Cutting from cloth 40" wide' in found[number - 1]


def test_a_second_foundation_refers_to_the_first() -> None:
    words = {i.make.name: i.steps for i in order("last-ferry", "one").work.sized.instructions}
    assert any("fold the foundation back" in step for step in words["gull wing"])
    assert "as you sewed the gull wing unit" in words["wave"][0]
    assert len(words["wave"]) == len(words["gull wing"])


def test_a_list_is_printed_once_for_each_width_where_it_differs() -> None:
    """Lanterns are cut around motifs, fewer side by side from narrower cloth; the back has no
    drawing.
    """
    text = plain(" ".join(texts(printed("slack-water", "lap", Edition.FULL, Paper.LETTER))))
    assert text.count("the whole width, for pieces with a motif") == 2
    assert text.count("the whole width, for the backing") == 1
    lists = booklet_words(order("slack-water", "lap").work)["cut_lists"]
    assert isinstance(lists, list)
    drawn = {cut.called: "8 F with motifs" in cut.drawing for cut in lists if cut.drawing}
    assert drawn["Lantern centres"]
    assert "Backing" not in drawn
    assert text.count("Lantern centres planned for a print with a motif") == 1
