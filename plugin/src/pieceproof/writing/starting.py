"""A new pattern to start from: small, complete and proved, to be changed into the writer's own.

In: the name of its folder and its unit of length. Out: the files of the folder, facts and all, and
the problem of a name that cannot be a page's address. Writes nothing.
"""

from __future__ import annotations

from pieceproof.compile import DESIGN_FILE
from pieceproof.model import Measure
from pieceproof.problems import Problem
from pieceproof.prose import PROSE_FILE
from pieceproof.reading import folder_problems
from pieceproof.shelf import Folder, compile_folders, fact_texts

SCHEMA_FILE = "pattern.schema.json"
"""The JSON Schema beside the folders of patterns, for editors."""


def starting_folder(slug: str, measure: Measure) -> tuple[Folder, tuple[Problem, ...]]:
    """The files of a new pattern by name; none where the folder cannot be called so."""
    problems = tuple(folder_problems(f"patterns/{slug}/{DESIGN_FILE}", slug))
    if problems:
        return {}, problems
    name = " ".join(word.capitalize() for word in slug.split("-"))
    design = _DESIGN.format(name=name, measure=measure.value, schema=SCHEMA_FILE, **_SIZES[measure])
    written = {DESIGN_FILE: design.encode(), PROSE_FILE: _PROSE.encode()}
    shelved = compile_folders({slug: written}, {})[slug]
    facts = {file: text.encode() for file, text in fact_texts(shelved).items()}
    return {**written, **facts}, shelved.problems


_SIZES = {
    Measure.INCH: {"seam": "1/4", "half": "3", "border": "1 1/2"},
    Measure.CENTIMETRE: {"seam": "0.75", "half": "7.5", "border": "4"},
}
"""Common practice: seams of 1/4 in or 0.75 cm, and finished sizes that are easy to measure."""

_DESIGN = """\
# yaml-language-server: $schema=../{schema}
# The line above lets an editor complete and check this file while you type.

name: {name}
kind: table runner
summary: One block, repeated; a place to start from.
measure: {measure}
seam: {seam}

# The parts that fabrics play, in order of use.
fabrics:
  ground: {{called: background, value: light}}
  sail: {{called: sails, value: dark}}
  edge: {{called: binding, value: dark}}
  back: {{called: backing, value: light}}

# What is sewn from pieces. Every size is finished: as seen in the quilt.
units:
  half:
    method: half-square triangles
    size: {half}
    top left: ground
    bottom right: sail

# Rows of units, from the top; `turned 1` is a quarter turn clockwise.
blocks:
  mill:
    rows:
      - [half turned 1, half turned 2]
      - [half, half turned 3]

setting:
  layout: straight
  rows: [[mill]]
  across: 5
  down: 2

# From the inside out.
borders:
  - {{fabric: sail, width: {border}}}
binding: {{fabric: edge}}
backing: {{fabric: back}}
batting: {{}}

# Real cloth, and which of it plays which part.
cloths:
  pale: {{name: Pale Cloth, colour: "#efe9dc"}}
  deep: {{name: Deep Cloth, colour: "#2f4a63"}}
colourways:
  first:
    name: First Colours
    parts: {{ground: pale, sail: deep, edge: deep, back: pale}}
"""

_PROSE = """\
Say here what the design is about, and what it asks of its maker.

## Unit: half

The squares make {unit half, make} units. Trim each one before you go on.

## Finishing

Say how you would quilt it.
"""
