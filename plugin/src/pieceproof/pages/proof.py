"""Proof sheets: one page for each pattern with everything that was checked, for the shop only.

In: compiled patterns with their files. Out: pages by path. What is on a sheet is worked out in
`review`; here it is put in order.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from pieceproof.compile import Sized
from pieceproof.diagrams.numbered_seams import SEAMS_OF, Plate, seam_plates
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.subject import subject
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.model import Stage
from pieceproof.pages.corrections import edition_words
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.tokens import token
from pieceproof.review.changes import Changes
from pieceproof.review.compared_text import HEADINGS, counted
from pieceproof.review.evidence import Table, evidence, sign_off, trial_table
from pieceproof.review.kept import kept_of, since_release
from pieceproof.review.releases import least_step
from pieceproof.review.rows import names, rows
from pieceproof.shelf import Shelved

FOLDER = "shop/proof"
INDEX = f"{FOLDER}/index.md"
TITLE = "Proof sheets"

_STEPS = ("no new edition", "a correction", "a new design")


@dataclass(frozen=True)
class Numbered:
    """A thing whose seams have numbers, as the file calls it, and their drawing."""

    name: str
    drawing: Markup


@dataclass(frozen=True)
class Sheet:
    """A pattern's sheet: what holds for the whole pattern; of each size its label, the name of its
    place on the page, and its tables.

    ``seams`` are for each size the drawings in which it differs from the sizes before.
    """

    slug: str
    name: str
    edition: str
    sizes: tuple[tuple[str, str, tuple[Table, ...]], ...]
    seams: tuple[tuple[Numbered, ...], ...]
    since: str
    changes: tuple[Table, ...]
    trials: tuple[Table, ...]
    signed: Table


def proof_pages(shelf: Mapping[str, Shelved], page_name: str) -> Mapping[str, Page]:
    """A page for each pattern that is proved, and their index.

    ``page_name`` ends the address of a folder's page: "" or "index.html".
    """
    sheets = [sheet_of(shelved) for shelved in shelf.values() if shelved.pattern.sizes]
    pages = {
        f"{FOLDER}/{sheet.slug}/index.md": render_page("proof.md", {"sheet": sheet})
        for sheet in sheets
    }
    words = {"sheets": sheets, "title": TITLE, "page_name": page_name}
    return {INDEX: render_page("proofs.md", words), **pages}


def sheet_of(shelved: Shelved) -> Sheet:
    """The sheet of one pattern."""
    sizes = shelved.pattern.sizes
    design = sizes[0].design
    by_size = {sized.design.size: sized for sized in sizes}
    since, changed = _since(shelved)
    return Sheet(
        shelved.pattern.slug,
        design.name,
        edition_words(sizes[0]),
        tuple((s.design.label, f"size-{token(s.design.size)}", evidence(s)) for s in sizes),
        tuple(_numbered(sizes)),
        since,
        changed,
        tuple(trial_table(trial, by_size[trial.size]) for trial in design.trials),
        sign_off(design, [sized.design.label for sized in sizes]),
    )


def _numbered(sizes: Sequence[Sized]) -> Iterator[tuple[Numbered, ...]]:
    known: dict[str, Plate] = {}
    for sized in sizes:
        found = seam_plates(subject(sized.design, sized.publication, sized.drawing))
        new = {name: plate for name, plate in found.items() if known.get(name) != plate}
        known |= new
        colours = palette(sized.design, next(iter(sized.design.colourways)))
        yield tuple(
            Numbered(
                name.removeprefix(SEAMS_OF),
                Markup(to_svg(p.scene, Look.COLOUR, _ident(sized, n), p.width, colours)),
            )
            for n, (name, p) in enumerate(new.items(), start=1)
        )


def _ident(sized: Sized, number: int) -> str:
    return f"pp-seams-{token(sized.design.size)}-{number}"


def _since(shelved: Shelved) -> tuple[str, tuple[Table, ...]]:
    """What changed since the release, in a sentence and in tables."""
    kept = kept_of(shelved.folder)
    if kept.edition is None:
        return "Nothing was released yet.", ()
    found = since_release(shelved.pattern, shelved.folder)
    if not found:
        return f"No published fact differs from edition {kept.edition}.", ()
    labels = {sized.design.size: sized.design.label for sized in shelved.pattern.sizes}
    told = sum(change.is_told_only for change in found.facts)
    sentence = (
        f"{counted(len(found.facts) - told, 'fact')} changed since edition {kept.edition}, which "
        f"asks for {_STEPS[least_step(found)]}."
    )
    more = " ".join(f"{line[:1].upper()}{line[1:]}." for line in names(found)).replace("`", '"')
    newer = f"{counted(told, 'fact')} more could not be stated then, and nothing is otherwise."
    words = (sentence, more, newer if told else "")
    return " ".join(filter(None, words)), tuple(_changed(found, labels))


def _changed(found: Changes, labels: Mapping[str, str]) -> Iterator[Table]:
    for stage in Stage:
        real = [change for change in found.at(stage) if not change.is_told_only]
        if real:
            heads = ("Fact", "Old", "New", "Whom it concerns")
            lines = (
                (row.key, row.old or "nothing", row.new or "nothing", row.readers)
                for row in rows(real, found, labels)
            )
            yield Table(HEADINGS[stage], "", heads, tuple(lines))
