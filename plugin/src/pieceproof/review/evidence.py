"""What proves one size, both sides side by side: drawn and sewn, cut and used, planned and least.

In: a size of a pattern that was proved. Out: tables of text. The sides come from where they were
made: the picture and the bench, the cutting list and the steps, the plan and its bound. Whether
they agree was decided before; a proof sheet lets a person see it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.counting import sources_of
from pieceproof.bench.watch import sewn_makes
from pieceproof.comparison import HEADS, comparison_rows
from pieceproof.compile import Sized
from pieceproof.cutting.plan import pieces_cut
from pieceproof.demands import letter_of
from pieceproof.fact_nesting import nesting_facts
from pieceproof.facts import PLUS, Fact, called, name_of
from pieceproof.lengths import Number, Surd, parse_length, show_exact
from pieceproof.model import MOST_PLANNING_EFFORT, Design, Expectation, Measure, Trial
from pieceproof.promises import lines_of
from pieceproof.published import MakeKind
from pieceproof.requirements import Need
from pieceproof.tips import in_words

Row = tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A heading, what it shows in a sentence, the heads of its columns, and rows of text."""

    heading: str
    sentence: str
    heads: Row
    rows: tuple[Row, ...]


def evidence(sized: Sized) -> tuple[Table, ...]:
    """All tables of one size that have a row."""
    tables = (
        Table(
            "Drawn and sewn",
            "The finished picture and a seam on each side, against what came off the bench.",
            ("Make", "Drawn", "Sewn", "Apart by"),
            tuple(_sizes(sized)),
        ),
        Table(
            "Cut and used",
            "The cutting list, against what falls from each cutting plan and what the steps take.",
            ("Piece", "Cut", "Planned", "Used", "Left"),
            tuple(_counts(sized)),
        ),
        Table(
            "Cloth",
            _of_cloth(sized),
            ("Cloth", "Strips", "Least", "Gap", "With squaring and back", "Sold", "Room"),
            tuple(_cloth(sized)),
        ),
        Table(
            "Tips",
            "How far each tip is from the seam that could cut it off.",
            ("Tips", "How many", "Clearance", "State"),
            tuple(_tips(sized)),
        ),
        Table(
            "Seams that meet",
            "How many lie opposite ways, and every place where they do not.",
            ("Where", "How they lie"),
            tuple(_meetings(sized)),
        ),
        Table(
            "Light and dark",
            "In each colourway the neighbours that differ least in lightness, of 100.",
            ("Colourway", "Neighbours", "Difference"),
            tuple(_values(sized)),
        ),
        Table(
            "Methods compared",
            "Every method that can make a unit, for as many as are wanted; * is the pattern's own.",
            ("Unit", *(head.capitalize() for head in HEADS)),
            tuple(_methods(sized)),
        ),
        Table(
            "Known in another way",
            "What the pattern expects of its facts, against what was worked out.",
            ("Fact", "Expected", "Worked out", "How it is known"),
            tuple(_expected(sized)),
        ),
    )
    return tuple(table for table in tables if table.rows)


def _meetings(sized: Sized) -> Iterator[Row]:
    for fact in nesting_facts(sized.design, sized.publication, sized.meetings):
        yield fact.key, fact.published


def _values(sized: Sized) -> Iterator[Row]:
    names = called(sized.design)
    for reading in sized.values:
        if reading.nearest is not None:
            pair, where = reading.nearest, reading.nearest.meeting
            yield (
                sized.design.colourways[reading.colourway].name,
                f"{names[where.one]} and {names[where.other]}, in {where.make}",
                f"{pair.grey:.1f}",
            )


def _methods(sized: Sized) -> Iterator[Row]:
    for name in sized.design.units:
        for row in comparison_rows(sized.design, sized.publication, name):
            yield name, *row


def trial_table(trial: Trial, sized: Sized) -> Table:
    """What a tester measured, against what the pattern states."""
    facts = {fact.key: fact for fact in sized.facts}
    colourway = sized.design.colourways.get(trial.colourway or "")
    words = (
        f"{sized.design.label}, by {trial.tester}, {trial.date}",
        f"in {colourway.name}" if colourway else "",
        f"{_show(Measure.INCH, trial.hours)} hours" if trial.hours is not None else "",
    )
    unclear = f" First unclear: {trial.unclear}" if trial.unclear else ""
    return Table(
        "; ".join(filter(None, words)),
        f"Measured and left over, against what is stated.{unclear}",
        ("Fact", "Stated", "Measured", "Apart by"),
        tuple(
            (said.key, facts[said.key].published, said.value, _apart(said.value, facts[said.key]))
            for said in lines_of(trial)
            if said.key in facts
        ),
    )


def sign_off(design: Design, labels: Sequence[str]) -> Table:
    """Lines to sign on paper."""
    who = ["Editor: arithmetic done again", "Editor: words, drawings and templates agree"]
    who += [f"Tester: {label}, made as written" for label in labels for _ in range(2)]
    return Table(
        "",
        f"{design.name}, read and sewn from paper, not from the screen.",
        ("Who and what", "Name", "Date", "Signature"),
        tuple((what, "", "", "") for what in who),
    )


def _sizes(sized: Sized) -> Iterator[Row]:
    publication, measure = sized.publication, sized.design.measure
    sewn = sewn_makes(publication, publication.makes)
    for make in publication.makes:
        picture = sized.drawing.pictures.get(make.name)
        if picture is None or make.kind is MakeKind.TRIANGLE:
            continue
        drawn = (picture.width + 2 * publication.seam, picture.height + 2 * publication.seam)
        off = (sewn[make.name].width, sewn[make.name].height)
        apart = [a - b for a, b in zip(off, drawn, strict=True)]
        shown = "nothing" if not any(apart) else _size(measure, apart[0], apart[1])
        yield name_of(make), _size(measure, *drawn), _size(measure, *off), shown


def _counts(sized: Sized) -> Iterator[Row]:
    used: Counter[str] = Counter()
    for make in sized.publication.makes:
        for source, count in sources_of(make).items():
            used[source] += count * make.rounds
    names = called(sized.design)
    for piece in sized.publication.pieces:
        left = piece.count - used[piece.letter]
        name = f"{piece.letter}, {names[piece.fabric]}"
        planned = {
            str(_planned(need, piece.letter))
            for need in sized.requirements.needs
            if piece.fabric in need.fabrics
        }
        yield (
            name,
            str(piece.count),
            " or ".join(sorted(planned)),
            str(used[piece.letter]),
            str(left),
        )


def _planned(need: Need, letter: str) -> int:
    """How many of a piece fall from a plan: from strips, from a long run, from around motifs."""
    counts = {**pieces_cut(need.plan), **{run.letter: run.count for run in need.plan.joined}}
    around = sum(cut.count for cut in need.fussy if cut.letter == letter)
    return around + sum(count for key, count in counts.items() if letter_of(key) == letter)


def _of_cloth(sized: Sized) -> str:
    compared = "The plan's strips, against the least that any plan of its kind needs."
    proven = all(need.plan.proven for need in sized.requirements.needs)
    if proven or sized.design.planning_effort == MOST_PLANNING_EFFORT:
        return compared
    return f'{compared} More "planning effort" in the pattern\'s file may close the gaps.'


def _cloth(sized: Sized) -> Iterator[Row]:
    """Widths for which all is the same stand in one row."""
    rows: dict[tuple[str, Row], list[str]] = {}
    measure, names = sized.design.measure, called(sized.design)
    for need in sized.requirements.needs:
        parts = PLUS.join(names[fabric] for fabric in need.fabrics)
        rows.setdefault((parts, _cloth_numbers(measure, need)), []).append(
            measure.show(need.usable_width)
        )
    for (parts, numbers), widths in rows.items():
        yield f"{parts}, {', '.join(widths)} wide", *numbers


def _cloth_numbers(measure: Measure, need: Need) -> Row:
    plan, show = need.plan, measure.show
    sold = f"{Measure.INCH.show(need.yards)} yd, {Measure.CENTIMETRE.show(need.metres)} m"
    return (
        show(plan.length),
        show(plan.bound),
        "none, proved" if plan.proven else show(plan.length - plan.bound),
        show(need.yardage.needed),
        sold,
        show(need.yardage.room),
    )


def _tips(sized: Sized) -> Iterator[Row]:
    names = called(sized.design)
    for group in sized.tips.groups:
        where = f"{group.make}: {in_words(group, names)}"
        clearance = _show(sized.design.measure, group.clearance)
        yield where, str(group.count), clearance, group.state.value


def _expected(sized: Sized) -> Iterator[Row]:
    facts = {fact.key: fact for fact in sized.facts}
    for expectation in sized.design.expect:
        if expectation.size in (None, sized.design.size):
            yield from _lines(expectation, facts)


def _lines(expectation: Expectation, facts: dict[str, Fact]) -> Iterator[Row]:
    for said in lines_of(expectation):
        yield said.key, said.value, facts[said.key].published, " ".join(expectation.source.split())


def _apart(measured: str, fact: Fact) -> str:
    """Measured less stated, where both are one number."""
    found, stated = parse_length(measured), parse_length(fact.published)
    if found is None or stated is None:
        return ""
    if found == stated:
        return "nothing"
    sign = "-" if found < stated else "+"
    return sign + Measure.INCH.show(abs(found - stated))


def _size(measure: Measure, width: Number, height: Number) -> str:
    return f"{_show(measure, width)} x {_show(measure, height)}"


def _show(measure: Measure, number: Number) -> str:
    return show_exact(number) if isinstance(number, Surd) else measure.show(Fraction(number))
