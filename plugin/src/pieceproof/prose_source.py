"""A prose file's bytes as text and sections.

In: the bytes of ``prose.md`` and the headings that may stand in it. Out: text, sections with where
they stand, problems. What stands in a section is not looked at here.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from pieceproof.problems import Place, Problem, nearest
from pieceproof.prose_markup import place_at
from pieceproof.wording import listed, quoted

MAX_BYTES = 64 * 1024

_HEADING = re.compile(r"^(#{1,6})[ \t]*([^\n]*?)[ \t#]*$", re.MULTILINE)
_WHERE = re.compile(r"(.*?)(?:\s*\((after|instead)\))?")
_JOINERS = "\u00ad\u200c\u200d"
"""Invisible characters that spelling may need."""


class Where(Enum):
    """How a text stands to what is generated for its section."""

    BEFORE = "before"
    AFTER = "after"
    INSTEAD = "instead"


@dataclass(frozen=True)
class Section:
    """A stretch of the text, from ``start`` to ``end``; the introduction has no title."""

    title: str
    where: Where
    start: int
    end: int


def decode(file: str, data: bytes) -> tuple[str, tuple[Problem, ...]]:
    """The text with plain line ends; empty where it cannot be read."""
    if len(data) > MAX_BYTES:
        return "", (_too_large(file, len(data)),)
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig").replace("\r\n", "\n")
        return "", (_not_utf_8(place_at(file, before, len(before))),)
    found = [at for at, character in enumerate(text) if _is_invisible(character)]
    problems = tuple(_invisible(place_at(file, text, at), text[at]) for at in found[:1])
    return "".join("\ufffd" if _is_invisible(c) else c for c in text), problems


def sections(
    file: str, text: str, titles: Sequence[str]
) -> tuple[tuple[Section, ...], tuple[Problem, ...]]:
    """The introduction, then what stands below each heading, which names one of ``titles``.

    Below a heading that does not, the text has no title, so that it can be read all the same.
    """
    headings = [match for match in _HEADING.finditer(text) if len(match[1]) <= 2]
    ends = [*(match.start() for match in headings), len(text)]
    found = [Section("", Where.BEFORE, 0, ends[0])]
    problems: list[Problem] = []
    for match, end in zip(headings, ends[1:], strict=True):
        section = _section(match, end)
        faults = [*_heading_problems(file, text, match, section, titles, found)]
        problems += faults
        found.append(replace(section, title="") if faults else section)
    return tuple(found), tuple(problems)


def _section(match: re.Match[str], end: int) -> Section:
    parts = _WHERE.fullmatch(match[2])
    title, where = (parts[1], parts[2]) if parts else (match[2], None)
    return Section(title, Where(where or "before"), match.end(), end)


def _heading_problems(
    file: str,
    text: str,
    match: re.Match[str],
    section: Section,
    titles: Sequence[str],
    before: Sequence[Section],
) -> Iterator[Problem]:
    place = place_at(file, text, match.start())
    if len(match[1]) == 1:
        yield _first_level(place, match[0])
    elif section.title not in titles:
        yield _unknown_section(place, match[2], section, titles)
    elif any((s.title, s.where) == (section.title, section.where) for s in before):
        yield _section_twice(place, match[0])


def _is_invisible(character: str) -> bool:
    if character in "\n\t" or character in _JOINERS:
        return False
    return unicodedata.category(character) in ("Cc", "Cf", "Cs", "Zl", "Zp")


def _first_level(place: Place, found: str) -> Problem:
    return Problem(
        place,
        "prose-heading",
        quoted(found),
        "headings with two `#` for sections and three or more inside them",
        "delete it: the page's title is the pattern's name",
    )


def _unknown_section(place: Place, found: str, section: Section, titles: Sequence[str]) -> Problem:
    near = nearest(section.title, titles)
    suffix = "" if section.where is Where.BEFORE else f" ({section.where.value})"
    return Problem(
        place,
        "prose-section",
        f"the heading {quoted(found)}",
        f"a section of the pattern's page: {listed(titles)}; with `(after)` or `(instead)` behind "
        "it, the text stands after the steps or in their place",
        f"write `## {near}{suffix}`" if near else "choose one of them, or use `###`",
    )


def _section_twice(place: Place, found: str) -> Problem:
    return Problem(
        place,
        "prose-section-twice",
        f"{quoted(found)} a second time",
        "each section once",
        "move its text below the first one",
    )


def _too_large(file: str, size: int) -> Problem:
    return Problem(
        Place(file, 1, 1),
        "prose-too-large",
        f"a file of {size // 1024 + 1} kilobytes",
        f"at most {MAX_BYTES // 1024} kilobytes, about fifteen printed pages",
        "check that the right file was saved here",
    )


def _not_utf_8(place: Place) -> Problem:
    return Problem(
        place,
        "prose-not-utf-8",
        "a character that is not stored as UTF-8",
        "a text file in UTF-8",
        'save the file again with the encoding "UTF-8", then look at this character',
    )


def _invisible(place: Place, character: str) -> Problem:
    return Problem(
        place,
        "prose-control-character",
        f"an invisible character (U+{ord(character):04X})",
        "letters, digits, punctuation and spaces",
        "delete it and type the text around it again",
    )
