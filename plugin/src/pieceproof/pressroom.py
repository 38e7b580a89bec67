"""Booklets made in parallel, and kept as long as nothing that they are made of changes.

Reads and writes the folder in which finished booklets are kept, and reads the package's own files,
whose bytes are a part of what a booklet is made of. What is in a booklet is not known here.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from hashlib import sha256
from pathlib import Path

from pieceproof.booklet.pdf import NO_PDF, engine
from pieceproof.booklet.press import Order, pressed
from pieceproof.folders import replace_file
from pieceproof.workers import one_by_one

CACHE = Path(".cache") / "booklets"

Files = Mapping[str, bytes]
Tell = Callable[[int, int, str], None]


def make_booklets(orders: Sequence[Order], kept: Path, tell: Tell) -> tuple[Files, tuple[str, ...]]:
    """All files of all orders by name, and why some are missing.

    ``kept`` is the folder of finished booklets; ``tell`` hears how many orders of how many are
    done, and of which pattern the last one was.
    """
    files, missing = kept_booklets(orders, kept)
    if missing and not engine():
        return files, (NO_PDF,)
    made: dict[str, bytes] = {}
    problems: dict[str, None] = {}
    presses = zip(missing, one_by_one(pressed, missing), strict=True)
    for done, (order, (pdfs, faults)) in enumerate(presses, start=1):
        made |= pdfs
        problems |= dict.fromkeys(faults)
        for copy in order.copies:
            if (pdf := pdfs.get(order.file_name(copy))) is not None:
                replace_file(_place(kept, order.mark(copy, program_mark())), pdf)
        tell(done, len(missing), order.work.slug)
    return {**files, **made}, tuple(problems)


def kept_booklets(orders: Sequence[Order], kept: Path) -> tuple[Files, Sequence[Order]]:
    """What is finished already, and orders for the rest."""
    files: dict[str, bytes] = {}
    missing = []
    for order in orders:
        places = {copy: _place(kept, order.mark(copy, program_mark())) for copy in order.copies}
        found = {copy: place.read_bytes() for copy, place in places.items() if place.is_file()}
        files |= {order.file_name(copy): pdf for copy, pdf in found.items()}
        rest = tuple(copy for copy in order.copies if copy not in found)
        missing += [replace(order, copies=rest)] if rest else []
    return files, missing


def progress(done: int, total: int, slug: str) -> None:
    """A bar on standard error; on a terminal it stays on one line."""
    bar = bar_of("booklets", done, total, slug)
    if sys.stderr.isatty():
        print(f"\r\x1b[K{bar}", end="" if done < total else "\n", file=sys.stderr, flush=True)
    else:
        print(bar, file=sys.stderr, flush=True)


def bar_of(what: str, done: int, total: int, slug: str) -> str:
    """How far the work is, as a line of text."""
    width = 24
    full = width * done // total
    return f"{what} [{'#' * full}{'.' * (width - full)}] {done} of {total}, {slug}"


@cache
def program_mark() -> str:
    """Changes with the package's own files, and with what makes PDF of them."""
    root = Path(__file__).parent
    names = sorted(
        path for path in root.rglob("*") if path.is_file() and path.suffix not in (".pyc", ".pyo")
    )
    mark = sha256(f"{engine()} {sys.version} {os.name}".encode())
    for path in names:
        mark.update(f"{path.relative_to(root).as_posix()}\0".encode() + path.read_bytes())
    return mark.hexdigest()


def _place(kept: Path, mark: str) -> Path:
    return kept / f"{mark}.pdf"
