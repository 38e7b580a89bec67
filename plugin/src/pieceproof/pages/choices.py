"""What a reader chooses on a pattern's page, and the parts of the page that hold for each choice.

In: axes of choice and contents for every combination. Out: each different content once, with the
choices it holds for, and the style sheet that hides the others by radio buttons alone. It knows
neither patterns nor templates.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T")
Combination = tuple[str, ...]
Box = tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Option:
    """One choice: its token in the page's markup and what the reader reads."""

    token: str
    label: str


@dataclass(frozen=True)
class Axis:
    """One question with its options; the first is chosen until the reader chooses."""

    key: str
    question: str
    options: tuple[Option, ...]

    @property
    def tokens(self) -> tuple[str, ...]:
        """The tokens of all options, in order."""
        return tuple(option.token for option in self.options)


@dataclass(frozen=True)
class Variant(Generic[T]):
    """A content and the choices it holds for; an axis that does not matter is left out."""

    holds: Mapping[str, tuple[str, ...]]
    content: T


def variants(
    axes: Sequence[Axis], cases: Iterable[tuple[Combination, T]]
) -> tuple[Variant[T], ...]:
    """Contents that print alike merged. Combinations name one token of each axis, in order.

    A content that holds for scattered combinations comes back several times, once for each group
    that tokens of every axis can describe. No combination is in two variants.
    """
    held: dict[str, tuple[T, list[Combination]]] = {}
    for combination, content in cases:
        held.setdefault(repr(content), (content, []))[1].append(combination)
    return tuple(
        Variant(_holds(axes, box), content)
        for content, combinations in held.values()
        for box in _boxes(axes, combinations)
    )


def attributes(variant: Variant[T]) -> Mapping[str, str]:
    """The ``data-`` attributes that say what a variant holds for."""
    return {f"data-{key}": " ".join(tokens) for key, tokens in variant.holds.items()}


def choice_rules(axes: Sequence[Axis]) -> str:
    """Style rules that hide what does not hold for the radio buttons checked.

    The button of an option has the id that `button_id` gives. While a page still arrives and has
    no buttons yet, the first option holds, so that nothing jumps when they come. Without
    ``:has()`` nothing is hidden and every variant says what it holds for.
    """
    return "\n".join(rule for axis in axes for rule in _rules(axis))


def _rules(axis: Axis) -> Iterator[str]:
    first = axis.options[0]
    yield _hiding(f"not(:has(#{button_id(axis, first)}))", axis, first)
    for option in axis.options:
        yield _hiding(f"has(#{button_id(axis, option)}:checked)", axis, option)


def _hiding(where: str, axis: Axis, option: Option) -> str:
    others = f'[data-{axis.key}]:not([data-{axis.key}~="{option.token}"])'
    return f"body:{where} {others}{{display:none!important}}"


def button_id(axis: Axis, option: Option) -> str:
    """The id of an option's radio button.

    >>> button_id(Axis("size", "Size", ()), Option("short", "Three stars"))
    'pp-size-short'
    """
    return f"pp-{axis.key}-{option.token}"


def _holds(axes: Sequence[Axis], box: Box) -> Mapping[str, tuple[str, ...]]:
    return {
        axis.key: tokens
        for axis, tokens in zip(axes, box, strict=True)
        if set(tokens) != set(axis.tokens)
    }


def _boxes(axes: Sequence[Axis], combinations: Sequence[Combination]) -> tuple[Box, ...]:
    """The combinations as products of tokens: first tokens with equal remainders go together."""
    if not axes:
        return ((),)
    rests: dict[tuple[Box, ...], list[str]] = {}
    for token in axes[0].tokens:
        rest = [combination[1:] for combination in combinations if combination[0] == token]
        if rest:
            rests.setdefault(_boxes(axes[1:], rest), []).append(token)
    return tuple((tuple(tokens), *box) for boxes, tokens in rests.items() for box in boxes)
