"""What a placeholder in prose cites: a fact by its key, or by a short form of it.

In: the facts of one size and the words between the braces. Out: what the sentence says, or why not.
Short forms leave out what goes without saying: ``{finished size}`` is width x height,
``{piece A, cut}`` needs no fabric, ``{background, yards}`` is at the usual width, which is the
first one among the facts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.facts import WIDTH, Fact

_BETWEEN = ", "
_SIDES = (f"{_BETWEEN}width", f"{_BETWEEN}height")


@dataclass(frozen=True)
class Cited:
    """What a citation says, or the keys it may mean if it is not clear; neither if unknown."""

    said: str | None
    keys: tuple[str, ...] = ()


def cited(facts: Mapping[str, Fact], citation: str) -> Cited:
    """The value that the citation stands for. ``facts`` are by key, in order."""
    if citation in facts:
        return Cited(facts[citation].said)
    sides = [facts.get(f"{citation}{side}") for side in _SIDES]
    if sides[0] is not None and sides[1] is not None:
        return Cited(_size(sides[0], sides[1]))
    words = citation.split(_BETWEEN)
    found = [key for key in facts if _is_short_for(words, key.split(_BETWEEN))]
    if len({_without_width(key) for key in found}) == 1:
        return Cited(facts[found[0]].said)
    return Cited(None, tuple(found))


def citable(facts: Iterable[str]) -> Iterator[str]:
    """Keys and the usual short forms, for finding the nearest one."""
    for key in facts:
        yield key
        yield _without_width(key)
        for side in _SIDES:
            if key.endswith(side):
                yield key.removesuffix(side)


def _size(width: Fact, height: Fact) -> str:
    first = width.published if height.said.endswith(" cm") else width.said
    return f"{first} x {height.said}"


def _is_short_for(words: Sequence[str], key: Sequence[str]) -> bool:
    """The first and last words of a key, and any of those between, in order."""
    if len(words) < 2 or (words[0], words[-1]) != (key[0], key[-1]):
        return False
    rest = iter(key)
    return all(word in rest for word in words)


def _without_width(key: str) -> str:
    words = key.split(_BETWEEN)
    return _BETWEEN.join(word for word in words if not word.startswith(f"{WIDTH} "))
