"""The proof of the cloth notices each single changed number of a requirement.

Left out: a plan's bound, which says how short another plan might be and is not asked here; words.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from fractions import Fraction
from typing import Any

import pytest
from cloth_samples import F, Sized, published, small

from pieceproof.cloth_proof import cloth_faults
from pieceproof.model import Measure
from pieceproof.requirements import USABLE_WIDTHS, Requirements, requirements

_LEFT_OUT = ("plan.bound", "plan.proven")


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


def samples() -> Iterator[tuple[str, Sized]]:
    yield "runner", published("heron-landing")[0]
    yield "quilt", published("weir-pool")[1]
    yield "mats", published("ferry-wake")[1]
    yield (
        "one cloth for all",
        small(
            {"ground": [(F(3), F(60), 2, "top"), (F(2), F(9, 2), 30, "star")]},
            binding=("edge", F(9, 4), F(170)),
            backing=("ground", F(60), F(80)),
            colourways={"a": {"ground": "mist", "edge": "mist"}},
        ),
    )


@pytest.mark.parametrize("name", [name for name, _ in samples()])
def test_no_changed_number_goes_unnoticed(name: str) -> None:
    design, publication = dict(samples())[name]
    widths = USABLE_WIDTHS[design.measure][:1]
    found, problems = requirements(design, publication, widths)
    assert not problems
    assert cloth_faults(design, publication, found) == ()
    mutants = [
        (where, mutant)
        for where, mutant in changes("", found)
        if not any(part in where for part in _LEFT_OUT)
    ]
    assert len(mutants) > 100
    unnoticed = [w for w, mutant in mutants if not cloth_faults(design, publication, mutant)]
    assert unnoticed == []


def test_a_changed_cutting_list_is_noticed() -> None:
    """Requirements of the five-star runner do not do for the seven-star one."""
    (design, publication), (_, longer) = published("heron-landing")[1:]
    found: Requirements = requirements(design, publication, USABLE_WIDTHS[Measure.INCH])[0]
    assert cloth_faults(design, longer, found)
