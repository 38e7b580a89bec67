"""Whatever a reader chooses, exactly one variant shows, and it is the right one."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from pieceproof.pages.choices import Axis, Option, variants


@st.composite
def tables(draw: st.DrawFn) -> tuple[tuple[Axis, ...], dict[tuple[str, ...], int]]:
    counts = draw(st.lists(st.integers(1, 4), min_size=1, max_size=3))
    axes = tuple(
        Axis(f"axis{number}", "?", tuple(Option(f"o{at}", "") for at in range(count)))
        for number, count in enumerate(counts)
    )
    combinations = product(*(axis.tokens for axis in axes))
    return axes, {combination: draw(st.integers(0, 3)) for combination in combinations}


@given(tables())
def test_each_choice_shows_its_content_once(
    table: tuple[tuple[Axis, ...], dict[tuple[str, ...], int]],
) -> None:
    axes, contents = table
    merged = variants(axes, contents.items())
    for combination, content in contents.items():
        shown = [
            variant.content
            for variant in merged
            if all(
                axis.key not in variant.holds or token in variant.holds[axis.key]
                for axis, token in zip(axes, combination, strict=True)
            )
        ]
        assert shown == [content]


@given(st.integers(1, 5), st.integers(1, 5))
def test_what_never_differs_is_there_once_without_conditions(first: int, second: int) -> None:
    axes = tuple(
        Axis(key, "?", tuple(Option(f"o{at}", "") for at in range(count)))
        for key, count in (("a", first), ("b", second))
    )
    (only,) = variants(axes, ((c, "same") for c in product(*(axis.tokens for axis in axes))))
    assert only.holds == {}
