"""One pattern through all stages: from its files' text to everything that is published.

In: the bytes of a pattern's files. Out: a `Pattern` with one `Sized` for each size, or problems.
Nothing is read from or written to disk here, and nothing of a pattern with problems is published.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pieceproof.bench import Disagreement, prove, show_disagreement
from pieceproof.bench.nesting import Meeting, meetings
from pieceproof.checks import check_designs
from pieceproof.cloth_colours import with_colours
from pieceproof.cloth_proof import cloth_faults
from pieceproof.construct import Draft, construct
from pieceproof.fact_nesting import nesting_facts
from pieceproof.fact_precuts import precut_facts
from pieceproof.fact_seams import seam_facts
from pieceproof.fact_skill import skill_facts
from pieceproof.fact_tips import tip_facts
from pieceproof.fact_values import value_facts
from pieceproof.facts import Fact, facts_of
from pieceproof.finishing import finishing_problems
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.instructions import Instruction, instructions
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods import METHODS, check_methods
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.model import Design
from pieceproof.neighbours import meetings as neighbours
from pieceproof.precuts import FromPrecuts, from_precuts, precut_faults
from pieceproof.problems import Problem
from pieceproof.promises import promise_problems
from pieceproof.published import Drawing, Publication
from pieceproof.reading import read_pattern
from pieceproof.requirements import Requirements, requirements, usable_widths
from pieceproof.seam_check import SeamCheck, seam_check
from pieceproof.skill import Skill, skill_of
from pieceproof.swatches import Print, prints_of
from pieceproof.tips import Tips, demanded, tips_of
from pieceproof.value_check import Reading, demanded_values, notes, readings

DESIGN_FILE = "pattern.yaml"


@dataclass(frozen=True)
class Sized:
    """One size of a pattern with everything that is published about it."""

    design: Design
    publication: Publication
    drawing: Drawing
    requirements: Requirements
    precuts: tuple[FromPrecuts, ...]
    instructions: tuple[Instruction, ...]
    facts: tuple[Fact, ...]
    tips: Tips
    seam_check: SeamCheck
    skill: Skill
    meetings: tuple[Meeting, ...]
    values: tuple[Reading, ...]


@dataclass(frozen=True)
class Pattern:
    """A pattern after all stages. ``sizes`` is empty where there are problems."""

    slug: str
    sizes: tuple[Sized, ...]
    problems: tuple[Problem, ...]
    lines: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """The text of each file by lines, for showing problems."""
    notes: tuple[Problem, ...] = ()
    """What its writer should look at; nothing that stops it."""
    prints: Mapping[str, Print] = field(default_factory=dict)
    """Photographs of cloths, by the cloth's name."""


def compile_pattern(slug: str, files: Mapping[str, bytes]) -> Pattern:
    """Read and check, draw and construct, letter and prove, plan the cloth, state the facts."""
    file = f"patterns/{slug}/{DESIGN_FILE}"
    found, problems, text = read_pattern(file, files[DESIGN_FILE], METHODS)
    lines = {file: text}
    designs, colourless = with_colours(found)
    prints, unseen = prints_of(designs, files)
    problems = (*problems, *colourless, *unseen, *check_designs(designs, problems))
    if problems:
        return Pattern(slug, (), _once(problems), lines)
    problems = tuple(problem for design in designs for problem in check_methods(design))
    if problems:
        return Pattern(slug, (), _once(problems), lines)
    built = [_build(design) for design in designs]
    problems = tuple(problem for _, _, found in built for problem in found)
    drafts = [draft for draft, _, _ in built if draft is not None]
    if problems or len(drafts) < len(designs):
        return Pattern(slug, (), _once(problems), lines)
    sized = [
        _size(design, publication, drawing)
        for design, publication, (_, drawing, _) in zip(
            designs, publish(drafts), built, strict=True
        )
    ]
    problems = tuple(problem for _, found in sized for problem in found)
    sizes = () if problems else tuple(size for size, _ in sized if size is not None)
    if sizes:
        problems = promise_problems(sizes[0].design, {s.design.size: s.facts for s in sizes})
        sizes = () if problems else sizes
    remarks = tuple(n for size in sizes for n in notes(size.design, size.values))
    return Pattern(slug, sizes, _once(problems), lines, _once(remarks), prints)


def _build(design: Design) -> tuple[Draft | None, Drawing, tuple[Problem, ...]]:
    layouts, problems = lay_out(design)
    if problems:
        return None, Drawing({}), problems
    drawing = draw(design, layouts)
    draft, problems = construct(design, layouts, drawing)
    return draft, with_mirror_images(drawing, draft.names), problems


def _size(
    design: Design, publication: Publication, drawing: Drawing
) -> tuple[Sized | None, tuple[Problem, ...]]:
    problems = finishing_problems(design, publication)
    if problems:
        return None, problems
    needs, problems = requirements(design, publication, usable_widths(design))
    tips = tips_of(design, publication, drawing)
    unproved = tuple(_unproved(design, d) for d in prove(publication, drawing))
    precuts = () if problems else from_precuts(design.measure, needs)
    faults = [*cloth_faults(design, publication, needs)]
    faults += [fault for found in precuts for fault in precut_faults(found)]
    short = tuple(_faulty(design, fault) for fault in faults)
    values = readings(design, neighbours(publication, drawing))
    unmet = (*demanded(design, tips), *demanded_values(design, values))
    problems = (*problems, *unproved, *unmet, *(() if problems else short))
    if problems:
        return None, problems
    check = seam_check(design, publication, tips)
    skill = skill_of(publication, drawing, check)
    met = meetings(publication)
    sized = Sized(
        design,
        publication,
        drawing,
        needs,
        precuts,
        instructions(design, publication, met),
        (
            *facts_of(design, publication, needs),
            *precut_facts(design, precuts),
            *tip_facts(design, publication, tips),
            *seam_facts(design, publication, check),
            *skill_facts(design, publication, skill),
            *nesting_facts(design, publication, met),
            *value_facts(design, values),
        ),
        tips,
        check,
        skill,
        met,
        values,
    )
    return sized, ()


def _unproved(design: Design, disagreement: Disagreement) -> Problem:
    """What the bench could not sew, as a problem at the unit or block it concerns."""
    name = disagreement.where.removesuffix(SET_B).removesuffix(MIRRORED)
    part = design.units.get(name) or design.blocks.get(name)
    return Problem(
        part.at.here if part is not None else design.at.here,
        "not-proved",
        show_disagreement(disagreement),
        "pieces that sew together to what is drawn",
        "nothing was published; the sizes above say where the two sides part",
    )


def _faulty(design: Design, fault: str) -> Problem:
    return Problem(
        design.at.here,
        "cloth-not-proved",
        fault,
        "cloth that is enough for every piece of the cutting list",
        "nothing was published; the cutting list and the cloth do not agree",
    )


def _once(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Each problem once, in the order of the file."""
    return tuple(sorted(set(problems)))
