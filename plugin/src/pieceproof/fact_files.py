"""Facts as text files, and what differs between the committed files and the computed ones.

In: facts, or the text of files. Out: text, facts, problems, differences. Reads and writes nothing.
One fact is one line, ``key = value``, or ``key = exact ~ published`` where it is rounded.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from difflib import unified_diff
from itertools import zip_longest

from pieceproof.facts import Fact
from pieceproof.problems import Place, Problem

_IS, _ABOUT = " = ", " ~ "


def file_name(size: str) -> str:
    """The file of a size, below the pattern's folder."""
    return f"facts-{size.replace(' ', '_')}.txt"


def is_fact_file(name: str) -> bool:
    """Whether a name in a pattern's folder is one that only this program writes."""
    return name.startswith("facts") and name.endswith(".txt")


def facts_text(facts: Sequence[Fact]) -> str:
    """The content of a size's file."""
    return "".join(f"{_line(fact)}\n" for fact in facts)


def parse_facts(text: str) -> tuple[Fact, ...]:
    """The facts of a file; lines that are none are passed over, for `compare` shows them."""
    return tuple(_fact(line) for line in text.split("\n") if _IS in line)


def compare(committed: str, computed: str, name: str = "facts") -> str:
    """The lines that differ, as a unified diff; empty where the files are equal."""
    before, after = (text.splitlines(keepends=True) for text in (committed, computed))
    lines = unified_diff(before, after, f"{name} (committed)", f"{name} (computed)", n=1)
    return "".join(line if line.endswith("\n") else f"{line}\n" for line in lines)


def differences(computed: Mapping[str, str], committed: Mapping[str, str]) -> str:
    """All files that differ, as one unified diff. Keys are file names, values their text."""
    names = sorted({*computed, *filter(is_fact_file, committed)})
    return "".join(compare(committed.get(n, ""), computed.get(n, ""), n) for n in names)


def fact_file_problems(
    folder: str, computed: Mapping[str, str], committed: Mapping[str, str]
) -> tuple[Problem, ...]:
    """Files of ``folder`` that are missing, out of date or left over; `differences` shows how."""
    return tuple(sorted(_file_problems(folder, computed, committed)))


def _file_problems(
    folder: str, computed: Mapping[str, str], committed: Mapping[str, str]
) -> Iterator[Problem]:
    for name, text in computed.items():
        if name not in committed:
            yield Problem(
                Place(f"{folder}/{name}", 1, 1),
                "facts-missing",
                "no such file",
                f"the {text.count(_IS)} facts of this size",
                "run `pieceproof facts`, read the new file and commit it",
            )
        elif committed[name] != text:
            yield _stale(Place(f"{folder}/{name}", 1, 1), committed[name], text)
    for name in filter(is_fact_file, committed):
        if name not in computed:
            yield Problem(
                Place(f"{folder}/{name}", 1, 1),
                "facts-orphan",
                "facts of a size that the pattern does not have",
                f"one file for each size: {', '.join(sorted(computed))}",
                "run `pieceproof facts`, which deletes it, or bring the size back",
            )


def _stale(start: Place, committed: str, computed: str) -> Problem:
    """The problem of a stale file, at its first line that differs."""
    pairs = zip_longest(committed.split("\n"), computed.split("\n"))
    number, (old, new) = next((i, pair) for i, pair in enumerate(pairs, 1) if pair[0] != pair[1])
    return Problem(
        Place(start.file, number, 1),
        "facts-stale",
        f"`{old}`" if old else "the end of the facts",
        f"`{new}`" if new else "the end of the facts",
        "if the change is meant, run `pieceproof facts`, read every changed line and commit; "
        "if not, undo the change in the pattern",
    )


def _line(fact: Fact) -> str:
    rounded = "" if fact.exact == fact.published else f"{_ABOUT}{fact.published}"
    return f"{fact.key}{_IS}{fact.exact}{rounded}"


def _fact(line: str) -> Fact:
    key, _, value = line.partition(_IS)
    exact, about, published = value.partition(_ABOUT)
    return Fact(key, exact, published if about else exact)
