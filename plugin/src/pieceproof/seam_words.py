"""Seams and tips in words: which seams a group is, and how a pattern's tips stand as a whole.

In: a publication with its ranked seams, or its tips. Out: text in which piece letters stand in
double asterisks. Groups that are alike in everything are said once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pieceproof.bench.ranking import Care, SeamEffect
from pieceproof.bench.surroundings import BETWEEN_ROWS, IN_ROWS, Seam
from pieceproof.methods.method import MIRRORED
from pieceproof.published import Make, MakeKind, Publication
from pieceproof.steps import Take
from pieceproof.tips import TipKind, Tips


@dataclass(frozen=True)
class Ranked:
    """Seams that do the same harm: all of them in words, and one of their effects."""

    what: str
    effect: SeamEffect

    @property
    def care(self) -> Care:
        return self.effect.care


def ranked(publication: Publication, effects: Sequence[SeamEffect]) -> tuple[Ranked, ...]:
    """Every group of seams in words, in the order of the effects; of one name at its worst."""
    desk = _Desk(
        {make.name: make for make in publication.makes},
        {m.name: _steps(effects, m.name) for m in publication.makes},
    )
    alike: dict[tuple[object, ...], list[SeamEffect]] = {}
    for effect in effects:
        make = desk.makes[effect.seam.make]
        harm = (effect.care, effect.cut, effect.misfit, effect.size)
        alike.setdefault((make.kind, effect.seam.group, *harm), []).append(effect)
    worst: dict[str, SeamEffect] = {}
    for found in alike.values():
        what = _sentence(desk, [effect.seam for effect in found])
        worst[what] = _worse(worst.get(what, found[0]), found[0])
    return tuple(Ranked(what, effect) for what, effect in worst.items())


def _worse(one: SeamEffect, other: SeamEffect) -> SeamEffect:
    return replace(
        one,
        cut=max(one.cut, other.cut),
        misfit=max(one.misfit, other.misfit),
        size=max(one.size, other.size),
    )


def _steps(effects: Sequence[SeamEffect], make: str) -> tuple[int, ...]:
    return tuple(sorted(effect.seam.step for effect in effects if effect.seam.make == make))


def standing(tips: Tips, seam: str, whole_up_to: str) -> str:
    """How the tips of all units stand to a seam of ``seam``, in a sentence or two."""
    found = {group.state for group in tips.groups if group.kind is MakeKind.UNIT}
    floating = f"stay whole up to a seam of {whole_up_to}"
    exact = f"lie exactly on their seam lines: one of these wider than {seam} cuts them off"
    parts = []
    if found == {TipKind.FLOATING}:
        return f"All tips float: they {floating} beside them."
    if TipKind.FLOATING in found:
        parts.append(f"Floating tips {floating} beside them.")
    if TipKind.EXACT in found:
        who = "All tips" if found == {TipKind.EXACT} else "Other tips" if parts else "Some tips"
        parts.append(f"{who} {exact}.")
    if TipKind.CUT in found:
        parts.append("Some tips are cut off by design.")
    return " ".join(parts) or "No sharp tip lies near a seam line."


@dataclass(frozen=True)
class _Desk:
    """The makes by name, and the steps at which each has seams that were ranked."""

    makes: Mapping[str, Make]
    steps: Mapping[str, tuple[int, ...]]


def _sentence(desk: _Desk, seams: Sequence[Seam]) -> str:
    make, names = desk.makes[seams[0].make], _names(desk, seams)
    if seams[0].group:
        return f"Seams {_ROWS[seams[0].group]} of {names}"
    if make.kind is MakeKind.UNIT:
        return f"{_which(desk, seams)} of {names}"
    added = dict.fromkeys(source for seam in seams for source in _added(desk, seam))
    return f"Seams that join {listed(list(added)) or 'the parts'} to {names}"


def _which(desk: _Desk, seams: Sequence[Seam]) -> str:
    """All of a unit's seams, or which of them in sewing order."""
    if all(desk.steps[seam.make] == desk.steps[seams[0].make] for seam in seams):
        steps = desk.steps[seams[0].make]
        nth = sorted({steps.index(seam.step) for seam in seams})
        if len(nth) < len(steps) and nth[-1] < len(_ORDINALS):
            return f"{listed([_ORDINALS[n] for n in nth])} seam".capitalize()
    return "Seams"


def _added(desk: _Desk, seam: Seam) -> Iterator[str]:
    """The letter or name of what this step sews on."""
    steps = desk.makes[seam.make].steps
    added = getattr(steps[seam.step - 1], "added", "")
    taken = [s.source for s in steps[: seam.step] if isinstance(s, Take) and s.item == added]
    yield from (source if source in desk.makes else f"**{source}**" for source in taken[-1:])


def _names(desk: _Desk, seams: Sequence[Seam]) -> str:
    """``the star and chain blocks``; the quilt centre and the top by themselves."""
    names = list(dict.fromkeys(seam.make.removesuffix(MIRRORED) for seam in seams))
    kind = desk.makes[seams[0].make].kind
    if kind is MakeKind.TOP:
        return "the quilt top"
    what = _KINDS.get(kind)
    return f"the {listed(names)}{f' {what}' if what else ''}{'s' if what and names[1:] else ''}"


def listed(names: Sequence[str]) -> str:
    """``A``, ``A and B``, ``A, B and C``."""
    *most, last = names or [""]
    return f"{', '.join(most)} and {last}" if most else last


_ROWS = {BETWEEN_ROWS: "between the rows", IN_ROWS: "within the rows"}
_KINDS = {MakeKind.UNIT: "unit", MakeKind.BLOCK: "block"}
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")
