"""One word for one thing: the trade's terms as this house spells them, and its abbreviations.

In: a text. Out: words that have another form here, and abbreviations that nobody has explained.
The list is short on purpose: what is not on it is the writer's own business.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from pieceproof.model import Design
from pieceproof.problems import Place, Problem
from pieceproof.prose_markup import place_at
from pieceproof.wording import quoted

# The words of this house, where the trade has several; common practice, no source.
TERMS: Mapping[str, str] = {
    "selvedge": "selvage",
    "wadding": "batting",
    "lattice": "sashing",
    "sashings": "sashing",
    "corner stone": "cornerstone",
    "corner-stone": "cornerstone",
    "half square triangle": "half-square triangle",
    "half-square-triangle": "half-square triangle",
    "quarter square triangle": "quarter-square triangle",
    "quarter-square-triangle": "quarter-square triangle",
    "half rectangle triangle": "half-rectangle triangle",
    "seam-allowance": "seam allowance",
    "seam allowence": "seam allowance",
    "cross cut": "cross-cut",
    "crosscut": "cross-cut",
    "sub cut": "sub-cut",
    "subcut": "sub-cut",
    "pin wheel": "pinwheel",
    "log-cabin": "log cabin",
    "colour way": "colourway",
    "colorway": "colourway",
    "dog-ear": "dog ear",
    "dogear": "dog ear",
    "setting-triangle": "setting triangle",
    "flying goose unit": "flying geese unit",
    "bias-binding": "bias binding",
    "rotery cutter": "rotary cutter",
    "stich": "stitch",
}
"""What is written elsewhere, and the house's own term."""

EXPANSIONS: Mapping[str, str] = {
    "HST": "half-square triangle",
    "QST": "quarter-square triangle",
    "HRT": "half-rectangle triangle",
    "RST": "right sides together",
    "WST": "wrong sides together",
    "WOF": "width of fabric",
    "LOF": "length of fabric",
    "FPP": "foundation paper piecing",
    "EPP": "English paper piecing",
    "FQ": "fat quarter",
}

_TERM = re.compile(
    r"\b("
    + "|".join(r"\s+".join(map(re.escape, term.split())) for term in sorted(TERMS, key=len)[::-1])
    + r")(e?s)?\b",
    re.IGNORECASE,
)
_ABBREVIATION = re.compile(r"\b([A-Z]{2,5})(s?)\b")
_PLAIN = frozenset({"PDF", "UK", "US", "USA", "EU", "USB", "OK", "TV"})


def term_problems(file: str, text: str) -> Iterator[Problem]:
    """Terms in another form, and abbreviations before their explanation, in a prose file."""
    for match in _TERM.finditer(text):
        yield _term(place_at(file, text, match.start()), match)
    for match in _unexplained_in(text):
        yield _unexplained(place_at(file, text, match.start()), match[1])


def design_term_problems(design: Design) -> Iterator[Problem]:
    """The same in what the design says to customers."""
    said = [(design.at["kind"], design.kind), (design.at["summary"], design.summary)]
    said += [(fabric.at["called"], fabric.called) for fabric in design.fabrics.values()]
    for place, text in said:
        for match in _TERM.finditer(text):
            yield _term(place, match)
        for match in _unexplained_in(text):
            yield _unexplained(place, match[1])


def _unexplained_in(text: str) -> Iterator[re.Match[str]]:
    """Each abbreviation where it stands first, if nothing explains it there."""
    seen = set(_PLAIN)
    for match in _ABBREVIATION.finditer(text):
        if match[1] not in seen and not _is_explained(text, match):
            yield match
        seen.add(match[1])


def _is_explained(text: str, match: re.Match[str]) -> bool:
    """``half-square triangles (HST)`` or ``HST (half-square triangle)``."""
    before, after = text[: match.start()], text[match.end() :]
    return bool(re.search(r"\w\s+\($", before) and re.match(r"s?\)", after)) or bool(
        re.match(r"\s+\(\w", after)
    )


def _term(place: Place, match: re.Match[str]) -> Problem:
    term = TERMS[" ".join(match[1].lower().split())] + (match[2] or "")
    return Problem(
        place,
        "prose-term",
        f"{quoted(match[0])}",
        "one term for one thing, spelled alike in all patterns",
        f"write `{term}`",
    )


def _unexplained(place: Place, word: str) -> Problem:
    words = EXPANSIONS.get(word, "what it stands for")
    return Problem(
        place,
        "prose-abbreviation",
        f"{quoted(word)}, which is not explained",
        "the words in full where it stands first, with the abbreviation behind them",
        f"write `{words} ({word})` here, or the words alone",
    )
