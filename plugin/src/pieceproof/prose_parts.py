"""Words in prose that name what only a part's name can: colours, cloths, sides, letters.

In: prose in which citations and what is marked as it stands are blanked, and the facts of each
size. Out: problems. Another colourway makes ``the red strip`` false, another hand ``to the left``,
another size a letter: the part, the neighbour and the right letter are true for everybody.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from pieceproof.facts import Fact
from pieceproof.problems import Problem
from pieceproof.prose_markup import place_at
from pieceproof.wording import listed, quoted

_COLOURS = (
    "red|crimson|scarlet|pink|rose|orange|yellow|gold|golden|green|blue|navy|teal|turquoise|purple"
    "|violet|plum|brown|tan|beige|cream|white|black|gr[ae]y|silver|ochre|rust"
)
_NOUNS = (
    "strips?|pieces?|squares?|triangles?|rectangles?|fabrics?|cloths?|patch(?:es)?|prints?|corners?"
    "|borders?|units?|blocks?|stars?|logs?|diamonds?|sash(?:es|ing)?|cornerstones?|bindings?"
    "|backings?|backgrounds?|rows?|points?|centres?|sides?|edges?|ones?"
)
_COLOURED = re.compile(
    rf"\b((?:{_COLOURS})(?:(?:,? and |, | or |/)(?:{_COLOURS}))?) ({_NOUNS})\b", re.IGNORECASE
)
_SIDES = re.compile(
    r"\b(?:(?:on|to|at|from|toward|towards|upper|lower|top|bottom)\s+(?:the\s+|your\s+|its\s+)?"
    r"(?:left|right)(?!\s+(?:over|size|way|one|place|order|angles?|side\s+(?:up|of)|sides?\s+together))"
    r"|(?:left|right)(?:-hand)?\s+(?:edges?|corners?|ends?|strips?|triangles?|squares?|units?|pieces?"
    r"|borders?|blocks?|column|half|neighbours?|hand)"
    r"|(?:left|right)-hand|left\s+(?:and|or|to)\s+right|right\s+(?:and|or|to)\s+left"
    r"|(?:anti|counter)-?clockwise|clockwise)\b",
    re.IGNORECASE,
)
_SHAPES = "squares?|strips?|rectangles?|triangles?|pieces?|patch(?:es)?|diamonds?"
_LETTER = re.compile(
    rf"\b(?:[Pp]ieces?|[Tt]emplates?)\s+([A-Z]{{1,2}})\b|\b([B-HJ-Z]|[A-Z]{{2}})\s+(?:{_SHAPES})\b"
    r"|(?<=\w )\(([A-Z])\)"
)
_MANY_OF = re.compile(
    rf"(?<![\w/.])(\d+)\s+(?:of\s+)?(?:[Pp]ieces?\s+)?([A-Z]{{1,2}})(?=\s+(?:{_SHAPES})\b|[.,;:)\s]+)"
)
_BEFORE = re.compile(r"([a-z' -]+) $")
_PIECE = re.compile(r"piece ([A-Z]{1,2}), (.*), count")

Sizes = Mapping[str, Mapping[str, Fact]]


def part_problems(file: str, text: str, sizes: Sizes, names: Sequence[str]) -> tuple[Problem, ...]:
    """All of them. ``names`` are those of cloths and colourways."""
    problems = [
        *_coloured(file, text),
        *_named_cloths(file, text, names),
        *_sided(file, text),
        *_lettered(file, text, sizes),
    ]
    return tuple(problems)


def _coloured(file: str, text: str) -> Iterator[Problem]:
    for match in _COLOURED.finditer(text):
        yield Problem(
            place_at(file, text, match.start()),
            "prose-colour",
            f"{quoted(match[0])}, a colour in place of a part",
            "fabrics called by the part they play, which is the same in every colourway",
            f"write which part the {match[2]} belong{'' if match[2].endswith('s') else 's'} to, "
            f"or `{{={match[0]}}}` if it is true of all colourways",
        )


def _named_cloths(file: str, text: str, names: Sequence[str]) -> Iterator[Problem]:
    for name in sorted(set(names)):
        for match in re.finditer(rf"\b{re.escape(name)}\b", text):
            yield Problem(
                place_at(file, text, match.start()),
                "prose-cloth",
                f"{quoted(name)}, which is a cloth or colourway",
                "words that are true in every colourway",
                f"write which part it plays, or `{{={name}}}` if you mean the name itself",
            )


def _sided(file: str, text: str) -> Iterator[Problem]:
    for match in _SIDES.finditer(text):
        yield Problem(
            place_at(file, text, match.start()),
            "prose-side",
            f"{quoted(match[0])}, which depends on the hand and on how the work lies",
            "a part, a neighbour or the picture to go by",
            "write next to what it lies, or which way its picture shows it; "
            f"`{{={match[0]}}}` if the side itself is meant",
        )


def _lettered(file: str, text: str, sizes: Sizes) -> Iterator[Problem]:
    """Letters that some size does not have, or that belong to another part or in another number."""
    pieces = {size: _pieces(facts) for size, facts in sizes.items()}
    if not any(pieces.values()):
        return
    for match in _LETTER.finditer(text):
        letter = match[1] or match[2] or match[3]
        place = place_at(file, text, match.start())
        lacking = [size for size, of in pieces.items() if letter not in of]
        if lacking:
            yield Problem(
                place,
                "prose-letter",
                f"{quoted(match[0])}, a letter that no piece of {listed(lacking)} has",
                f"a letter of the cutting list: {listed(next(iter(pieces.values())))}",
                f"look up the piece, or write `{{={match[0]}}}` if it is no piece",
            )
        else:
            yield from _wrong_part(file, text, match, letter, pieces)
    for match in _MANY_OF.finditer(text):
        wrong = [s for s, of in pieces.items() if match[2] in of and of[match[2]][1] != match[1]]
        if wrong:
            _, count = pieces[wrong[0]][match[2]]
            yield Problem(
                place_at(file, text, match.start()),
                "prose-letter",
                f"{quoted(match[0])}, but there are {count} in `{wrong[0]}`",
                "as many as the cutting list has, in every size",
                f"write `{{piece {match[2]}, count}}` for the number",
            )


def _wrong_part(
    file: str,
    text: str,
    match: re.Match[str],
    letter: str,
    pieces: Mapping[str, Mapping[str, tuple[str, str]]],
) -> Iterator[Problem]:
    """``star points (A)`` where A is cut from the background."""
    before = _BEFORE.search(text[max(0, match.start() - 60) : match.start()].replace("\n", " "))
    if match[3] is None or before is None:
        return
    named = [
        part
        for part in sorted({part for of in pieces.values() for part, _ in of.values()})
        if before[1].endswith(part)
    ]
    real = {of[letter][0] for of in pieces.values()}
    if named and not real & set(named):
        yield Problem(
            place_at(file, text, match.start()),
            "prose-letter",
            f"{quoted(f'{named[-1]} {match[0]}')}, but {letter} is cut from {listed(sorted(real))}",
            "the letter that the cutting list gives to the part",
            f"write `{sorted(real)[0]} ({letter})`, or the letter of {named[-1]}",
        )


def _pieces(facts: Mapping[str, Fact]) -> Mapping[str, tuple[str, str]]:
    """Part and count of each piece, by letter."""
    found = ((match, fact) for key, fact in facts.items() if (match := _PIECE.fullmatch(key)))
    return {match[1]: (match[2], fact.published) for match, fact in found}
