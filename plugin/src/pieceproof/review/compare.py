"""Two editions of all patterns compared: facts, names and drawings.

In: pattern folders as bytes, before and after, and what was compiled of them. Out: one `Compared`
for each pattern that differs. The old facts are those that were committed; drawings of the old
text are made by today's program, and where it cannot read that text, `undrawn` says why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from pieceproof.compile import DESIGN_FILE, Pattern
from pieceproof.fact_files import is_fact_file, parse_facts
from pieceproof.facts import Fact
from pieceproof.folders import Folder
from pieceproof.review.changes import MAKE, Changes, changes
from pieceproof.review.drawn import Redrawn, redrawn
from pieceproof.shelf import Shelved, compile_folders

RELEASED = "released/"
"""The folder in a pattern's folder that keeps what was published last."""


@dataclass(frozen=True)
class Side:
    """One of the two editions: its files, and patterns compiled for its facts, if they were."""

    folders: Mapping[str, Folder]
    compiled: Mapping[str, Shelved] = field(default_factory=dict)


@dataclass(frozen=True)
class Compared:
    """One pattern. ``labels`` are what customers read for its sizes and colourways, by key."""

    slug: str
    name: str
    state: str
    changes: Changes = field(default_factory=Changes)
    drawings: tuple[Redrawn, ...] = ()
    undrawn: str = ""
    labels: Mapping[str, str] = field(default_factory=dict)
    prose: bool = False

    def __bool__(self) -> bool:
        return bool(self.state or self.changes or self.drawings or self.undrawn or self.prose)


def compare(old: Side, new: Side) -> tuple[Compared, ...]:
    """Every pattern that differs, in order of name."""
    slugs = sorted({*old.folders, *new.folders})
    touched = [s for s in slugs if old.folders.get(s) != new.folders.get(s) or s in new.compiled]
    redraw = [slug for slug in touched if _texts_differ(old, new, slug)]
    before = compile_folders({s: old.folders[s] for s in redraw}, {})
    missing = {s: new.folders[s] for s in redraw if s not in new.compiled}
    after = {**compile_folders(missing, {}), **new.compiled}
    found = (_compared(slug, old, new, before.get(slug), after.get(slug)) for slug in touched)
    return tuple(compared for compared in found if compared)


def released_side(folders: Mapping[str, Folder]) -> Side:
    """What was released of each pattern, as if it stood in a folder of its own."""
    kept = {
        slug: {n.removeprefix(RELEASED): d for n, d in folder.items() if n.startswith(RELEASED)}
        for slug, folder in folders.items()
    }
    return Side({slug: folder for slug, folder in kept.items() if folder})


def facts_in(folder: Folder) -> Mapping[str, Sequence[Fact]]:
    """The facts of each size that a folder's files hold, by the name in the file's name."""
    return {
        name.removeprefix("facts-").removesuffix(".txt").replace("_", " "): parse_facts(
            data.decode("utf-8", "replace")
        )
        for name, data in folder.items()
        if is_fact_file(name) and name.startswith("facts-")
    }


def facts_of_pattern(pattern: Pattern) -> Mapping[str, Sequence[Fact]]:
    """The facts of each size as they are computed."""
    return {sized.design.size: sized.facts for sized in pattern.sizes}


def _texts_differ(old: Side, new: Side, slug: str) -> bool:
    texts = [side.folders.get(slug, {}).get(DESIGN_FILE) for side in (old, new)]
    return None not in texts and texts[0] != texts[1]


def _compared(
    slug: str, old: Side, new: Side, before: Shelved | None, after: Shelved | None
) -> Compared:
    if slug not in old.folders:
        return Compared(slug, _name(slug, after), "new")
    if slug not in new.folders:
        return Compared(slug, slug, "gone")
    computed = slug in new.compiled and after is not None and after.pattern.sizes
    now = facts_of_pattern(after.pattern) if computed and after else facts_in(new.folders[slug])
    found = changes(facts_in(old.folders[slug]), _in_order(now, after))
    drawings, undrawn = _drawings(before, after, found)
    texts = [side.folders[slug].get("prose.md") for side in (old, new)]
    labels = _labels(after or before)
    prose = texts[0] != texts[1] and texts[0] is not None
    return Compared(slug, _name(slug, after), "", found, drawings, undrawn, labels, prose)


def _in_order(
    facts: Mapping[str, Sequence[Fact]], after: Shelved | None
) -> Mapping[str, Sequence[Fact]]:
    """Sizes in the pattern's own order, where it is known."""
    if after is None:
        return facts
    order = [sized.design.size for sized in after.pattern.sizes]
    first = {size: facts[size] for size in order if size in facts}
    return {**first, **facts}


def _drawings(
    before: Shelved | None, after: Shelved | None, found: Changes
) -> tuple[tuple[Redrawn, ...], str]:
    if before is None or after is None:
        return (), ""
    for shelved, words in ((before, "old"), (after, "new")):
        if not shelved.pattern.sizes:
            problem = next(iter(shelved.problems), None)
            reason = f"{problem.place}: {problem.found}" if problem else "it has no sizes"
            return (), f"the {words} text cannot be drawn by this program ({reason})"
    makes = {name.old: name.new for name in found.names if name.what == MAKE}
    return redrawn(before.pattern, after.pattern, makes), ""


def _name(slug: str, shelved: Shelved | None) -> str:
    sizes = shelved.pattern.sizes if shelved else ()
    return sizes[0].design.name if sizes else slug


def _labels(shelved: Shelved | None) -> Mapping[str, str]:
    return dict(_named(shelved)) if shelved else {}


def _named(shelved: Shelved) -> Iterator[tuple[str, str]]:
    for sized in shelved.pattern.sizes:
        yield sized.design.size, sized.design.label
        for key, colourway in sized.design.colourways.items():
            yield key, colourway.name
