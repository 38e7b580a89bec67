"""Changes as lines for a person: what she would notice first, equal ones of several widths as one.

In: changes of a pattern and what customers read for its sizes and colourways. Out: rows of text.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pieceproof.facts import WIDTH
from pieceproof.review.changes import Change, Changes
from pieceproof.wording import listed


@dataclass(frozen=True)
class Row:
    """A fact, both values (None where there is none) and whom it concerns; empty if everybody."""

    key: str
    old: str | None
    new: str | None
    readers: str


def rows(changed: Iterable[Change], found: Changes, labels: Mapping[str, str]) -> tuple[Row, ...]:
    """One row for each change; the widths of an equal one are one, all sizes of a fact together."""
    of_fact: dict[str, dict[tuple[object, ...], list[Change]]] = {}
    for c in changed:
        alike = of_fact.setdefault(_of_width(c.key, c.width, ""), {})
        alike.setdefault((c.old, c.new, c.sizes, c.colourways), []).append(c)
    groups = (group for alike in of_fact.values() for group in alike.values())
    return tuple(_row(group, found, labels) for group in groups)


def _row(group: list[Change], found: Changes, labels: Mapping[str, str]) -> Row:
    first = group[0]
    widths = " and ".join(change.width for change in group)
    key = _of_width(first.key, first.width, widths)
    return Row(key, first.old, first.new, _readers(first, widths, found, labels))


def _of_width(key: str, width: str, shown: str) -> str:
    return key.replace(f"{WIDTH} {width}", f"{WIDTH} {shown}") if width else key


def _readers(change: Change, widths: str, found: Changes, labels: Mapping[str, str]) -> str:
    sizes = () if set(change.sizes) == set(found.sizes) else change.sizes
    parts = [
        ", ".join(labels.get(size, size) for size in sizes),
        ", ".join(labels.get(way, way) for way in change.colourways),
        f"{widths} wide" if change.width else "",
    ]
    return "; ".join(filter(None, parts))


def names(found: Changes) -> tuple[str, ...]:
    """Sizes that came and went, and what is called otherwise, each in a line."""
    lines = [f"new sizes: {listed(found.added)}"] if found.added else []
    lines += [f"sizes that are gone: {listed(found.removed)}"] if found.removed else []
    for name in found.names:
        where = "" if set(name.sizes) == set(found.sizes) else f" in {listed(name.sizes)}"
        lines.append(f"the {name.what} `{name.old}` is `{name.new}` now{where}")
    return tuple(lines)
