"""A comparison as text for a review comment: Markdown that reads as well without being rendered.

In: compared patterns. Out: text. Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from pieceproof.model import Stage
from pieceproof.review.changes import Change
from pieceproof.review.compare import Compared
from pieceproof.review.drawn import Redrawn
from pieceproof.review.rows import names, rows

NOTHING = "No published fact or drawing differs."

FOLDED = "Sums on the way, and values that are printed as before"

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


def _pattern(one: Compared) -> Iterator[str]:
    yield f"## {one.name}: {summary(one)}"
    yield from (f"- {line}" for line in names(one.changes))
    for stage in Stage:
        printed = [change for change in one.changes.at(stage) if change.is_printed]
        if printed:
            yield f"\n### {HEADINGS[stage]}"
            yield from _lines(printed, one)
    if one.drawings or one.undrawn:
        yield "\n### Drawings"
    where: dict[str, list[str]] = {}
    for drawing in one.drawings:
        labels = (one.labels.get(size, size) for size in drawing.sizes)
        where.setdefault(_drawing(drawing), []).extend(labels)
    yield from (f"- {words} ({', '.join(labels)})" for words, labels in where.items())
    if one.undrawn:
        yield f"- {one.undrawn}"
    if rest := one.changes.reckoned:
        yield f"\n<details><summary>{FOLDED}</summary>\n"
        yield from _lines(rest, one)
        yield "\n</details>"
    if one.prose:
        yield "\nThe prose changed; its text is in the diff."


def _drawing(drawing: Redrawn) -> str:
    state = "new: " if drawing.old is None else "gone: " if drawing.new is None else ""
    return f"{state}{drawing.name}" + (f" in {drawing.colourway}" if drawing.colourway else "")


def _lines(changed: Iterable[Change], one: Compared) -> Iterator[str]:
    for row in rows(changed, one.changes, one.labels):
        who = f"  ({row.readers})" if row.readers else ""
        yield f"- {row.key}: {_value(row.old)} -> {_value(row.new)}{who}"


def _value(text: str | None) -> str:
    return "nothing" if text is None else f"`{text}`"
