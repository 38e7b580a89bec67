"""Proves the counts: every pile is used up, and nothing is taken that is not there.

In: a `Publication`. Out: disagreements. Counts what the steps take, round for round.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from pieceproof.bench.words import Disagreement, count_excess, counted
from pieceproof.published import Extra, Make, MakeKind, Publication
from pieceproof.steps import Take, placed_in


def prove_counts(publication: Publication) -> Iterable[Disagreement]:
    """Pieces cut against pieces used, makes finished against makes wanted, round for round."""
    used: Counter[str] = Counter()
    for make in publication.makes:
        for source, count in sources_of(make).items():
            used[source] += count * make.rounds
    yield from _prove_piles(publication, used)
    for number, make in enumerate(publication.makes, start=1):
        is_last = number == len(publication.makes)
        yield from _prove_wanted(make, publication.quantity if is_last else used[make.name])
        for extra in make.extras:
            yield from _prove_wanted(extra, used[extra.name])
        yield from _prove_rounds(make)
        if (make.kind is MakeKind.TOP) != is_last:
            yield _wrong(make.name, "the last make, and no other, to be the top", make.kind.value)
    if not publication.makes:
        yield _wrong("makes", "a top", "nothing sewn")


def things_of(make: Make) -> tuple[Make | Extra, ...]:
    """A make and what its rounds give besides."""
    return (make, *make.extras)


def sources_of(make: Make) -> Counter[str]:
    """Pieces and makes that one round takes, by letter or name."""
    taken = [step.source for step in make.steps if isinstance(step, Take)]
    cells = [cell.source for step in make.steps for cell in placed_in(step)]
    return Counter(taken + cells)


def _prove_piles(publication: Publication, used: Counter[str]) -> Iterable[Disagreement]:
    for piece in publication.pieces:
        if piece.count != used[piece.letter]:
            yield Disagreement(
                "cutting list", 0, "", piece.letter, f"{used[piece.letter]} cut, as many as sewn",
                f"{piece.count} cut", count_excess(piece.count, used[piece.letter]),
            )  # fmt: skip
    known = {p.letter for p in publication.pieces} | {
        thing.name for make in publication.makes for thing in things_of(make)
    }
    for source in sorted(set(used) - known):
        yield Disagreement("cutting list", 0, "", source, f"{used[source]} cut or made", "none", "")


def _prove_wanted(thing: Make | Extra, used: int) -> Iterable[Disagreement]:
    if thing.wanted != used:
        by = count_excess(thing.wanted, used)
        yield _wrong(thing.name, f"{used} wanted, as many as used", f"{thing.wanted} wanted", by)


def _prove_rounds(make: Make) -> Iterable[Disagreement]:
    """Enough rounds for all that is wanted of the make and of its extras, and not one more."""
    things = things_of(make)
    if make.rounds < 1 or min(thing.each for thing in things) < 1:
        yield _wrong(make.name, "at least one round of one", f"{make.rounds} of {make.each}")
        return
    rounds = max(-(-thing.wanted // thing.each) for thing in things)
    if make.rounds != rounds:
        expected = f"{counted(rounds, 'round')} of {make.each} for the {make.wanted} wanted"
        made = make.rounds * make.each
        yield _wrong(make.name, expected, f"{counted(make.rounds, 'round')}, {made} made")


def _wrong(where: str, expected: str, found: str, by: str = "") -> Disagreement:
    return Disagreement(where, 0, "", "", expected, found, by)
