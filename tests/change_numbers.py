"""Plain data with one number changed, to see that no change goes unnoticed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import Any

from quicktions import Fraction


def changes(path: str, value: Any) -> Iterator[tuple[str, Any]]:
    """Every value that differs in one number, or lacks one entry of a list."""
    if is_dataclass(value):
        for field in fields(value):
            for where, new in changes(f"{path}.{field.name}", getattr(value, field.name)):
                yield where, replace(value, **{field.name: new})  # type: ignore[type-var]
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield f"{path}[{index}] gone", (*value[:index], *value[index + 1 :])
            for where, new in changes(f"{path}[{index}]", item):
                yield where, (*value[:index], new, *value[index + 1 :])
    elif isinstance(value, bool):
        yield f"{path} turned round", not value
    elif isinstance(value, int | Fraction):
        for step in (1, -1):
            amount = value + (step if isinstance(value, int) else Fraction(step, 8))
            yield f"{path} {value} -> {amount}", amount
    elif isinstance(value, Enum):
        yield from ((f"{path} -> {other}", other) for other in type(value) if other is not value)
    elif not isinstance(value, str | None):
        raise TypeError(f"{path} holds a {type(value)}")
