"""Problems of how a pattern's file is written: characters, YAML, keys and values."""

from pieceproof.explained.explanation import Explained, Topic

FILE = Topic(
    "The writing of the file",
    {
        "anchor": Explained(
            "YAML can copy a part of a file with `&` and `*`. A copy hides where a number comes "
            "from, so a pattern writes every value where it is used.",
            "corners: *same",
            "corners: {bottom left: {fabric: wing, leg: 2 1/4}}",
            "Write the value out. What differs between sizes goes under `sizes`.",
        ),
        "bad-amount": Explained(
            "A sum of money or another plain number cannot be read.",
            "wage: twelve",
            "wage: 12.50",
            "Write digits, with a decimal point or a fraction.",
        ),
        "bad-cell": Explained(
            "A cell of a row is the name of a unit, block or fabric, then `mirrored` if it is, "
            "then its quarter turns clockwise.",
            "- [point 90 degrees]",
            "- [point turned 1]",
            "Write `turned 1`, `turned 2` or `turned 3`, and `mirrored` before it.",
        ),
        "bad-colour": Explained(
            "A colour is `#` and six digits or letters a to f. Without quotes YAML takes the `#` "
            "for the start of a remark.",
            "colour: slate blue",
            'colour: "#3b5166"',
            "Pick the colour in a drawing program and copy its code, in quotes.",
        ),
        "bad-count": Explained(
            "A count is a whole number.",
            "across: 3 blocks",
            "across: 3",
            "Write the number in digits, without a unit.",
        ),
        "bad-key": Explained(
            "Brackets or a question mark stand where a key should.",
            "? [fabric]: ground",
            "fabric: ground",
            "Write the key as a plain word; put values after the colon.",
        ),
        "bad-length": Explained(
            "A length is written as on a ruler: whole number, then fraction. Its unit is the "
            "pattern's `measure` and is not written again.",
            'width: 2.5"',
            "width: 2 1/2",
            "Write digits only, and a space between the whole number and the fraction.",
        ),
        "bad-name": Explained(
            "Names of fabrics, units, blocks, cloths and sizes are used in other places of the "
            "file and in facts, so their spelling is kept plain.",
            "Star_1: {method: plain patch}",
            "star 1: {method: plain patch}",
            "Use small letters, digits, single spaces or hyphens, a letter first.",
        ),
        "bad-place": Explained(
            "A point of a unit is told by how far it is from the left and from the top side.",
            "peak: 2, 3",
            "peak: 2 across 3 down",
            "Write the distance from the left, `across`, the distance from the top, `down`.",
        ),
        "bad-size": Explained(
            "A size is width x height, both finished.",
            "size: 4 by 2 1/2",
            "size: 4 x 2 1/2",
            "Write two lengths with the letter x between them.",
        ),
        "control-character": Explained(
            "An invisible character is in the text, often from copying out of a document.",
            "name: Heron\\u200eLanding",
            "name: Heron Landing",
            "Delete it and type the text around it again.",
        ),
        "duplicate-key": Explained(
            "A key stands twice in one place, so one of its two values would be lost.",
            "width: 2\nwidth: 3",
            "width: 3",
            "Delete one of the two, or give it another name.",
        ),
        "empty-file": Explained(
            "The file holds no pattern.",
            "# to do",
            "name: Low Water",
            "Start a pattern with `pieceproof new`, or copy one.",
        ),
        "empty-value": Explained(
            "A key has no value.",
            "fabric:",
            "fabric: ground",
            "Write the value behind the colon, or delete the key if it may be left out.",
        ),
        "file-too-large": Explained(
            "A file is far larger than a pattern, its prose or a picture for a page can be.",
            "pattern.yaml of 900 kilobytes",
            "",
            "Check that the right file was saved here; make pictures ready for a page.",
        ),
        "fixed-key": Explained(
            "A size states something that is the same for all sizes, such as the name or the "
            "seam allowance.",
            "sizes:\n  large: {label: Large, seam: 3/8}",
            "seam: 3/8\nsizes:\n  large: {label: Large}",
            "Move it to the left margin, where it holds for all sizes.",
        ),
        "folder-name": Explained(
            "A pattern's folder names its page, so it is spelled as addresses are.",
            "patterns/Heron Landing/",
            "patterns/heron-landing/",
            "Rename the folder: small letters, digits and single hyphens.",
        ),
        "listed-twice": Explained(
            "The shop's book of cloth and prices lists one thing twice.",
            "bolts:\n  mist: ...\n  mist: ...",
            "bolts:\n  mist: ...",
            "Delete one of the two, or put what they say into one.",
        ),
        "missing-key": Explained(
            "Something that cannot be worked out is not stated.",
            "point: {method: stitched corners, fabric: ground}",
            "point: {method: stitched corners, fabric: ground, size: 4 x 2 1/2}",
            "Add the key that the message names.",
        ),
        "new-in-size": Explained(
            "A size changes a unit or block that the pattern does not have. Sizes only change; "
            "they add nothing.",
            "sizes:\n  large: {label: Large, units: {peak: {size: 5}}}",
            "units:\n  peak: {method: half-square triangles, size: 4}",
            "Add the unit or block at the left margin first, or mend the spelling.",
        ),
        "no-keys": Explained(
            "Text or a list stands where a pattern should start.",
            "Low Water, a table runner",
            "name: Low Water\nkind: table runner",
            "Give each value its key, a colon and a space.",
        ),
        "no-pattern-file": Explained(
            "Every folder of patterns holds one file `pattern.yaml`; this one does not.",
            "patterns/low-water/patern.yaml",
            "patterns/low-water/pattern.yaml",
            "Rename or write the file, or move the folder elsewhere.",
        ),
        "no-sizes": Explained(
            "`sizes` names no size. A pattern with one size has no `sizes`.",
            "sizes: {}",
            "sizes:\n  large: {label: Large}",
            "Name a size with its `label`, or delete `sizes`.",
        ),
        "not-a-plain-file": Explained(
            "A pattern is complete in its folder; links out of it are not followed.",
            "swatch.png -> ../photos/swatch.png",
            "",
            "Put a copy of the file into the folder, or delete the link.",
        ),
        "not-utf-8": Explained(
            "The file is not stored in UTF-8, so letters beyond English are not certain.",
            "name: Caf\\xe9 Mats",
            "",
            'Save the file again with the encoding "UTF-8", then look at the character.',
        ),
        "reserved-name": Explained(
            "The name means a part of the quilt, or how a cell lies, and cannot be given to "
            "something else.",
            "blocks:\n  top: {rows: [[point]]}",
            "blocks:\n  star: {rows: [[point]]}",
            "Choose another name, in the list and where it is used.",
        ),
        "several-documents": Explained(
            "A line `---` starts a second document; a file holds one pattern.",
            "---",
            "",
            "Delete the line, or give the second pattern a folder of its own.",
        ),
        "syntax": Explained(
            "YAML cannot read the file from this place on: a colon without a space, a bracket or "
            "quote that is never closed, a line that is indented by mistake.",
            "fabric:ground",
            "fabric: ground",
            "Look at the place and at the line above it. A text with special signs goes in quotes.",
        ),
        "tab": Explained(
            "A tab has no fixed width, and YAML reads indentation by width.",
            "units:\n\\tpoint:",
            "units:\n  point:",
            "Replace each tab by two spaces; most editors can be told to do that.",
        ),
        "tag": Explained(
            "A word that starts with `!` is an instruction to YAML. Patterns have none.",
            "name: !low water",
            'name: "!low water"',
            "Delete the word, or put the whole value in quotes.",
        ),
        "text-too-long": Explained(
            "A text is longer than its place on the page.",
            "called: the background, which is the light fabric of which ...",
            "called: background",
            "Shorten it. Longer prose goes into `prose.md`.",
        ),
        "too-deep": Explained(
            "Lists or keys are inside one another more often than any pattern needs.",
            "rows: [[[[[[[[[[[[[point]",
            "rows: [[point]]",
            "Look for brackets that are never closed.",
        ),
        "too-few": Explained(
            "A list or mapping has fewer entries than make sense.",
            "rows: []",
            "rows: [[point]]",
            "Write at least as many as the message says.",
        ),
        "too-long": Explained(
            "The file holds thousands of values.",
            "rows: [[a, a, a, a, ...]]",
            "rows: [[a]]\nacross: 12",
            "Repeat rows by `across` and `down` instead of writing each one out.",
        ),
        "too-many": Explained(
            "A list or mapping has more entries than make sense.",
            "sizes: thirteen of them",
            "",
            "Delete some, or split the pattern.",
        ),
        "too-many-files": Explained(
            "The folder holds more texts and pictures than one pattern has.",
            "patterns/low-water/ with 300 photographs",
            "",
            "Move what does not belong to the pattern elsewhere.",
        ),
        "unknown-choice": Explained(
            "The word that chooses a method, a layout, a round or a style of border is not known.",
            "method: half square triangle",
            "method: half-square triangles",
            "Use one of the words that the message lists.",
        ),
        "unknown-key": Explained(
            "A key is not known in this place: misspelt, or at the wrong depth.",
            "fabrik: ground",
            "fabric: ground",
            "Mend the spelling or move the key. The format reference lists every key.",
        ),
        "unknown-value": Explained(
            "A value is not one of the words that are allowed here.",
            "value: lightish",
            "value: light",
            "Use one of the words that the message lists.",
        ),
        "wrong-type": Explained(
            "A text stands where keys or a list belong, or the other way round. Often a pair of "
            "brackets is missing: a grid is a list of rows, and a row is a list of cells.",
            "rows: [point, heart]",
            "rows: [[point, heart]]",
            "Write it in the form that the message shows.",
        ),
    },
)
