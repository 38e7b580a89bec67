"""Problems of a pattern's prose: numbers, names, headings, links and pictures."""

from pieceproof.explained.explanation import Explained, Topic

PROSE = Topic(
    "The prose",
    {
        "prose-abbreviation": Explained(
            "An abbreviation stands in the prose before it has been explained.",
            "Sew the HSTs first.",
            "Sew the half-square triangles (HST) first.",
            "Write the words in full where it stands first, with the abbreviation behind them.",
        ),
        "prose-ambiguous-fact": Explained(
            "A short form of a fact's key fits several facts.",
            "Cut {width}.",
            "Cut {block star, unfinished, width}.",
            "Write more of the key.",
        ),
        "prose-brace": Explained(
            "An opening brace has no closing one, so it is not clear which fact is meant.",
            "Make {unit point, make of them.",
            "Make {unit point, make} of them.",
            "Close the brace. Where you mean the brace itself, write `\\{`.",
        ),
        "prose-cloth": Explained(
            "The prose names a cloth or a colourway. A reader who sews another one does not "
            "have it.",
            "Morning Mist frames the stars.",
            "The background frames the stars.",
            "Say which part the cloth plays, or put braces and an equals sign round the name "
            "if the name itself is meant.",
        ),
        "prose-colour": Explained(
            "A colour stands where a part of the quilt is meant. In another colourway it is "
            "another colour.",
            "Sew the red strip to the centre.",
            "Sew the border to the centre.",
            "Say which part the strip belongs to.",
        ),
        "prose-control-character": Explained(
            "An invisible character is in the text, often from copying out of a document.",
            "Press\\u200b well.",
            "Press well.",
            "Delete it and type the text around it again.",
        ),
        "prose-fact-not-in-size": Explained(
            "All sizes share the prose, and one of them does not have the fact that is cited.",
            "Sew {border 2, width} round it.",
            "Sew the border round it.",
            "Cite a fact of every size, or write the sentence without it.",
        ),
        "prose-heading": Explained(
            "The page's title is the pattern's name. Sections begin with `##` at the left margin.",
            "# Heron Landing",
            "## Before you start",
            "Delete the title, or write the heading with two `#` or more.",
        ),
        "prose-html": Explained(
            "The text looks like HTML, which is not used in prose.",
            "Press <b>open</b>.",
            "Press **open**.",
            "Write it in Markdown. A plain less-than sign needs a space after it.",
        ),
        "prose-image": Explained(
            "A picture is not in the pattern's folder, or no words say what it shows.",
            "![](detail.png)",
            "![A star laid out beside the machine](detail.png)",
            "Put the file beside `prose.md` and describe it for readers who cannot see it.",
        ),
        "prose-letter": Explained(
            "A letter in the prose is not the letter of that part in the cutting list.",
            "Lay the star points (A) on them.",
            "Lay the star points (B) on them.",
            "Write the letter that the cutting list gives to the part, or cite it.",
        ),
        "prose-link": Explained(
            "A link leads to a place that does not exist or that a page must not open.",
            "[cutting](cutting.html)",
            "[cutting](#cutting)",
            "Link to a place on the page, a file of the pattern or an `https://` address.",
        ),
        "prose-not-utf-8": Explained(
            "The prose is not stored in UTF-8, so letters beyond English are not certain.",
            "caf\\xe9",
            "",
            'Save the file again with the encoding "UTF-8", then look at the character.',
        ),
        "prose-number": Explained(
            "A number in the prose is no number of the pattern. Written by hand it would stay as "
            "it is when the pattern changes.",
            'Trim to 4 3/8".',
            'Trim to {unit point, unfinished}".',
            "Cite the fact that you mean. What has nothing to do with the pattern is written in "
            "words.",
        ),
        "prose-section": Explained(
            "A heading with two `#` names no section of the pattern's page.",
            "## Making points",
            "## Unit: point",
            "Choose one of the sections that the message lists, or use three `#`.",
        ),
        "prose-section-twice": Explained(
            "A section of the page stands twice in the prose.",
            "## Borders\n...\n## Borders",
            "## Borders",
            "Move the second text below the first one.",
        ),
        "prose-side": Explained(
            "Left, right and clockwise depend on the hand and on how the work lies.",
            "Press to the left.",
            "Press toward the border.",
            "Say next to what it lies, or which way its picture shows it.",
        ),
        "prose-term": Explained(
            "One thing has one name in all patterns, spelled alike.",
            "Trim the selvedges.",
            "Trim the selvages.",
            "Write the term that the message gives.",
        ),
        "prose-too-large": Explained(
            "The prose is longer than fifteen printed pages.",
            "prose.md of 300 kilobytes",
            "",
            "Check that the right file was saved here.",
        ),
        "prose-unknown-fact": Explained(
            "What stands between braces is no fact of the pattern.",
            "{unit pont, make}",
            "{unit point, make}",
            "Use the fact's key as it stands in a facts file, or a short form of it.",
        ),
    },
)
