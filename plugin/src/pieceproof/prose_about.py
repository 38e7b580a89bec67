"""What a number in the prose is said of: a part, a piece, a unit, or the whole.

In: the keys of facts, and the sentence around a number. Out: the things that a key is about and
those that a sentence names. That a number is right somewhere in the pattern is not enough: a border
is not as wide as the binding because some binding is that wide.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from pieceproof.facts import PLUS
from pieceproof.methods.method import MIRRORED, SET_B

Things = frozenset[str]

_BETWEEN = ", "
_KINDS = ("unit", "block")
_OF_ALL = ("seam allowance", "finished size", "top", "tops", "usable widths")
"""What a sentence about anything may speak of as well."""

_SHAPES = "squares?|strips?|rectangles?|triangles?|pieces?|patch(?:es)?|diamonds?"
_PIECE = re.compile(
    rf"\b[Pp](?:iece|IECE)s? ([A-Z]{{1,2}})\b|\b([B-HJ-Z]|[A-Z]{{2}})(?= (?:{_SHAPES})\b)"
)
_ENDS = re.compile(r"[.!?;:](?=\s)|\n\s*\n|\n\s*(?:[-*+]|\d+\.) ")
_OF = re.compile(r"(?:\s*(?:x|×|by)\s*[\d ./½¼¾⅛⅜⅝⅞-]+(?:\"|″|inch(?:es)?|cm)?)?[ \n-]*")
_OF_THE = re.compile(r"(?:(?:wide|square|long)\s+)?(?:of\s+)?(?:the\s+|your\s+|each\s+|all\s+)?")
_SEAM = re.compile(r"[ -]*(?:wide\s+)?seams?\b", re.IGNORECASE)


@dataclass(frozen=True)
class Names:
    """The names of all things of a pattern, ready to be found in a text."""

    pattern: re.Pattern[str]
    by_form: dict[str, str]

    def within(self, text: str) -> Things:
        """The things that a text names; a longer name hides the shorter ones in it."""
        named = (self.by_form[_form(match[0])] for match in self.pattern.finditer(text))
        letters = (f"piece {match[1] or match[2]}" for match in _PIECE.finditer(text))
        return frozenset((*named, *letters))

    def next_to(self, text: str, end: int) -> Things:
        """The thing right behind a number that ends there: ``2 1/2" of the border``."""
        behind = _OF.match(text, end)
        start = behind.end() if behind else end
        joined = _OF_THE.match(text, start)
        match = self.pattern.match(text, joined.end() if joined else start)
        return frozenset((self.by_form[_form(match[0])],) if match else ())


def names_in(keys: Iterable[str]) -> Names:
    """All names that stand in keys, the longest first."""
    found = sorted({thing for key in keys for thing in things_of(key)}, key=len, reverse=True)
    names = [thing for thing in found if not thing.startswith("piece ") and thing not in _OF_ALL]
    forms = "|".join(r"\s+".join(map(re.escape, _form(name).split())) + "s?" for name in names)
    pattern = re.compile(rf"\b(?:{forms})\b" if forms else r"(?!)", re.IGNORECASE)
    return Names(pattern, {_form(name): name for name in reversed(names)})


def things_of(key: str) -> Things:
    """What a fact is about: ``the block`` means any block.

    >>> sorted(things_of("piece C, star points, cut"))
    ['piece C', 'star points']
    >>> sorted(things_of("block heron, finished, width"))
    ['block', 'heron']
    """
    words = key.split(_BETWEEN)
    if words[0].startswith("piece ") and len(words) > 1:
        return frozenset(words[:2])
    kind, _, name = words[0].partition(" ")
    if kind in _KINDS and name:
        return frozenset((kind, name.removesuffix(SET_B).removesuffix(MIRRORED)))
    return frozenset(words[0].split(PLUS))


def is_of_all(key: str) -> bool:
    """Whether a sentence about anything may cite the fact."""
    words = key.split(_BETWEEN)
    return words[0] in _OF_ALL and not any(word.startswith("step ") for word in words)


def sentence_at(text: str, at: int, start: int, end: int) -> str:
    """The sentence around a place of the text, not reaching beyond ``start`` and ``end``."""
    before = [match.end() for match in _ENDS.finditer(text, start, at)]
    behind = _ENDS.search(text, at, end)
    return text[before[-1] if before else start : behind.start() if behind else end]


def is_of_a_seam(text: str, end: int) -> bool:
    """Whether the number that ends there is the width of a seam: ``a 3/8" seam``."""
    return _SEAM.match(text, end) is not None


def titled(title: str) -> Things:
    """The unit or block that a section is about."""
    _, colon, name = title.partition(": ")
    return frozenset((name,) if colon else ())


def _form(name: str) -> str:
    """One form for a word and its plural."""
    return " ".join(name.lower().split()).removesuffix("s")
