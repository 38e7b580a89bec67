"""What a pattern says about its own facts: expectations, errata and trials.

In: the designs of all sizes with their facts. Out: problems where a fact is not as expected, is
not known, or still says what it is said to have said wrongly; and lines ``key = value`` taken
apart. Nothing is computed but equality.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.citing import citable
from pieceproof.facts import Fact
from pieceproof.model import Design, Erratum, Expectation, Trial
from pieceproof.problems import Place, Problem, nearest
from pieceproof.wording import listed, quoted

_IS = " = "

Facts = Mapping[str, Fact]


@dataclass(frozen=True)
class Said:
    """A line ``key = value`` in its place."""

    key: str
    value: str
    place: Place


def promise_problems(
    design: Design, facts_by_size: Mapping[str, Sequence[Fact]]
) -> tuple[Problem, ...]:
    """Everything that the pattern says of its facts and that is not so.

    ``design`` is that of any size, for all sizes share these keys.
    """
    sizes = {size: {f.key: f for f in facts} for size, facts in facts_by_size.items()}
    return tuple(sorted(set(_problems(design, sizes))))


def lines_of(record: Expectation | Trial) -> tuple[Said, ...]:
    """The lines of an expectation or a trial that can be taken apart."""
    return tuple(said for said, _ in _lines(record) if said.key)


def values_of(fact: Fact) -> tuple[str, ...]:
    """All the ways in which a line may give the fact's value."""
    return (fact.published, fact.exact, f"{fact.exact} ~ {fact.published}")


def _problems(design: Design, sizes: Mapping[str, Facts]) -> Iterator[Problem]:
    for expectation in design.expect:
        wanted = (expectation.size,) if expectation.size else tuple(sizes)
        yield from _unknown_sizes(expectation.at["size"], wanted, sizes)
        yield from _unlike(expectation, [size for size in wanted if size in sizes], sizes)
    for trial in design.trials:
        yield from _unknown_sizes(trial.at["size"], (trial.size,), sizes)
        for said, fault in _lines(trial):
            if fault or trial.size in sizes:
                yield from fault or _unknown_fact(said, sizes[trial.size])
    for erratum in design.release.errata if design.release else ():
        yield from _unknown_sizes(erratum.at["sizes"], erratum.sizes, sizes)
        yield from _erratum(erratum, sizes)


def _unlike(
    expectation: Expectation, wanted: Sequence[str], sizes: Mapping[str, Facts]
) -> Iterator[Problem]:
    for said, fault in _lines(expectation):
        yield from fault
        for size in () if fault else wanted:
            fact = sizes[size].get(said.key)
            if fact is None:
                yield from _unknown_fact(said, sizes[size])
            elif said.value not in values_of(fact):
                yield _not_as_expected(said, expectation.source, size, fact)


def _erratum(erratum: Erratum, sizes: Mapping[str, Facts]) -> Iterator[Problem]:
    """The fact must be there in each size, and say something else now."""
    said = Said(_plain(erratum.fact), _plain(erratum.was), erratum.at["fact"])
    for size in erratum.sizes or tuple(sizes):
        fact = sizes.get(size, {}).get(said.key)
        if fact is None and size in sizes:
            yield from _unknown_fact(said, sizes[size])
        elif fact is not None and said.value in values_of(fact):
            yield _as_before(erratum, size, fact)


def _lines(record: Expectation | Trial) -> Iterator[tuple[Said, tuple[Problem, ...]]]:
    name = "facts" if isinstance(record, Expectation) else "measured"
    for number, line in enumerate(getattr(record, name), 1):
        key, is_, value = line.partition(_IS)
        place = record.at[f"{name}/{number}"]
        if is_ and key.strip() and value.strip():
            yield Said(_plain(key), _plain(value), place), ()
        else:
            yield Said("", "", place), (_no_line(place, line),)


def _plain(text: str) -> str:
    return " ".join(text.split())


def _no_line(place: Place, line: str) -> Problem:
    return Problem(
        place,
        "not-a-fact",
        quoted(line),
        "a line as in the facts files, such as `finished size, width = 37`",
        "copy the line from a facts file and change what is behind the equals sign",
    )


def _unknown_fact(said: Said, facts: Facts) -> Iterator[Problem]:
    if said.key not in facts:
        near = nearest(said.key, set(citable(facts)) & set(facts))
        yield Problem(
            said.place,
            "unknown-fact",
            f"the fact {quoted(said.key)}",
            "a fact of this pattern, by its whole key in the facts files",
            f"write `{near}`" if near else "look it up in the facts file of the size",
        )


def _unknown_sizes(
    place: Place, named: Sequence[str], sizes: Mapping[str, Facts]
) -> Iterator[Problem]:
    for size in named:
        if size not in sizes:
            near = nearest(size, sizes)
            yield Problem(
                place,
                "unknown-size",
                f"the size {quoted(size)}",
                f"a size of this pattern: {listed(sizes)}",
                f"write `{near}`" if near else "write the name that stands under `sizes`",
            )


def _not_as_expected(said: Said, source: str, size: str, fact: Fact) -> Problem:
    worked = fact.published if fact.exact == fact.published else values_of(fact)[2]
    return Problem(
        said.place,
        "not-as-expected",
        f"{quoted(said.key)} is `{worked}` in `{size}`",
        f"`{said.value}` ({' '.join(source.split())})",
        "find out which of the two is wrong before you change either",
    )


def _as_before(erratum: Erratum, size: str, fact: Fact) -> Problem:
    return Problem(
        erratum.at["was"],
        "erratum-as-before",
        f"{quoted(fact.key)} is `{fact.published}` in `{size}`, as it is said to have been",
        "another value than before, or the erratum would correct nothing",
        "write what was printed in the earlier edition, name the sizes with `sizes`, or "
        "delete the erratum",
    )
