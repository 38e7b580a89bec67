"""The writer's prose with every number filled in from the facts, section by section and size.

In: the bytes of ``prose.md`` and, for each size, its publication and facts. Out: Markdown passages
for each size, and problems. Nothing is turned into HTML here, and a passage holds no raw HTML.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from pieceproof.citing import Cited, citable, cited
from pieceproof.facts import Fact
from pieceproof.house_terms import term_problems
from pieceproof.problems import Place, Problem, nearest
from pieceproof.prose_about import titled
from pieceproof.prose_links import anchors
from pieceproof.prose_markup import markup_problems, pictures_in, place_at
from pieceproof.prose_numbers import Readers, known_numbers, number_problems
from pieceproof.prose_parts import part_problems
from pieceproof.prose_source import Section, Where, decode, sections
from pieceproof.published import Make, MakeKind, Publication
from pieceproof.steps import Join, JoinMitred
from pieceproof.wording import listed

PROSE_FILE = "prose.md"

AS_IT_STANDS = "="
"""Behind an opening brace: ``{=ten minutes}`` is printed as it stands and checked by nobody."""

_FIRST, _LAST = ("Before you start", "Cutting", "Points and seams"), ("Finishing",)
_SECTIONS = {
    MakeKind.TRIANGLE: "Unit: {}",
    MakeKind.UNIT: "Unit: {}",
    MakeKind.BLOCK: "Block: {}",
    MakeKind.CENTRE: "Rows",
    MakeKind.BORDER: "Pieced: {}",
}

_TOKEN = re.compile(r"\\[{}]|\{[^{}]*\}|[{}<`~]")
_PLAIN = re.compile(r"[A-Za-z0-9 .,/()'\"-]")


@dataclass(frozen=True)
class Passage:
    """Markdown for one section of the page; the section "" is the introduction."""

    section: str
    where: Where
    text: str


@dataclass(frozen=True)
class Prose:
    """Passages of each size, by the size's name, and the picture files they show."""

    sizes: Mapping[str, tuple[Passage, ...]] = field(default_factory=dict)
    pictures: tuple[str, ...] = ()


@dataclass(frozen=True)
class SizeFacts:
    """One size as prose cites it: which sections its page has, and its facts by key.

    ``names`` are what the shop calls cloths and colourways, which prose does not.
    """

    size: str
    titles: tuple[str, ...]
    facts: Mapping[str, Fact]
    names: tuple[str, ...] = ()


def size_facts(
    publication: Publication, facts: Sequence[Fact], names: tuple[str, ...] = ()
) -> SizeFacts:
    """A size ready to be cited."""
    made = dict.fromkeys(title_of(make) for make in publication.makes)
    by_key = {fact.key: fact for fact in facts}
    return SizeFacts(publication.size, (*_FIRST, *made, *_LAST), by_key, names)


def write_prose(
    file: str, data: bytes, sizes: Sequence[SizeFacts], files: Collection[str]
) -> tuple[Prose, tuple[Problem, ...], tuple[str, ...]]:
    """Passages for all sizes, problems in the order of the file, and its lines for display.

    ``files`` are the names of the files in the pattern's folder.
    """
    text, problems = decode(file, data)
    lines = tuple(text.replace("\t", " ").split("\n"))
    found, faults = sections(file, text, _titles(sizes))
    places = anchors(text, (key for size in sizes for key in size.facts))
    problems += (*faults, *markup_problems(file, text, files, places))
    problems += (*_brace_problems(file, text), *_hand_made(file, text, found, sizes))
    problems += tuple(p for s in found for p in _citation_problems(file, text, s, sizes))
    if problems:
        return Prose(), tuple(sorted(set(problems))), lines
    passages = {size.size: tuple(_passages(text, found, size)) for size in sizes}
    return Prose(passages, pictures_in(text)), (), lines


def _hand_made(
    file: str, text: str, found: Sequence[Section], sizes: Sequence[SizeFacts]
) -> Iterator[Problem]:
    """What the writer typed that a fact should say, or that not every reader would find true."""
    plain = _TOKEN.sub(lambda match: re.sub(r"[^\n]", " ", match[0]), text)
    known = {size.size: known_numbers(size.facts) for size in sizes}
    readers = [
        Readers(
            s.start,
            s.end,
            {size.size: known[size.size] for size in sizes if _has(size, s)},
            titled(s.title),
        )
        for s in found
    ]
    measures = [size.facts["measure"].said for size in sizes if "measure" in size.facts]
    yield from number_problems(file, plain, readers, (measures or ["inch"])[0][0])
    facts = {size.size: size.facts for size in sizes}
    yield from part_problems(file, plain, facts, [n for size in sizes for n in size.names])
    yield from term_problems(file, plain)


def summary_remarks(
    place: Place, summary: str, measure: str, sizes: Sequence[SizeFacts]
) -> Iterator[Problem]:
    """Numbers in a pattern's summary that are not those of every size; it can cite no fact.

    ``measure`` is the pattern's own unit.
    """
    known = {size.size: known_numbers(size.facts) for size in sizes}
    readers = [Readers(0, len(summary), known)]
    for problem in number_problems(place.file, summary, readers, measure[0]):
        if problem.code == "prose-number":
            yield replace(
                problem,
                place=place,
                expected="a summary that is true of every size, or that holds no number",
                remedy="leave the number out: the page shows sizes and counts by itself",
            )


def _titles(sizes: Sequence[SizeFacts]) -> tuple[str, ...]:
    """The sections of all sizes, in the order of the page."""
    titles = dict.fromkeys(title for size in sizes for title in size.titles)
    return (*(title for title in titles if title not in _LAST), *_LAST)


def title_of(make: Make) -> str:
    """The section of the page that a make has."""
    if make.kind is MakeKind.TOP:
        return (
            "Borders" if any(isinstance(step, Join | JoinMitred) for step in make.steps) else "Rows"
        )
    return _SECTIONS[make.kind].format(make.name)


def _passages(text: str, found: Sequence[Section], size: SizeFacts) -> Iterator[Passage]:
    for section in found:
        filled = _filled(text[section.start : section.end], size).strip("\n")
        if filled.strip() and _has(size, section):
            yield Passage(section.title, section.where, filled)


def _has(size: SizeFacts, section: Section) -> bool:
    return not section.title or section.title in size.titles


def _filled(text: str, size: SizeFacts) -> str:
    """The text with facts for citations; whatever could be more than text is made harmless."""

    def value(match: re.Match[str]) -> str:
        token = match[0]
        if len(token) < 2 or token[0] == "\\":
            return _entity(token[-1])
        said = _words(token).removeprefix(AS_IT_STANDS)
        if not _stands(token):
            said = cited(size.facts, said).said or ""
        shown = "".join(c if _PLAIN.fullmatch(c) else _entity(c) for c in said)
        before = text[text.rfind("\n", 0, match.start()) + 1 : match.start()]
        begins_line = not any(character.isalnum() for character in before)  # "20." begins a list
        return _entity(shown[0]) + shown[1:] if begins_line and shown else shown

    return _TOKEN.sub(value, text)


def _entity(character: str) -> str:
    """The character as a reference, which no part of Markdown reads as a mark."""
    return f"&#{ord(character)};"


def _words(token: str) -> str:
    return " ".join(token[1:-1].split())


def _stands(token: str) -> bool:
    return token.startswith("{" + AS_IT_STANDS)


def _citations(text: str, section: Section) -> Iterator[tuple[int, str]]:
    for match in _TOKEN.finditer(text, section.start, section.end):
        token = match[0]
        if len(token) > 1 and token[0] == "{" and "\n\n" not in token and not _stands(token):
            yield match.start(), _words(match[0])


def _citation_problems(
    file: str, text: str, section: Section, sizes: Sequence[SizeFacts]
) -> Iterator[Problem]:
    having = [size for size in sizes if _has(size, section)]
    for offset, words in _citations(text, section):
        place = place_at(file, text, offset)
        results = {size.size: cited(size.facts, words) for size in having}
        unclear = [result for result in results.values() if result.said is None]
        if len(unclear) == len(results):
            yield from _unclear(place, words, unclear, having)
        elif unclear:
            lacking = [name for name, result in results.items() if result.said is None]
            yield _not_in_size(place, words, lacking)


def _unclear(
    place: Place, words: str, results: Sequence[Cited], sizes: Sequence[SizeFacts]
) -> Iterator[Problem]:
    if not results:
        return
    if results[0].keys:
        yield _ambiguous(place, words, results[0].keys)
    else:
        yield _unknown(place, words, [key for size in sizes for key in size.facts])


def _brace_problems(file: str, text: str) -> Iterator[Problem]:
    for match in _TOKEN.finditer(text):
        if match[0] == "{" or (match[0][0] == "{" and "\n\n" in match[0]):
            yield Problem(
                place_at(file, text, match.start()),
                "prose-brace",
                "an opening brace without its closing one",
                "`{finished size}`, a fact between two braces",
                "close the brace; where you mean the brace itself, write `\\{`",
            )


def _unknown(place: Place, words: str, keys: Sequence[str]) -> Problem:
    near = nearest(words, set(citable(keys)))
    return Problem(
        place,
        "prose-unknown-fact",
        f"`{{{words[:80]}}}`",
        "a fact of this pattern, by its key in the facts files or a short form of it",
        f"write `{{{near}}}`" if near else "look it up in the facts file of any size",
    )


def _ambiguous(place: Place, words: str, keys: Sequence[str]) -> Problem:
    return Problem(
        place,
        "prose-ambiguous-fact",
        f"`{{{words}}}`, which may mean {len(keys)} facts",
        f"one fact, such as {listed(keys[:2])}",
        "write more of the key",
    )


def _not_in_size(place: Place, words: str, sizes: Sequence[str]) -> Problem:
    return Problem(
        place,
        "prose-fact-not-in-size",
        f"`{{{words}}}`, which is no fact of {listed(sizes)}",
        "a fact that every size has, because all sizes share the prose",
        "cite something else, or write the sentence without it",
    )
