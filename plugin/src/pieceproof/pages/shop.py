"""The shop's own part of the site: batches of kits, never in the public build.

In: compiled patterns and the bytes of the shop's file. Out: pages and files by path, or problems.
What was made of a batch is kept while its pattern and the shop's file are the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pieceproof.diagrams.subject import subject
from pieceproof.drawing.scene import Area, AreaKind, Box, Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.kits.book import EMPTY, Book
from pieceproof.kits.changes import changes_of
from pieceproof.kits.orders import Order, Unknown, found, order_of, run_problems
from pieceproof.kits.proof import kit_faults
from pieceproof.kits.sheet import kit_sheet
from pieceproof.kits.stock import read_book
from pieceproof.pages.kits import Made, folder_of, made
from pieceproof.pages.page import Page, render_page
from pieceproof.problems import Place, Problem, show_problem
from pieceproof.shelf import Shelved

FOLDER = "shop"
INDEX = f"{FOLDER}/index.md"
TITLE = "Behind the counter"
PROOFS = "proof"
"""The folder of the proof sheets in the shop's own."""
HATCH_PX = 44


@dataclass(frozen=True)
class Shop:
    """Pages and files by path, and what each batch was made of."""

    pages: Mapping[str, Page]
    files: Mapping[str, bytes]
    made: Mapping[Order, tuple[Shelved, Book, Made]]


CLOSED = Shop({}, {}, {})


def publish_shop(
    shelf: Mapping[str, Shelved], file: str, stock: bytes | None, last: Shop, page_name: str
) -> tuple[Shop, tuple[str, ...]]:
    """The shop's pages, and problems as text; batches with problems keep their last page."""
    book, problems, lines = (EMPTY, (), ()) if stock is None else read_book(file, stock)
    patterns = {slug: shelved.pattern for slug, shelved in shelf.items() if not shelved.problems}
    problems = problems or tuple(_unnamed(book, shelf, patterns))
    if problems:
        return last, tuple(_shown(problem, lines) for problem in problems)
    batches: dict[Order, tuple[Shelved, Book, Made]] = {}
    faults: list[Problem] = []
    for run in book.runs:
        order = order_of(run)
        if order.pattern not in patterns:
            continue
        shelved, kept = shelf[order.pattern], last.made.get(order)
        if kept is not None and kept[0] is shelved and kept[1] == book:
            batches[order] = kept
            continue
        page, sentences = _made(order, shelved, book, f"../{page_name}")
        faults += [_fault(run.at.here, sentence) for sentence in sentences]
        if page is not None:
            batches[order] = (shelved, book, page)
    return _shop(batches, file, page_name), tuple(_shown(fault, lines) for fault in faults)


def _unnamed(
    book: Book, shelf: Mapping[str, Shelved], patterns: Mapping[str, object]
) -> Iterator[Problem]:
    """Words that name nothing; patterns with problems of their own are left for later."""
    sound = {slug: shelf[slug].pattern for slug in patterns}
    broken = tuple(slug for slug in shelf if slug not in patterns)
    runs = tuple(run for run in book.runs if run.pattern not in broken)
    prices = {slug: price for slug, price in book.pattern_prices.items() if slug not in broken}
    return run_problems(replace(book, runs=runs, pattern_prices=prices), sound)


def _made(
    order: Order, shelved: Shelved, book: Book, index: str
) -> tuple[Made | None, Sequence[str]]:
    ordered = found(order, shelved.pattern, book)
    if isinstance(ordered, Unknown):
        raise AssertionError(f"{ordered.word} was checked before")
    sheet, sentences = kit_sheet(ordered, book)
    if sheet is None:
        return None, sentences
    faults = kit_faults(sheet)
    if faults:
        return None, faults
    drawn = subject(ordered.design, ordered.sized.publication, ordered.sized.drawing)
    changes = changes_of(sheet, shelved.pattern, shelved.lines)
    return made(sheet, changes, drawn, shelved.pattern.prints, index), ()


def _shop(batches: Mapping[Order, tuple[Shelved, Book, Made]], file: str, page_name: str) -> Shop:
    batch = {folder_of(order): page for order, (_, _, page) in batches.items()}
    words = {
        "title": TITLE,
        "file": file,
        "proofs": f"{PROOFS}/{page_name}",
        "batches": [(f"{name}/{page_name}", b.words, b.state) for name, b in batch.items()],
    }
    return Shop(
        {
            INDEX: render_page("shop.md", words),
            **{f"{FOLDER}/{name}/index.md": b.page for name, b in batch.items()},
        },
        {
            **{f"{FOLDER}/hatch-{value}.svg": _hatch(value) for value in range(1, 6)},
            **{
                f"{FOLDER}/{name}/{path}": data
                for name, b in batch.items()
                for path, data in b.files.items()
            },
        },
        batches,
    )


def _hatch(value: int) -> bytes:
    """A square hatched by value, as in the drawings without colour."""
    square = ((0, 0), (1, 0), (1, 1), (0, 1))
    area = Area(square, "cloth", value, AreaKind.PATCH)
    scene = Scene(f"Value {value} of 5", "", Box(0, 0, 1, 1), (area,))
    return to_svg(scene, Look.INK, "hatch", HATCH_PX).encode()


def _fault(place: Place, sentence: str) -> Problem:
    return Problem(
        place,
        "kits-not-proved",
        sentence,
        "a batch whose pieces can be cut and counted",
        "change the batch, or the width of its cloth",
    )


def _shown(problem: Problem, lines: Sequence[str]) -> str:
    at = problem.place.line - 1
    return show_problem(problem, lines[at] if at < len(lines) else "")
