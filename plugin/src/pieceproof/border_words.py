"""Borders as the words cite them, from the inside out.

In: a make of borders and how to cite its pieces. Out: one `Band` a border. What is sewn when is
read off the steps; the sentences stand in ``templates/steps/borders.md``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from quicktions import Fraction

from pieceproof.model import AnyBorder, Border, MitredBorder
from pieceproof.pressing_words import in_turn
from pieceproof.published import Make
from pieceproof.steps import Join, JoinMitred, Press, Side, Take

T = TypeVar("T")


@dataclass(frozen=True)
class Band(Generic[T]):
    """One border: which pair is sewn when, of which strips or pieced sides.

    ``inside`` is what it is sewn to. ``posts`` are cornerstones; ``beyond`` is how far mitred
    strips reach past what they are sewn to. The seams of both pairs and of the posts are pressed
    as ``first_way``, ``second_way`` and ``posts_way`` say.
    """

    style: str
    inside: str
    first: str
    first_strip: T
    second_strip: T
    first_way: str
    second_way: str
    posts: T | None = None
    posts_way: str = ""
    beyond: str = ""


def bands(
    borders: tuple[AnyBorder, ...],
    make: Make,
    cited: Callable[[str], T],
    shown: Callable[[Fraction], str],
) -> Iterator[Band[T]]:
    """The borders of a make; ``cited`` takes a letter or a make's name."""
    takes = {step.item: step.source for step in make.steps if isinstance(step, Take)}
    for number, border in enumerate(borders, start=1):
        inside = "quilt centre" if number == 1 else "top"
        own = {item: source for item, source in takes.items() if _is_of(item, number)}
        pairs = {_side(item): source for item, source in own.items() if " corners " not in item}
        sides_first = next(iter(pairs)) in (Side.LEFT, Side.RIGHT)
        sides, ends = cited(pairs[Side.LEFT]), cited(pairs[Side.TOP])
        strips = (sides, ends) if sides_first else (ends, sides)
        order = "sides" if sides_first else "top and bottom"
        joins = [step for step in make.steps if isinstance(step, Join) and step.added in own]
        to_top = [join.press for join in joins if " corners " not in join.added]
        match border:
            case Border():
                posts = own.get(f"border {number} corners top left")
                at_ends = [join.press for join in joins if " corners " in join.added]
                yield Band(
                    "butted",
                    inside,
                    order,
                    *strips,
                    _way(to_top[:2], "the border"),
                    _way(to_top[2:], "the border"),
                    posts=cited(posts) if posts else None,
                    posts_way=_way(at_ends, "the post", "toward the strip"),
                )
            case MitredBorder():
                mitre = _mitre_of(make, own)
                way = _way([mitre.press], "the border")
                beyond = shown(mitre.beyond_sides)
                yield Band("mitred", inside, order, *strips, way, way, beyond=beyond)
            case _:
                away = "away from the units"
                yield Band(
                    "pieced",
                    inside,
                    order,
                    *strips,
                    _way(to_top[:2], "the units", away),
                    _way(to_top[2:], "the units", away),
                )


def _way(presses: Sequence[Press], added: str, away: str = "") -> str:
    """Where these seams go, one after the other where they differ; "" for none."""
    words = {
        Press.ONTO_ADDED: f"toward {added}",
        Press.ONTO_BASE: away or f"away from {added}",
        Press.OPEN: Press.OPEN.value,
    }
    return in_turn([words[press] for press in presses]) if presses else ""


def _is_of(item: str, number: int) -> bool:
    return item.startswith(f"border {number} ")


def _side(item: str) -> Side:
    return Side(item.rsplit(" ", maxsplit=1)[-1])


def _mitre_of(make: Make, own: dict[str, str]) -> JoinMitred:
    return next(s for s in make.steps if isinstance(s, JoinMitred) and s.left in own)
