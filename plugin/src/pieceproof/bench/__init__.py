"""The sewing bench: sews the published cut pieces by the published steps, exactly.

In: a `Publication` and the `Drawing` it must come out as. Out: every disagreement between them.
It starts from the cut pieces and never asks how their sizes were worked out: it shares nothing
with that side but exact numbers, plane geometry and the published data types.
"""

from pieceproof.bench.prove import prove
from pieceproof.bench.words import Disagreement, show_disagreement

__all__ = ["Disagreement", "prove", "show_disagreement"]
