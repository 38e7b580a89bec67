"""Names that changed between two editions of the facts: parts, units, blocks, letters of pieces.

In: the facts of one size, before and after. Out: old names with their new ones, and the old facts
under new names, so that a change of a name is one change and not hundreds. A name counts as
renamed only if most facts that mention it are the same under the new one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from pieceproof.facts import PLUS, Fact
from pieceproof.methods.method import SET_B
from pieceproof.review.stages import BETWEEN, parts_of, width_of

Names = Mapping[str, str]
Facts = Mapping[str, Fact]

_LETTER = re.compile(r"(?<![A-Za-z])[A-Z]{1,2}(?![A-Za-z])")
_PIECE = re.compile(r"piece ([A-Z]{1,2}), (.*), cut")
_MAKE = re.compile(r"(?:unit|block) (.*), unfinished, width")
_PLACED = re.compile(r"((?:take )?)(.+?)((?: set B)?(?: mirrored)?(?: turned [123])?(?: as .*)?)")


def by_key(facts: Iterable[Fact]) -> Facts:
    """Facts by key, in order."""
    return {fact.key: fact for fact in facts}


def renamed_parts(old: Facts, new: Facts) -> Names:
    """Fabric parts that have another name now."""
    return _pairs(old, new, _parts(old), _parts(new), _with_part)


def renamed_makes(old: Facts, new: Facts) -> Names:
    """Units and blocks that have another name now."""
    return _pairs(old, new, _makes(old), _makes(new), _with_make)


def relettered(old: Facts, new: Facts) -> Names:
    """Pieces that have another letter now, by their part, size and use; ``old`` has new names."""
    before, after = _pieces(old), _pieces(new)
    found: dict[str, str] = {}
    for detail in (3, 2):
        for letter, piece in before.items():
            alike = [
                other
                for other, that in after.items()
                if that[:detail] == piece[:detail] and other not in found.values()
            ]
            if letter not in found and alike:
                found[letter] = letter if letter in alike else alike[0]
    return {letter: other for letter, other in found.items() if letter != other}


def under_new_names(old: Facts, parts: Names, makes: Names, letters: Names) -> Facts:
    """The old facts as they read with new names; keys stay in their order."""
    gone = {letter: f"old {letter}" for letter in letters.values() if letter not in letters}

    def text(words: str) -> str:
        words = _with(_with(words, parts, _with_part), makes, _with_make)
        return _LETTER.sub(lambda match: {**gone, **letters}.get(match[0], match[0]), words)

    return by_key(
        Fact(text(f.key), text(f.exact), text(f.published)) if parts or makes or letters else f
        for f in old.values()
    )


_Swap = Callable[[str, str, str], str]


def _with(text: str, names: Names, swap: _Swap) -> str:
    for old, new in names.items():
        text = swap(text, old, new)
    return text


def _with_part(text: str, old: str, new: str) -> str:
    """The text with one part renamed where it stands alone, in a group, or after ``tips of``."""
    words = text.split(BETWEEN)
    swapped = (PLUS.join(new if part == old else part for part in parts_of(w)) for w in words)
    tips = (re.sub(rf"( tips? of ){re.escape(old)}$", rf"\g<1>{new}", word) for word in swapped)
    return BETWEEN.join(tips)


def _with_make(text: str, old: str, new: str) -> str:
    """The text with one unit or block renamed, in keys, in rows and where it is taken."""

    def swapped(word: str) -> str:
        for kind in ("unit ", "block ", "in "):
            for one_set in ("", SET_B):
                if word == kind + old + one_set:
                    return kind + new + one_set
        match = _PLACED.fullmatch(word)
        return f"{match[1]}{new}{match[3]}" if match and match[2] == old else word

    return BETWEEN.join(swapped(word) for word in text.split(BETWEEN))


def _pairs(
    old: Facts, new: Facts, before: Sequence[str], after: Sequence[str], swap: _Swap
) -> Names:
    """Each name that is gone with the new name under which most of its facts are the same."""
    gone = [name for name in before if name not in after]
    come = [name for name in after if name not in before]
    found: dict[str, str] = {}
    for name in gone:
        scores = {other: _alike(old, new, name, other, swap) for other in come}
        best = max(come, key=lambda other: scores[other], default="")
        if best and scores[best] > 0.5 and best not in found.values():
            found[name] = best
    return found


def _alike(old: Facts, new: Facts, name: str, other: str, swap: _Swap) -> float:
    """The share of the facts about a name that are the same under the other one."""
    about = [fact for fact in old.values() if swap(fact.key, name, other) != fact.key]
    same = sum(
        swap(fact.exact, name, other) == new[key].exact
        for fact in about
        if (key := swap(fact.key, name, other)) in new
    )
    return same / len(about) if about else 0.0


def _parts(facts: Facts) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_named_parts(facts)))


def _named_parts(facts: Facts) -> Iterator[str]:
    for key, fact in facts.items():
        if match := _PIECE.fullmatch(key):
            yield match[2]
        elif key.endswith(f"{BETWEEN}fabric"):
            yield fact.published
        elif width_of(key):
            yield from parts_of(key.split(BETWEEN)[0])


def _makes(facts: Facts) -> tuple[str, ...]:
    named = (match[1].removesuffix(SET_B) for key in facts if (match := _MAKE.fullmatch(key)))
    return tuple(dict.fromkeys(named))


def _pieces(facts: Facts) -> Mapping[str, tuple[str, str, str]]:
    """Part, use and cut size by letter."""
    found = ((match, fact) for key, fact in facts.items() if (match := _PIECE.fullmatch(key)))
    return {
        match[1]: (match[2], facts[f"piece {match[1]}, {match[2]}, used in"].published, f.published)
        for match, f in found
    }
