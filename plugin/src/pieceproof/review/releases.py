"""May a pattern go out as it is? What was released is compared with what would be published now.

In: a pattern's files, among them what was kept of its last release, and the compiled pattern. Out:
problems, and the files to keep. The rules: a published fact changes only in a new edition; another
design is a new edition before the point, a correction one behind it; and every stage and size in
which somebody would notice a change has an erratum. New facts alone make nothing wrong that a
customer holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum

from pieceproof.compile import DESIGN_FILE, Pattern
from pieceproof.editions import Edition, edition_of, parse_edition
from pieceproof.fact_files import facts_text, file_name
from pieceproof.facts import Fact
from pieceproof.folders import Folder
from pieceproof.model import Erratum, Release, Stage
from pieceproof.problems import Place, Problem
from pieceproof.promises import values_of
from pieceproof.review.changes import Change, Changes, changes
from pieceproof.review.compare import RELEASED, facts_in, facts_of_pattern
from pieceproof.review.stages import stage_of
from pieceproof.shelf import Shelved, problem_texts
from pieceproof.wording import listed, quoted

NOT_KEPT = "release-not-kept"
EDITION_FILE = f"{RELEASED}edition.txt"


class Step(IntEnum):
    """How far an edition must go on."""

    NONE = 0
    CORRECTION = 1
    DESIGN = 2


@dataclass(frozen=True)
class Kept:
    """What was kept of the last release; ``edition`` is None if nothing was."""

    edition: Edition | None
    files: Mapping[str, bytes]


def kept_of(folder: Folder) -> Kept:
    """The last release among a pattern's files."""
    files = {n.removeprefix(RELEASED): d for n, d in folder.items() if n.startswith(RELEASED)}
    text = folder.get(EDITION_FILE, b"").decode("utf-8", "replace")
    return Kept(parse_edition(text), files)


def since_release(pattern: Pattern, folder: Folder) -> Changes:
    """What changed since the last release; nothing if there was none."""
    kept = kept_of(folder)
    if kept.edition is None or not pattern.sizes:
        return Changes()
    return changes(facts_in(kept.files), facts_of_pattern(pattern))


def least_step(found: Changes) -> Step:
    """The least step that the changes need.

    Other finished sizes, seams, letters or fewer sizes are another design: what was cut and
    labelled for the one does not do for the other.
    """
    real = [change for change in found.facts if change.old is not None]
    lettered = any(name.what == "piece" for name in found.names)
    if found.removed or lettered or any(change.stage is Stage.CHOOSING for change in real):
        return Step.DESIGN
    return Step.CORRECTION if real or found.names else Step.NONE


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


def files_to_keep(pattern: Pattern, folder: Folder) -> Mapping[str, bytes]:
    """What a release keeps, by name below the pattern's folder: facts, design and edition."""
    facts = {file_name(s.design.size): facts_text(s.facts).encode() for s in pattern.sizes}
    edition = edition_of(pattern.sizes[0].design)
    kept = {**facts, DESIGN_FILE: folder[DESIGN_FILE]}
    return {EDITION_FILE: f"{edition}\n".encode(), **{RELEASED + n: d for n, d in kept.items()}}


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
            if fact is not None and " ".join(erratum.was.split()) not in values_of(fact):
                yield Problem(
                    erratum.at["was"],
                    "erratum-was",
                    f"{quoted(erratum.was)} as what `{size}` said before",
                    f"`{fact.published}`, as it was released",
                    "write what was printed, and name the sizes with `sizes` if they differ",
                )


def _first(found: Changes) -> str:
    change = next((c for c in found.facts if c.old is not None), None)
    if change is not None:
        return f"{quoted(change.key)} was `{change.old}`, is `{change.new or 'gone'}`"
    name = next(iter(found.names), None)
    if name is not None:
        return f"the {name.what} `{name.old}` is called `{name.new}`"
    return f"the size {listed(found.removed[:1])} is gone"


def _count(found: Changes) -> int:
    return sum(change.old is not None for change in found.facts) or 1


def _next(edition: Edition, step: Step) -> Edition:
    if step is Step.DESIGN:
        return Edition(edition.design + 1, 0)
    return Edition(edition.design, edition.correction + 1)


def _unannounced(place: Place, edition: Edition, found: Changes, step: Step) -> Problem:
    count = _count(found)
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
    change = next(c for c in found.at(Stage.CHOOSING) if c.old is not None)
    return f"{quoted(change.key)} was `{change.old}`, is `{change.new or 'gone'}`"


def _no_erratum(
    release: Release, edition: Edition, stage: Stage, sizes: Sequence[str], first: Change
) -> Problem:
    return Problem(
        release.at.keys.get("errata", release.at["edition"]),
        "release-no-erratum",
        f"facts of {stage.value} changed in {listed(sizes)} and no erratum of `{edition}` says so: "
        f"{quoted(first.key)} was `{first.old}`",
        "one erratum at least for each stage and size in which facts changed",
        f'add `- {{edition: {edition}, fact: "{first.key}", was: "{first.old}"}}` to `errata`',
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
