"""Everything that is wrong with patterns, and what was proved where nothing is.

In: compiled patterns with their files. Out: for each pattern its problems, in the order of the
stages, and one line that says what was checked, with figures. Which checks there are is decided
here and nowhere else: a check that is not in `CHECKS` and not part of compiling is not made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from pieceproof.editions import edition_of
from pieceproof.fact_files import fact_file_problems
from pieceproof.problems import Problem
from pieceproof.prose import PROSE_FILE
from pieceproof.review.compared_text import counted
from pieceproof.review.releases import release_problems
from pieceproof.shelf import Shelved, committed_facts, fact_texts


@dataclass(frozen=True)
class Checked:
    """One pattern; ``summary`` says what was proved and is empty where there are problems."""

    slug: str
    problems: tuple[Problem, ...]
    summary: str = ""


def _facts_are_current(shelved: Shelved) -> tuple[Problem, ...]:
    folder = f"patterns/{shelved.pattern.slug}"
    return fact_file_problems(folder, fact_texts(shelved), committed_facts(shelved))


def _release_stands(shelved: Shelved) -> tuple[Problem, ...]:
    return release_problems(shelved.pattern, shelved.folder)


CHECKS: tuple[Callable[[Shelved], tuple[Problem, ...]], ...] = (_facts_are_current, _release_stands)
"""What is checked of a pattern that compiles; compiling makes all other checks and proofs."""


def checked(shelf: Mapping[str, Shelved], outside: Iterable[Problem]) -> tuple[Checked, ...]:
    """All patterns. ``outside`` are problems of folders and files that could not be read."""
    of_folder: dict[str, list[Problem]] = {}
    for problem in outside:
        of_folder.setdefault(problem.place.file.split("/")[1], []).append(problem)
    slugs = sorted({*shelf, *of_folder})
    return tuple(_checked(slug, shelf.get(slug), of_folder.get(slug, [])) for slug in slugs)


def _checked(slug: str, shelved: Shelved | None, outside: list[Problem]) -> Checked:
    problems = [*outside, *(shelved.problems if shelved else ())]
    if shelved is not None and not shelved.problems:
        problems += [problem for check in CHECKS for problem in check(shelved)]
    summary = _summary(shelved) if shelved is not None and not problems else ""
    return Checked(slug, tuple(problems), summary)


def _summary(shelved: Shelved) -> str:
    """What was compared with what, counted over all sizes."""
    sizes = shelved.pattern.sizes
    edition = edition_of(sizes[0].design)
    parts = (
        counted(sum(p.count for s in sizes for p in s.publication.pieces), "piece") + " sewn",
        counted(sum(len(s.publication.makes) for s in sizes), "make") + " as drawn",
        counted(sum(p.template is not None for p in sizes[0].publication.pieces), "template"),
        counted(sum(len(s.requirements.needs) for s in sizes), "cutting plan"),
        counted(sum(g.count for s in sizes for g in s.tips.groups), "tip"),
        counted(sum(m.times for s in sizes for m in s.meetings), "meeting") + " of seams",
        counted(len(sizes[0].values), "colourway") + " in grey",
        counted(sum(len(s.facts) for s in sizes), "fact"),
        "prose" if PROSE_FILE in shelved.folder else "no prose",
        f"edition {edition}" if edition else "draft",
    )
    return f"proved in {counted(len(sizes), 'size')}: {', '.join(parts)}"
