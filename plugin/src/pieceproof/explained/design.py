"""Problems of a design: names, counts and sizes that do not go together."""

from pieceproof.explained.explanation import Explained, Topic

DESIGN = Topic(
    "The design",
    {
        "border-does-not-fit": Explained(
            "The units of a pieced border do not fill its sides: the side inside it is not a whole "
            "number of units long.",
            "borders:\n  - {style: pieced, units: [sawtooth], corners: ground}",
            "borders:\n  - {fabric: ground, width: 1 1/2}\n"
            "  - {style: pieced, units: [sawtooth], corners: ground}",
            "Put a plain border of the width that the message names inside it, or change the unit.",
        ),
        "border-unit-size": Explained(
            "The units and corners of one border must be of one height.",
            "units: [low, high]",
            "units: [low]",
            "Change the size of the unit that differs.",
        ),
        "called-twice": Explained(
            "Two fabrics, cloths, colourways or sizes are called alike, and customers would mix "
            "them up.",
            "ground: {called: background}\nsky: {called: background}",
            "ground: {called: background}\nsky: {called: sky}",
            "Change one of the two.",
        ),
        "colourway-gap": Explained(
            "A colourway does not say which cloth plays one of the fabrics.",
            "parts: {ground: mist}",
            "parts: {ground: mist, wing: slate}",
            "Add a cloth for every fabric under `parts`.",
        ),
        "coping-off-the-ruler": Explained(
            "A coping round would need strips of a width that is not on the ruler.",
            "to: 30 1/8 x 30",
            "to: 30 1/4 x 30",
            "Use the size that the message names.",
        ),
        "coping-too-small": Explained(
            "A coping round is to reach a size that is not larger than what it goes round.",
            "to: 12 x 12",
            "to: 14 x 14",
            "Write a larger size, or delete the round.",
        ),
        "endless-grid": Explained(
            "A block or grid contains itself, by way of others or at once.",
            "star: {rows: [[star]]}",
            "star: {rows: [[point]]}",
            "Put something smaller there.",
        ),
        "fabric-in-border": Explained(
            "A bare fabric among the units of a border does not say how long its place is.",
            "units: [sawtooth, ground]",
            "units: [sawtooth, spacer]",
            "Make it a unit by the method `plain patch`, with its size.",
        ),
        "lengths-count": Explained(
            "`columns` or `heights` does not hold one length for each column or row.",
            "rows: [[a, b, c]]\ncolumns: [2, 4]",
            "rows: [[a, b, c]]\ncolumns: [2, 4, 2]",
            "Write one length for each, or delete the key where units give the sizes.",
        ),
        "name-clash": Explained(
            "One name is given to two things that both stand in rows of cells.",
            "fabrics: {star: ...}\nblocks: {star: ...}",
            "fabrics: {starlight: ...}\nblocks: {star: ...}",
            "Give one of them another name, in its list and where it is used.",
        ),
        "not-square": Explained(
            "Blocks on point must be square, because each fits on every side of its neighbours.",
            "rows: [[brick]]",
            "rows: [[star]]",
            "Make the block square, for instance with a strip along it.",
        ),
        "ragged-rows": Explained(
            "The rows of a grid do not hold equally many cells.",
            "rows: [[a, b], [a]]",
            "rows: [[a, b], [b, a]]",
            "Fill the short row, or shorten the long one.",
        ),
        "round-does-not-fit": Explained(
            "The units of a round do not fill the sides of what is inside it.",
            "rounds:\n  - {round: pieced, unit: point, corners: ground}",
            "rounds:\n  - {round: coping, fabric: ground, to: 12 x 12}\n"
            "  - {round: pieced, unit: point, corners: ground}",
            "Put a coping round inside it that reaches the size the message names.",
        ),
        "row-too-short": Explained(
            "In a setting with rows of their own, one row is shorter than the others.",
            "rows: [{cells: [a, b]}, {cells: [a]}]",
            "rows: [{cells: [a, b]}, {cells: [a], coping: ground}]",
            "Add cells, spacers or `coping` strips that make up the length.",
        ),
        "size-unknown": Explained(
            "A row or column holds only fabrics, so nothing says how large it is.",
            "rows: [[ground, wing]]",
            "rows: [[ground, wing]]\ncolumns: [2, 2]\nheights: [2]",
            "Put a unit into it, or write `columns` or `heights`.",
        ),
        "sizes-differ": Explained(
            "Two cells of one row or column have finished sizes that differ, so they cannot be "
            "sewn together.",
            "rows: [[point, post]]  # 4 high and 3 high",
            "rows: [[point, tall post]]",
            "Change a unit by the difference that the message names, or place another one.",
        ),
        "tips-cut-off": Explained(
            "A setting on point is trimmed so far that tips of its blocks would be lost.",
            "trim to: 34 x 34",
            "trim to: 34 1/2 x 34 1/2",
            "Write the size that the message names, or delete `trim to`.",
        ),
        "too-many-patches": Explained(
            "The design has more patches than a quilt; usually a count has a digit too many.",
            "across: 1000",
            "across: 10",
            "Check `across` and `down`, and grids inside grids.",
        ),
        "too-many-units": Explained(
            "A border has more units on a side than makes sense.",
            "units: [bead]",
            "units: [ten beads]",
            "Check the unit's size, or join several into a block and repeat that.",
        ),
        "two-sashings": Explained(
            "Blocks have either plain strips between them or units.",
            "sashing: {...}\npieced sashing: {...}",
            "pieced sashing: {...}",
            "Delete one; plain cornerstones go with pieced sashes too.",
        ),
        "undeclared": Explained(
            "A name is used that is declared nowhere.",
            "rows: [[pont]]",
            "rows: [[point]]",
            "Mend the spelling, or declare the name first.",
        ),
        "unused": Explained(
            "Something is declared and used nowhere, so a customer would buy or cut it for nothing "
            "or a part of the design was forgotten.",
            "fabrics: {ground: ..., spare: ...}",
            "fabrics: {ground: ...}",
            "Use it or delete it.",
        ),
        "wide-backing-shared": Explained(
            "Extra-wide cloth for the back is a bolt of its own, so no other part can be cut "
            "from it.",
            "backing: {fabric: ground, usable width: 106}",
            "backing: {fabric: back, usable width: 106}",
            "Declare a fabric for the back alone, or delete `usable width`.",
        ),
    },
)
