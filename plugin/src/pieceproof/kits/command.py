"""What the command line answers when kits are asked for.

In: the words of the command, the pattern, the bytes of the shop's file. Out: a text for standard
output, or what is wrong; words that are wrong are found before the pattern is compiled. It reads no
disk; `cli` does.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from dataclasses import dataclass

from pieceproof.compile import DESIGN_FILE
from pieceproof.cutting.demand import FINEST_GRID
from pieceproof.kits.book import BOOK_FILE, EMPTY, MOST_KITS, Book
from pieceproof.kits.changes import Changes, changes_of
from pieceproof.kits.data import sheet_data
from pieceproof.kits.orders import Order, Unknown, found, ordered_design
from pieceproof.kits.proof import kit_faults
from pieceproof.kits.sheet import KitSheet, kit_sheet
from pieceproof.kits.stock import read_book
from pieceproof.kits.tables import TABLES, sheet_csv
from pieceproof.kits.text import sheet_text
from pieceproof.lengths import parse_length
from pieceproof.methods import METHODS
from pieceproof.model import Design
from pieceproof.problems import Problem, show_problem
from pieceproof.reading import read_pattern
from pieceproof.shelf import Shelved


@dataclass(frozen=True)
class Answer:
    """One of the three: the result, problems in files, or a word that names nothing."""

    result: str = ""
    problems: str = ""
    misused: str = ""
    unknown: Unknown | None = None


def add_kit_words(parser: argparse.ArgumentParser) -> None:
    """The command's own words."""
    parser.add_argument("--colourway", help="key of a colourway; the first if left out")
    parser.add_argument("--kits", default="1", metavar="N", help=f"how many kits, 1 to {MOST_KITS}")
    parser.add_argument("--width", help="usable width of the cloth; the usual one if left out")
    parser.add_argument(
        "--instead",
        action="append",
        default=[],
        metavar="CLOTH=CLOTH",
        help="a cloth and the one that stands in for it, by their names; may be given again",
    )
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print data for other programs")
    form.add_argument(
        "--csv",
        nargs="?",
        const="packing",
        choices=list(TABLES),
        help="print one table as CSV; the packing list if no other is named",
    )


def asked(
    options: argparse.Namespace, designs: Sequence[Design], stock: bytes | None
) -> tuple[Order, Book] | Answer:
    """The order in these words, or what is wrong with them or the shop's file.

    ``designs`` are all sizes. ``stock`` is the shop's file, None where there is none.
    """
    book, problems, lines = read_shop(f"{options.patterns.name}/{BOOK_FILE}", stock)
    if problems:
        return Answer(problems=shown(problems, lines))
    order = _order(options, designs)
    if isinstance(order, str):
        return Answer(misused=order)
    design = ordered_design(order, designs, book)
    return Answer(unknown=design) if isinstance(design, Unknown) else (order, book)


def designs_in(slug: str, data: bytes) -> Sequence[Design]:
    """The sizes of a pattern that is not compiled yet; none where its file has problems."""
    designs, problems, _ = read_pattern(f"patterns/{slug}/{DESIGN_FILE}", data, METHODS)
    return () if problems else designs


def kits_answer(options: argparse.Namespace, shelved: Shelved, stock: bytes | None) -> Answer:
    """The sheet that is asked for."""
    pattern = shelved.pattern
    wanted = asked(options, [sized.design for sized in pattern.sizes], stock)
    if isinstance(wanted, Answer):
        return wanted
    order, book = wanted
    ordered = found(order, pattern, book)
    if isinstance(ordered, Unknown):
        raise AssertionError(f"{ordered.word} was checked before")
    sheet, sentences = kit_sheet(ordered, book)
    faults = sentences if sheet is None else kit_faults(sheet)
    if sheet is None or faults:
        return Answer(problems="\n".join(faults))
    return Answer(result=_written(options, sheet, changes_of(sheet, pattern, shelved.lines)))


def read_shop(file: str, stock: bytes | None) -> tuple[Book, tuple[Problem, ...], tuple[str, ...]]:
    """The shop's book, an empty one where there is no file."""
    return (EMPTY, (), ()) if stock is None else read_book(file, stock)


def shown(problems: tuple[Problem, ...], lines: tuple[str, ...]) -> str:
    """Problems as text, each with its source line."""
    return "\n\n".join(
        show_problem(problem, lines[at] if (at := problem.place.line - 1) < len(lines) else "")
        for problem in problems
    )


def _order(options: argparse.Namespace, designs: Sequence[Design]) -> Order | str:
    """The order, or why the words make none."""
    first, kits = designs[0], _number(options.kits)
    if not 1 <= kits <= MOST_KITS:
        return f"`{options.kits}` kits; write a whole number from 1 to {MOST_KITS}"
    width = None if options.width is None else parse_length(options.width)
    if options.width is not None and not (width and width <= FINEST_GRID * first.measure.step):
        return f"`{options.width}` is no width; write a length such as `42` or `40 1/2`"
    pairs = [words.partition("=") for words in options.instead]
    if not all(of.strip() and use.strip() for of, _, use in pairs):
        return 'write --instead "Name of a cloth=Name of the cloth to use"'
    (slug,) = options.slug
    return Order(
        slug,
        options.size or first.size,
        options.colourway or next(iter(first.colourways)),
        kits,
        width,
        tuple((of.strip(), use.strip()) for of, _, use in pairs),
    )


def _number(word: str) -> int:
    """The number in plain digits; 0 for any other word, and for one of more than nine digits."""
    return int(word) if word.isascii() and word.isdigit() and len(word) < 10 else 0


def _written(options: argparse.Namespace, sheet: KitSheet, changes: Changes | None) -> str:
    if options.json:
        return json.dumps(sheet_data(sheet, changes), indent=2)
    if options.csv:
        return sheet_csv(sheet, options.csv).removesuffix("\n")  # print() adds it again
    return sheet_text(sheet, changes)
