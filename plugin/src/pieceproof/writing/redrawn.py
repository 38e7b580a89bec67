"""The folder of a pattern that is redrawn: its files, and what is to be said of them.

In: a compiled pattern, its new unit and the new size of its block. Out: the files of a
new folder with facts, a report, and the problems that the pattern has at its new size.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from quicktions import Fraction

from pieceproof.compile import DESIGN_FILE
from pieceproof.fact_files import is_fact_file
from pieceproof.model import Measure
from pieceproof.shelf import Folder, Shelved, compile_folders, fact_texts, problem_texts
from pieceproof.writing.resizing import REDRAFT, Redraft, Resized, block_of, resize


@dataclass(frozen=True)
class Redrawn:
    """A new folder; ``files`` are complete only where there are no ``problems``."""

    slug: str
    report: str
    files: Folder = field(default_factory=dict)
    problems: tuple[str, ...] = ()


def redrawn_folder(shelved: Shelved, block: Fraction | None, measure: Measure) -> Redrawn:
    """The pattern in a unit, its block as wide as given or else as common practice redraws it."""
    pattern = shelved.pattern
    designs = [sized.design for sized in pattern.sizes]
    factor = Fraction(1) if measure is designs[0].measure else REDRAFT
    if block is not None:
        factor = block / block_of(designs[0])
    redraft = Redraft(factor, measure)
    old = shelved.folder[DESIGN_FILE]
    resized = resize(f"patterns/{pattern.slug}/{DESIGN_FILE}", old, designs, redraft)
    words = f"{measure.show(resized.block)} {'in' if measure is Measure.INCH else 'cm'}"
    ending = re.sub("[^a-z0-9]+", "-", words)
    slug = f"{pattern.slug}-{ending}"
    copied = {n: d for n, d in shelved.folder.items() if "/" not in n and not is_fact_file(n)}
    files = {**copied, DESIGN_FILE: resized.text.encode()}
    made = compile_folders({slug: files}, {})[slug]
    facts = {name: text.encode() for name, text in fact_texts(made).items()}
    report = _report(resized, redraft)
    problems = tuple(problem_texts(made, made.problems))
    if problems and resized.off_grid:
        problems = ("nothing was written", report)
    return Redrawn(slug, report, {**files, **facts}, problems)


def _report(resized: Resized, redraft: Redraft) -> str:
    show, step = redraft.measure.show, redraft.measure.step
    lines = [f"blocks of {show(resized.block)}, finished"]
    if resized.rounded:
        pairs = "; ".join(f"{exact} to {on_ruler}" for exact, on_ruler in resized.rounded)
        lines.append(f"rounded up to the ruler's grid of {show(step)}: {pairs}")
    if resized.off_grid:
        sizes = "; ".join(resized.off_grid)
        lines.append(f"not on the ruler's grid of {show(step)}: {sizes}")
        near = " or ".join(show(size) for size in resized.nearest)
        lines.append(f"nearest blocks with every size on the grid: {near or 'none'}")
    return "\n".join(lines)
