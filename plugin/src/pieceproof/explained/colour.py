"""Problems and remarks about the colours of cloth."""

from pieceproof.explained.explanation import Explained, Topic

COLOUR = Topic(
    "Cloth and colour",
    {
        "audition-colourway": Explained(
            "An audition starts from a colourway that the pattern does not have.",
            "sky: {name: Sky, colourway: fgo, candidates: {ground: [mist]}}",
            "sky: {name: Sky, colourway: fog, candidates: {ground: [mist]}}",
            "Write the key of one of the colourways above.",
        ),
        "bad-lab": Explained(
            "A measured colour is three numbers: CIELAB lightness, then a, then b.",
            "lab: 52 18",
            "lab: 52 18 -7",
            "Write the three numbers that the instrument shows, with spaces between them.",
        ),
        "no-colour": Explained(
            "A cloth has no colour, so that it cannot be drawn.",
            "mist: {name: Morning Mist}",
            'mist: {name: Morning Mist, colour: "#b5532f"}',
            "Add its colour, or `lab` where it was measured.",
        ),
        "two-colours": Explained(
            "A cloth has both a colour for the screen and a measured one. The first is worked out "
            "from the second, so one of them would be wrong.",
            'mist: {name: Morning Mist, colour: "#ffbb55", lab: 52 18 -7}',
            "mist: {name: Morning Mist, lab: 52 18 -7}",
            "Keep the measured one.",
        ),
        "value-contrary": Explained(
            "By their values one part is lighter than its neighbour; in a colourway the cloths are "
            "the other way round. Words that say light and dark would mislead.",
            "wing: {called: star points, value: dark}",
            "wing: {called: star points, value: light}",
            "Change `value` if it is so in every colourway. Otherwise look at the picture in grey, "
            "and leave it if it is meant. It stops nothing.",
        ),
        "values-merge": Explained(
            "Two cloths that meet are as light as each other and not told apart by colour either, "
            "so that the shape between them is lost.",
            "parts: {ground: mist, wing: haze}",
            "parts: {ground: mist, wing: slate}",
            "Audition another cloth for one of them, or leave it if it is meant. It stops nothing.",
        ),
        "values-too-near": Explained(
            "The pattern demands a least difference in lightness, and two cloths that meet fall "
            "short of it.",
            "parts: {ground: mist, stripe: haze}",
            "parts: {ground: mist, stripe: slate}",
            "Take a lighter or a darker cloth for one of them.",
        ),
    },
)
