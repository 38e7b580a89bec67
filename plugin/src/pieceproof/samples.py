"""What to write for each form: an expectation in words and a sample."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from quicktions import Fraction

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
)
from pieceproof.model import Amount, Cell, ClothName, Colour, FabricName, Lab, Position, Size
from pieceproof.wording import listed, one_of

_SAMPLES: Mapping[Any, str] = {
    str: "text",
    int: "5",
    Fraction: "2 1/2",
    Amount: "12.50",
    Size: "4 1/2 x 2 3/4",
    Position: "2 1/2 across 3 down",
    Cell: "ground",
    FabricName: "ground",
    ClothName: "mist",
    Colour: '"#b5532f"',
    Lab: "52 18 -7",
}

_EXPECTATIONS: Mapping[Any, str] = {
    str: "text",
    int: "a whole number, such as `5`",
    Fraction: "a length such as `10`, `3 1/4` or `2.5`",
    Amount: "a number such as `12`, `12.50` or `3 1/4`",
    Size: "width x height, such as `4 1/2 x 2 3/4`",
    Position: "a place from the top left corner, such as `2 1/2 across 3 down`",
    Cell: "the name of a unit, block or fabric",
    FabricName: "the name of a fabric",
    ClothName: "the name of a cloth",
    Colour: 'a colour in quotes, such as `"#b5532f"`',
    Lab: "CIELAB lightness, a and b, such as `52 18 -7`",
}


def sample(form: Form) -> str:
    """A short text that has the form."""
    match form:
        case Scalar():
            return form.example or _SAMPLES[form.kind]
        case OneOf():
            return str(next(iter(form.words)).value)
        case Maybe():
            return sample(form.form)
        case ListOf():
            return f"[{sample(form.item)}]"
        case MapOf():
            return f"{{{form.example or sample(form.key)}: {sample(form.value)}}}"
        case Record():
            keys = keys_of(form.kind)
            needed = [key for key in keys if key.required] or keys[:1]
            return "{" + ", ".join(f"{key.text}: {sample(key.form)}" for key in needed) + "}"
        case Choice():
            return form.example or f"{{{form.key}: ...}}"


def expectation(form: Form) -> str:
    """The form in words."""
    match form:
        case Scalar():
            return _EXPECTATIONS[form.kind]
        case OneOf():
            return one_of(str(word.value) for word in form.words)
        case Maybe():
            return expectation(form.form)
        case ListOf(item=ListOf()):
            return "rows, each in square brackets: `[[ground, point], [point, ground]]`"
        case ListOf():
            return "a list, in square brackets or with a dash before each item"
        case MapOf():
            return "names with values, one below the other and indented"
        case Record():
            return _keys_expected([key.text for key in keys_of(form.kind)])
        case Choice() if form.usual:
            return "keys with values"
        case Choice():
            return f"keys with values, among them {listed([form.key])}"


def _keys_expected(keys: list[str]) -> str:
    words = ("key", "its value") if len(keys) == 1 else ("keys", "their values")
    return f"the {words[0]} {listed(keys)} with {words[1]}"
