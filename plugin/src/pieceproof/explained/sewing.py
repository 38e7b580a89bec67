"""Problems of making: what cannot be cut, sewn or proved as designed."""

from pieceproof.explained.explanation import Explained, Topic

SEWING = Topic(
    "Cutting and sewing",
    {
        "backing-cloth": Explained(
            "The cloth named for the back is narrower than any whole cloth.",
            "backing: {fabric: back, usable width: 10}",
            "backing: {fabric: back, usable width: 106}",
            "Write what is left of the cloth's width without the selvages, or delete the key.",
        ),
        "backing-seam": Explained(
            "The seam allowance of the back's joins is too deep for its widths.",
            "backing: {fabric: back, seam: 6}",
            "backing: {fabric: back, seam: 1/2}",
            "Write a smaller one, or delete it for the usual one.",
        ),
        "binding-too-narrow": Explained(
            "A binding has to reach round the edge and cover the seam on the back: more than six "
            "seam allowances folded double, more than four folded single.",
            "binding: {fabric: edge, cut width: 1 1/2}",
            "binding: {fabric: edge, cut width: 2 1/4}",
            "Write a cut width of at least what the message names.",
        ),
        "binding-too-short": Explained(
            "The joining of a binding's two ends takes its own width.",
            "binding: {fabric: edge, extra: 1}",
            "binding: {fabric: edge, extra: 10}",
            "Delete `extra` for the usual one, or write a larger one.",
        ),
        "cannot-be-cut": Explained(
            "A piece is larger than the cloth in every direction, or no plan holds it.",
            "size: 60 x 60  # from cloth 40 wide",
            "",
            "Change the size where the piece is designed, or divide the patch.",
        ),
        "cannot-make": Explained(
            "The method cannot make this unit at this size: its geometry asks for something else.",
            "method: flying geese\nsize: 4 x 3",
            "method: flying geese\nsize: 4 x 2",
            "Use the size or the method that the message names.",
        ),
        "cloth-not-proved": Explained(
            "The cutting plan and the second count of its pieces do not agree. This is a mistake "
            "of the program, not of yours; nothing was published.",
            "",
            "",
            "Report the pattern's file with the message.",
        ),
        "kits-not-proved": Explained(
            "The plan for a batch of kits does not hold every piece of the batch. Nothing was "
            "published of it.",
            "",
            "",
            "Change the batch or the width of its cloth; report it if the message makes no sense.",
        ),
        "mitre-too-short": Explained(
            "The strips of a mitred border must run beyond its corners, to leave a seam allowance "
            "at both mitres.",
            "- {style: mitred, fabric: edge, width: 3, extra: 1/4}",
            "- {style: mitred, fabric: edge, width: 3, extra: 2}",
            "Write a larger `extra`, or delete it for the usual one.",
        ),
        "not-proved": Explained(
            "The published pieces were sewn by the published steps on the bench, and what came off "
            "is not what is drawn. This is a mistake of the program; nothing was published.",
            "",
            "",
            "Report the pattern's file with the message, which says where the two sides part.",
        ),
        "off-the-ruler": Explained(
            "A piece is cut or trimmed exactly at its size, and that size is not on the ruler: "
            "1/8 in, or 1 mm. Rounding it would make everything beside it fit less well.",
            "size: 4 1/16 x 2 1/2",
            "size: 4 x 2 1/2",
            "Use one of the two finished sizes that the message names.",
        ),
        "pressed-no-seam": Explained(
            "`pressing` names a seam that the block, unit or setting does not have.",
            "pressing:\n  mill: {row 3: left}  # of two rows",
            "pressing:\n  mill: {row 2: left}",
            "Use one of the seams that the message lists, or delete the line.",
        ),
        "pressed-nothing": Explained(
            "`pressing` names something without seams to choose for.",
            "pressing:\n  mil: {between: down}",
            "pressing:\n  mill: {between: down}",
            "Name a block, a unit pressed to the dark or sewn by marks, or `setting`.",
        ),
        "pressed-otherwise": Explained(
            "A seam cannot be pressed that way: upright seams go left or right, level ones up or "
            "down, and only some can be spun or pressed open.",
            "pressing:\n  mill: {between: left}",
            "pressing:\n  mill: {between: down}",
            "Use one of the words that the message lists, or delete the line to leave it free.",
        ),
        "sleeve-too-short": Explained(
            "A hanging sleeve is shortened by more than the top is wide.",
            "sleeve: {fabric: back, shorter: 40}",
            "sleeve: {fabric: back, shorter: 2}",
            "Write a smaller `shorter`, or leave the sleeve out of this size.",
        ),
        "tip-too-near": Explained(
            "`tips` demands room between every tip and its seam line, and this unit gives less.",
            "tips: {least: 1/4}",
            "corners:\n  bottom left: {fabric: wing, leg: 2 1/4}",
            "Do what the message says, which is worked out for the unit, or demand less.",
        ),
    },
)
