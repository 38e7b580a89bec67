"""Problems of a pattern's prose: numbers, names, headings, links and pictures."""

from pieceproof.explained.explanation import Explained, Topic

PROSE = Topic(
    "The prose",
    {
        "prose-abbreviation": Explained(
            "An abbreviation is not explained where it stands first.",
            "Press the HST open.",
            "Press the half-square triangle (HST) open.",
            "Write the words in full with the abbreviation behind them, or the words alone.",
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
            "The prose names a cloth or colourway. In another colourway the words would be false.",
            "Cut the Morning Mist first.",
            "Cut the background first.",
            "Write which part it plays, or `{=Morning Mist}` if you mean the name itself.",
        ),
        "prose-colour": Explained(
            "A colour stands where a part's name belongs. In another colourway the words would be "
            "false.",
            "Sew the red strip on.",
            "Sew the border strip on.",
            "Write which part it is, or `{=red strip}` if it is true of all colourways.",
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
            "A letter in the prose is no piece of the pattern, belongs to another part, or comes "
            "with a number that is not its count.",
            "Take four of Q.",
            "Take four of C.",
            "Look the piece up in the cutting list, or write `{=Q}` if it is no piece.",
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
            "A number in the prose is no number of the pattern, or not of what the sentence speaks "
            "of. Written by hand it would stay as it is when the pattern changes.",
            'Trim to 4 3/8".',
            'Trim to {unit point, unfinished}".',
            "Cite the fact that you mean. What has nothing to do with the pattern is written in "
            "words.",
        ),
        "prose-number-unclear": Explained(
            "A number in the prose is right for several things of the pattern, and the sentence "
            "names none of them. Nobody can tell whether it still holds when one of them changes.",
            'Cut some 2 1/2" wide.',
            "Cut the border {piece F, cut}.",
            "Cite the fact that you mean, or name the part, piece or unit in the sentence.",
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
            "Sew it to the left side.",
            "Sew it next to the star's centre, as the picture shows.",
            "Write next to what it lies, or `{=left}` if the side itself is meant.",
        ),
        "prose-term": Explained(
            "A thing of the trade is spelled otherwise than in the shop's other patterns.",
            "Press the selvedge.",
            "Press the selvage.",
            "Write it as the message says.",
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
