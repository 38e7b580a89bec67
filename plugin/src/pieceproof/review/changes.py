"""What changed between two editions of a pattern's facts, and who is concerned.

In: facts by size, before and after. Out: `Changes`: names first, then every fact that is new, gone
or different, in the order of the facts, equal changes of several sizes as one. Nothing is rounded
away: a fact whose exact value changed is a change, even if it is published as before.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.facts import Fact
from pieceproof.model import Stage
from pieceproof.review.names import (
    Facts,
    Names,
    by_key,
    relettered,
    renamed_makes,
    renamed_parts,
    under_new_names,
)
from pieceproof.review.stages import colourways_of, is_reckoning, stage_of, width_of

Edition = Mapping[str, Sequence[Fact]]
"""The facts of each size."""

ABOUT = " ~ "
"""Between the exact value and the published one, as in the facts files."""

MAKE = "unit or block"


@dataclass(frozen=True)
class Change:
    """One fact, its old value and its new one; None where it did not or does not exist.

    ``width`` and ``colourways`` are empty where every reader is concerned. ``is_told_only`` where
    the old edition's own text has the fact as well, and only the program did not state it yet.
    """

    key: str
    old: str | None
    new: str | None
    width: str
    colourways: tuple[str, ...]
    sizes: tuple[str, ...] = ()
    is_told_only: bool = False

    @property
    def stage(self) -> Stage:
        """When a maker meets it."""
        return stage_of(self.key)

    @property
    def is_printed(self) -> bool:
        """Whether something that a maker acts upon reads otherwise than before."""
        if is_reckoning(self.key):
            return False
        return None in (self.old, self.new) or _printed(self.old or "") != _printed(self.new or "")

    @property
    def is_noticed(self) -> bool:
        """Whether somebody who follows the old edition does something else than it says now."""
        if self.is_told_only or not self.is_printed:
            return False
        return self.old is not None or not (self.colourways or self.stage is Stage.CHOOSING)


@dataclass(frozen=True)
class Renaming:
    """A part, unit, block or piece that is called otherwise now."""

    what: str
    old: str
    new: str
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Changes:
    """Everything that changed. ``sizes`` are those of both editions that exist in the new one."""

    sizes: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    names: tuple[Renaming, ...] = ()
    facts: tuple[Change, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.added or self.removed or self.names or self.facts)

    @property
    def printed(self) -> tuple[Change, ...]:
        """The facts that read otherwise for somebody who acts upon them."""
        return tuple(change for change in self.facts if change.is_printed)

    @property
    def reckoned(self) -> tuple[Change, ...]:
        """The other ones: sums on the way, and values that are printed as before."""
        return tuple(change for change in self.facts if not change.is_printed)

    def at(self, stage: Stage) -> tuple[Change, ...]:
        """The changes that concern a stage."""
        return tuple(change for change in self.facts if change.stage is stage)


def changes(old: Edition, new: Edition) -> Changes:
    """What a reader of the old edition would find different in the new one."""
    kept = tuple(size for size in new if size in old)
    names: dict[tuple[str, str, str], list[str]] = {}
    facts: dict[tuple[str, str | None, str | None, str, tuple[str, ...]], list[str]] = {}
    for size in kept:
        renamings, changed = _in_size(by_key(old[size]), by_key(new[size]))
        for what, before, after in renamings:
            names.setdefault((what, before, after), []).append(size)
        for c in changed:
            facts.setdefault((c.key, c.old, c.new, c.width, c.colourways), []).append(size)
    return Changes(
        kept,
        tuple(size for size in new if size not in old),
        tuple(size for size in old if size not in new),
        tuple(Renaming(*said, tuple(sizes)) for said, sizes in names.items()),
        tuple(Change(*said, tuple(sizes)) for said, sizes in facts.items()),
    )


def _in_size(old: Facts, new: Facts) -> tuple[list[tuple[str, str, str]], list[Change]]:
    parts, makes = renamed_parts(old, new), renamed_makes(old, new)
    letters = relettered(under_new_names(old, parts, makes, {}), new)
    before = under_new_names(old, parts, makes, letters)
    said = [
        *_said("part", parts),
        *_said(MAKE, makes),
        *_said("piece", letters),
    ]
    return said, [*_changed(before, new)]


def _said(what: str, names: Names) -> Iterator[tuple[str, str, str]]:
    for old, new in names.items():
        yield what, old, new


def _changed(old: Facts, new: Facts) -> Iterator[Change]:
    now, then = _published(new), _published(old)
    for key, fact in new.items():
        before = old.get(key)
        if before is None or shown(before) != shown(fact):
            old_text = None if before is None else shown(before)
            yield Change(key, old_text, shown(fact), width_of(key), colourways_of(key, now))
    for key, fact in old.items():
        if key not in new:
            yield Change(key, shown(fact), None, width_of(key), colourways_of(key, then))


def _printed(value: str) -> str:
    return value.rpartition(ABOUT)[2]


def shown(fact: Fact) -> str:
    """A fact's value as its file has it."""
    same = fact.exact == fact.published
    return fact.exact if same else f"{fact.exact}{ABOUT}{fact.published}"


def _published(facts: Facts) -> Mapping[str, str]:
    return {key: fact.published for key, fact in facts.items()}
