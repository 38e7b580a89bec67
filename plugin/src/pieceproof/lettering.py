"""Letters for pieces, the same in all sizes of a pattern, and the publications they complete.

In: the drafts of all sizes. Out: one `Publication` for each. Roles share a letter when their
fabric, cut size and exact needed size agree in every size; within a fabric the largest cut comes
first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import count, product

from pieceproof.construct import Draft, Part
from pieceproof.lengths import Number
from pieceproof.model import Design, Measure
from pieceproof.published import (
    BackingFacts,
    BattingFacts,
    BindingFacts,
    Make,
    Piece,
    Publication,
)
from pieceproof.steps import Assemble, Step, Take

_ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_Listed = tuple[Fraction, Fraction, Number, Number]
_Key = tuple[str, tuple[_Listed | None, ...]]


def publish(drafts: Sequence[Draft]) -> tuple[Publication, ...]:
    """The publications of all sizes, with letters and finishing."""
    letters = _letters(drafts)
    return tuple(_publication(draft, letters) for draft in drafts)


def _letters(drafts: Sequence[Draft]) -> Mapping[str, str]:
    """Letter by role."""
    roles: dict[str, _Key] = {}
    sizes = [{part.role: part for part in draft.parts} for draft in drafts]
    for size in sizes:
        for role, part in size.items():
            cuts = tuple(_listed(s[role]) if role in s else None for s in sizes)
            roles.setdefault(role, (part.cut.fabric, cuts))
    fabrics = list(drafts[0].design.fabrics)

    def order(key: _Key) -> tuple[int, list[Fraction], str]:
        longest = max((cut[1], cut[0]) for cut in key[1] if cut is not None)
        first_role = min(role for role, other in roles.items() if other == key)
        return fabrics.index(key[0]), [-side for side in longest], first_role

    keys = sorted(set(roles.values()), key=order)
    named = dict(zip(keys, _alphabet(), strict=False))
    return {role: named[key] for role, key in roles.items()}


def _alphabet() -> Iterator[str]:
    """A, B, ... without I and O, which read as figures; then AA, AB, ..."""
    for length in count(1):
        for letters in product(_ALPHABET, repeat=length):
            yield "".join(letters)


def _listed(part: Part) -> _Listed:
    """Short and long side as cut, then as needed."""
    cut = part.cut
    if cut.width > cut.height:
        return cut.height, cut.width, cut.needed_height, cut.needed_width
    return cut.width, cut.height, cut.needed_width, cut.needed_height


def _publication(draft: Draft, letters: Mapping[str, str]) -> Publication:
    design = draft.design
    seam = design.seam
    makes = tuple(_lettered(make, letters) for make in draft.makes)
    width, height = makes[-1].width - 2 * seam, makes[-1].height - 2 * seam
    return Publication(
        design.slug,
        design.size,
        design.measure.value,
        design.measure.step,
        seam,
        width,
        height,
        _pieces(draft.parts, letters),
        makes,
        _binding(design, width, height),
        _backing(design, width, height),
        _batting(design, width, height),
        design.quantity,
    )


def _pieces(parts: Sequence[Part], letters: Mapping[str, str]) -> tuple[Piece, ...]:
    pieces: dict[str, Piece] = {}
    for part in parts:
        letter = letters[part.role]
        if letter in pieces:
            known = pieces[letter]
            uses = known.uses if part.make in known.uses else (*known.uses, part.make)
            pieces[letter] = replace(known, count=known.count + part.count, uses=uses)
        else:
            pieces[letter] = _piece(part, letter)
    return tuple(sorted(pieces.values(), key=lambda piece: (len(piece.letter), piece.letter)))


def _piece(part: Part, letter: str) -> Piece:
    return Piece(letter, part.cut.fabric, *_listed(part), part.count, (part.make,))


def _lettered(make: Make, letters: Mapping[str, str]) -> Make:
    return replace(make, steps=tuple(_lettered_step(step, letters) for step in make.steps))


def _lettered_step(step: Step, letters: Mapping[str, str]) -> Step:
    if isinstance(step, Take):
        return replace(step, source=letters.get(step.source, step.source))
    if isinstance(step, Assemble):
        rows = tuple(
            tuple(replace(cell, source=letters.get(cell.source, cell.source)) for cell in row)
            for row in step.rows
        )
        return replace(step, rows=rows)
    return step


def _default(design: Design, inches: Fraction, centimetres: Fraction) -> Fraction:
    return inches if design.measure is Measure.INCH else centimetres


def _binding(design: Design, width: Fraction, height: Fraction) -> BindingFacts | None:
    """Double-fold strips 2 1/2 in wide, the edge all round plus 10 in: common practice."""
    if design.binding is None:
        return None
    cut_width = design.binding.cut_width or _default(design, Fraction(5, 2), Fraction(13, 2))
    extra = design.binding.extra or _default(design, Fraction(10), Fraction(25))
    return BindingFacts(design.binding.fabric, cut_width, extra, 2 * (width + height) + extra)


def _backing(design: Design, width: Fraction, height: Fraction) -> BackingFacts | None:
    """4 in beyond the top on each side: common practice."""
    if design.backing is None:
        return None
    beyond = design.backing.beyond or _default(design, Fraction(4), Fraction(10))
    return BackingFacts(design.backing.fabric, beyond, width + 2 * beyond, height + 2 * beyond)


def _batting(design: Design, width: Fraction, height: Fraction) -> BattingFacts | None:
    if design.batting is None:
        return None
    beyond = design.batting.beyond or _default(design, Fraction(4), Fraction(10))
    return BattingFacts(beyond, width + 2 * beyond, height + 2 * beyond)
