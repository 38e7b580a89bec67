"""A pattern's bytes as a tree of texts that know their places.

In: the bytes of a YAML file. Out: its tree, the problems of its writing, and its lines for
display. Every value stays text: nothing is resolved, constructed or executed. YAML's anchors,
aliases, tags and further documents have no use in a pattern and are refused. What the keys mean
is not known here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import yaml

from pieceproof.problems import Place, Problem
from pieceproof.syntax import place_of, syntax_problem
from pieceproof.wording import quoted

MAX_BYTES = 64 * 1024
MAX_DEPTH = 12
MAX_EVENTS = 10_000

_FORBIDDEN = re.compile(
    "[^\n\t\x20-\x7e\xa0-\u2027\u202f-\u2065\u206a-\ud7ff\ue000-\ufefe\uff00-\ufffd"
    "\U00010000-\U0010ffff]"
)
"""Control, direction and unpaired characters: no use in a pattern, and none in SVG or XML 1.0."""


@dataclass(frozen=True)
class TextNode:
    """A word, number or sentence, as written."""

    text: str
    place: Place


@dataclass(frozen=True)
class ListNode:
    """Items in order."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True)
class Entry:
    """A key and its value."""

    key: str
    key_place: Place
    value: Node


@dataclass(frozen=True)
class MapNode:
    """Keys with values, in order; no key twice."""

    entries: tuple[Entry, ...]
    place: Place

    def get(self, key: str) -> Entry | None:
        """The entry of a key, if it is there."""
        return next((entry for entry in self.entries if entry.key == key), None)


@dataclass(frozen=True)
class UnreadNode:
    """Something whose problem is already reported."""

    place: Place


Node: TypeAlias = TextNode | ListNode | MapNode | UnreadNode


def read_source(
    file: str, data: bytes
) -> tuple[MapNode | None, tuple[Problem, ...], tuple[str, ...]]:
    """The tree of a file; None where no keys can be read. Never raises."""
    if len(data) > MAX_BYTES:
        return None, (_too_large(file, len(data)),), ()
    text, problems = _decoded(file, data)
    lines = tuple(_FORBIDDEN.sub("\ufffd", text).replace("\t", " ").split("\n"))
    problems += _character_problems(file, text)
    events, faults = _events(file, _FORBIDDEN.sub(" ", text).replace("\t", " "))
    if not faults:
        tree, faults = _tree(file, events)
        if isinstance(tree, MapNode):
            return tree, tuple(problems + faults), lines
    return None, tuple(problems or faults), lines


def _decoded(file: str, data: bytes) -> tuple[str, list[Problem]]:
    problems = []
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        place = _end_of(file, _plain_ends(error.object[: error.start].decode("utf-8")))
        problems.append(
            Problem(
                place,
                "not-utf-8",
                "a character that is not stored as UTF-8",
                "a text file in UTF-8",
                'save the file again with the encoding "UTF-8", then look at this character',
            )
        )
        text = data.decode("utf-8-sig", errors="replace")
    return _plain_ends(text), problems


def _plain_ends(text: str) -> str:
    """The text with one newline for each kind of line end."""
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _end_of(file: str, text: str) -> Place:
    return Place(file, text.count("\n") + 1, len(text) - text.rfind("\n"))


def _character_problems(file: str, text: str) -> list[Problem]:
    problems = []
    for number, line in enumerate(text.split("\n"), 1):
        match = _FORBIDDEN.search(line)
        if match:
            problems.append(_invisible(Place(file, number, match.start() + 1), match[0]))
    tabs = [(n, line.index("\t")) for n, line in enumerate(text.split("\n"), 1) if "\t" in line]
    if tabs:
        others = "1 other line" if len(tabs) == 2 else f"{len(tabs) - 1} other lines"
        more = f", here and in {others}" if tabs[1:] else ""
        problems.append(
            Problem(
                Place(file, tabs[0][0], tabs[0][1] + 1),
                "tab",
                f"a tab character{more}",
                "spaces, because a tab has no fixed width",
                "replace each tab by two spaces; most editors can be told to do that",
            )
        )
    return problems


def _invisible(place: Place, character: str) -> Problem:
    return Problem(
        place,
        "control-character",
        f"an invisible character (U+{ord(character):04X})",
        "letters, digits, punctuation and spaces",
        "delete it and type the text around it again",
    )


def _too_large(file: str, size: int) -> Problem:
    return Problem(
        Place(file, 1, 1),
        "file-too-large",
        f"a file of {size // 1024 + 1} kilobytes",
        f"at most {MAX_BYTES // 1024} kilobytes, many times what a pattern needs",
        "check that the right file was saved here; photographs and prose have files of their own",
    )


def _events(file: str, text: str) -> tuple[list[yaml.Event], list[Problem]]:
    """The parser's events of the first document, or why there are none."""
    events: list[yaml.Event] = []
    depth = 0
    try:
        for event in yaml.parse(text, Loader=yaml.SafeLoader):
            depth += isinstance(event, yaml.CollectionStartEvent)
            depth -= isinstance(event, yaml.CollectionEndEvent)
            if depth > MAX_DEPTH:
                return [], [_too_deep(place_of(file, event.start_mark))]
            if len(events) >= MAX_EVENTS:
                return [], [_too_long(place_of(file, event.start_mark))]
            events.append(event)
    except yaml.MarkedYAMLError as error:
        return [], [syntax_problem(file, text, error)]
    except (yaml.YAMLError, ValueError):
        return [], [_bad_escape(file, text)]
    return events, []


def _too_deep(place: Place) -> Problem:
    return Problem(
        place,
        "too-deep",
        f"more than {MAX_DEPTH} lists or keys inside one another",
        "a handful of levels",
        "look for brackets `[` or `{` that are never closed",
    )


def _too_long(place: Place) -> Problem:
    return Problem(
        place,
        "too-long",
        f"more than {MAX_EVENTS // 2} keys and values",
        "a few hundred, as a pattern has",
        "repeat rows by `across` and `down` instead of writing each one out",
    )


def _bad_escape(file: str, text: str) -> Problem:
    return Problem(
        _end_of(file, text[: max(text.find("\\U"), 0)]),
        "syntax",
        "a backslash code for a character that does not exist",
        "the character itself",
        "type the character, or use single quotes around a text with backslashes",
    )


def _tree(file: str, events: Sequence[yaml.Event]) -> tuple[Node | None, list[Problem]]:
    """The first document's tree."""
    problems = [
        _second_document(place_of(file, event.start_mark))
        for event in [e for e in events if isinstance(e, yaml.DocumentStartEvent)][1:2]
    ]
    rest = iter(events)
    first = next((e for e in rest if isinstance(e, yaml.NodeEvent)), None)
    tree = None if first is None else _node(file, first, rest, problems)
    if tree is None or (isinstance(tree, TextNode) and not tree.text):
        return None, [*problems, _empty(Place(file, 1, 1))]
    if not isinstance(tree, MapNode):
        return None, [*problems, _no_keys(tree.place)]
    return tree, problems


def _second_document(place: Place) -> Problem:
    return Problem(
        place,
        "several-documents",
        "a line `---` that starts a second document",
        "one pattern in one file",
        "delete the line `---`, or move what follows to a pattern folder of its own",
    )


def _empty(place: Place) -> Problem:
    return Problem(
        place,
        "empty-file",
        "a file without a pattern",
        "keys with values, such as `name: Low Water`",
        "start from another pattern's file",
    )


def _no_keys(place: Place) -> Problem:
    return Problem(
        place,
        "no-keys",
        "text or a list where a pattern should start",
        "keys with values, such as `name: Low Water`",
        "give each value its key, a colon and a space: `name: Low Water`",
    )


def _node(
    file: str, event: yaml.Event, rest: Iterator[yaml.Event], problems: list[Problem]
) -> Node:
    place = place_of(file, event.start_mark)
    if isinstance(event, yaml.AliasEvent):
        problems.append(_copy(place, f"*{event.anchor}"))
        return UnreadNode(place)
    if isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent):
        problems += _refused_marks(place, event.anchor, event.tag)
    if isinstance(event, yaml.SequenceStartEvent):
        return ListNode(tuple(_items(file, rest, problems)), place)
    if isinstance(event, yaml.MappingStartEvent):
        return MapNode(tuple(_entries(file, rest, problems)), place)
    return _text(place, event.value if isinstance(event, yaml.ScalarEvent) else "", problems)


def _refused_marks(place: Place, anchor: str | None, tag: str | None) -> Iterator[Problem]:
    if anchor is not None:
        yield _copy(place, f"&{anchor}")
    if tag is not None:
        yield Problem(
            place,
            "tag",
            "a word that starts with `!`, which YAML takes for a tag",
            "the value alone",
            "delete the word that starts with `!`, or put the whole value in quotes",
        )


def _copy(place: Place, mark: str) -> Problem:
    return Problem(
        place,
        "anchor",
        f"{quoted(mark)}, YAML's way to copy a part of the file",
        "every value written where it is used",
        "write the value out; what differs between sizes goes under `sizes`",
    )


def _text(place: Place, text: str, problems: list[Problem]) -> Node:
    match = _FORBIDDEN.search(text)
    if match:
        problems.append(_invisible(place, match[0]))
        return UnreadNode(place)
    return TextNode(text.replace("\t", " "), place)


def _items(file: str, rest: Iterator[yaml.Event], problems: list[Problem]) -> Iterator[Node]:
    for event in rest:
        if isinstance(event, yaml.SequenceEndEvent):
            return
        yield _node(file, event, rest, problems)


def _entries(file: str, rest: Iterator[yaml.Event], problems: list[Problem]) -> Iterator[Entry]:
    seen: dict[str, Place] = {}
    for event in rest:
        if isinstance(event, yaml.MappingEndEvent):
            return
        key = _node(file, event, rest, problems)
        value = _node(file, next(rest), rest, problems)
        if not isinstance(key, TextNode):
            problems += [_bad_key(key.place)] if not isinstance(key, UnreadNode) else []
        elif key.text in seen:
            problems.append(_duplicate(key, seen[key.text]))
        else:
            seen[key.text] = key.place
            yield Entry(key.text, key.place, value)


def _bad_key(place: Place) -> Problem:
    return Problem(
        place,
        "bad-key",
        "brackets or a question mark where a key should stand",
        "a word, a colon and a space, such as `fabric: ground`",
        "write the key as a plain word; put values after the colon",
    )


def _duplicate(key: TextNode, first: Place) -> Problem:
    return Problem(
        key.place,
        "duplicate-key",
        f"{quoted(key.text)} a second time; the first is in line {first.line}",
        "each key once",
        "delete one of the two, or give this one another name",
    )
