"""What is kept of a pattern's last release, and what changed since.

In: a pattern's files, among them those below ``released/``, and the compiled pattern. Out: the
edition kept, the files to keep, changes. Whether these may go out is decided in `releases`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from pieceproof.compile import DESIGN_FILE, Pattern, compile_pattern
from pieceproof.editions import Edition, edition_of, parse_edition
from pieceproof.fact_files import facts_text, file_name
from pieceproof.folders import Folder
from pieceproof.review.changes import Change, Changes, changes
from pieceproof.review.compare import RELEASED, facts_in, facts_of_pattern

EDITION_FILE = f"{RELEASED}edition.txt"


@dataclass(frozen=True)
class Kept:
    """What was kept of the last release; ``edition`` is None if nothing was."""

    edition: Edition | None
    files: Mapping[str, bytes]


def kept_of(folder: Folder) -> Kept:
    """The last release among a pattern's files."""
    files = {n.removeprefix(RELEASED): d for n, d in folder.items() if n.startswith(RELEASED)}
    text = folder.get(EDITION_FILE, b"").decode("utf-8", "replace")
    return Kept(parse_edition(text), files)


def files_to_keep(pattern: Pattern, folder: Folder) -> Mapping[str, bytes]:
    """What a release keeps, by name below the pattern's folder: facts, design and edition."""
    facts = {file_name(s.design.size): facts_text(s.facts).encode() for s in pattern.sizes}
    edition = edition_of(pattern.sizes[0].design)
    kept = {**facts, DESIGN_FILE: folder[DESIGN_FILE]}
    return {EDITION_FILE: f"{edition}\n".encode(), **{RELEASED + n: d for n, d in kept.items()}}


def since_release(pattern: Pattern, folder: Folder) -> Changes:
    """What changed since the last release; nothing if there was none.

    A fact that is new, but that the released text has as well, is only told: the program did not
    state it when the pattern was released, and nothing that a customer holds is otherwise.
    """
    kept = kept_of(folder)
    if kept.edition is None or not pattern.sizes:
        return Changes()
    found = changes(facts_in(kept.files), facts_of_pattern(pattern))
    if all(change.old is not None for change in found.facts):
        return found
    added = _added(pattern, folder, kept)
    facts = tuple(
        replace(change, is_told_only=change.old is None and not _is_in(change, added))
        for change in found.facts
    )
    return replace(found, facts=facts)


def _is_in(change: Change, added: Mapping[str, set[str]]) -> bool:
    return any(change.key in added.get(size, ()) for size in change.sizes)


def _added(pattern: Pattern, folder: Folder, kept: Kept) -> Mapping[str, set[str]]:
    """The keys by size that today's program does not find in the released text.

    All new ones, if it cannot read that text: a new edition is a small price.
    """
    text = kept.files.get(DESIGN_FILE, b"")
    if text == folder[DESIGN_FILE]:
        return {}
    files = {name: data for name, data in folder.items() if not name.startswith(RELEASED)}
    released = compile_pattern(pattern.slug, {**files, DESIGN_FILE: text})
    before = facts_of_pattern(released) if released.sizes else facts_in(kept.files)
    found = changes(before, facts_of_pattern(pattern)).facts
    return {
        size: {change.key for change in found if change.old is None and size in change.sizes}
        for size in facts_of_pattern(pattern)
    }
