"""The section on points and seams: room for tips, the reader's own seam, seams that need care.

In: all sizes of a pattern. Out: `Points`. Every length is one of the facts of tips and seams.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from markupsafe import Markup
from quicktions import Fraction

from pieceproof.bench.error import SizeOut
from pieceproof.bench.ranking import Care
from pieceproof.compile import Sized
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.seam_error import seam_error
from pieceproof.diagrams.subject import Subject
from pieceproof.diagrams.tips import MARKS, marked_tips, told_of
from pieceproof.drawing.scene import Scene
from pieceproof.fact_seams import effect_lengths, nearest
from pieceproof.fact_tips import whole_up_to
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import Number, magnitude
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.model import Design, Measure
from pieceproof.pages.choices import Axis, Variant, variants
from pieceproof.pages.pictures import inline
from pieceproof.pages.tokens import token, width_token
from pieceproof.published import MakeKind, Publication
from pieceproof.seam_check import Fit, SeamCheck, SeamRow, TipRow
from pieceproof.seam_words import listed, ranked, standing
from pieceproof.steps import Assemble
from pieceproof.tips import TipGroup, in_words

T = TypeVar("T")

TIPS_PX = 220
ERROR_PX = 360


@dataclass(frozen=True)
class Mark:
    """Tips that are alike: their mark in the drawing, and which they are in words."""

    sign: str
    words: str


@dataclass(frozen=True)
class TipUnit:
    """A unit with tips, in the sizes that have it: a drawing and a list for each that differs."""

    name: Variant[str]
    drawings: tuple[Variant[Markup], ...]
    marks: tuple[Variant[tuple[Mark, ...]], ...]


@dataclass(frozen=True)
class SizeText:
    """What comes out in one unfinished size, what was meant, and their names with their verb."""

    what: str
    comes: str
    found: str
    meant: str


@dataclass(frozen=True)
class Outcome:
    """What one seam does. ``token`` names it in the markup by what three strips measure.

    ``off`` says how far the seam is from the pattern's, and is empty for the pattern's own;
    ``sizes`` are names with the sizes that come out and those that were meant, ``shortly`` the top
    and what changes most with a wide seam.
    """

    token: str
    three: str
    middle: str
    own: str
    off: str
    too_wide: str
    sizes: tuple[SizeText, ...]
    shortly: tuple[SizeText, ...]
    lost: tuple[tuple[str, str], ...]
    lost_in: str
    misfits: tuple[str, ...]
    worst: str
    out_of_line: str


@dataclass(frozen=True)
class Careful:
    """Seams in words and what they do when they alone are off."""

    what: str
    harm: str


@dataclass(frozen=True)
class UnevenOut:
    """A block sewn many times with seams off by chance, as text."""

    name: str
    deviation: str
    repeats: int
    whole: int
    widths: str
    heights: str


@dataclass(frozen=True)
class Points:
    """Everything of the section. ``kept`` names the reader's seam in her browser's memory."""

    standing: tuple[Variant[str], ...]
    units: tuple[TipUnit, ...]
    strip: str
    strip_length: str
    kept: str
    true: Outcome
    choices: tuple[Outcome, ...]
    outcomes: tuple[Variant[Outcome], ...]
    table: tuple[Variant[tuple[Outcome, ...]], ...]
    compared: tuple[Variant[Markup], ...]
    error: str
    care: tuple[tuple[str, tuple[Variant[tuple[Careful, ...]], ...]], ...]
    uneven: tuple[Variant[tuple[UnevenOut, ...]], ...]
    not_followed: tuple[Variant[str], ...]


def points(size: Axis, sizes: Sequence[Sized], subjects: Sequence[Subject]) -> Points:
    """The section for all sizes."""
    design, check = sizes[0].design, sizes[0].seam_check
    colours = palette(design, next(iter(design.colourways)))

    def each(show: Callable[[Sized], T]) -> tuple[Variant[T], ...]:
        return variants((size,), (((token(s.design.size),), show(s)) for s in sizes))

    choices = _outcomes(sizes[0])
    return Points(
        each(_standing),
        _units(size, sizes, subjects, colours),
        show_length(design.measure, check.strip),
        '5"' if design.measure is Measure.INCH else "12 cm",
        f"{design.measure.value} {width_token(check.strip)}",
        next(outcome for outcome in choices if not outcome.off),
        choices,
        tuple(v for n in range(len(choices)) for v in each(partial(_outcome_at, n))),
        each(lambda s: tuple(_outcome(s, row) for row in s.seam_check.listed)),
        inline((size,), _compared(sizes, subjects), "pp-seams", ERROR_PX, colours),
        show_length(design.measure, check.error),
        tuple((care.value, each(partial(_careful, care))) for care in Care),
        each(lambda s: tuple(_uneven(s))),
        each(lambda s: listed(_not_followed(s.seam_check))),
    )


def _standing(sized: Sized) -> str:
    design, tips = sized.design, sized.tips
    up_to = whole_up_to(design, tips)
    seam = show_length(design.measure, design.seam)
    return standing(tips, seam, up_to.said if up_to else "")


def _units(
    size: Axis, sizes: Sequence[Sized], subjects: Sequence[Subject], colours: Mapping[str, str]
) -> tuple[TipUnit, ...]:
    names = dict.fromkeys(
        group.make
        for sized in sizes
        for group in sized.tips.groups
        if group.kind is MakeKind.UNIT and not group.make.endswith(MIRRORED)
    )
    return tuple(_unit(size, sizes, subjects, colours, name) for name in names)


def _unit(
    size: Axis,
    sizes: Sequence[Sized],
    subjects: Sequence[Subject],
    colours: Mapping[str, str],
    name: str,
) -> TipUnit:
    found = [
        ((token(sized.design.size),), subject, groups)
        for sized, subject in zip(sizes, subjects, strict=True)
        if (groups := sized.tips.of(name))
    ]
    scenes = ((key, marked_tips(s, name, groups, TIPS_PX)) for key, s, groups in found)
    marks = ((key, tuple(_mark(s, group) for group in groups)) for key, s, groups in found)
    (named,) = variants((size,), ((key, name) for key, _, _ in found))
    return TipUnit(
        named,
        inline((size,), scenes, f"pp-tips-{token(name)}", TIPS_PX, colours),
        variants((size,), marks),
    )


def _mark(subject: Subject, group: TipGroup) -> Mark:
    return Mark(MARKS[group.state], told_of(subject, group))


def _outcomes(sized: Sized) -> tuple[Outcome, ...]:
    return tuple(_outcome(sized, row) for row in sized.seam_check.rows)


def _outcome_at(place: int, sized: Sized) -> Outcome:
    return _outcome(sized, sized.seam_check.rows[place])


def _outcome(sized: Sized, row: SeamRow) -> Outcome:
    measure, worst_make = sized.design.measure, _worst(sized)
    short = [s for s in row.sizes if s.make in (worst_make, sized.publication.makes[-1].name)]
    off = show_length(measure, max(row.error, -row.error))
    return Outcome(
        width_token(row.three),
        show_length(measure, row.three),
        show_length(measure, row.middle),
        show_length(measure, row.own),
        off if row.error else "",
        "yes" if row.error > 0 else "",
        tuple(_sizes(sized, row.sizes)),
        tuple(_sizes(sized, short)),
        tuple(_lost(sized.design, tip) for tip in row.lost),
        listed(
            list(
                dict.fromkeys(
                    tip.group.make.removesuffix(SET_B).removesuffix(MIRRORED) for tip in row.lost
                )
            )
        ),
        tuple(_misfits(sized, row)),
        _worst_fit(sized, row),
        _shown(measure, row.out_of_line) if row.out_of_line > 0 else "",
    )


def _sizes(sized: Sized, sizes: Sequence[SizeOut]) -> Iterator[SizeText]:
    """Makes that come out alike together."""
    measure = sized.design.measure
    makes = {make.name: make for make in sized.publication.makes}
    alike: dict[tuple[MakeKind, str, str], list[str]] = {}
    for size in sizes:
        found = show_size(measure, nearest(measure, size.width), nearest(measure, size.height))
        meant = show_size(measure, size.wanted_width, size.wanted_height)
        names = alike.setdefault((makes[size.make].kind, found, meant), [])
        if size.make.removesuffix(SET_B) not in names:
            names.append(size.make.removesuffix(SET_B))
    for (kind, found, meant), names in alike.items():
        many = "s" if len(names) > 1 else ""
        what = "quilt top" if kind is MakeKind.TOP else f"{listed(names)} {kind.value}{many}"
        yield SizeText(what, "come" if many else "comes", found, meant)


def _lost(design: Design, tip: TipRow) -> tuple[str, str]:
    called = {name: fabric.called for name, fabric in design.fabrics.items()}
    by = _shown(design.measure, -tip.clearance) if tip.clearance is not None else ""
    sewn = f"{tip.group.make.removesuffix(SET_B)} {tip.group.kind.value}"
    where = f"{in_words(tip.group, called)} in the {sewn}"
    return where, by


def _misfits(sized: Sized, row: SeamRow) -> Iterator[str]:
    """For each thing that others do not fit, which are too long or too short and by how much."""
    measure, publication = sized.design.measure, sized.publication
    for make in dict.fromkeys(fit.make for fit in row.fits):
        fits = [fit for fit in row.fits if fit.make == make]
        for word, found in (
            ("long", [fit for fit in fits if fit.excess > 0]),
            ("short", [fit for fit in fits if fit.excess < 0]),
        ):
            parts = [
                f"{_fitted(publication, fit)} by {_shown(measure, magnitude(fit.excess))}"
                for fit in found
            ]
            if parts:
                whole = _whole(publication, make)
                sewn = "they are" if len(parts) > 1 else "it is"
                yield f"Too {word} in the {whole} for what {sewn} sewn to: {', '.join(parts)}."


def _fitted(publication: Publication, fit: Fit) -> str:
    """Which does not fit: each single one, or all that is joined in a row."""
    named = _lettered(publication, fit.what)
    make = next(make for make in publication.makes if make.name == fit.make)
    step = next((step for step in make.steps if isinstance(step, Assemble)), None)
    rows = [[cell.source for cell in row] for row in step.rows] if step else []
    joined = any(len(row) > 1 and _all_of(row) == fit.what for row in rows)
    single = any(len(row) == 1 or len(set(row)) > 1 for row in rows if fit.what in row)
    if joined:
        return named if single else f"the row joined of {named}"
    return f"{'each' if named != fit.what else 'the'} {named}"


def _all_of(row: Sequence[str]) -> str:
    """What the bench calls a row."""
    return " and ".join(dict.fromkeys(row))


def _worst_fit(sized: Sized, row: SeamRow) -> str:
    """By how much edges that meet differ at most, and where: the first place of several."""
    worst = max(row.fits, key=lambda fit: magnitude(fit.excess), default=None)
    by = magnitude(worst.excess) if worst else Fraction(0)
    if by < row.out_of_line or worst is None:
        where, by = "seams that should meet", row.out_of_line
    else:
        whole = _whole(sized.publication, worst.make)
        where = f"{_fitted(sized.publication, worst)}, in the {whole}"
    return f"by up to {_shown(sized.design.measure, by)}: {where}" if by > 0 else ""


def _whole(publication: Publication, name: str) -> str:
    make = next(make for make in publication.makes if make.name == name)
    kinds = {MakeKind.UNIT: f"{name} unit", MakeKind.BLOCK: f"{name} block"}
    return kinds.get(make.kind, "quilt top" if make.kind is MakeKind.TOP else name)


def _lettered(publication: Publication, names: str) -> str:
    """Names joined by commas and `and`, with piece letters marked as such."""
    letters = {piece.letter for piece in publication.pieces}
    parts = re.split(r"(, | and )", names)
    return "".join(f"**{part}**" if part in letters else part for part in parts)


def _shown(measure: Measure, length: Number) -> str:
    """To half a ruler's step; what is smaller is not called nothing."""
    shown = nearest(measure, length)
    return show_length(measure, shown) if shown > 0 else "a hair"


def _compared(
    sizes: Sequence[Sized], subjects: Sequence[Subject]
) -> Iterator[tuple[tuple[str], Scene]]:
    """The block that suffers most, with each of the listed seams."""
    for sized, subject in zip(sizes, subjects, strict=True):
        worst = _worst(sized)
        if worst:
            scene = seam_error(subject, worst, sized.seam_check.listed, ERROR_PX)
            yield (token(sized.design.size),), scene


def _worst(sized: Sized) -> str:
    """What changes most with the widest seam of all that is drawn and followed; "" for nothing."""
    check, top = sized.seam_check, sized.publication.makes[-1]
    row, aside = check.rows[-1], _not_followed(check)
    names = [s.make for s in row.sizes if s.make in row.things and s.make not in (*aside, top.name)]
    return max(names, key=row.change_of) if names else ""


def _not_followed(check: SeamCheck) -> list[str]:
    names = (name for row in check.rows for name in row.not_followed)
    return list(dict.fromkeys(name.removesuffix(MIRRORED) for name in names))


def _careful(care: Care, sized: Sized) -> tuple[Careful, ...]:
    found = ranked(sized.publication, sized.seam_check.seams)
    return tuple(
        Careful(
            seams.what,
            ", ".join(
                f"{what} {_shown(sized.design.measure, length)}"
                for what, length in effect_lengths(seams.effect)
            ),
        )
        for seams in found
        if seams.care is care
    )


def _uneven(sized: Sized) -> Iterator[UnevenOut]:
    measure = sized.design.measure
    for found in sized.seam_check.uneven:
        yield UnevenOut(
            _whole(sized.publication, found.make),
            show_length(measure, found.deviation),
            found.repeats,
            found.whole,
            _span(measure, found.widths),
            _span(measure, found.heights),
        )


def _span(measure: Measure, ends: tuple[Number, Number]) -> str:
    least, most = (show_length(measure, nearest(measure, end)) for end in ends)
    return least if least == most else f"{least} to {most}"
