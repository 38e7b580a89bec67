"""Small sentences that the messages share: quoting, choices, the nearest spelling."""

from __future__ import annotations

from collections.abc import Iterable

from pieceproof.problems import nearest

_LONGEST = 60
_MOST_NAMED = 40


def quoted(text: str) -> str:
    """The text in backquotes, on one line, not longer than a line can hold."""
    line = " ".join(text.split())
    return f"`{line if len(line) <= _LONGEST else line[: _LONGEST - 3] + '...'}`"


def one_of(words: Iterable[str]) -> str:
    """``one of `a`, `b` or `c```, in the given order; of very many words the first."""
    names = [quoted(word) for word in words]
    if len(names) < 3:
        return " or ".join(names)
    if len(names) > _MOST_NAMED:
        return f"one of {', '.join(names[:_MOST_NAMED])} or {len(names) - _MOST_NAMED} more"
    return f"one of {', '.join(names[:-1])} or {names[-1]}"


def listed(words: Iterable[str]) -> str:
    """``` `a`, `b` and `c` ```, in the given order."""
    names = [quoted(word) for word in words]
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def write_instead(word: str, candidates: Iterable[str], otherwise: str) -> str:
    """``write `star``` where a candidate is spelled like the word; else what to do."""
    known = tuple(candidates)
    near = (
        known[0] if len(known) == 1 else nearest(word[:_LONGEST].lower().replace("_", " "), known)
    )
    return otherwise if near is None else f"write {quoted(near)}"
