"""All patterns of a folder, compiled; a pattern whose bytes did not change is not compiled again.

In: the bytes of pattern folders, and what is known from last time. Out: compiled patterns with
their prose, and their problems. Reads no disk.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from pieceproof.compile import DESIGN_FILE, Pattern, compile_pattern
from pieceproof.fact_files import (
    differences,
    fact_file_problems,
    facts_text,
    file_name,
    is_fact_file,
)
from pieceproof.model import Design
from pieceproof.problems import Place, Problem, nearest, show_problem
from pieceproof.prose import PROSE_FILE, Prose, SizeFacts, size_facts, summary_remarks, write_prose
from pieceproof.workers import one_by_one

Folder = Mapping[str, bytes]
Tell = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Shelved:
    """A compiled pattern, its prose, everything wrong with it, and the bytes it was made of."""

    folder: Folder
    pattern: Pattern
    prose: Prose
    problems: tuple[Problem, ...]
    lines: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def compile_folders(
    folders: Mapping[str, Folder], known: Mapping[str, Shelved], tell: Tell | None = None
) -> Mapping[str, Shelved]:
    """Every folder's pattern, by slug in order.

    ``tell`` hears how many patterns of how many are compiled, and which one was the last.
    """
    kept = {slug: last for slug, last in known.items() if last.folder == folders.get(slug)}
    changed = [(slug, folder) for slug, folder in folders.items() if slug not in kept]
    for (slug, _), shelved in zip(changed, one_by_one(_compiled, changed), strict=True):
        kept[slug] = shelved
        if tell is not None:
            tell(sum(slug in kept for slug, _ in changed), len(changed), slug)
    return dict(sorted(kept.items()))


def show_problems(shelf: Iterable[Shelved]) -> Iterator[str]:
    """The problems of patterns as text, each with its source line where it has one."""
    for shelved in shelf:
        yield from problem_texts(shelved, shelved.problems)


def show_notes(shelf: Iterable[Shelved]) -> Iterator[str]:
    """What writers should look at, each with its source line; nothing of it stops a pattern."""
    for shelved in shelf:
        for note in shelved.pattern.notes:
            text = shelved.lines.get(note.place.file, ())
            at = note.place.line - 1
            yield show_problem(note, text[at] if at < len(text) else "")


def fact_texts(shelved: Shelved) -> Mapping[str, str]:
    """The facts files that a pattern should have, by name."""
    sizes = shelved.pattern.sizes
    return {file_name(sized.design.size): facts_text(sized.facts) for sized in sizes}


def committed_facts(shelved: Shelved) -> Mapping[str, str]:
    """The facts files that it has. Bytes that are no text differ from every text."""
    found = ((name, data) for name, data in shelved.folder.items() if is_fact_file(name))
    return {name: data.decode("utf-8", "replace") for name, data in found}


def show_fact_problems(shelf: Iterable[Shelved]) -> Iterator[str]:
    """Facts files that are missing, stale or left over, and then how they differ.

    Patterns with problems are passed over: their facts are not known.
    """
    for shelved in shelf:
        if shelved.problems:
            continue
        computed, committed = fact_texts(shelved), committed_facts(shelved)
        folder = f"patterns/{shelved.pattern.slug}"
        problems = fact_file_problems(folder, computed, committed)
        yield from (show_problem(problem, "") for problem in problems)
        if changed := fact_differences(shelved):
            yield changed


def fact_differences(shelved: Shelved) -> str:
    """How the committed facts files differ from what is computed; empty for a faulty pattern."""
    computed, committed = fact_texts(shelved), committed_facts(shelved)
    known = {name: text for name, text in computed.items() if name in committed}
    return "" if shelved.problems else differences(known, committed).rstrip()


def problem_texts(shelved: Shelved, problems: Iterable[Problem]) -> Iterator[str]:
    """Problems as text, each with its source line where it has one."""
    for problem in problems:
        text = shelved.lines.get(problem.place.file, ())
        at = problem.place.line - 1
        yield show_problem(problem, text[at] if at < len(text) else "")


def _compiled(named: tuple[str, Folder]) -> Shelved:
    slug, folder = named
    if DESIGN_FILE not in folder:
        problem = _no_design(slug, folder)
        return Shelved(folder, Pattern(slug, (), (problem,)), Prose(), (problem,))
    pattern = compile_pattern(slug, folder)
    sizes = [
        size_facts(sized.publication, sized.facts, shop_names(sized.design))
        for sized in pattern.sizes
    ]
    pattern = replace(pattern, notes=(*pattern.notes, *_remarks(pattern, sizes)))
    if pattern.problems or PROSE_FILE not in folder:
        return Shelved(folder, pattern, Prose(), pattern.problems, pattern.lines)
    file = f"patterns/{slug}/{PROSE_FILE}"
    prose, problems, lines = write_prose(file, folder[PROSE_FILE], sizes, folder.keys())
    return Shelved(folder, pattern, prose, problems, {**pattern.lines, file: lines})


def _remarks(pattern: Pattern, sizes: Sequence[SizeFacts]) -> Iterator[Problem]:
    """What the summary says in numbers; it is the same for all sizes."""
    for sized in pattern.sizes[:1]:
        design = sized.design
        yield from summary_remarks(
            design.at["summary"], design.summary, design.measure.value, sizes
        )


def shop_names(design: Design) -> tuple[str, ...]:
    """What the shop calls the pattern's cloths and colourways."""
    cloths = (cloth.name for cloth in design.cloths.values())
    return (*cloths, *(colourway.name for colourway in design.colourways.values()))


def _no_design(slug: str, folder: Folder) -> Problem:
    near = nearest(DESIGN_FILE, folder)
    return Problem(
        Place(f"patterns/{slug}/{DESIGN_FILE}", 1, 1),
        "no-pattern-file",
        "no such file",
        "one file of this name in every folder of patterns",
        f"rename `{near}`" if near else "write it, or move the folder elsewhere",
    )
