"""Whom a fact concerns: at which stage of the work, with which width of cloth, in which colourways.

In: the key of a fact, and the facts beside it. Out: a stage, a width as the key writes it, names of
colourways. A key of a kind that is not known here belongs to sewing, the last stage, so that no
change is ever left out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from pieceproof.facts import PLUS, WIDTH
from pieceproof.model import Stage

BETWEEN = ", "

_CHOOSING = ("measure", "ruler's step", "seam allowance", "tops", "finished size")
_SHOPPING = ("batting", f"{WIDTH}s", "room left", "yards", "metres")
_CUTTING = ("binding", "backing", "sleeve")
_BOUGHT = ("needed", "yards", "metres", "room left", "strips in all", "these cuts fit down to")
_RECKONED = ("needed", "room left", "strips in all", "squaring")
_PLAYS = "plays"
_COLOURWAY = "colourway "
_VALUE = "value "


def stage_of(key: str) -> Stage:
    """When a maker first needs the fact.

    >>> stage_of("background, usable width 42, yards").value
    'shopping'
    >>> stage_of("piece C, star points, template, corner 1").value
    'templates'
    >>> stage_of("background, from fat quarters of 20 x 18").value
    'shopping'
    """
    words = key.split(BETWEEN)
    if words[0] in _CHOOSING or words[0].startswith(_VALUE):
        return Stage.CHOOSING
    if width_of(key):
        bought = words[-1] in _BOUGHT or any(word.startswith("spare ") for word in words)
        return Stage.SHOPPING if bought else Stage.CUTTING
    if words[0] in _SHOPPING or words[0].startswith(_COLOURWAY) or _is_of_precuts(words):
        return Stage.SHOPPING
    if words[0].startswith("piece "):
        return Stage.TEMPLATES if "template" in words else Stage.CUTTING
    return Stage.CUTTING if words[0] in _CUTTING else Stage.SEWING


def _is_of_precuts(words: Sequence[str]) -> bool:
    return words[-1].startswith("from ") and " of " in words[-1]


def is_reckoning(key: str) -> bool:
    """Whether the fact is a step on the way to what is bought, which no maker acts upon."""
    words = key.split(BETWEEN)
    return bool(width_of(key)) and (
        words[-1] in _RECKONED or any(word.startswith("spare ") for word in words)
    )


def width_of(key: str) -> str:
    """The usable width that the fact is about; empty if it is about all."""
    words = (word for word in key.split(BETWEEN) if word.startswith(f"{WIDTH} "))
    return next(words, "").removeprefix(f"{WIDTH} ")


def colourways_of(key: str, values: Mapping[str, str]) -> tuple[str, ...]:
    """The colourways in which the key's parts share a cloth; empty if it is about all of them.

    ``values`` are the published values of the size by key.
    """
    words = key.split(BETWEEN)
    for kind in (_COLOURWAY, _VALUE):
        if words[0].startswith(kind):
            return (words[0].removeprefix(kind),)
    if not width_of(key):
        return ()
    plays = {k.split(BETWEEN)[0]: set[str]() for k in values if k.endswith(f"{BETWEEN}{_PLAYS}")}
    for k, parts in values.items():
        if k.endswith(f"{BETWEEN}{_PLAYS}"):
            plays[k.split(BETWEEN)[0]].add(parts)
    having = tuple(way for way, groups in plays.items() if words[0] in groups)
    all_or_none = len(having) in (0, len(plays))
    return () if all_or_none else tuple(way.removeprefix(_COLOURWAY) for way in having)


def parts_of(group: str) -> tuple[str, ...]:
    """The parts that a group of them names."""
    return tuple(group.split(PLUS))
