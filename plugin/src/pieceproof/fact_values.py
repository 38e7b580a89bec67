"""Facts of value and colour: how light each cloth is, and neighbours that come close.

In: a design and the readings of its colourways. Out: facts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pieceproof.colours import Eyes
from pieceproof.facts import Fact, called
from pieceproof.model import Design
from pieceproof.value_check import Pair, Reading


def value_facts(design: Design, found: Sequence[Reading]) -> tuple[Fact, ...]:
    """For each colourway a line for every fabric, the nearest neighbours, all that are close."""
    return tuple(fact for reading in found for fact in _reading(design, reading))


def _reading(design: Design, reading: Reading) -> Iterator[Fact]:
    names, key = called(design), f"value {reading.colourway}"
    for shade in reading.shades:
        yield _fact(f"{key}, {names[shade.fabric]}", f"{shade.word}, L* {shade.lightness:.1f}")
    if reading.nearest:
        nearest = reading.nearest
        yield _fact(
            f"{key}, least difference of neighbours",
            f"{nearest.grey:.1f}, {_meet(names, nearest)}",
        )
    for pair in reading.pairs:
        if pair.is_close_in_grey:
            yield _fact(f"{key}, close in grey, {_meet(names, pair)}", f"{pair.grey:.1f}")
        for eyes in pair.close_to:
            seen = dict(pair.eyes)[eyes]
            yield _fact(f"{key}, close {_EYES[eyes]}, {_meet(names, pair)}", f"{seen:.1f}")


def _meet(names: Mapping[str, str], pair: Pair) -> str:
    meeting = pair.meeting
    return f"{names[meeting.one]}, {names[meeting.other]}, in {meeting.make}"


def _fact(key: str, value: str) -> Fact:
    return Fact(key, value, value, value)


_EYES = {
    Eyes.PROTAN: "to protan eyes",
    Eyes.DEUTAN: "to deutan eyes",
    Eyes.TRITAN: "to tritan eyes",
}
