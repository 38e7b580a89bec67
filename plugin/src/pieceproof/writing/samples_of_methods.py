"""A method's own example as a whole small pattern: the unit in a row, seven times.

In: a method. Out: the text of a pattern that has its example, and what comes of it: numbers,
pictures and words as in any pattern. An example that has problems is a mistake of its method.
"""

from __future__ import annotations

from dataclasses import dataclass
from textwrap import indent

from pieceproof.bench.nesting import meetings
from pieceproof.compile import DESIGN_FILE
from pieceproof.construct import construct
from pieceproof.diagrams.subject import Subject, subject
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.instructions import Instruction, instructions
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods import METHODS
from pieceproof.methods.method import Method
from pieceproof.model import Design
from pieceproof.reading import read_pattern
from pieceproof.writing.tracing import Trace, traces_of

NAME = "sample"
"""The name of the unit."""

WANTED = 7
"""How many of a unit are made: not a multiple of what rounds usually give."""


@dataclass(frozen=True)
class Sample:
    """A row of a method's units with all that is said of it."""

    design: Design
    row: Subject
    instructions: tuple[Instruction, ...]
    traces: tuple[Trace, ...]


def unit_text(method: Method) -> str:
    """The example as it stands in a pattern's file."""
    body = indent(f"method: {method.name}\n{method.lesson.example}", "    ")
    return f"units:\n  {NAME}:\n{body}"


def sample_text(method: Method) -> str:
    """A whole pattern file around the example."""
    return _AROUND.format(name=method.name, unit=unit_text(method), wanted=WANTED, cell=NAME)


def sample_of(method: Method) -> Sample:
    """The example, read, laid out, cut, sewn and told."""
    text = sample_text(method).encode()
    (design,), problems, _ = read_pattern(f"patterns/{NAME}/{DESIGN_FILE}", text, METHODS)
    assert not problems, problems
    layouts, problems = lay_out(design)
    drawing = draw(design, layouts)
    draft, faults = construct(design, layouts, drawing)
    assert not (*problems, *faults), (problems, faults)
    (publication,) = publish([draft])
    return Sample(
        design,
        subject(design, publication, with_mirror_images(drawing, draft.names)),
        instructions(design, publication, meetings(publication)),
        tuple(traces_of([design], design.size).values()),
    )


_AROUND = """\
name: A row of {name}
kind: sample
summary: One unit, several times.
measure: inch
seam: 1/4
fabrics:
  mist: {{called: mist, value: light}}
  reed: {{called: reed, value: light}}
  clay: {{called: clay, value: medium}}
  slate: {{called: slate, value: dark}}
  night: {{called: night, value: dark}}
{unit}
setting:
  layout: straight
  rows: [[{cell}]]
  across: {wanted}
cloths:
  mist: {{name: Morning Mist, colour: "#e9e6da"}}
  reed: {{name: Reed Bank, colour: "#c9cfa8"}}
  clay: {{name: River Clay, colour: "#c07a4e"}}
  slate: {{name: Wet Slate, colour: "#4d6a80"}}
  night: {{name: Ferry Night, colour: "#26324a"}}
colourways:
  only: {{name: Only, parts: {{mist: mist, reed: reed, clay: clay, slate: slate, night: night}}}}
"""
