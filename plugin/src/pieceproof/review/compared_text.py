"""A comparison as text for a review comment: Markdown that reads as well without being rendered.

In: compared patterns. Out: text. Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from pieceproof.model import Stage
from pieceproof.review.changes import Change, Changes
from pieceproof.review.compare import Compared
from pieceproof.review.drawn import Redrawn
from pieceproof.wording import listed

NOTHING = "No published fact or drawing differs."

HEADINGS: Mapping[Stage, str] = {
    Stage.CHOOSING: "What it is",
    Stage.SHOPPING: "Shopping",
    Stage.CUTTING: "Cutting",
    Stage.TEMPLATES: "Templates",
    Stage.SEWING: "Sewing",
}


def compared_text(compared: Iterable[Compared]) -> str:
    """All patterns that differ, or a sentence that none does."""
    return "\n\n".join("\n".join(_pattern(one)) for one in compared) or NOTHING


def counted(count: int, noun: str) -> str:
    """``1 fact``, ``2 facts``."""
    return f"{count} {noun}{'' if count == 1 else 's'}"


def summary(compared: Compared) -> str:
    """One line: how much differs."""
    if compared.state:
        return f"this pattern is {compared.state}"
    found = compared.changes
    parts = [counted(len(found.facts), "fact"), counted(len(compared.drawings), "drawing")]
    if found.names:
        parts.append(counted(len(found.names), "name"))
    return ", ".join(parts)


def names(found: Changes) -> Iterator[str]:
    """Sizes that came and went, and what is called otherwise."""
    if found.added:
        yield f"new sizes: {listed(found.added)}"
    if found.removed:
        yield f"sizes that are gone: {listed(found.removed)}"
    for name in found.names:
        where = "" if set(name.sizes) == set(found.sizes) else f" in {listed(name.sizes)}"
        yield f"the {name.what} `{name.old}` is `{name.new}` now{where}"


def readers(change: Change, found: Changes, labels: Mapping[str, str]) -> str:
    """Whom a change concerns; empty where it is everybody."""
    sizes = () if set(change.sizes) == set(found.sizes) else change.sizes
    parts = [
        ", ".join(labels.get(size, size) for size in sizes),
        ", ".join(labels.get(way, way) for way in change.colourways),
        f"{change.width} wide" if change.width else "",
    ]
    return "; ".join(filter(None, parts))


def _pattern(one: Compared) -> Iterator[str]:
    yield f"## {one.name}: {summary(one)}"
    yield from (f"- {line}" for line in names(one.changes))
    for stage in Stage:
        if changed := one.changes.at(stage):
            yield f"\n### {HEADINGS[stage]}"
            yield from (_line(change, one) for change in changed)
    if one.drawings or one.undrawn:
        yield "\n### Drawings"
    where: dict[str, list[str]] = {}
    for drawing in one.drawings:
        labels = (one.labels.get(size, size) for size in drawing.sizes)
        where.setdefault(_drawing(drawing), []).extend(labels)
    yield from (f"- {words} ({', '.join(labels)})" for words, labels in where.items())
    if one.undrawn:
        yield f"- {one.undrawn}"
    if one.prose:
        yield "\nThe prose changed; its text is in the diff."


def _drawing(drawing: Redrawn) -> str:
    state = "new: " if drawing.old is None else "gone: " if drawing.new is None else ""
    return f"{state}{drawing.name}" + (f" in {drawing.colourway}" if drawing.colourway else "")


def _line(change: Change, one: Compared) -> str:
    who = readers(change, one.changes, one.labels)
    shown = f"{_value(change.old)} -> {_value(change.new)}"
    return f"- {change.key}: {shown}" + (f"  ({who})" if who else "")


def _value(text: str | None) -> str:
    return "nothing" if text is None else f"`{text}`"
