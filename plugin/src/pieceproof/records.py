"""A part of a pattern's tree as the class that describes it.

In: nodes with places, and a class of the model. Out: a value of that class with its `Places`
filled, and all problems of the part. What cannot be read gets a stand-in, so that one mistake
does not hide the next; a value is complete only if there are no problems. Names are not looked
up here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from pieceproof.forms import (
    Choice,
    Form,
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
from pieceproof.wording import listed, one_of, quoted, write_instead

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
    """Where a value belongs: the key that introduces it, and where to note its place."""

    label: str
    here: Place
    path: str = ""
    of: dict[str, Place] = field(default_factory=dict)
    keys: dict[str, Place] = field(default_factory=dict)

    def below(self, label: str, here: Place) -> Spot:
        """An entry or item of this value."""
        path = f"{self.path}/{label}" if self.path else label
        self.keys[path] = here
        return Spot(label, here, path, self.of, self.keys)


def read_value(desk: Desk, form: Form, node: Node, spot: Spot) -> Any:
    """The value of a node."""
    spot.of[spot.path] = node.place
    if isinstance(node, UnreadNode):
        return blank(desk, form)
    if isinstance(node, TextNode) and not node.text:
        desk.report(spot.here, _empty(form, spot.label))
        return blank(desk, form)
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
    desk.report(node.place, _wrong_type(form, node, spot.label))
    return blank(desk, form)


def read_record(
    desk: Desk,
    kind: type[Any],
    node: MapNode,
    spot: Spot,
    tags: tuple[str, ...] = (),
    given: Mapping[str, Any] | None = None,
) -> Any:
    """A value of a class. ``tags`` are keys read already, ``given`` fields that have no key."""
    keys = keys_of(kind)
    entries = matched(desk, (*tags, *(key.text for key in keys)), node)
    inner = Spot(spot.label, spot.here)
    values: dict[str, Any] = dict(given or {})
    for tag in tags:
        if tag in entries:
            inner.of[tag], inner.keys[tag] = entries[tag].value.place, entries[tag].key_place
    for key in keys:
        entry = entries.get(key.text)
        if entry is not None:
            below = inner.below(key.text, entry.key_place)
            values[key.field] = read_value(desk, key.form, entry.value, below)
        elif key.required:
            desk.report(spot.here, _missing(spot.label, key.text, key.form, key.description))
            values[key.field] = blank(desk, key.form)
    return kind(**values, at=Places(spot.here, inner.of, inner.keys))


def matched(desk: Desk, known: tuple[str, ...], node: MapNode) -> Mapping[str, Entry]:
    """The entries by known key. A misspelt key is reported and read as the nearest free one."""
    entries = {entry.key: entry for entry in node.entries if entry.key in known}
    for entry in node.entries:
        if entry.key not in known:
            near = _near(desk, entry.key, known)
            desk.report(entry.key_place, _unknown_key(entry, known, near))
            if near is not None and near not in entries:
                entries[near] = entry
    return entries


def blank(desk: Desk, form: Form) -> Any:
    """A stand-in for what cannot be read."""
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
            return _blank_record(desk, form.kind)
        case Choice():
            return _blank_record(desk, next(iter(desk.choices[form.key].values())))


def _blank_record(desk: Desk, kind: type[Any]) -> Any:
    return kind(**{key.field: blank(desk, key.form) for key in keys_of(kind) if key.required})


def _scalar(desk: Desk, form: Scalar, node: TextNode) -> Any:
    value, complaint = read_scalar(form, node.text, node.place)
    if complaint is not None:
        desk.report(node.place, complaint)
    return value


def _word(desk: Desk, form: OneOf, node: TextNode, spot: Spot) -> Any:
    words = {word.value: word for word in form.words}
    if node.text in words:
        return words[node.text]
    desk.report(node.place, _unknown_word("unknown-value", node.text, words, spot.label))
    return next(iter(form.words))


def _list(desk: Desk, form: ListOf, node: ListNode, spot: Spot) -> tuple[Any, ...]:
    _count(desk, form, len(node.items), spot)
    items = enumerate(node.items[: form.most], 1)
    return tuple(
        read_value(desk, form.item, item, _item_spot(spot, number, item)) for number, item in items
    )


def _item_spot(spot: Spot, number: int, item: Node) -> Spot:
    below = spot.below(str(number), item.place)
    return Spot(f"item {number} of {spot.label}", item.place, below.path, spot.of, spot.keys)


def _mapping(desk: Desk, form: MapOf, node: MapNode, spot: Spot) -> Mapping[Any, Any]:
    _count(desk, form, len(node.entries), spot)
    values: dict[Any, Any] = {}
    for word, entry in _keyed(desk, form, node.entries[: form.most]):
        below = spot.below(word_of(word), entry.key_place)
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
    if entry is None:
        desk.report(spot.here, _no_tag(spot.label, form.key, kinds))
        return blank(desk, form)
    if not isinstance(entry.value, TextNode):
        if not isinstance(entry.value, UnreadNode):
            desk.report(
                entry.value.place, _wrong_type(Scalar(str, 0, False), entry.value, form.key)
            )
        return blank(desk, form)
    word = entry.value.text
    kind = kinds.get(word)
    if kind is None:
        complaint = _unknown_word(f"unknown-{form.key}", word, kinds, form.key)
        desk.report(entry.value.place, complaint)
        near = _near(desk, word, kinds)
        if near is None:
            return blank(desk, form)
        kind = kinds[near]
    return read_record(desk, kind, node, spot, (form.key,))


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
        desk.report(
            spot.here,
            Complaint(
                "too-few",
                f"{quoted(spot.label)} with nothing in it",
                "at least one" if form.least == 1 else f"at least {form.least}",
                f"write what belongs to {quoted(spot.label)}, such as {quoted(sample(form))}",
            ),
        )
    elif count > form.most:
        desk.report(
            spot.here,
            Complaint(
                "too-many",
                f"{count} {things} in {quoted(spot.label)}",
                f"at most {form.most}",
                "split the pattern in two, or repeat things instead of listing them",
            ),
        )


def _empty(form: Form, label: str) -> Complaint:
    return Complaint(
        "empty-value",
        f"{quoted(label)} with nothing behind the colon",
        expectation(form),
        _empty_remedy(form, label),
    )


def _empty_remedy(form: Form, label: str) -> str:
    inner = form.form if isinstance(form, Maybe) else form
    if isinstance(inner, Scalar) and inner.kind is Colour:
        return 'put quotes around the colour, `"#b5532f"`; without them `#` starts a remark'
    if isinstance(form, Maybe):
        return f"write a value, or delete {quoted(label)} if there is none"
    if isinstance(form, ListOf | MapOf) and form.least == 0:
        return (
            f"write the {'list' if isinstance(form, ListOf) else 'names'} below it, indented, "
            f"or delete {quoted(label)} if there are none"
        )
    return f"write it, such as {quoted(f'{label}: {sample(form)}')}"


def _wrong_type(form: Form, node: Node, label: str) -> Complaint:
    return Complaint(
        "wrong-type",
        f"{_found(node)} as {quoted(label)}",
        expectation(form),
        _type_remedy(form, node, label),
    )


def _found(node: Node) -> str:
    if isinstance(node, TextNode):
        return f"the text {quoted(node.text)}"
    return "a list" if isinstance(node, ListNode) else "keys with values"


def _type_remedy(form: Form, node: Node, label: str) -> str:
    inner = form.form if isinstance(form, Maybe) else form
    if isinstance(node, TextNode) and ":" in node.text:
        return "put a space behind the colon"
    if isinstance(inner, ListOf) and isinstance(node, MapNode):
        return "put a dash and a space before the first key of each item"
    if isinstance(inner, ListOf) and isinstance(node, TextNode) and isinstance(inner.item, Scalar):
        return f"put square brackets around it: {quoted(f'[{node.text}]')}"
    if isinstance(inner, Scalar | OneOf) and isinstance(node, ListNode):
        return "delete the brackets or the dash"
    return f"write it like this: {quoted(f'{label}: {sample(form)}')}"


def _missing(label: str, key: str, form: Form, description: str) -> Complaint:
    return Complaint(
        "missing-key",
        f"{_subject(label)} without {quoted(key)}",
        f"{quoted(key)}: {description[0].lower()}{description[1:]}",
        f"add {quoted(f'{key}: {sample(form)}')}, with your own value",
    )


def _no_tag(label: str, tag: str, kinds: Mapping[str, type[Any]]) -> Complaint:
    return Complaint(
        "missing-key",
        f"{_subject(label)} without {quoted(tag)}",
        f"{quoted(tag)}: {one_of(kinds)}",
        f"add {quoted(f'{tag}: {next(iter(kinds))}')}, or another {tag}",
    )


def _subject(label: str) -> str:
    return quoted(label) if label else "a pattern"


def _unknown_key(entry: Entry, known: tuple[str, ...], near: str | None) -> Complaint:
    remedy = f"write {quoted(near)}" if near else "delete it, or use one of these keys"
    if isinstance(entry.value, TextNode) and not entry.value.text and near is None:
        start = next((key for key in known if entry.key.startswith(key)), None)
        if start:
            remedy = f"put a colon and a space behind {quoted(start)}"
    return Complaint("unknown-key", f"the key {quoted(entry.key)}", f"only {listed(known)}", remedy)


def _unknown_word(code: str, text: str, words: Iterable[str], label: str) -> Complaint:
    known = tuple(words)
    otherwise = "choose one of these"
    return Complaint(
        code,
        f"{quoted(text)} as {quoted(label)}",
        one_of(known),
        write_instead(text, known, otherwise),
    )
