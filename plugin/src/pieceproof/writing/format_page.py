"""The reference of the file format as a page of the handbook, from the classes of the model.

In: the construction methods. Out: Markdown: a table of keys for every class that the file knows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from pieceproof.forms import Choice, Form, Key, ListOf, MapOf, Maybe, OneOf, Record, keys_of
from pieceproof.model import Design
from pieceproof.reading import CHANGEABLE, MethodLike, choices
from pieceproof.samples import expectation
from pieceproof.wording import listed

_Choices: TypeAlias = Mapping[str, Mapping[str, type[Any]]]


def format_page(methods: Sequence[MethodLike]) -> str:
    """The whole reference."""
    parts = [_INTRODUCTION.format(changeable=listed(CHANGEABLE))]
    for title, kind in _classes(choices(methods)):
        parts += [f"## {title}", _table(keys_of(kind))]
    return "\n\n".join(parts) + "\n"


_INTRODUCTION = """\
# The pattern file

A pattern is the file `pattern.yaml` in a folder under `patterns/`. Every length is a *finished*
size unless its key says cut, written as on a ruler, in the unit that `measure` states. What can be
worked out is not written: cut sizes, counts, cloth and letters follow.

`sizes` names the sizes. Each has a `label` and states anew what differs in it: {changeable}.
Without `sizes` the pattern has one size.

An optional part that is there and is to be left out in a size is written `none`."""


def _classes(known: _Choices) -> Iterator[tuple[str, type[Any]]]:
    """Every class once, in the order in which the file comes to it."""
    waiting: list[tuple[str, type[Any]]] = [("The pattern", Design)]
    seen: set[type[Any]] = set()
    while waiting:
        title, kind = waiting.pop(0)
        if kind in seen:
            continue
        seen.add(kind)
        yield title, kind
        for key in keys_of(kind):
            waiting += _below(known, key.text, key.form)


def _below(known: _Choices, key: str, form: Form) -> Iterator[tuple[str, type[Any]]]:
    match form:
        case Maybe():
            yield from _below(known, key, form.form)
        case ListOf():
            yield from _below(known, key, form.item)
        case MapOf():
            yield from _below(known, key, form.value)
        case Record():
            yield f"One of `{key}`" if key.endswith("s") else f"`{key}`", form.kind
        case Choice():
            for word, kind in known[form.key].items():
                yield f"`{form.key}: {word}`", kind


def _table(keys: Sequence[Key]) -> str:
    rows = [f"| `{key.text}` | {_needed(key)} | {_plain(key)} |" for key in keys]
    return "\n".join(["| key | must it be there? | what it says |", "| --- | --- | --- |", *rows])


def _needed(key: Key) -> str:
    return "needed" if key.required else "may be left out"


def _plain(key: Key) -> str:
    words = f"{key.description}: {_written(key.form)}"
    return words.replace("|", "\\|").replace("\n", " ")


def _written(form: Form) -> str:
    match form:
        case Maybe():
            return _written(form.form)
        case OneOf():
            return " or ".join(f"`{word.value}`" for word in form.words)
    return expectation(form)
