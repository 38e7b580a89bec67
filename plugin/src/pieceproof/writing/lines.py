"""A sum as lines, as it is printed for a writer who asks why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Line:
    """A line of a sum: the sign before an amount, the amount, and what it is."""

    sign: str
    amount: str
    words: str


def added(parts: Iterable[tuple[str, str]], total: str) -> Iterator[Line]:
    """Amounts with their words, and what they add up to."""
    for number, (amount, words) in enumerate(parts):
        yield Line("+" if number else "", amount, words)
    yield Line("=", total, "")
