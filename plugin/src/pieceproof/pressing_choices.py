"""What the writer has settled about pressing, seam by seam.

In: the ``pressing`` of a design and the steps of its things. Out: which of their seams can be
chosen for; a `Choice` for each thing, or problems where there is no such thing or seam, or the word
does not fit it.

Keys are ``row 2``, ``row 2 seam 1``, ``rows``, ``between``, ``between 2`` (the second seam from
the top), for a unit whose method presses to the dark ``seam``, and for a thing that is sewn piece
by piece ``seam 3``, the third one sewn, and ``seams``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from pieceproof.inside_seams import inside_seams
from pieceproof.layout import TOP, setting_name
from pieceproof.methods.method import MIRRORED, SET_B, Pressing
from pieceproof.model import BORDER_SEAMS, SETTING_SEAMS, Design, SeamWay
from pieceproof.problems import Problem, nearest
from pieceproof.steps import Assemble, AssembleOnPoint, Press, Step, seam_ways
from pieceproof.wording import one_of, quoted


@dataclass(frozen=True)
class Choice:
    """``ways`` are -1, 0 or 1 by the seam: ``row 2 seam 1``, ``between 1``.

    ``dark`` is for a unit: pressed to the dark, to the light, or None where that is left free.
    """

    ways: Mapping[str, int]
    spun: bool = False
    dark: bool | None = None
    inside: Mapping[int, Press] = field(default_factory=dict)
    """Seams sewn one by one, by their numbers from 1."""


@dataclass(frozen=True)
class Pressed:
    """A thing that may be chosen for: the seams in each row, and between rows; or a unit.

    ``inside`` says what is sewn to what in each seam that is sewn by itself. ``absent`` are seams
    of rows on point whose ends have no triangle: they count, but nobody sews them.
    """

    rows: Sequence[int]
    between: int
    is_unit: bool = False
    inside: tuple[str, ...] = ()
    absent: frozenset[str] = frozenset()


NO_CHOICE = Choice({})

_KEY = re.compile(r"row (?P<row>\d+)(?: seam (?P<seam>\d+))?|between (?P<between>\d+)")
_ACROSS = (SeamWay.LEFT, SeamWay.RIGHT, SeamWay.OPEN)
_DOWN = (SeamWay.UP, SeamWay.DOWN, SeamWay.OPEN)
_FROM_MIDDLE = (SeamWay.INWARD, SeamWay.OUTWARD)
_UNIT = (SeamWay.TO_DARK, SeamWay.TO_LIGHT)
_INSIDE = {
    SeamWay.TO_ADDED: Press.ONTO_ADDED,
    SeamWay.FROM_ADDED: Press.ONTO_BASE,
    SeamWay.OPEN: Press.OPEN,
}
_SEAM = re.compile(r"seam (\d+)")
_MOST_NAMED = 16


def name_in_file(design: Design, make: str) -> str:
    """What the writer calls a thing that is made."""
    if make == setting_name(design):
        return SETTING_SEAMS
    return BORDER_SEAMS if make == TOP else make.removesuffix(SET_B).removesuffix(MIRRORED)


def choosable(steps: Sequence[Step], rule: Pressing | None) -> Pressed | None:
    """What may be chosen for of a thing that its method presses by this rule; None for nothing."""
    thing = joined_in_rows(steps)
    if thing is None and rule is Pressing.DARKER:
        return _pressed_by_value(steps)
    return thing or sewn_one_by_one(steps)


def joined_in_rows(steps: Sequence[Step]) -> Pressed | None:
    """The seams of rows and between them, where steps assemble any."""
    for step in steps:
        if isinstance(step, Assemble):
            return Pressed([len(row) - 1 for row in step.rows], len(step.rows) - 1)
        if isinstance(step, AssembleOnPoint):
            rows = [len(row.cells) + 1 for row in step.rows]
            return Pressed(rows, len(step.rows) - 1, absent=frozenset(_absent(step)))
    return None


def _absent(step: AssembleOnPoint) -> Iterator[str]:
    for number, row in enumerate(step.rows, start=1):
        if row.first is None:
            yield f"row {number} seam 1"
        if row.last is None:
            yield f"row {number} seam {len(row.cells) + 1}"


def sewn_one_by_one(steps: Sequence[Step]) -> Pressed | None:
    """The seams that steps sew one after the other, if there are any."""
    inside = tuple(f"{seam.added[0]} to {seam.base[0]}" for seam in inside_seams(steps))
    return Pressed((), 0, inside=inside) if inside else None


def _pressed_by_value(steps: Sequence[Step]) -> Pressed:
    """The seams of a unit of light and dark; a single one needs no number."""
    one_by_one = sewn_one_by_one(steps)
    inside = one_by_one.inside if one_by_one else ()
    return Pressed((), 0, is_unit=True, inside=() if len(inside) == 1 else inside)


def numbered(thing: Pressed) -> tuple[str, ...]:
    """The keys of all its seams that have a number."""
    rows = (seam for row in _in_rows(thing) for seam in row if seam not in thing.absent)
    inside = (f"seam {n}" for n in range(1, len(thing.inside) + 1))
    return (*rows, *_between(thing), *inside)


def choices(
    design: Design, things: Mapping[str, Pressed]
) -> tuple[Mapping[str, Choice], tuple[Problem, ...]]:
    """The writer's choices by the things' names."""
    found: dict[str, Choice] = {}
    problems: list[Problem] = []
    for name, words in design.pressing.items():
        if name not in things:
            problems.append(_no_such_thing(design, name, things))
            continue
        ways: dict[str, int] = {}
        inside: dict[int, Press] = {}
        choice = NO_CHOICE
        for key, way in words.items():
            fit = _fitting(things[name], key)
            if fit is None or way not in fit.words:
                problems.append(_no_such_seam(design, (name, key, way), things[name], fit))
            elif fit.inside and way in _INSIDE:
                inside |= dict.fromkeys(fit.inside, _INSIDE[way])
            elif way in _UNIT:
                choice = Choice({}, dark=way is SeamWay.TO_DARK)
            elif way is SeamWay.SPUN:
                choice = Choice({}, spun=True)
            else:
                ways |= dict(fit.named(way))
        found[name] = Choice(ways, choice.spun, choice.dark, inside)
    return found, tuple(problems)


def mirrored(choice: Choice, rows: Sequence[int]) -> Choice:
    """The choice for the left-right mirror image."""
    ways = {}
    for seam, way in choice.ways.items():
        match = re.fullmatch(r"row (\d+) seam (\d+)", seam)
        if match:
            row, number = int(match[1]), int(match[2])
            ways[f"row {row} seam {rows[row - 1] + 1 - number}"] = -way
        else:
            ways[seam] = way
    return Choice(ways, choice.spun, choice.dark, choice.inside)


@dataclass(frozen=True)
class _Fit:
    """The seams that a key names, and the words that they may have."""

    seams: tuple[tuple[str, ...], ...]
    words: tuple[SeamWay, ...]
    inside: tuple[int, ...] = ()

    def named(self, way: SeamWay) -> Iterator[tuple[str, int]]:
        for row in self.seams:
            yield from zip(row, seam_ways(way.value, len(row)), strict=True)


def _in_rows(thing: Pressed) -> tuple[tuple[str, ...], ...]:
    return tuple(
        tuple(f"row {row} seam {n}" for n in range(1, seams + 1))
        for row, seams in enumerate(thing.rows, start=1)
    )


def _between(thing: Pressed) -> tuple[str, ...]:
    return tuple(f"between {n}" for n in range(1, thing.between + 1))


def _fitting_inside(thing: Pressed, key: str) -> _Fit | None:
    numbers = tuple(range(1, len(thing.inside) + 1))
    match = _SEAM.fullmatch(key)
    if key == "seams" and numbers:
        return _Fit((), tuple(_INSIDE), numbers)
    if match and int(match[1]) in numbers:
        return _Fit((), tuple(_INSIDE), (int(match[1]),))
    return None


def _fitting(thing: Pressed, key: str) -> _Fit | None:
    if thing.is_unit and key == "seam":
        return _Fit((), (*_UNIT, SeamWay.OPEN), tuple(range(1, max(1, len(thing.inside)) + 1)))
    if thing.is_unit or thing.inside:
        return _fitting_inside(thing, key)
    rows, between = _in_rows(thing), _between(thing)
    match = _KEY.fullmatch(key)
    if key == "rows":
        return _Fit(rows, (*_ACROSS, *_FROM_MIDDLE))
    if key == "between" and between:
        spun = (SeamWay.SPUN,) if list(thing.rows) == [1, 1] else ()
        return _Fit((between,), (*_DOWN, *_FROM_MIDDLE, *spun))
    if match is None:
        return None
    if match["seam"]:
        seam = f"row {int(match['row'])} seam {int(match['seam'])}"
        return _Fit(((seam,),), _ACROSS) if seam in numbered(thing) else None
    if match["row"]:
        number = int(match["row"])
        known = 1 <= number <= len(rows) and set(rows[number - 1]) - thing.absent
        return _Fit((rows[number - 1],), (*_ACROSS, *_FROM_MIDDLE)) if known else None
    seam = f"between {int(match['between'])}"
    return _Fit(((seam,),), _DOWN) if seam in between else None


def _no_such_thing(design: Design, name: str, things: Mapping[str, Pressed]) -> Problem:
    """A name that nothing has, or that of a unit without seams to choose for."""
    close = None if name in design.units else nearest(name, things)
    expected = (
        f"what something that is sewn is called: a unit, a block, {quoted(SETTING_SEAMS)}, or "
        f"{quoted(BORDER_SEAMS)} where there are any"
    )
    if name in design.units:
        expected = (
            "a unit with seams that can go either way; cloth on a foundation is folded over its "
            "seam, and what is laid on or cut in one piece has none"
        )
    return Problem(
        design.at.key(f"pressing/{name}"),
        "pressed-nothing",
        f"{quoted(name)} under `pressing`",
        expected,
        f"write {quoted(close)}" if close else f"delete {quoted(name)} there",
    )


def _no_such_seam(
    design: Design, said: tuple[str, str, SeamWay], thing: Pressed, fit: _Fit | None
) -> Problem:
    name, key, way = said
    if fit is not None:
        return Problem(
            design.at[f"pressing/{name}/{key}"],
            "pressed-otherwise",
            f"{quoted(way.value)} for {quoted(key)} of {quoted(name)}",
            one_of(word.value for word in fit.words),
            f"write {quoted(fit.words[0].value)}, or delete {quoted(key)} to leave it free",
        )
    if thing.inside:
        keys = [*(f"seam {n}" for n in range(1, len(thing.inside) + 1)), "seams"]
        keys += ["seam"] if thing.is_unit else []
        expected = _inside_words(thing.inside) + (
            ", or `seam` for all by value" if thing.is_unit else ""
        )
    elif thing.is_unit:
        keys = ["seam"]
        expected = one_of(keys)
    else:
        single = "; a single one as `row 1 seam 2` or `between 2`"
        keys = [
            f"row {n}" for n, row in enumerate(_in_rows(thing), start=1) if set(row) - thing.absent
        ]
        keys += ["rows"] if keys else []
        keys += ["between"] if thing.between else []
        expected = one_of(keys) + single
    return Problem(
        design.at.key(f"pressing/{name}/{key}"),
        "pressed-no-seam",
        f"{quoted(key)} of {quoted(name)}",
        expected,
        f"write {quoted(nearest(key, keys) or keys[0])}, or delete it",
    )


def _inside_words(said: Sequence[str]) -> str:
    """What there is, with what is sewn to what as far as that can be read."""
    if len(said) > _MOST_NAMED:
        return f"`seam 1` to `seam {len(said)}` in the order of sewing, or `seams`"
    told = ", ".join(f"`seam {n}` ({words})" for n, words in enumerate(said, start=1))
    return f"{told} or `seams`"
