"""Every code of a problem explained: what it means, an example, the remedy.

The command `explain` prints these texts and the handbook's reference of problems shows them.
"""

from collections.abc import Mapping

from pieceproof.explained.colours import COLOURS
from pieceproof.explained.design import DESIGN
from pieceproof.explained.editions import EDITIONS
from pieceproof.explained.explanation import Explained, Topic
from pieceproof.explained.file import FILE
from pieceproof.explained.prose import PROSE
from pieceproof.explained.sewing import SEWING

TOPICS: tuple[Topic, ...] = (FILE, DESIGN, COLOURS, SEWING, PROSE, EDITIONS)

EXPLAINED: Mapping[str, Explained] = {
    code: explained for topic in TOPICS for code, explained in topic.codes.items()
}
