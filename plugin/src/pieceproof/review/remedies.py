"""Notices to those who hold an earlier edition: what was wrong, what is right, what to do now.

In: the errata of a pattern and the facts of its sizes. Out: one `Notice` for each right value, with
the sizes it holds for. What is right and the remedy are worked out from the facts; a writer's own
remedy is added to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.editions import parse_edition
from pieceproof.facts import Fact
from pieceproof.lengths import parse_length, show_decimal, show_fraction
from pieceproof.model import Design, Erratum, Stage
from pieceproof.review.stages import stage_of, width_of

ALREADY: Mapping[Stage, str] = {
    Stage.CHOOSING: "If you chose your size",
    Stage.SHOPPING: "If you have already bought your cloth",
    Stage.CUTTING: "If you have already cut",
    Stage.TEMPLATES: "If you have already printed or traced templates",
    Stage.SEWING: "If you have already sewn",
}
"""How a notice begins, by the stage that a reader has reached."""


NOTHING = "nothing"
"""What an erratum says of a fact that the earlier edition did not have."""


@dataclass(frozen=True)
class Notice:
    """One correction: whom it concerns, the fact's name, both values, and what to do.

    ``width`` is the usable width that it concerns, empty for all.
    """

    edition: str
    stage: Stage
    sizes: tuple[str, ...]
    fact: str
    was: str
    now: str
    remedy: str
    width: str = ""

    @property
    def already(self) -> str:
        """``If you have already cut by an edition before 1.1``."""
        return f"{ALREADY[self.stage]} by an edition before {self.edition}"


def notices(design: Design, facts_by_size: Mapping[str, Sequence[Fact]]) -> tuple[Notice, ...]:
    """All notices, the latest edition first, then in the order of the work."""
    sizes = {size: {f.key: f for f in facts} for size, facts in facts_by_size.items()}
    errata = design.release.errata if design.release else ()
    found = [notice for erratum in errata for notice in _notices(erratum, sizes)]
    order = list(Stage)
    return tuple(sorted(found, key=lambda n: (_latest_first(n.edition), order.index(n.stage))))


def _latest_first(edition: str) -> tuple[int, int]:
    parsed = parse_edition(edition)
    return (-parsed.design, -parsed.correction) if parsed else (0, 0)


def _notices(erratum: Erratum, sizes: Mapping[str, Mapping[str, Fact]]) -> Iterator[Notice]:
    key, was = " ".join(erratum.fact.split()), " ".join(erratum.was.split())
    by_value: dict[tuple[str, str, str], list[str]] = {}
    for size in erratum.sizes or tuple(sizes):
        fact = sizes[size][key]
        said = remedy(key, was, fact, sizes[size])
        values = (_in_its_unit(was, fact), fact.said or fact.published, said)
        by_value.setdefault(values, []).append(size)
    for (before, now, said), found in by_value.items():
        whole = " ".join(filter(None, (said, erratum.remedy)))
        yield Notice(
            erratum.edition,
            stage_of(key),
            tuple(found),
            _named(key),
            before,
            now,
            whole,
            width_of(key),
        )


def _in_its_unit(was: str, fact: Fact) -> str:
    """The old value as a sentence says it, with the unit that the new one has."""
    if was == NOTHING:
        return was
    if fact.said and fact.said.replace('"', "") == fact.published:
        return " x ".join(f'{side}"' for side in was.split(" x "))
    if fact.said.startswith(f"{fact.published} "):
        return was + fact.said.removeprefix(fact.published)
    return was


def _named(key: str) -> str:
    """The fact's name as a sentence says it: ``piece G, border`` needs no ``cut``."""
    return key.removesuffix(", cut")


def remedy(key: str, was: str, fact: Fact, facts: Mapping[str, Fact]) -> str:
    """What follows from the two values alone, as a sentence; empty where nothing does."""
    last = key.rpartition(", ")[2]
    if was == NOTHING:
        return _of_new(key, last, fact, facts)
    if last == "cut" and key.startswith("piece "):
        return _of_cut(key, was, fact, facts)
    before, now = parse_length(was.rpartition(" ~ ")[2]), parse_length(fact.published)
    if before is None or now is None:
        return ""
    if last == "count":
        return _of_count(now - before)
    if last in ("yards", "metres"):
        return _of_cloth(last, now - before)
    return ""


def _of_cut(key: str, was: str, fact: Fact, facts: Mapping[str, Fact]) -> str:
    letter = key.split(", ", maxsplit=1)[0].removeprefix("piece ")
    before, now = _sides(was), _sides(fact.published)
    if len(before) != 2 or len(now) != 2:
        return ""
    if all(b >= n for b, n in zip(before, now, strict=True)):
        return f"Trim each piece {letter} to {fact.said}."
    count = facts.get(key.removesuffix("cut") + "count")
    many = f"{count.published} of them" if count else "all of them"
    return f"Piece {letter} as it was is too small: cut {many} again, {fact.said}."


def _of_new(key: str, last: str, fact: Fact, facts: Mapping[str, Fact]) -> str:
    """What there was none of before."""
    if last == "cut" and key.startswith("piece "):
        count = facts.get(key.removesuffix("cut") + "count")
        return f"Cut {count.published if count else 'them'}, {fact.said}."
    return f"Buy {fact.said}." if last in ("yards", "metres") else ""


def _sides(size: str) -> list[Fraction]:
    sides = (parse_length(side) for side in size.split(" x "))
    return [side for side in sides if side is not None]


def _of_count(more: Fraction) -> str:
    count = abs(more)
    return f"Cut {count} more." if more > 0 else f"{count} of them are left over: leave them out."


def _of_cloth(unit: str, more: Fraction) -> str:
    if more <= 0:
        return "What you bought is enough; some of it will be left over."
    if unit == "yards":
        return f"Buy {show_fraction(more)} yard{'s' if more > 1 else ''} more."
    return f"Buy {show_decimal(more)} m more."
