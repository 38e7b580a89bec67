"""Orders of booklets, and what is pressed of each.

In: compiled patterns. Out: an `Order` for each size, and the bytes of its files. An order holds all
that its files depend on but the program itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256

from pieceproof.booklet.booklet import booklets_html, has_sheets
from pieceproof.booklet.content import Work
from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.booklet.impose import imposed
from pieceproof.booklet.pdf import to_pdf
from pieceproof.model import Design
from pieceproof.shelf import Shelved

DRAFT = "Draft"
"""Printed where a pattern has no version yet."""


@dataclass(frozen=True)
class Order:
    """Files to make for one size. ``source`` marks the bytes that the pattern was made of."""

    work: Work
    copies: tuple[Copy, ...]
    source: str

    def file_name(self, copy: Copy) -> str:
        """What a copy's file is called."""
        return copy.file_name(self.work.slug, self.work.sized.design.size)

    def mark(self, copy: Copy, program: str) -> str:
        """Changes with whatever a copy is made of; ``program`` marks the program."""
        named = (program, self.source, self.work.shop, self.work.version, self.file_name(copy))
        return sha256(repr(named).encode()).hexdigest()


def orders_of(
    shelf: Mapping[str, Shelved], copies: Sequence[Copy], shop: str, sizes: Sequence[str] = ()
) -> tuple[Order, ...]:
    """Orders for all sizes of patterns without problems, or only for the ``sizes`` named."""
    return tuple(
        order
        for shelved in shelf.values()
        for order in _orders(shelved, copies, shop)
        if not sizes or order.work.sized.design.size in sizes
    )


def pressed(order: Order) -> tuple[Mapping[str, bytes], tuple[str, ...]]:
    """The files of an order by name, and why some are missing."""
    files: dict[str, bytes] = {}
    problems: dict[str, None] = {}
    for copy, html in zip(order.copies, booklets_html(order.work, order.copies), strict=True):
        pdf, faults = to_pdf(html)
        problems |= dict.fromkeys(faults)
        if pdf:
            folded = copy.edition is Edition.FOLDED
            files[order.file_name(copy)] = imposed(pdf, copy.paper.sheet_mm) if folded else pdf
    return files, tuple(problems)


def copies_of(editions: Sequence[Edition], papers: Sequence[Paper]) -> tuple[Copy, ...]:
    """Every edition on every paper."""
    return tuple(Copy(edition, paper) for edition in editions for paper in papers)


def _orders(shelved: Shelved, copies: Sequence[Copy], shop: str) -> Iterator[Order]:
    if shelved.problems:
        return
    source = sha256(repr(sorted(shelved.folder.items())).encode()).hexdigest()
    pictures = {name: shelved.folder[name] for name in shelved.prose.pictures}
    pattern = shelved.pattern
    for sized in pattern.sizes:
        passages = shelved.prose.sizes.get(sized.design.size, ())
        version = _version(sized.design)
        work = Work(pattern.slug, sized, passages, pictures, pattern.prints, shop, version)
        wanted = (c for c in copies if c.edition is not Edition.SHEETS or has_sheets(work))
        yield Order(work, tuple(wanted), source)


def _version(design: Design) -> str:
    if design.release is None:
        return DRAFT
    return f"Edition {design.release.edition}, {' '.join(design.release.date.split())}"
