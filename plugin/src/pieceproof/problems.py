"""What is wrong with a pattern, said so that its writer can mend it.

A problem names the file, the place, what was found, what was expected and the remedy. Stages
return problems beside their values; they never raise for an author's mistake.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

_WINDOW = 70


@dataclass(frozen=True, order=True)
class Place:
    """A position in a pattern's file: path below the patterns folder, line and column from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, order=True)
class Problem:
    """One mistake: a stable code, the place, and the sentence in three parts."""

    place: Place
    code: str
    found: str
    expected: str
    remedy: str


def show_problem(problem: Problem, source_line: str) -> str:
    """The problem as text: place and code, the line with a pointer, then the three parts."""
    place = problem.place
    lines = [f"{place}: {problem.code}"]
    if source_line.strip():
        shown, column = _window(source_line.rstrip(), place.column)
        lines += [f"  | {shown}", f"  | {' ' * (column - 1)}^"]
    lines += [
        f"  found:    {problem.found}",
        f"  expected: {problem.expected}",
        f"  remedy:   {problem.remedy}",
    ]
    return "\n".join(lines)


def _window(line: str, column: int) -> tuple[str, int]:
    """The part of a long line around a column, and the column in that part."""
    if len(line) <= 2 * _WINDOW:
        return line, column
    start = max(0, column - _WINDOW)
    before, after = "... " if start else "", " ..." if start + 2 * _WINDOW < len(line) else ""
    return before + line[start : start + 2 * _WINDOW] + after, column - start + len(before)


def nearest(word: str, candidates: Iterable[str]) -> str | None:
    """The candidate spelled most like ``word``, if any is near."""
    close = get_close_matches(word, sorted(candidates), n=1, cutoff=0.6)
    return close[0] if close else None
