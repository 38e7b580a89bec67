"""The shop's ``kits.yaml`` as a `Book`, with every problem of the file at once.

In: the bytes of the file. Out: the book, problems, and the file's lines for display. The book is
complete only if there are no problems. Whether patterns, sizes and cloths exist is for `orders`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace

from pieceproof.kits.book import EMPTY, Book
from pieceproof.model import Places
from pieceproof.problems import Place, Problem
from pieceproof.records import Desk, Spot, read_record
from pieceproof.source import read_source
from pieceproof.wording import quoted


def read_book(file: str, data: bytes) -> tuple[Book, tuple[Problem, ...], tuple[str, ...]]:
    """The book, problems in the order of the file, and its lines. Never raises.

    A file with nothing but remarks is that of a shop that has stated nothing.
    """
    tree, faults, lines = read_source(file, data)
    if tree is None:
        stated = (fault for fault in faults if fault.code != "empty-file")
        return EMPTY, tuple(_of_a_shop(fault) for fault in stated), lines
    desk = Desk({}, [*faults])
    book: Book = read_record(desk, Book, tree, Spot("the shop's file", "", tree.place))
    problems = [*desk.problems, *_named_twice(book)]
    return book, tuple(sorted(set(problems))), lines


def _of_a_shop(fault: Problem) -> Problem:
    """What no file may be, in words for this one."""
    if fault.code != "no-keys":
        return fault
    return replace(
        fault,
        found="text or a list where the shop's file should start",
        expected="keys with values, such as `sold by: yard`",
        remedy="give each value its key, a colon and a space: `sold by: yard`",
    )


def _named_twice(book: Book) -> Iterator[Problem]:
    yield from _twice("name", ((cloth.name, cloth.at) for cloth in book.cloths))
    yield from _twice("name", ((item.name, item.at) for item in book.packing or ()))
    for run in book.runs:
        yield from _twice("of", ((instead.of, instead.at) for instead in run.instead))
    counts = Counter(included.value for included in book.includes)
    for word in sorted(word for word, count in counts.items() if count > 1):
        yield _again(book.at["includes"], word)


def _twice(key: str, named: Iterable[tuple[str, Places]]) -> Iterator[Problem]:
    seen: set[str] = set()
    for name, at in named:
        if name in seen:
            yield _again(at[key], name)
        seen.add(name)


def _again(place: Place, name: str) -> Problem:
    return Problem(
        place,
        "listed-twice",
        f"{quoted(name)} a second time",
        "each of them once",
        "delete one of the two, or put what they say into one",
    )
