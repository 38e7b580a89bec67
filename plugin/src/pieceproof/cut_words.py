"""How many cuts one cloth takes, in words for facts, pages and cutting lists.

In: the cuts of a cloth. Out: a few words for each kind that there is, in cutting order.
"""

from __future__ import annotations

from pieceproof.cuts import Cuts


def cuts_by_kind(cuts: Cuts) -> tuple[str, ...]:
    """``1 to square the cloth``, ``3 for strips``; nothing of kinds that there are not."""
    ends = "to true an end of each" if cuts.ends == cuts.strips else "to true ends of strips"
    kinds = (
        (cuts.squaring, "to square the cloth"),
        (cuts.lengths, "for lengths of the whole width"),
        (cuts.selvages, "to take selvages off the back"),
        (cuts.backs, "to divide lengths of the back"),
        (cuts.motifs, "around motifs"),
        (cuts.strips, "for strips"),
        (cuts.ends, ends),
        (cuts.across, "across strips"),
        (cuts.trims, "to trim or divide segments"),
        (cuts.templates, "along templates"),
        (cuts.join_ends, "to true ends of strips that are joined"),
        (cuts.joins, "to trim diagonal joins"),
        (cuts.runs, "across joined strips"),
        (cuts.bias, "to make squares into bias strips"),
    )
    return tuple(f"{count} {words}" for count, words in kinds if count)


def cuts_sentence(cuts: Cuts) -> str:
    """``37 cuts: 1 to square the cloth, 3 for strips and 33 across strips.``"""
    *most, last = cuts_by_kind(cuts)
    if not most:
        return f"1 cut: {last}."
    return f"{cuts.total} cuts: {', '.join(most)} and {last}."
