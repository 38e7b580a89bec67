"""How many cuts one cloth takes until all pieces of its cutting list lie there.

In: a publication, a group of fabrics, what their cloth is cut into. Out: counts by kind,
one layer at a time. What is cut apart while sewing, as the steps say, is not counted, and neither
are a binding's two last ends, which are joined to fit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import astuple, dataclass

from quicktions import Fraction

from pieceproof.backs import BackPlan
from pieceproof.cutting.cuts import end_count, trim_count
from pieceproof.cutting.plan import Joined, Plan, cross_cuts, strip_count
from pieceproof.demands import BINDING, Group
from pieceproof.fussy import Fussy
from pieceproof.published import Publication
from pieceproof.template_cuts import cuts_around


@dataclass(frozen=True, slots=True)
class Cuts:
    """Cuts by kind, in the order in which they are made.

    ``lengths`` are those of the whole width, for a back or for motifs. ``selvages`` are cut off
    the lengths of a back that is sewn from several, and ``backs`` divides them lengthwise.
    ``motifs`` are the cuts around pieces that show a motif, ``templates`` those along templates.
    ``join_ends`` trues ends of strips that are joined, ``joins`` trims what is joined on the
    diagonal, ``runs`` cuts what is joined to its lengths, and ``bias`` makes a square into a strip.
    """

    squaring: int
    lengths: int
    selvages: int
    backs: int
    motifs: int
    strips: int
    ends: int
    across: int
    trims: int
    templates: int
    join_ends: int
    joins: int
    runs: int
    bias: int

    @property
    def total(self) -> int:
        """All cuts."""
        return sum(astuple(self))


def cuts_of(
    publication: Publication,
    group: Group,
    plan: Plan,
    back: BackPlan | None,
    motifs: Sequence[Fussy],
) -> Cuts:
    """All cuts of the cloth that a group of fabrics is cut from."""
    pieces = (piece for piece in publication.pieces if piece.fabric in group)
    return Cuts(
        squaring=1,
        lengths=(back.lengths if back else 0) + len(motifs),
        selvages=2 * back.lengths if back and back.panels > 1 else 0,
        backs=_divisions(back, publication.quantity) if back else 0,
        motifs=4 * sum(motif.count for motif in motifs),
        strips=strip_count(plan),
        ends=end_count(plan),
        across=cross_cuts(plan),
        trims=trim_count(plan),
        templates=sum(piece.count * cuts_around(piece) for piece in pieces),
        join_ends=sum(_ends_to_join(run, plan.width) for run in plan.joined),
        joins=sum(run.strips - 1 for run in plan.joined if run.join == "diagonal"),
        runs=sum(_lengths_cut(run) for run in plan.joined),
        bias=2 * _bias_bindings(publication, group),
    )


def _divisions(back: BackPlan, tops: int) -> int:
    """Panels cut in half, or backs that lie side by side on a length cut from each other."""
    return tops * back.halved if back.panels > 1 else tops - back.lengths


def _ends_to_join(run: Joined, width: Fraction) -> int:
    """Ends of whole strips that meet in a straight join, and the end that lengths are cut from.

    A last part that is cut from another strip has two true ends, and lengths are cut from there.
    """
    last = run.run - (run.strips - 1) * (width - run.loss)
    outer = 0 if run.letter == BINDING or last < width else 1
    if run.join == "diagonal":
        return outer
    return 2 * (run.strips - 1) - (last < width) + outer


def _lengths_cut(run: Joined) -> int:
    """One cut behind each length; none behind the last where nothing is left, or of a binding."""
    ends_there = run.letter == BINDING or run.run == run.count * run.length
    return run.count - ends_there


def _bias_bindings(publication: Publication, group: Group) -> int:
    """Squares, each cut once into triangles and, when it is a tube, once along its line."""
    binding = publication.binding
    is_here = binding is not None and binding.square is not None and binding.fabric in group
    return publication.quantity if is_here else 0
