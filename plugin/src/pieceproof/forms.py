"""What the annotations of the model say about the file: one small tree of forms per class.

In: the classes of `model` and of the methods. Out: forms, which the reader, the checks and the
schema all walk. Nothing of a file is read here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import MISSING, Field, dataclass, fields
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, TypeAlias, Union, get_args, get_origin, get_type_hints

from quicktions import Fraction

from pieceproof.model import (
    NOWHERE,
    Amount,
    AtLeast,
    AtMost,
    Cell,
    Chosen,
    ClothName,
    Colour,
    Example,
    FabricName,
    Lab,
    Node,
    Position,
    Size,
    ZeroToo,
)
from pieceproof.problems import Place

LONGEST_LENGTH = 1000
LONGEST_TEXT = 2000

SCALARS = (str, int, Fraction, Amount, Size, Position, Cell, FabricName, ClothName, Colour, Lab)


@dataclass(frozen=True)
class Scalar:
    """One text: ``kind`` is an entry of `SCALARS`."""

    kind: Any
    most: int = LONGEST_TEXT
    zero: bool = False
    example: str = ""


@dataclass(frozen=True)
class OneOf:
    """A word of an enumeration."""

    words: type[Enum]


@dataclass(frozen=True)
class Maybe:
    """A form, or nothing."""

    form: Form


@dataclass(frozen=True)
class ListOf:
    """Items of one form."""

    item: Form
    least: int
    most: int


@dataclass(frozen=True)
class MapOf:
    """Keys of one form with values of one form."""

    key: Scalar | OneOf
    value: Form
    least: int
    most: int
    example: str


@dataclass(frozen=True)
class Record:
    """The keys of one class."""

    kind: type[Any]


@dataclass(frozen=True)
class Choice:
    """One of several classes, chosen by the word at ``key``; without it the ``usual`` one."""

    key: str
    usual: str = ""
    example: str = ""


Form: TypeAlias = Scalar | OneOf | Maybe | ListOf | MapOf | Record | Choice


@dataclass(frozen=True)
class Key:
    """One key of a class: the field's name, the key's text, its form and description."""

    field: str
    text: str
    form: Form
    required: bool
    description: str


def keys_of(kind: type[Any]) -> tuple[Key, ...]:
    """The keys of a class: its fields with a description in order, those that it needs first."""
    hashable: Any = kind
    return _keys_of(hashable)


@cache
def _keys_of(kind: type[Any]) -> tuple[Key, ...]:
    hints = get_type_hints(kind, include_extras=True)
    found = ((f, _description(hints[f.name])) for f in fields(kind))
    keys = (
        Key(f.name, f.name.replace("_", " "), form_of(hints[f.name]), _required(f), description)
        for f, description in found
        if description
    )
    return tuple(sorted(keys, key=lambda key: not key.required))


@cache
def form_of(annotation: Any) -> Form:
    """The form of an annotation; `TypeError` for one that the file format does not know."""
    bare, notes = _bare(annotation)
    chosen = next((note for note in notes if isinstance(note, Chosen)), None)
    least = next((note.count for note in notes if isinstance(note, AtLeast)), 0)
    most = next((note.count for note in notes if isinstance(note, AtMost)), LONGEST_TEXT)
    example = next((note.text for note in notes if isinstance(note, Example)), "")
    if chosen is not None:
        return Choice(chosen.key, chosen.usual, example)
    if bare in SCALARS:
        return Scalar(bare, most, ZeroToo() in notes, example)
    origin, inner = get_origin(bare), get_args(bare)
    if origin in (Union, UnionType):
        return Maybe(form_of(Annotated[(_not_none(inner), *notes)] if notes else _not_none(inner)))
    if origin is tuple:
        return ListOf(form_of(inner[0]), least, most)
    if origin is Mapping:
        key = form_of(inner[0])
        if isinstance(key, Scalar | OneOf):
            return MapOf(key, form_of(inner[1]), least, most, example)
    if isinstance(bare, type) and issubclass(bare, Enum):
        return OneOf(bare)
    if isinstance(bare, type) and issubclass(bare, Node):
        return Record(bare)
    raise TypeError(f"no form for {annotation}")


@dataclass(frozen=True)
class Told:
    """One text that a record holds, at any depth, with its place."""

    kind: Any
    value: Any
    place: Place


def told(record: Node) -> Iterator[Told]:
    """All texts below a record, keys of mappings included, in the order of the class.

    What a file leaves out is not told; of a record made without a file everything is.
    """
    for key in keys_of(type(record)):
        yield from _told(key.form, getattr(record, key.field), record, key.text)


def _told(form: Form, value: Any, record: Node, path: str) -> Iterator[Told]:
    match form:
        case Maybe():
            if value is not None:
                yield from _told(form.form, value, record, path)
        case ListOf():
            for number, item in enumerate(value, 1):
                yield from _told(form.item, item, record, f"{path}/{number}")
        case MapOf():
            for key, item in value.items():
                below = f"{path}/{word_of(key)}"
                if isinstance(form.key, Scalar):
                    yield Told(form.key.kind, key, record.at.key(below))
                yield from _told(form.value, item, record, below)
        case Record() | Choice():
            yield from told(value)
        case Scalar():
            if path in record.at.of or record.at.here == NOWHERE:
                yield Told(form.kind, value, record.at[path])


def word_of(key: Any) -> str:
    """A mapping's key as it stands in the file."""
    return str(key.value if isinstance(key, Enum) else key)


def _bare(annotation: Any) -> tuple[Any, tuple[Any, ...]]:
    if get_origin(annotation) is Annotated:
        bare, *notes = get_args(annotation)
        return bare, tuple(notes)
    return annotation, ()


def _not_none(options: tuple[Any, ...]) -> Any:
    (only,) = (option for option in options if option is not NoneType)
    return only


def _description(annotation: Any) -> str:
    return next((note for note in _bare(annotation)[1] if isinstance(note, str)), "")


def _required(f: Field[Any]) -> bool:
    return f.default is MISSING and f.default_factory is MISSING
