"""A part of a pattern's tree as the class that describes it.

In: nodes with places, and a class of the model. Out: a value of that class with its `Places`
filled, and all problems of the part. What cannot be read gets a stand-in, so that one mistake
does not hide the next; a value is complete only if there are no problems. Names are not looked
up here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from pieceproof.forms import (
    Choice,
    Form,
    Key,
    ListOf,
    MapOf,
    Maybe,
    OneOf,
    Record,
    Scalar,
    keys_of,
    word_of,
)
from pieceproof.model import Colour, Places
from pieceproof.problems import Place, Problem, nearest
from pieceproof.samples import expectation, sample
from pieceproof.scalars import STAND_INS, Complaint, name_complaint, read_scalar
from pieceproof.source import Entry, ListNode, MapNode, Node, TextNode, UnreadNode
from pieceproof.wording import one_of, quoted, write_instead

NOTHING = "none"
"""The word for an optional part that is left out."""

_PATIENCE = 100
"""After so many problems nobody reads suggestions, and spelling is slow to compare."""


@dataclass(frozen=True)
class Desk:
    """What reading has at hand: the classes by tag key and word, and the problems so far."""

    choices: Mapping[str, Mapping[str, type[Any]]]
    problems: list[Problem]

    def report(self, place: Place, complaint: Complaint) -> None:
        """Add a problem."""
        said = (complaint.code, complaint.found, complaint.expected, complaint.remedy)
        self.problems.append(Problem(place, *said))


@dataclass(frozen=True)
class Spot:
    """Where a value belongs, and where to note the places of its parts.

    ``words`` names it in a sentence, ``start`` is what stands before it on its line, ``here`` is
    the place of its key or, for an item, its own.
    """

    words: str
    start: str
    here: Place
    path: str = ""
    of: dict[str, Place] = field(default_factory=dict)
    keys: dict[str, Place] = field(default_factory=dict)

    def entry(self, key: str, here: Place) -> Spot:
        """The value of a key in this value."""
        return self._below(quoted(key), f"{key}: ", here, key)

    def item(self, number: int, here: Place) -> Spot:
        """An item of this list, counted from 1."""
        return self._below(f"item {number} of {self.words}", "- ", here, str(number))

    def _below(self, words: str, start: str, here: Place, step: str) -> Spot:
        path = f"{self.path}/{step}" if self.path else step
        self.keys[path] = here
        return Spot(words, start, here, path, self.of, self.keys)


def read_value(desk: Desk, form: Form, node: Node, spot: Spot) -> Any:
    """The value of a node."""
    spot.of[spot.path] = node.place
    if isinstance(node, UnreadNode):
        return blank(desk, form, node.place)
    if isinstance(node, TextNode) and not node.text:
        desk.report(spot.here, _empty(form, spot))
        return blank(desk, form, spot.here)
    match form, node:
        case Maybe(), TextNode(text=text) if text == NOTHING:
            return None
        case Maybe(), _:
            return read_value(desk, form.form, node, spot)
        case Scalar(), TextNode():
            return _scalar(desk, form, node)
        case OneOf(), TextNode():
            return _word(desk, form, node, spot)
        case ListOf(), ListNode():
            return _list(desk, form, node, spot)
        case MapOf(), MapNode():
            return _mapping(desk, form, node, spot)
        case Record(), MapNode():
            return read_record(desk, form.kind, node, spot)
        case Choice(), MapNode():
            return _chosen(desk, form, node, spot)
    desk.report(node.place, _wrong_type(form, node, spot))
    return blank(desk, form, node.place)


def read_record(
    desk: Desk,
    kind: type[Any],
    node: MapNode,
    spot: Spot,
    tags: tuple[str, ...] = (),
    given: Mapping[str, Any] | None = None,
    elsewhere: Mapping[str, str] | None = None,
) -> Any:
    """A value of a class. ``tags`` are keys read already, ``given`` fields that have no key.

    ``elsewhere`` says of keys that other classes have what these classes are called.
    """
    keys = keys_of(kind)
    entries = matched(desk, (*tags, *(key.text for key in keys)), node, elsewhere or {})
    inner = Spot(spot.words, spot.start, spot.here)
    values: dict[str, Any] = dict(given or {})
    for tag in tags:
        if tag in entries:
            inner.of[tag], inner.keys[tag] = entries[tag].value.place, entries[tag].key_place
    for key in keys:
        entry = entries.get(key.text)
        if entry is not None:
            below = inner.entry(key.text, entry.key_place)
            values[key.field] = read_value(desk, key.form, entry.value, below)
        elif key.required:
            desk.report(spot.here, _missing(spot, key))
            values[key.field] = blank(desk, key.form, spot.here)
    return kind(**values, at=Places(spot.here, inner.of, inner.keys))


def matched(
    desk: Desk, known: tuple[str, ...], node: MapNode, elsewhere: Mapping[str, str] | None = None
) -> Mapping[str, Entry]:
    """The entries by known key. A misspelt key is reported and read as the nearest free one."""
    entries = {entry.key: entry for entry in node.entries if entry.key in known}
    for entry in node.entries:
        if entry.key not in known:
            near, meant = _meant(desk, entry, known)
            if elsewhere and entry.key in elsewhere and (near is None or near in entries):
                desk.report(entry.key_place, _stray_key(entry, known, elsewhere[entry.key]))
                continue
            desk.report(entry.key_place, _unknown_key(entry, known, near))
            if near is not None and near not in entries:
                entries[near] = meant
    return entries


def _meant(desk: Desk, entry: Entry, known: tuple[str, ...]) -> tuple[str | None, Entry]:
    """The known key that was meant, if any, and the entry as it was meant."""
    key, _, rest = entry.key.partition(":")
    if key in known and rest and isinstance(entry.value, TextNode) and not entry.value.text:
        return key, replace(entry, value=TextNode(rest, entry.key_place))
    return _near(desk, entry.key, known), entry


def blank(desk: Desk, form: Form, problem: Place) -> Any:
    """A stand-in for what cannot be read because of the problem at a place."""
    match form:
        case Scalar():
            return STAND_INS[form.kind]
        case OneOf():
            return next(iter(form.words))
        case Maybe():
            return None
        case ListOf():
            return ()
        case MapOf():
            return {}
        case Record():
            return _blank_record(desk, form.kind, problem)
        case Choice():
            return _blank_record(desk, next(iter(desk.choices[form.key].values())), problem)


def _blank_record(desk: Desk, kind: type[Any], problem: Place) -> Any:
    needed = (key for key in keys_of(kind) if key.required)
    values = {key.field: blank(desk, key.form, problem) for key in needed}
    return kind(**values, at=Places(problem))


def _scalar(desk: Desk, form: Scalar, node: TextNode) -> Any:
    value, complaint = read_scalar(form, node.text, node.place)
    if complaint is not None:
        desk.report(node.place, complaint)
    return value


def _word(desk: Desk, form: OneOf, node: TextNode, spot: Spot) -> Any:
    words = {word.value: word for word in form.words}
    if node.text in words:
        return words[node.text]
    desk.report(node.place, Complaint("unknown-value", *_unknown(node.text, words, spot.words)))
    return next(iter(form.words))


def _list(desk: Desk, form: ListOf, node: ListNode, spot: Spot) -> tuple[Any, ...]:
    _count(desk, form, len(node.items), spot)
    texts = [item.text for item in node.items if isinstance(item, TextNode)]
    if isinstance(form.item, ListOf) and texts and len(texts) == len(node.items):
        desk.report(node.place, _one_row(form, spot, texts))
        return ()
    items = enumerate(node.items[: form.most], 1)
    return tuple(read_value(desk, form.item, i, spot.item(number, i.place)) for number, i in items)


def _mapping(desk: Desk, form: MapOf, node: MapNode, spot: Spot) -> Mapping[Any, Any]:
    _count(desk, form, len(node.entries), spot)
    values: dict[Any, Any] = {}
    for word, entry in _keyed(desk, form, node.entries[: form.most]):
        below = spot.entry(word_of(word), entry.key_place)
        values[word] = read_value(desk, form.value, entry.value, below)
    return values


def _keyed(desk: Desk, form: MapOf, entries: Iterable[Entry]) -> Iterable[tuple[Any, Entry]]:
    if isinstance(form.key, OneOf):
        words = {word.value: word for word in form.key.words}
        known = matched(desk, tuple(words), MapNode(tuple(entries), Place("", 1, 1)))
        yield from sorted(((words[word], entry) for word, entry in known.items()), key=_in_file)
        return
    for entry in entries:
        complaint = name_complaint(entry.key) if form.key.kind is str else None
        if complaint is not None:
            desk.report(entry.key_place, complaint)
        yield form.key.kind(entry.key), entry


def _in_file(keyed: tuple[Any, Entry]) -> Place:
    return keyed[1].key_place


def _chosen(desk: Desk, form: Choice, node: MapNode, spot: Spot) -> Any:
    kinds = desk.choices[form.key]
    entry = node.get(form.key) or _misspelt_tag(desk, form.key, node, kinds)
    if entry is None and form.usual:
        return read_record(desk, kinds[form.usual], node, spot)
    if entry is None:
        desk.report(spot.here, _no_tag(spot, form.key, kinds))
        return blank(desk, form, spot.here)
    if not isinstance(entry.value, TextNode):
        if not isinstance(entry.value, UnreadNode):
            tag = spot.entry(form.key, entry.key_place)
            desk.report(entry.value.place, _wrong_type(Scalar(str), entry.value, tag))
        return blank(desk, form, entry.value.place)
    word = entry.value.text
    kind = kinds.get(word)
    if kind is None:
        said = _unknown(word, kinds, quoted(form.key))
        desk.report(entry.value.place, Complaint("unknown-choice", *said))
        near = _near(desk, word, kinds)
        if near is None:
            return blank(desk, form, entry.value.place)
        kind = kinds[near]
    return read_record(desk, kind, node, spot, (form.key,), None, _elsewhere(kind, kinds))


def _elsewhere(kind: type[Any], kinds: Mapping[str, type[Any]]) -> Mapping[str, str]:
    """The words of the classes that have a key, by the keys that this one has not."""
    own = {key.text for key in keys_of(kind)}
    words: dict[str, list[str]] = {}
    for word, other in kinds.items():
        for key in keys_of(other):
            if key.text not in own:
                words.setdefault(key.text, []).append(word)
    return {key: one_of(having) for key, having in words.items()}


def _misspelt_tag(
    desk: Desk, tag: str, node: MapNode, kinds: Mapping[str, type[Any]]
) -> Entry | None:
    """The entry whose key is spelled like the tag and no key of any of the classes."""
    known = {tag, *(key.text for kind in kinds.values() for key in keys_of(kind))}
    strays = (entry for entry in node.entries if entry.key not in known)
    return next((entry for entry in strays if _near(desk, entry.key, known) == tag), None)


def _near(desk: Desk, word: str, known: Iterable[str]) -> str | None:
    if len(desk.problems) > _PATIENCE:
        return None
    return nearest(word[:60].lower().replace("_", " "), known)


def _count(desk: Desk, form: ListOf | MapOf, count: int, spot: Spot) -> None:
    things = "items" if isinstance(form, ListOf) else "names"
    if count < form.least:
        said = (f"{spot.words} with nothing in it", "at least one")
        desk.report(spot.here, Complaint("too-few", *said, f"write {_line(form, spot)}"))
    elif count > form.most:
        said = (f"{count} {things} in {spot.words}", f"at most {form.most}")
        desk.report(spot.here, Complaint("too-many", *said, "delete some, or split the pattern"))


def _line(form: Form, spot: Spot) -> str:
    """A sample of the whole line."""
    return f"something like {quoted(spot.start + sample(form))}"


def _empty(form: Form, spot: Spot) -> Complaint:
    found = f"{spot.words} with nothing behind the colon"
    if spot.start == "- ":
        found = f"nothing as {spot.words}"
    return Complaint("empty-value", found, expectation(form), _empty_remedy(form, spot))


def _empty_remedy(form: Form, spot: Spot) -> str:
    inner = form.form if isinstance(form, Maybe) else form
    if isinstance(inner, Scalar) and inner.kind is Colour:
        return 'put quotes around the colour, `"#b5532f"`; without them `#` starts a remark'
    if isinstance(inner, Record) and not any(key.required for key in keys_of(inner.kind)):
        return f"write {quoted(spot.start + '{}')} for the usual one, or delete it for none"
    if isinstance(form, Maybe) or (isinstance(form, ListOf | MapOf) and form.least == 0):
        return f"write {_line(form, spot)}, or delete {spot.words} if there is none"
    return f"write {_line(form, spot)}"


def _wrong_type(form: Form, node: Node, spot: Spot) -> Complaint:
    found = f"{_found(node)} as {spot.words}"
    return Complaint("wrong-type", found, expectation(form), _type_remedy(form, node, spot))


def _one_row(form: ListOf, spot: Spot, texts: list[str]) -> Complaint:
    row = ", ".join(texts)
    return Complaint(
        "wrong-type",
        f"cells without a row as {spot.words}",
        expectation(form),
        f"put each row in brackets of its own: {quoted(f'[[{row}]]')}",
    )


def _found(node: Node) -> str:
    if isinstance(node, TextNode):
        return f"the text {quoted(node.text)}"
    return "a list" if isinstance(node, ListNode) else "keys with values"


def _type_remedy(form: Form, node: Node, spot: Spot) -> str:
    inner = form.form if isinstance(form, Maybe) else form
    if isinstance(node, TextNode) and ":" in node.text:
        return f"put a space behind the colon and write {_line(form, spot)}"
    if isinstance(inner, ListOf) and isinstance(node, MapNode):
        return "put a dash and a space before the first key of each item"
    if isinstance(inner, ListOf) and isinstance(node, TextNode) and isinstance(inner.item, Scalar):
        return f"put square brackets around it: {quoted(f'[{node.text}]')}"
    if isinstance(inner, Scalar | OneOf) and isinstance(node, ListNode):
        return "delete the brackets or the dash"
    return f"write {_line(form, spot)}"


def _missing(spot: Spot, key: Key) -> Complaint:
    return Complaint(
        "missing-key",
        f"{spot.words} without {quoted(key.text)}",
        f"{quoted(key.text)}: {key.description[0].lower()}{key.description[1:]}",
        f"add a line like {quoted(f'{key.text}: {sample(key.form)}')}",
    )


def _no_tag(spot: Spot, tag: str, kinds: Mapping[str, type[Any]]) -> Complaint:
    return Complaint(
        "missing-key",
        f"{spot.words} without {quoted(tag)}",
        f"{quoted(tag)}: {one_of(kinds)}",
        f"add {quoted(f'{tag}: {next(iter(kinds))}')}"
        + (f" or another {tag}" if len(kinds) > 1 else ""),
    )


def _stray_key(entry: Entry, known: tuple[str, ...], having: str) -> Complaint:
    remedy = f"delete it; it belongs to {having}"
    return Complaint("unknown-key", f"the key {quoted(entry.key)}", one_of(known), remedy)


def _unknown_key(entry: Entry, known: tuple[str, ...], near: str | None) -> Complaint:
    remedy = f"write {quoted(near)}" if near else "delete it, or use one of these keys"
    if near is not None and entry.key.startswith(f"{near}:"):
        remedy = f"put a space behind the colon: {quoted(entry.key.replace(':', ': ', 1))}"
    return Complaint("unknown-key", f"the key {quoted(entry.key)}", one_of(known), remedy)


def _unknown(text: str, choices: Iterable[str], words: str) -> tuple[str, str, str]:
    """Found, expected and remedy for a word that is none of the known ones."""
    known = tuple(choices)
    remedy = write_instead(text, known, "choose one of these")
    return f"{quoted(text)} as {words}", one_of(known), remedy
