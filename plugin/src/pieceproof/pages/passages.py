"""The writer's prose where it stands on the page.

In: passages of every size. Out: for each section and place in it, the text with the sizes it
holds for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pieceproof.pages.choices import Axis, Variant, variants
from pieceproof.pages.tokens import token
from pieceproof.prose import Prose
from pieceproof.prose_source import Where

Texts = tuple[Variant[str], ...]


@dataclass(frozen=True)
class Told:
    """The writer's Markdown for one section; ``instead`` stands for what is generated."""

    before: Texts = ()
    instead: Texts = ()
    after: Texts = ()


def told(size: Axis, prose: Prose) -> Mapping[str, Told]:
    """What the writer says, by section; "" is the introduction."""
    sections = dict.fromkeys(p.section for passages in prose.sizes.values() for p in passages)
    return {
        section: Told(*(_texts(size, prose, section, where) for where in _ORDER))
        for section in sections
    }


def _texts(size: Axis, prose: Prose, section: str, where: Where) -> Texts:
    return variants(
        (size,),
        (
            ((token(key),), passage.text)
            for key, passages in prose.sizes.items()
            for passage in passages
            if (passage.section, passage.where) == (section, where)
        ),
    )


_ORDER: Sequence[Where] = (Where.BEFORE, Where.INSTEAD, Where.AFTER)
