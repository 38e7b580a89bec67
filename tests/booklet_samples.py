"""Booklets of the shop's own patterns, each made once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.booklet.press import Order, orders_of, pressed
from pieceproof.folders import read_folders
from pieceproof.shelf import compile_folders

PATTERNS = Path(__file__).parents[1] / "patterns"


@cache
def order(slug: str, size: str) -> Order:
    folders, _ = read_folders(PATTERNS)
    shelf = compile_folders({slug: folders[slug]}, {})
    (found,) = orders_of(shelf, (), "A small shop", [size])
    return found


@cache
def printed(slug: str, size: str, edition: Edition, paper: Paper) -> bytes:
    work = order(slug, size).work
    files, problems = pressed(Order(work, (Copy(edition, paper),), ""))
    assert problems == ()
    (pdf,) = files.values()
    return pdf
