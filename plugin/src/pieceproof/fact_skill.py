"""Facts of what a pattern asks of its maker, and of cloth that serves.

In: a design, its publication and its skill. Out: facts, and the sentence that says them.
"""

from __future__ import annotations

from collections.abc import Iterator

from pieceproof.facts import Fact
from pieceproof.instructions import show_size
from pieceproof.model import Design
from pieceproof.published import Publication
from pieceproof.skill import Level, Skill
from pieceproof.stash import precuts_for, scraps_serve

LEVELS = {
    Level.FIRST: "first project",
    Level.PRACTISED: "some practice",
    Level.EXPERIENCED: "experienced",
}


def skill_facts(design: Design, publication: Publication, skill: Skill) -> tuple[Fact, ...]:
    """What is counted, the level it comes to, and which precuts serve."""
    small = skill.smallest
    size = show_size(design.measure, small.short, small.long)
    return (
        _words("skill, level", LEVELS[skill.level]),
        _words("skill, because of", ", ".join(skill.reasons) or "nothing that needs practice"),
        _words("skill, seams to sew", str(skill.seams)),
        _words("skill, smallest piece", f"{small.letter}, {size}"),
        _words("skill, edges on the bias", str(skill.bias_edges)),
        _words("skill, curved seams", str(skill.curved)),
        _words("skill, set-in seams", str(skill.set_in)),
        _words("skill, joins to match", str(skill.joins)),
        _words("skill, forgives a wide seam", "yes" if skill.forgives else "no"),
        _words("precuts that serve", ", ".join(precuts_for(publication)) or "none"),
        _words("scraps serve", "yes" if scraps_serve(publication) else "no"),
    )


def skill_sentence(design: Design, skill: Skill) -> str:
    """The level, its reasons and the counts for the page; the letter in double asterisks."""
    small = skill.smallest
    size = show_size(design.measure, small.short, small.long)
    parts = [
        _counted(skill.seams, "seam"),
        f"the smallest piece is **{small.letter}**, cut {size}",
        _counted(skill.joins, "join", " to match"),
        _counted(skill.bias_edges, "edge", " on the bias"),
        *_some(skill.curved, "curved seam"),
        *_some(skill.set_in, "set-in seam"),
    ]
    why = f": {_series(skill.reasons)}" if skill.reasons else ""
    counts = "; ".join(parts)
    return f"{_capital(LEVELS[skill.level])}{why}. {_capital(counts)}."


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _some(count: int, what: str) -> Iterator[str]:
    if count:
        yield _counted(count, what)


def _counted(count: int, what: str, more: str = "") -> str:
    return f"{count or 'no'} {what}{'' if count == 1 else 's'}{more}"


def _series(words: tuple[str, ...]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def _words(key: str, words: str) -> Fact:
    return Fact(key, words, words, words)
