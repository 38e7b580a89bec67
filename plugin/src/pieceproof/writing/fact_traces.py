"""Why a published value that is no cut size is what it is: the sum that leads to it.

In: one size of a compiled pattern and the key of a fact. Out: its sum as lines, the last of which
is the published value. Facts that are stated in the file, or are words, have no sum.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import chain

from pieceproof.borders import border_width
from pieceproof.cells import Layout
from pieceproof.compile import Sized
from pieceproof.facts import WIDTH, name_of
from pieceproof.layout import CENTRE, AnyLayout, lay_out
from pieceproof.lengths import ceil_to
from pieceproof.methods.method import MIRRORED
from pieceproof.model import Design, Node
from pieceproof.problems import Place
from pieceproof.published import Make, MakeKind
from pieceproof.steps import Assemble, AssembleOnPoint, Step, Take
from pieceproof.writing.cloth_traces import CLOTH, cloth_lines
from pieceproof.writing.lines import Line, added

_SIDES = ("width", "height")
_COUNTS = ("rounds", "make", "use", "spare")


def fact_trace(sized: Sized, key: str) -> tuple[Line, ...]:
    """The lines of a fact's sum; none where it has no sum."""
    found = CLOTH.fullmatch(key)
    if found is not None:
        return tuple(cloth_lines(sized, found))
    rules: Mapping[str, Callable[[Sized, str], Iterator[Line]]] = {
        "finished size": _finished_size,
        "binding": _binding,
        "backing": _around,
        "batting": _around,
        "sleeve": _sleeve,
    }
    name, _, part = key.partition(", ")
    if name in rules:
        return tuple(rules[name](sized, key))
    make = next((m for m in sized.publication.makes if name_of(m) == name), None)
    return () if make is None else tuple(_of_make(sized, make, part))


def trace_of_fact(sized: Sized, key: str, lines: Mapping[str, Sequence[str]]) -> str:
    """The sum as text for the terminal, and where in the pattern's ``lines`` it begins."""
    fact = next(fact for fact in sized.facts if fact.key == key)
    parts = [f"{key}, {sized.design.label}: {fact.said}"]
    found = fact_trace(sized, key)
    parts += ["\n".join(map(_shown, found)) if found else "  stated in the file, or no sum"]
    places = dict.fromkeys((at.file, at.line) for at in _places(sized.design, key))
    parts += [
        "\n".join(
            f"  {file}:{number}: {lines[file][number - 1].strip()}" for file, number in places
        )
    ]
    return "\n\n".join(filter(None, parts))


def _shown(line: Line) -> str:
    return f"  {line.sign or ' '} {line.amount:<12} {line.words}".rstrip()


def _places(design: Design, key: str) -> Iterator[Place]:
    """Where the design states what a fact comes from."""
    head, _, rest = key.partition(", ")
    name = head.removeprefix("unit ").removeprefix("block ").removesuffix(MIRRORED)
    stated: Mapping[str, Node | None] = {
        **design.units,
        **design.blocks,
        "finished size": design.setting,
        "quilt centre": design.setting,
        **{part: getattr(design, part) for part in ("binding", "backing", "batting", "sleeve")},
    }
    record = None if rest.startswith(WIDTH) else stated.get(name)
    if record is not None:
        yield record.at.here
    if head == "finished size":
        yield from (border.at.here for border in design.borders)


def _finished_size(sized: Sized, key: str) -> Iterator[Line]:
    """The middle, its columns or rows, and all borders on both sides."""
    side = key.removeprefix("finished size, ")
    if side not in _SIDES:
        return
    layouts, _ = lay_out(sized.design)
    show = sized.design.measure.show
    middle = getattr(layouts[CENTRE].size, side)
    parts = [(show(middle), f"quilt centre{_cells(sized, layouts[CENTRE], side)}")]
    total = middle
    for number, border in enumerate(sized.design.borders, 1):
        wide = border_width(number, border, layouts)
        parts.append((show(2 * wide), f"border {number}, {show(wide)} on both sides"))
        total += 2 * wide
    yield from added(parts, show(total))


def _cells(sized: Sized, layout: AnyLayout, side: str) -> str:
    """What a straight setting's columns or rows measure, alike ones together."""
    if not isinstance(layout, Layout):
        return ""
    show = sized.design.measure.show
    row = layout.rows[0] if side == "width" else [row[0] for row in layout.rows]
    sizes = [getattr(cell.size, side) for cell in row]
    counted = {size: sizes.count(size) for size in sizes}
    return ": " + " + ".join(f"{count} x {show(size)}" for size, count in counted.items())


def _of_make(sized: Sized, make: Make, part: str) -> Iterator[Line]:
    what, _, side = part.partition(", ")
    show, seams = sized.design.measure.show, 2 * sized.publication.seam
    if side in _SIDES and what in ("finished", "unfinished") and make.kind is not MakeKind.TRIANGLE:
        raw = getattr(make, side)
        whole = (show(raw - seams), "finished"), (show(seams), "2 seam allowances")
        yield from added(whole, show(raw)) if what == "unfinished" else _drawn(sized, make, side)
    elif part in _COUNTS:
        yield from _counts(sized, make, part)


def _drawn(sized: Sized, make: Make, side: str) -> Iterator[Line]:
    """A finished side: what the cells of a block measure, or what the file states."""
    show = sized.design.measure.show
    finished = show(getattr(make, side) - 2 * sized.publication.seam)
    name = make.name.removesuffix(MIRRORED)
    layout = lay_out(sized.design)[0].get(name)
    words = _cells(sized, layout, side).removeprefix(": ") if layout else "as the file states it"
    yield from added(((finished, words),), finished)


def _counts(sized: Sized, make: Make, part: str) -> Iterator[Line]:
    """Used, divided by what a round gives, rounded up; times what a round gives; less the used."""
    made = make.rounds * make.each
    used = tuple(_uses(sized, make))
    if part == "use":
        yield from added(used, str(make.wanted))
    elif part == "rounds":
        yield Line("", str(make.wanted), "used")
        yield Line("/", str(make.each), "from each round")
        yield Line("=", str(make.rounds), "rounds, rounded up to whole ones")
    elif part == "make":
        yield Line("", str(make.rounds), f"rounds, enough for {make.wanted}")
        yield Line("x", str(make.each), "from each round")
        yield Line("=", str(made), "")
    else:
        yield Line("", str(made), f"made, {make.rounds} rounds of {make.each}")
        yield Line("-", str(make.wanted), "used")
        yield Line("=", str(make.spare), "")


def _uses(sized: Sized, make: Make) -> Iterator[tuple[str, str]]:
    """What takes a thing; a top takes as many as are made of it."""
    if make is sized.publication.makes[-1]:
        yield str(make.wanted), "tops to be made"
    for other in sized.publication.makes:
        each = sum(source == make.name for step in other.steps for source in _taken(step))
        if each:
            words = f"in {name_of(other)}: {each} in each, {other.rounds} made"
            yield str(each * other.rounds), words


def _taken(step: Step) -> Iterator[str]:
    match step:
        case Take():
            yield step.source
        case Assemble():
            yield from (cell.source for cell in chain.from_iterable(step.rows))
        case AssembleOnPoint():
            yield from (step.top_left.source, step.bottom_right.source)
            for row in step.rows:
                cells = (row.first, *row.cells, row.last)
                yield from (cell.source for cell in cells if cell is not None)


def _binding(sized: Sized, key: str) -> Iterator[Line]:
    facts, show = sized.publication.binding, sized.design.measure.show
    if facts is None or key != "binding, length":
        return
    parts = (
        (show(2 * sized.publication.width), f"2 x {show(sized.publication.width)}, top and bottom"),
        (show(2 * sized.publication.height), f"2 x {show(sized.publication.height)}, both sides"),
        (show(facts.extra), "beyond the edge, for corners and the join"),
    )
    whole = ceil_to(facts.length, sized.publication.step)
    yield from added(parts, show(facts.length))
    if whole != facts.length:
        yield Line("", show(whole), f"rounded up to {show(sized.publication.step)}")


def _around(sized: Sized, key: str) -> Iterator[Line]:
    """The backing or the batting: the top and what lies beyond it."""
    name, _, side = key.partition(", size, ")
    if side in _SIDES:
        facts = getattr(sized.publication, name)
        show, top = sized.design.measure.show, getattr(sized.publication, side)
        beyond = (show(2 * facts.beyond), f"2 x {show(facts.beyond)} beyond it")
        yield from added(((show(top), "the finished top"), beyond), show(getattr(facts, side)))


def _sleeve(sized: Sized, key: str) -> Iterator[Line]:
    facts, show = sized.publication.sleeve, sized.design.measure.show
    if facts is None:
        return
    if key == "sleeve, cut width":
        seam = sized.publication.seam
        parts = (show(2 * facts.depth), f"2 x {show(facts.depth)} deep"), (
            show(2 * seam), "2 seam allowances")  # fmt: skip
        yield from added(parts, show(facts.cut_width))
    elif key == "sleeve, length":
        yield Line("", show(sized.publication.width), "width of the top")
        yield Line("-", show(facts.shorter), "shorter than the top")
        yield Line("=", show(facts.length), "on the ruler")
