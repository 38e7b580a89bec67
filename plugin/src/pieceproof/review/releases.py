"""May a pattern go out as it is? What was released is compared with what would be published now.

In: a pattern's files, among them what was kept of its last release, and the compiled pattern. Out:
problems. The rules: a published fact changes only in a new edition; another
design is a new edition before the point, a correction or an addition one behind it; and every stage
and size in which somebody would notice a change has an erratum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import IntEnum

from pieceproof.compile import DESIGN_FILE, Pattern
from pieceproof.editions import Edition, edition_of, parse_edition
from pieceproof.facts import Fact
from pieceproof.folders import Folder
from pieceproof.model import Erratum, Release, Stage
from pieceproof.problems import Place, Problem
from pieceproof.promises import values_of
from pieceproof.review.changes import Change, Changes
from pieceproof.review.compare import facts_in
from pieceproof.review.kept import Kept, kept_of, since_release
from pieceproof.review.remedies import NOTHING
from pieceproof.review.stages import stage_of
from pieceproof.shelf import Shelved, problem_texts
from pieceproof.wording import listed, quoted

NOT_KEPT = "release-not-kept"


class Step(IntEnum):
    """How far an edition must go on."""

    NONE = 0
    CORRECTION = 1
    DESIGN = 2


def least_step(found: Changes) -> Step:
    """The least step that the changes need.

    Other finished sizes, seams, letters or fewer sizes are another design: what was cut and
    labelled for the one does not do for the other. What was added is a correction; what only the
    program did not state before is nothing.
    """
    lettered = any(name.what == "piece" for name in found.names)
    if found.removed or lettered or _of_design(found):
        return Step.DESIGN
    return Step.CORRECTION if _real(found) or found.names or found.added else Step.NONE


def _real(found: Changes) -> tuple[Change, ...]:
    """The changes that are not the program's alone."""
    return tuple(change for change in found.facts if not change.is_told_only)


def _of_design(found: Changes) -> tuple[Change, ...]:
    return tuple(change for change in found.at(Stage.CHOOSING) if change.old is not None)


def release_problems(pattern: Pattern, folder: Folder) -> tuple[Problem, ...]:
    """Why what is published now must not go out as the edition that the pattern states."""
    if not pattern.sizes:
        return ()
    kept, design = kept_of(folder), pattern.sizes[0].design
    edition = edition_of(design)
    if design.release is None or edition is None:
        return (_was_released(pattern.slug, kept.edition),) if kept.edition else ()
    broken = tuple(sorted(set(_broken(pattern, design.release, edition, kept, folder))))
    if broken or kept.edition == edition:
        return broken
    return (_not_kept(design.release, edition, pattern.slug),)


def show_release_problems(shelf: Iterable[Shelved]) -> Iterator[str]:
    """The same of patterns without other problems, as text."""
    for shelved in shelf:
        problems = () if shelved.problems else release_problems(shelved.pattern, shelved.folder)
        yield from problem_texts(shelved, problems)


def _broken(
    pattern: Pattern, release: Release, edition: Edition, kept: Kept, folder: Folder
) -> Iterator[Problem]:
    if kept.edition is None:
        return
    place = release.at["edition"]
    if edition < kept.edition:
        yield _went_back(place, edition, kept.edition)
        return
    found = since_release(pattern, folder)
    step = least_step(found)
    if step is not Step.NONE and edition == kept.edition:
        yield _unannounced(place, edition, found, step)
    elif step is Step.DESIGN and edition.design == kept.edition.design:
        yield _too_small(place, edition, found)
    elif step is not Step.NONE:
        new = [e for e in release.errata if _edition(e) > kept.edition]
        yield from _without_erratum(release, edition, found, new)
        yield from _was_otherwise(new, facts_in(kept.files))


def _edition(erratum: Erratum) -> Edition:
    return parse_edition(erratum.edition) or Edition(0, 0)


def _without_erratum(
    release: Release, edition: Edition, found: Changes, errata: Sequence[Erratum]
) -> Iterator[Problem]:
    for stage in Stage:
        said = [erratum for erratum in errata if stage_of(erratum.fact) is stage]
        changed = [change for change in found.at(stage) if change.is_noticed]
        silent = {size for c in changed for size in c.sizes if not _covers(said, size)}
        if silent:
            first = next(change for change in changed if silent & set(change.sizes))
            sizes = [size for size in found.sizes if size in silent]
            yield _no_erratum(release, edition, stage, sizes, first)


def _covers(errata: Sequence[Erratum], size: str) -> bool:
    return any(not erratum.sizes or size in erratum.sizes for erratum in errata)


def _was_otherwise(
    errata: Sequence[Erratum], old: Mapping[str, Sequence[Fact]]
) -> Iterator[Problem]:
    for erratum in errata:
        for size in erratum.sizes or tuple(old):
            facts = {fact.key: fact for fact in old.get(size, ())}
            fact = facts.get(" ".join(erratum.fact.split()))
            said = values_of(fact) if fact else (NOTHING,)
            if size in old and " ".join(erratum.was.split()) not in said:
                yield Problem(
                    erratum.at["was"],
                    "erratum-was",
                    f"{quoted(erratum.was)} as what `{size}` said before",
                    f"`{said[0]}`, as it was released",
                    "write what was printed, and name the sizes with `sizes` if they differ",
                )


def _first(found: Changes) -> str:
    """One of the changes, an old fact before a new one."""
    real = sorted(_real(found), key=lambda change: change.old is None)
    if real:
        return _in_words(real[0])
    name = next(iter(found.names), None)
    if name is not None:
        return f"the {name.what} `{name.old}` is called `{name.new}`"
    if found.removed:
        return f"the size {listed(found.removed[:1])} is gone"
    return f"the size {listed(found.added[:1])} is new"


def _in_words(change: Change) -> str:
    was = NOTHING if change.old is None else change.old
    return f"{quoted(change.key)} was `{was}`, is `{change.new or 'gone'}`"


def _next(edition: Edition, step: Step) -> Edition:
    if step is Step.DESIGN:
        return Edition(edition.design + 1, 0)
    return Edition(edition.design, edition.correction + 1)


def _unannounced(place: Place, edition: Edition, found: Changes, step: Step) -> Problem:
    count = len(_real(found)) or 1
    return Problem(
        place,
        "release-changed",
        f"{count} published fact{'s' * (count > 1)} changed since edition `{edition}`: "
        + _first(found),
        "the facts that customers hold, or a new edition with errata",
        f"undo the change, or write `edition: {_next(edition, step)}` and an erratum for each "
        "stage; `pieceproof compare release` lists what changed",
    )


def _too_small(place: Place, edition: Edition, found: Changes) -> Problem:
    return Problem(
        place,
        "release-step",
        f"edition `{edition}` for another design: {_first_design(found)}",
        "a new number before the point where finished sizes, seams, letters or sizes change",
        f"write `edition: {_next(edition, Step.DESIGN)}`",
    )


def _first_design(found: Changes) -> str:
    if found.removed:
        return f"the size {listed(found.removed[:1])} is gone"
    letters = [name for name in found.names if name.what == "piece"]
    if letters:
        return f"piece `{letters[0].old}` has the letter `{letters[0].new}`"
    return _in_words(_of_design(found)[0])


def _no_erratum(
    release: Release, edition: Edition, stage: Stage, sizes: Sequence[str], first: Change
) -> Problem:
    was = NOTHING if first.old is None else first.old
    return Problem(
        release.at.keys.get("errata", release.at["edition"]),
        "release-no-erratum",
        f"facts of {stage.value} changed in {listed(sizes)} and no erratum of `{edition}` says so: "
        f"{quoted(first.key)} was `{was}`",
        "one erratum at least for each stage and size in which facts changed",
        f'add `- {{edition: {edition}, fact: "{first.key}", was: "{was}"}}` to `errata`',
    )


def _went_back(place: Place, edition: Edition, kept: Edition) -> Problem:
    return Problem(
        place,
        "release-back",
        f"edition `{edition}` after edition `{kept}`, which customers hold",
        f"`{kept}` or a later edition",
        f"write `edition: {kept}`",
    )


def _not_kept(release: Release, edition: Edition, slug: str) -> Problem:
    return Problem(
        release.at["edition"],
        "release-not-kept",
        f"edition `{edition}`, of which nothing is kept",
        "the facts of every edition that customers hold, kept beside the pattern",
        f"run `pieceproof release {slug}` and commit what it writes",
    )


def _was_released(slug: str, kept: Edition) -> Problem:
    return Problem(
        Place(f"patterns/{slug}/{DESIGN_FILE}", 1, 1),
        "release-withdrawn",
        f"a draft of which edition `{kept}` is kept",
        "`release`, for customers hold that edition",
        f"write `release: {{edition: {kept}, date: ...}}`, or delete the folder `released` "
        "if nobody ever bought it",
    )
