"""Sheets of kits for tests: of the repository's runner, and of bare cutting lists."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from cloth_samples import Sized as Bare

from pieceproof.compile import Pattern, compile_pattern
from pieceproof.kits.book import EMPTY, Book
from pieceproof.kits.orders import Order, Ordered, found
from pieceproof.kits.sheet import KitSheet, kit_sheet
from pieceproof.kits.stock import read_book
from pieceproof.requirements import Requirements

ROOT = Path(__file__).parents[1]
SHOP = (ROOT / "patterns" / "kits.yaml").read_bytes()


@cache
def runner() -> Pattern:
    """Heron Landing, compiled."""
    folder = ROOT / "patterns" / "heron-landing"
    return compile_pattern(
        "heron-landing", {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file()}
    )


def shop(text: bytes = SHOP) -> Book:
    """A book that has no problems."""
    book, problems, _ = read_book("patterns/kits.yaml", text)
    assert problems == ()
    return book


def runner_sheet(kits: int, book: Book | None = None, **changed: object) -> KitSheet:
    """The middle runner in its first colourway."""
    order = replace(Order("heron-landing", "middle", "low-water", kits), **changed)
    ordered = found(order, runner(), shop() if book is None else book)
    assert isinstance(ordered, Ordered), ordered
    sheet, sentences = kit_sheet(ordered, shop() if book is None else book)
    assert sheet is not None, sentences
    return sheet


def bare_sheet(sample: Bare, kits: int, book: Book = EMPTY) -> KitSheet | None:
    """A sheet of a bare cutting list in its only colourway; None where it cannot be cut."""
    design, publication = sample
    (name,) = design.colourways
    unplanned = Requirements((), (), ())
    sized = replace(
        runner().sizes[0], design=design, publication=publication, requirements=unplanned
    )
    order = Order("sample", design.size, name, kits)
    sheet, _ = kit_sheet(Ordered(order, sized, design), book)
    return sheet
