"""Facts of pressing: how many seams that meet lie opposite ways, and where they do not.

In: a design, its publication and the meetings that the bench has found. Out: facts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from pieceproof.bench.nesting import Lying, Meeting
from pieceproof.facts import Fact, name_of
from pieceproof.lengths import Number, Surd, show_exact
from pieceproof.model import Design
from pieceproof.published import Publication


def nesting_facts(
    design: Design, publication: Publication, meetings: Sequence[Meeting]
) -> tuple[Fact, ...]:
    """The counts for the whole size, then a line for every place that does not nest."""
    names = {make.name: name_of(make) for make in publication.makes}
    return (*_counts(meetings), *_places(design, names, meetings))


def _counts(meetings: Sequence[Meeting]) -> Iterator[Fact]:
    count: Counter[Lying] = Counter()
    for meeting in meetings:
        count[meeting.lying] += meeting.times
    for lying in Lying:
        text = str(count[lying])
        yield Fact(f"seams that meet, {lying.value}", text, text, text)


def _places(design: Design, names: dict[str, str], meetings: Sequence[Meeting]) -> Iterator[Fact]:
    """Places of one join in one line, in the order in which they are sewn."""
    groups: dict[tuple[str, str, Lying], list[Meeting]] = {}
    for m in meetings:
        if m.lying is not Lying.NESTED:
            groups.setdefault((m.make, m.where, m.lying), []).append(m)
    for (make, where, lying), group in groups.items():
        places = [_at(design, m.at) for m in group if m.at is not None]
        text = f"at {', '.join(places)} along the seam" if places else "inside"
        yield Fact(f"{names[make]}, {where}, {lying.value}", text, text, text)


def _at(design: Design, place: Number) -> str:
    return show_exact(place) if isinstance(place, Surd) else design.measure.show(place)
