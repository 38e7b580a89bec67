"""All patterns of a folder, compiled; a pattern whose bytes did not change is not compiled again.

In: the bytes of pattern folders, and what is known from last time. Out: compiled patterns and
their problems as text. Reads no disk.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pieceproof.compile import DESIGN_FILE, Pattern, compile_pattern
from pieceproof.folders import Folder
from pieceproof.problems import Place, Problem, nearest, show_problem


@dataclass(frozen=True)
class Shelved:
    """A compiled pattern and the bytes it was made of."""

    folder: Folder
    pattern: Pattern


def compile_folders(
    folders: Mapping[str, Folder], known: Mapping[str, Shelved]
) -> Mapping[str, Shelved]:
    """Every folder's pattern, by slug in order."""
    shelf = {}
    for slug, folder in sorted(folders.items()):
        last = known.get(slug)
        unchanged = last is not None and last.folder == folder
        shelf[slug] = last if last and unchanged else Shelved(folder, _compiled(slug, folder))
    return shelf


def show_problems(shelf: Mapping[str, Shelved]) -> Iterator[str]:
    """The problems of all patterns as text, each with its source line where it has one."""
    for shelved in shelf.values():
        lines = shelved.pattern.lines
        for problem in shelved.pattern.problems:
            text = lines.get(problem.place.file, ())
            at = problem.place.line - 1
            yield show_problem(problem, text[at] if at < len(text) else "")


def _compiled(slug: str, folder: Folder) -> Pattern:
    if DESIGN_FILE in folder:
        return compile_pattern(slug, folder)
    return Pattern(slug, (), (_no_design(slug, folder),))


def _no_design(slug: str, folder: Folder) -> Problem:
    near = nearest(DESIGN_FILE, folder)
    return Problem(
        Place(f"patterns/{slug}/{DESIGN_FILE}", 1, 1),
        "no-pattern-file",
        "no such file",
        "one file of this name in every folder of patterns",
        f"rename `{near}`" if near else "write it, or move the folder elsewhere",
    )
