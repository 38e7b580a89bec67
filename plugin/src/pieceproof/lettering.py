"""Letters for pieces, the same in all sizes of a pattern, and the publications they complete.

In: the drafts of all sizes. Out: one `Publication` for each. Roles share a letter when their
fabric, cut size and exact needed size agree in every size; within a fabric the largest cut comes
first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count, product

from quicktions import Fraction

from pieceproof.construct import Draft, Part
from pieceproof.finishing import backing_of, batting_of, binding_of, sleeve_of
from pieceproof.lengths import Number
from pieceproof.model import Size
from pieceproof.published import (
    Make,
    Piece,
    Publication,
    Template,
)
from pieceproof.steps import Step, with_sources

_ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_Listed = tuple[Fraction, Fraction, Number, Number]
_Shape = tuple[_Listed, Template | None, Fraction]
_Key = tuple[str, tuple[_Shape | None, ...]]


def publish(drafts: Sequence[Draft]) -> tuple[Publication, ...]:
    """The publications of all sizes, with letters and finishing."""
    letters = letters_of(drafts)
    return tuple(_publication(draft, letters) for draft in drafts)


def letters_of(drafts: Sequence[Draft]) -> Mapping[str, str]:
    """Letter by role, from the drafts of all sizes."""
    roles: dict[str, _Key] = {}
    sizes = [{part.role: part for part in draft.parts} for draft in drafts]
    for size in sizes:
        for role, part in size.items():
            cuts = tuple(_shape(s[role]) if role in s else None for s in sizes)
            roles.setdefault(role, (part.cut.fabric, cuts))
    fabrics = list(drafts[0].design.fabrics)

    def order(key: _Key) -> tuple[int, list[Fraction], str]:
        longest = max((cut[1], cut[0]) for cut, _, _ in filter(None, key[1]))
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


def _shape(part: Part) -> _Shape:
    return _listed(part), part.cut.template, part.cut.oversize


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
    top = Size(makes[-1].width - 2 * seam, makes[-1].height - 2 * seam)
    return Publication(
        design.slug,
        design.size,
        design.measure.value,
        design.measure.step,
        seam,
        top.width,
        top.height,
        _pieces(draft.parts, letters),
        makes,
        binding_of(design, top),
        backing_of(design, top),
        batting_of(design, top),
        design.quantity,
        sleeve_of(design, top),
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
    return Piece(
        letter,
        part.cut.fabric,
        *_listed(part),
        part.count,
        (part.make,),
        part.cut.template,
        part.cut.oversize,
    )


def _lettered(make: Make, letters: Mapping[str, str]) -> Make:
    return replace(make, steps=tuple(_lettered_step(step, letters) for step in make.steps))


def _lettered_step(step: Step, letters: Mapping[str, str]) -> Step:
    return with_sources(step, lambda source, turn: (letters.get(source, source), turn))
