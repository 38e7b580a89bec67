"""Numbers changed and steps left out one at a time, to see that the bench minds.

Where a changed direction makes the same quilt (a square piece turned by a quarter), an
independent sewing with Shapely decides that it does, and the bench need not mind.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from judge import finished_makes as finished_by_shapely
from judge import is_same_cloth, shows
from mutate import Mutation

from pieceproof.bench import prove
from pieceproof.published import Drawing, Publication
from pieceproof.steps import CutApart, Step


def missed(publication: Publication, drawing: Drawing, changes: Iterable[Mutation]) -> list[str]:
    """Changes that make other cloth and that the bench lets pass."""
    return [
        f"{change.path}: {change.change}"
        for change in changes
        if not prove(change.publication, drawing) and not _is_same(publication, change)
    ]


def misjudged(publication: Publication, drawing: Drawing, changes: Iterable[Mutation]) -> list[str]:
    """Those, and changes that make the same cloth and that the bench minds."""
    found = []
    for change in changes:
        noticed = bool(prove(change.publication, drawing))
        if noticed == _is_same(publication, change):
            word = "false alarm" if noticed else "missed"
            found.append(f"{word}: {change.path}: {change.change}")
    return found


def _is_same(publication: Publication, change: Mutation) -> bool:
    return change.is_direction and is_same_cloth(publication, change.publication)


def without_one_step(publication: Publication, which: int) -> Iterator[tuple[Step, Publication]]:
    """Every step of one make, and the publication that lacks it."""
    makes = publication.makes
    make = makes[which]
    for number, step in enumerate(make.steps):
        shorter = replace(make, steps=(*make.steps[:number], *make.steps[number + 1 :]))
        yield step, replace(publication, makes=(*makes[:which], shorter, *makes[which + 1 :]))


def only_tidies(step: Step) -> bool:
    """Whether it cuts an offcut away: left in under the fold, that changes nothing to be seen."""
    return isinstance(step, CutApart) and "" in (step.first, step.second)


def shapely_differs(publication: Publication, drawing: Drawing) -> list[str]:
    """Makes that do not come off Shapely's bench as drawn."""
    return [
        make
        for make, things in finished_by_shapely(publication).items()
        if not all(shows(thing, drawing.pictures[make]) for thing in things)
    ]
