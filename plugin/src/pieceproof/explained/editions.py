"""Problems of facts files, of what is promised about them, and of editions."""

from pieceproof.explained.explanation import Explained, Topic

EDITIONS = Topic(
    "Facts, promises and editions",
    {
        "bad-date": Explained(
            "A day is written out, so that nobody has to guess which number is the month.",
            "date: 5/10/26",
            "date: 5 October 2026",
            "Write the day, the whole month and the year.",
        ),
        "bad-edition": Explained(
            "An edition is two numbers: designs before the point, corrections behind it.",
            "edition: second",
            "edition: 2.0",
            "Write `1.0` for a new pattern, `1.1` for its first correction.",
        ),
        "erratum-as-before": Explained(
            "An erratum says that a fact was what it still is, so it would correct nothing.",
            "was: 3 x 78  # and it is 3 x 78",
            "was: 3 x 77 1/2",
            "Write what was printed in the earlier edition, or delete the erratum.",
        ),
        "erratum-edition": Explained(
            "An erratum belongs to the edition that puts it right: after the first, and not after "
            "the present one.",
            "release: {edition: 1.1, errata: [{edition: 1.2, ...}]}",
            "release: {edition: 1.2, errata: [{edition: 1.2, ...}]}",
            "Raise `edition` of the release, or mend that of the erratum.",
        ),
        "erratum-was": Explained(
            "What an erratum says was printed is not what the released facts say.",
            "was: 3 x 77",
            "was: 3 x 78",
            "Write what was printed; name the sizes with `sizes` if they differ.",
        ),
        "facts-missing": Explained(
            "A size has no facts file. The file is committed so that a reviewer reads every number "
            "that changes.",
            "",
            "",
            "Run `pieceproof facts`, read the new file and commit it.",
        ),
        "facts-orphan": Explained(
            "A facts file belongs to a size that the pattern does not have.",
            "facts-huge.txt",
            "",
            "Run `pieceproof facts`, which deletes it, or bring the size back.",
        ),
        "facts-stale": Explained(
            "A number of the pattern is no longer what the committed facts say.",
            "",
            "",
            "If the change is meant, run `pieceproof facts`, read every changed line and commit. "
            "If not, undo the change in the pattern.",
        ),
        "not-a-fact": Explained(
            "A line under `expect` or `measured` is not written as facts are.",
            "- the width is 37",
            "- finished size, width = 37",
            "Copy the line from a facts file and change what is behind the equals sign.",
        ),
        "not-as-expected": Explained(
            "A fact is not what somebody sewed, measured or worked out by hand. One of the two is "
            "wrong, and this is the moment to find out which.",
            "expect:\n  - {source: sewn, facts: [finished size, width = 36]}",
            "",
            "Measure or reckon again before you change either.",
        ),
        "release-back": Explained(
            "Customers hold a later edition than the one that the pattern states.",
            "edition: 1.0  # and 1.1 is kept",
            "edition: 1.1",
            "Write the edition that they hold or a later one.",
        ),
        "release-changed": Explained(
            "A published fact of a released pattern changed, and the pattern says nothing of it.",
            "",
            "",
            "Undo the change, or write a new edition with an erratum for each stage. "
            "`pieceproof compare release` lists what changed.",
        ),
        "release-no-erratum": Explained(
            "Somebody who holds the earlier edition would act on a fact that changed, and no "
            "erratum tells her.",
            "release: {edition: 1.1, errata: []}",
            'errata:\n  - {edition: 1.1, fact: "piece G, border, cut", was: 3 x 78}',
            "Add the erratum that the message shows.",
        ),
        "release-not-kept": Explained(
            "A pattern states an edition of which nothing is kept, so later changes could not be "
            "compared with it.",
            "release: {edition: 1.0, date: 22 June 2026}",
            "",
            "Run `pieceproof release` for the pattern and commit what it writes.",
        ),
        "release-step": Explained(
            "Finished sizes, seams, letters or sizes changed. What was cut and labelled for the "
            "old ones does not do for the new ones: it is another design.",
            "edition: 1.2",
            "edition: 2.0",
            "Count the edition up before the point.",
        ),
        "release-withdrawn": Explained(
            "A pattern that customers hold is a draft again.",
            "# release: {edition: 1.0, date: 22 June 2026}",
            "release: {edition: 1.0, date: 22 June 2026}",
            "Write `release` again. Delete the folder `released` if nobody ever bought it.",
        ),
        "unknown-fact": Explained(
            "`expect`, `measured` or an erratum names a fact that the pattern does not have.",
            "- finished widht = 37",
            "- finished size, width = 37",
            "Use the whole key as it stands in the facts file of the size.",
        ),
        "unknown-size": Explained(
            "`expect`, a trial or an erratum names a size that the pattern does not have.",
            "size: larg",
            "size: large",
            "Write the name that stands under `sizes`.",
        ),
    },
)
