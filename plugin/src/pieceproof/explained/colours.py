"""Problems of colours, values and auditions."""

from pieceproof.explained.explanation import Explained, Topic

COLOURS = Topic(
    "Colours and values",
    {
        "audition-colourway": Explained(
            "An audition plays all other parts in a colourway that the pattern does not have.",
            "auditions:\n  borders: {name: Borders, colourway: lowwater, ...}",
            "auditions:\n  borders: {name: Borders, colourway: low-water, ...}",
            "Use a name that stands under `colourways`, or delete the line.",
        ),
        "bad-lab": Explained(
            "A measured colour is three numbers: CIELAB lightness, a and b.",
            "lab: 52, 18, -7",
            "lab: 52 18 -7",
            "Write the three numbers that the instrument shows, with spaces between them.",
        ),
        "bad-swatch": Explained(
            "A photograph of a cloth cannot be used: it is no PNG or JPEG, too large, or damaged, "
            "or it would show a width of cloth that no photograph has.",
            "swatch: {file: mist.tiff, width: 4}",
            "swatch: {file: mist.png, width: 4}",
            "Save it again as a small PNG or JPEG in the pattern's folder.",
        ),
        "no-colour": Explained(
            "A cloth has neither a colour nor a measurement, so it cannot be drawn.",
            "mist: {name: Morning Mist}",
            'mist: {name: Morning Mist, colour: "#eceae1"}',
            "Add `colour`, or `lab` where the cloth was measured.",
        ),
        "no-swatch": Explained(
            "The photograph of a cloth is not in the pattern's folder.",
            "swatch: {file: mits.png, width: 4}",
            "swatch: {file: mist.png, width: 4}",
            "Put it beside `pattern.yaml` and write its name as it stands there.",
        ),
        "two-colours": Explained(
            "A cloth has a colour and a measurement. The colour on the screen is worked out from "
            "what was measured, so one of them would be ignored.",
            'mist: {name: Morning Mist, colour: "#eceae1", lab: 92 0 3}',
            "mist: {name: Morning Mist, lab: 92 0 3}",
            "Delete `colour`.",
        ),
        "value-contrary": Explained(
            "Two neighbours are lighter and darker by their `value`, and a colourway has them the "
            "other way round. Drawings in black and white would mislead.",
            "ground: {called: background, value: light}  # played by the darker cloth",
            "ground: {called: background, value: dark}",
            "Change `value` if every colourway has it so; leave it if the colourway is meant so.",
        ),
        "values-merge": Explained(
            "Two neighbours in a colourway are so near in lightness and in colour that the eye "
            "joins them from a distance.",
            "parts: {ground: mist, wing: shell}",
            "parts: {ground: mist, wing: slate}",
            "Audition another cloth for one of them, or leave it if it is meant.",
        ),
        "values-too-near": Explained(
            "`values` demands a difference of lightness between all neighbours, and a colourway "
            "gives less.",
            "values: {least: 20}",
            "",
            "Take a lighter or a darker cloth for one of them, or demand less.",
        ),
    },
)
