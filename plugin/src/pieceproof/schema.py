"""A JSON Schema of the pattern file, so that editors complete and check while typing.

In: the model's annotations and the construction methods. Out: a dict for JSON Schema draft
2020-12. Editors read numbers where this format has text, so lengths, counts and texts may be
either. What a schema cannot say (declared names, circles, rows of one length) is for `checks`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

from quicktions import Fraction

from pieceproof.forms import (
    LONGEST_LENGTH,
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
)
from pieceproof.kits.book import Book
from pieceproof.model import (
    Amount,
    Cell,
    ClothName,
    Colour,
    Design,
    FabricName,
    Lab,
    Position,
    Size,
)
from pieceproof.reading import CHANGEABLE, MOST_SIZES, MethodLike, choices
from pieceproof.records import NOTHING
from pieceproof.scalars import LONGEST_NAME, RESERVED_WORDS, SAYS_HOW

Schema: TypeAlias = dict[str, Any]

_LENGTH = r"([0-9]+( +[0-9]+/[0-9]+)?|[0-9]+/[0-9]+|[0-9]+\.[0-9]+)"
_DECIMAL = r"[0-9]{1,3}(\.[0-9]{1,4})?"
_HOW = f"(?!({'|'.join(SAYS_HOW)})( |$))"
_WORDS = f"{_HOW}[a-z][a-z0-9]*([ -]{_HOW}[a-z0-9]+)*"
_NAME = f"^(?!({'|'.join(RESERVED_WORDS)})$){_WORDS}$"
_TEXT: Schema = {"type": ["string", "number", "boolean"]}

_SCALARS: Mapping[Any, Schema] = {
    Size: {"type": "string", "pattern": f"^{_LENGTH} *x *{_LENGTH}$"},
    Position: {"type": "string", "pattern": f"^{_LENGTH} +across +{_LENGTH} +down$"},
    Cell: {"type": "string", "pattern": f"^{_WORDS}( mirrored)?( turned [123])?$"},
    FabricName: {"type": "string", "pattern": _NAME},
    ClothName: {"type": "string", "pattern": _NAME},
    Colour: {"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"},
    Lab: {"type": "string", "pattern": f"^{_DECIMAL} +-?{_DECIMAL} +-?{_DECIMAL}$"},
}


def pattern_schema(methods: Sequence[MethodLike]) -> Schema:
    """The schema of a whole ``pattern.yaml``; the same dict for the same methods."""
    classes = choices(methods)
    whole = _record(classes, keys_of(Design), {})
    whole["properties"]["sizes"] = {
        "description": "The sizes, each with its label and what differs in it",
        "type": "object",
        "minProperties": 1,
        "maxProperties": MOST_SIZES,
        "propertyNames": _name(),
        "additionalProperties": _size(classes),
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A patchwork pattern",
        **whole,
    }


def shop_schema() -> Schema:
    """The schema of the shop's ``kits.yaml``."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A shop's kits",
        **_record({}, keys_of(Book), {}),
    }


_Classes: TypeAlias = Mapping[str, Mapping[str, type[Any]]]


def _size(classes: _Classes) -> Schema:
    """One entry of ``sizes``: any part of the changeable keys may be left out."""
    keys = tuple(key for key in keys_of(Design) if key.text in CHANGEABLE)
    properties = {key.text: _described(key, _part(classes, key.form)) for key in keys}
    label = {"description": "What customers read when they choose this size", **_TEXT}
    return {
        "type": "object",
        "properties": {"label": label, **properties},
        "required": ["label"],
        "additionalProperties": False,
    }


def _schema(classes: _Classes, form: Form) -> Schema:
    match form:
        case Scalar():
            return _scalar(form)
        case OneOf():
            return {"enum": [word.value for word in form.words]}
        case Maybe():
            return {"anyOf": [_schema(classes, form.form), {"const": NOTHING}]}
        case ListOf():
            return _list(form, _schema(classes, form.item))
        case MapOf():
            return _mapping(form, _schema(classes, form.value))
        case Record():
            return {**_about(form.kind), **_record(classes, keys_of(form.kind), {})}
        case Choice():
            return _choice(classes, form)


def _part(classes: _Classes, form: Form) -> Schema:
    """The form as a change to a whole that stands elsewhere: nothing in it is required."""
    match form:
        case Maybe():
            return {"anyOf": [_part(classes, form.form), {"const": NOTHING}]}
        case MapOf():
            return {**_mapping(form, _part(classes, form.value)), "minProperties": 1}
        case Record():
            return _partial(classes, form.kind, {})
        case Choice():
            kinds = classes[form.key]
            tags = {word: {form.key: {"const": word}} for word in kinds}
            parts = [_partial(classes, kinds[word], tags[word]) for word in kinds]
            return parts[0] if len(parts) == 1 else {"anyOf": parts}
    return _schema(classes, form)


def _partial(classes: _Classes, kind: type[Any], tag: Schema) -> Schema:
    properties = {key.text: _described(key, _part(classes, key.form)) for key in keys_of(kind)}
    return {"type": "object", "properties": {**tag, **properties}, "additionalProperties": False}


def _choice(classes: _Classes, form: Choice) -> Schema:
    """The tag's words, then for each word the keys of its class."""
    tag, kinds = form.key, classes[form.key]
    rules = [
        {
            "if": {
                "properties": {tag: {"const": word}},
                **({} if word == form.usual else {"required": [tag]}),
            },
            "then": {
                **_about(kind),
                **_record(classes, keys_of(kind), {tag: {"const": word}}),
            },
        }
        for word, kind in kinds.items()
    ]
    return {
        "type": "object",
        "properties": {tag: {"enum": list(kinds)}},
        **({} if form.usual else {"required": [tag]}),
        "allOf": rules,
    }


def _record(classes: _Classes, keys: Sequence[Key], tag: Schema) -> Schema:
    properties = {key.text: _described(key, _schema(classes, key.form)) for key in keys}
    return {
        "type": "object",
        "properties": {**tag, **properties},
        "required": [key.text for key in keys if key.required],
        "additionalProperties": False,
    }


def _described(key: Key, schema: Schema) -> Schema:
    return {**schema, "description": key.description}


def _about(kind: type[Any]) -> Schema:
    return {"description": (kind.__doc__ or "").split("\n")[0]}


def _list(form: ListOf, item: Schema) -> Schema:
    return {"type": "array", "items": item, "minItems": form.least, "maxItems": form.most}


def _mapping(form: MapOf, value: Schema) -> Schema:
    counts = {"minProperties": form.least, "maxProperties": form.most}
    if isinstance(form.key, OneOf):
        words: Schema = {word.value: value for word in form.key.words}
        return {"type": "object", "properties": words, "additionalProperties": False, **counts}
    names = {"propertyNames": _name(), "additionalProperties": value}
    return {"type": "object", **names, **counts}


def _name() -> Schema:
    return {"pattern": _NAME, "maxLength": LONGEST_NAME}


def _scalar(form: Scalar) -> Schema:
    example: Schema = {"examples": [form.example]} if form.example else {}
    if form.kind is Fraction:
        return {**_length(form.zero), **example}
    if form.kind is Amount:
        number = {"type": "number", "minimum": 0, "maximum": form.most}
        return {"anyOf": [number, {"type": "string", "pattern": f"^{_LENGTH}$"}]}
    if form.kind is int:
        digits = {"type": "string", "pattern": "^[0-9]+$"}
        return {"anyOf": [{"type": "integer", "minimum": 1, "maximum": form.most}, digits]}
    if form.kind is str:
        return {**_TEXT, "minLength": 1, "maxLength": form.most, **example}
    return dict(_SCALARS[form.kind])


def _length(zero: bool) -> Schema:
    least = {"minimum": 0} if zero else {"exclusiveMinimum": 0}
    number = {"type": "number", **least, "maximum": LONGEST_LENGTH}
    return {"anyOf": [number, {"type": "string", "pattern": f"^{_LENGTH}$"}]}
