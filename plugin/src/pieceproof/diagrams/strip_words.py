"""A cutting plan in words: strips, what each is cut into, what is joined.

In: a subject and parts of a plan. Out: short texts, the same beside the drawing and in its
description.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pieceproof.cutting.plan import Joined, Plan, Segment, Strip, strip_count, used_across
from pieceproof.diagrams.subject import Subject, called, length
from pieceproof.diagrams.words import counted, sentence, series
from pieceproof.fussy import Fussy


def heading(subject: Subject, strip: Strip) -> str:
    """``5 strips 2 1/2" wide``."""
    strips = "strip" if strip.count == 1 else "strips"
    return f"{strip.count} {strips} {length(subject, strip.height)} wide"


def sub_cuts(subject: Subject, plan: Plan, strip: Strip) -> str:
    """What one strip is cut into from the squared end on, and what is left of it."""
    joined = {run.letter for run in plan.joined}
    parts = [
        p for segment in strip.segments for p in _segment(subject, plan, strip, segment, joined)
    ]
    over = plan.width - used_across(strip)
    left = f"; {length(subject, over)} left" if over else ""
    each = "each " if strip.count > 1 else ""
    if not over and len(parts) == 1 and strip.segments[0].count == 1:
        return f"{each}left whole: {parts[0]}"
    return f"{each}into {series(parts)}{left}"


def motif_heading(subject: Subject, motifs: Fussy) -> str:
    """``Length of 16 5/8" for 8 A with motifs``."""
    whole = length(subject, motifs.length)
    return f"Length of {whole} for {motifs.count} {motifs.letter} with motifs"


def motif_cuts(subject: Subject, motifs: Fussy) -> str:
    """How many lie side by side, in how many rows, and what is spare."""
    taken = length(subject, (motifs.rows - 1) * motifs.apart_along + motifs.along)
    abreast = min(motifs.abreast, motifs.count)
    far = length(subject, motifs.apart_across)
    across = f"{abreast} side by side, {far} from middle to middle; " if abreast > 1 else ""
    along = f", {length(subject, motifs.apart_along)} apart," if motifs.rows > 1 else ""
    return (
        f"{across}{counted(motifs.rows, 'row')}{along} "
        f"{'take' if motifs.rows > 1 else 'takes'} {taken}; hatched: one repeat "
        f"more, {length(subject, motifs.repeat_along)}, wherever the shop cuts"
    )


def run_heading(joined: Joined) -> str:
    """``Join 8 strips of G``."""
    return f"Join {joined.strips} strips of {joined.letter}"


def run_cuts(subject: Subject, joined: Joined) -> str:
    """How strips are joined and what is cut from the run."""
    over = joined.run - joined.count * joined.length
    left = f"; {length(subject, over)} left" if over else ""
    return (
        f"{joined.join} seams, {length(subject, joined.run)} in all; "
        f"cut {joined.count} {joined.letter} at {length(subject, joined.length)}{left}"
    )


def told(subject: Subject, fabrics: Sequence[str], plan: Plan, motifs: Sequence[Fussy]) -> str:
    """The whole plan."""
    names = series(called(subject, fabric) for fabric in fabrics)
    in_all = f", {counted(strip_count(plan), 'strip')} in all" if plan.strips else ""
    sentences = [
        f"{names}, {length(subject, plan.width)} of usable width{in_all}",
        *(f"{motif_heading(subject, m)}: {motif_cuts(subject, m)}" for m in motifs),
        *(f"{heading(subject, s)}, {sub_cuts(subject, plan, s)}" for s in plan.strips),
        *(f"{run_heading(run)}: {run_cuts(subject, run)}" for run in plan.joined),
    ]
    return " ".join(sentence(text) for text in sentences)


def _segment(
    subject: Subject, plan: Plan, strip: Strip, segment: Segment, joined: set[str]
) -> Iterator[str]:
    height = sum(cut.count * cut.along for cut in segment.cuts)
    for cut in segment.cuts:
        text = f"{segment.count * cut.count} {cut.letter}"
        if segment.length < plan.width:
            text += f" at {length(subject, segment.length)}"
        if height < strip.height or cut.along < strip.height:
            text += f" trimmed to {length(subject, cut.along)}"
        if cut.letter in joined:
            text += " to join"
        yield text
