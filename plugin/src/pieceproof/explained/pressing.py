"""Problems of seams whose way the writer fixes."""

from pieceproof.explained.explanation import Explained, Topic

PRESSING = Topic(
    "Pressing",
    {
        "pressed-no-seam": Explained(
            "The unit or block has no such seam.",
            "blade: {row 1: left}",
            "blade: {seam: to the dark}",
            "Name one of the seams that the message lists, or delete the line.",
        ),
        "pressed-nothing": Explained(
            "Nothing of that name is pressed: it is no block, and no unit with seams of its own.",
            "pressing: {mil: {between: down}}",
            "pressing: {mill: {between: down}}",
            "Write the name of a block or unit, or `setting` for the rows of the top.",
        ),
        "pressed-otherwise": Explained(
            "That seam cannot be pressed so.",
            "blade: {seam: left}",
            "blade: {seam: to the dark}",
            "Take one of the ways that the message lists, or delete the line to have it worked "
            "out.",
        ),
    },
)
