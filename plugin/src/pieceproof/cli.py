"""The command line: check patterns, write their facts, print cutting lists, draw.

Reads the patterns folder and writes what it is told to write, whole or not at all. Results go to
standard output, problems to standard error. Exit status: 0 fine, 1 problems in patterns, 2 wrong
usage. MkDocs is not needed.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias

from pieceproof.booklet.editions import Edition, Paper
from pieceproof.booklet.press import copies_of, orders_of
from pieceproof.compile import Sized
from pieceproof.cutlist import cut_list_data, cut_list_text
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.subject import subject
from pieceproof.drawing.raster import to_png
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.folders import read_folders, replace_file
from pieceproof.lengths import parse_length
from pieceproof.methods import METHODS
from pieceproof.pressroom import CACHE, make_booklets, progress
from pieceproof.problems import nearest, show_problem
from pieceproof.schema import pattern_schema
from pieceproof.shelf import (
    Shelved,
    committed_facts,
    compile_folders,
    fact_texts,
    show_fact_problems,
    show_problems,
)

FINE, PROBLEMS, USAGE = 0, 1, 2
PICTURE_PX = 1200

Shelf: TypeAlias = Mapping[str, Shelved]


@dataclass(frozen=True)
class Outcome:
    """What a command has to say and which files it leaves behind."""

    status: int = FINE
    result: str = ""
    complaint: str = ""
    written: Mapping[Path, bytes] = field(default_factory=dict)
    removed: tuple[Path, ...] = ()


Command: TypeAlias = Callable[[argparse.Namespace, Shelf], Outcome]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status."""
    options = _parser().parse_args(arguments)
    outcome = _run(options)
    try:
        for path, content in outcome.written.items():
            replace_file(path, content)
        for path in outcome.removed:
            path.unlink()
    except OSError as error:
        outcome = _misused(f"cannot write {error.filename}: {error.strerror}")
    if outcome.result:
        print(outcome.result)
    if outcome.complaint:
        print(outcome.complaint, file=sys.stderr)
    return outcome.status


def _run(options: argparse.Namespace) -> Outcome:
    command: Command = options.command
    if not options.reads_patterns:
        return command(options, {})
    root: Path = options.patterns
    if not root.is_dir():
        return _misused(f"there is no folder {root}; say where the patterns are with --patterns")
    folders, problems = read_folders(root)
    wanted = options.slug or list(folders)
    unknown = [slug for slug in wanted if slug not in folders]
    if unknown:
        return _misused(_unknown("pattern", unknown[0], folders))
    shelf = compile_folders({slug: folders[slug] for slug in wanted}, {})
    outside = (p for p in problems if not options.slug or p.place.file.split("/")[1] in wanted)
    texts = [*(show_problem(p, "") for p in outside), *show_problems(shelf.values())]
    if texts:
        return Outcome(PROBLEMS, complaint="\n\n".join(texts))
    return command(options, shelf)


def _check(_options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """Say what is right, or which facts files are not."""
    stale = list(show_fact_problems(shelf.values()))
    if stale:
        return Outcome(PROBLEMS, complaint="\n\n".join(stale))
    counts = ((slug, len(shelved.pattern.sizes)) for slug, shelved in shelf.items())
    lines = (f"{slug}: proved in {count} size{'s' * (count > 1)}" for slug, count in counts)
    return Outcome(result="\n".join(lines))


def _facts(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """Write the facts files that differ and delete those of sizes that are gone."""
    written: dict[Path, bytes] = {}
    removed: list[Path] = []
    for slug, shelved in shelf.items():
        folder: Path = options.patterns / slug
        computed = {name: text.encode() for name, text in fact_texts(shelved).items()}
        committed = {name: shelved.folder[name] for name in committed_facts(shelved)}
        written |= {folder / n: data for n, data in computed.items() if committed.get(n) != data}
        removed += [folder / name for name in committed if name not in computed]
    lines = (*(f"wrote {path}" for path in written), *(f"deleted {path}" for path in removed))
    return Outcome(
        result="\n".join(lines) or "all facts are as they were",
        written=written,
        removed=tuple(removed),
    )


def _cutlist(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """One size's cutting list at one width."""
    sized, fault = _size(options, shelf)
    if sized is None:
        return fault
    widths = sized.requirements.usable_widths
    width = parse_length(options.width) if options.width else widths[0]
    if width not in widths:
        show = sized.design.measure.show
        return _misused(_unknown("planned width", options.width, [show(w) for w in widths]))
    if options.json:
        return Outcome(result=json.dumps(cut_list_data(sized, width), indent=2))
    return Outcome(result=cut_list_text(sized, width))


def _schema(_options: argparse.Namespace, _shelf: Shelf) -> Outcome:
    """The JSON Schema of pattern files."""
    return Outcome(result=json.dumps(pattern_schema(METHODS), indent=2))


def _draw(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """One drawing as SVG or PNG."""
    path: Path = options.output
    if path.suffix not in (".svg", ".png"):
        return _misused(f"{path}: write to a file that ends in .svg or .png")
    sized, fault = _size(options, shelf)
    if sized is None:
        return fault
    scenes = plates(subject(sized.design, sized.publication, sized.drawing))
    if options.which not in scenes:
        return _misused(_unknown("drawing", options.which, scenes))
    colourways = sized.design.colourways
    colourway = options.colourway or next(iter(colourways))
    if colourway not in colourways:
        return _misused(_unknown("colourway", colourway, colourways))
    colours = palette(sized.design, colourway)
    svg = to_svg(scenes[options.which], Look.COLOUR, "drawing", PICTURE_PX, colours)
    if path.suffix == ".svg":
        return Outcome(written={path: svg.encode()})
    png, problems = to_png(svg, PICTURE_PX)
    return _misused("; ".join(problems)) if problems else Outcome(written={path: png})


def _booklet(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """Booklets as PDF."""
    known = [s.design.size for shelved in shelf.values() for s in shelved.pattern.sizes]
    if options.size and options.size not in known:
        return _misused(_unknown("size", options.size, known))
    papers = [Paper(options.paper)] if options.paper else list(Paper)
    copies = copies_of(_editions(options), papers)
    sizes = [options.size] if options.size else []
    orders = orders_of(shelf, copies, options.shop, sizes)
    files, problems = make_booklets(orders, CACHE, progress)
    folder: Path = options.output
    return Outcome(
        PROBLEMS if problems else FINE,
        "\n".join(f"wrote {folder / name}" for name in files),
        "\n".join(problems),
        {folder / name: pdf for name, pdf in files.items()},
    )


def _editions(options: argparse.Namespace) -> list[Edition]:
    if not (options.large_print or options.impose):
        return [Edition.FULL]
    large = [Edition.LARGE] if options.large_print else []
    return large + ([Edition.FOLDED, Edition.SHEETS] if options.impose else [])


def _size(options: argparse.Namespace, shelf: Shelf) -> tuple[Sized | None, Outcome]:
    """The size asked for, or the first."""
    (shelved,) = shelf.values()
    sizes = {sized.design.size: sized for sized in shelved.pattern.sizes}
    key = options.size or next(iter(sizes))
    return (
        (sizes[key], Outcome()) if key in sizes else (None, _misused(_unknown("size", key, sizes)))
    )


def _misused(complaint: str) -> Outcome:
    return Outcome(USAGE, complaint=f"pieceproof: {complaint}")


def _unknown(what: str, word: str, known: Iterable[str]) -> str:
    names = list(known)
    near = nearest(word, names)
    guess = f"; did you mean `{near}`?" if near else ""
    listed = "\n".join(f"  {name}" for name in names)
    return f"there is no {what} `{word}`{guess}\nWhat there is:\n{listed}"


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="pieceproof", description="Check, prove and draw patterns."
    )
    parser.add_argument(
        "--patterns", type=Path, default=Path("patterns"), help="folder of all patterns"
    )
    commands = parser.add_subparsers(required=True, metavar="command")
    check = _command(commands, "check", _check, "check and prove patterns, and their facts files")
    _many_slugs(check)
    facts = _command(commands, "facts", _facts, "write the facts files of patterns")
    _many_slugs(facts)
    cutlist = _command(commands, "cutlist", _cutlist, "print a cutting list")
    _one_slug(cutlist)
    cutlist.add_argument("--width", help="usable width of the cloth; the usual one if left out")
    cutlist.add_argument("--json", action="store_true", help="print data for other programs")
    draw = _command(commands, "draw", _draw, "draw one thing")
    _one_slug(draw)
    draw.add_argument("which", help="what to draw; a wrong word lists what there is")
    draw.add_argument("--colourway", help="key of a colourway; the first if left out")
    draw.add_argument("-o", "--output", type=Path, required=True, help="file.svg or file.png")
    booklet = _command(commands, "booklet", _booklet, "make booklets, as PDF")
    _many_slugs(booklet)
    booklet.add_argument("--size", help="key of a size; all if left out")
    papers = [paper.value for paper in Paper]
    booklet.add_argument("--paper", choices=papers, help="both if left out")
    booklet.add_argument("--large-print", action="store_true", help="in type of 22 points")
    booklet.add_argument(
        "--impose", action="store_true", help="two pages on a side, to fold; templates apart"
    )
    booklet.add_argument("--shop", default="", help="name to print on the cover")
    booklet.add_argument("-o", "--output", type=Path, default=Path("build/booklets"), help="folder")
    schema = _command(commands, "schema", _schema, "print the JSON Schema of pattern files")
    schema.set_defaults(reads_patterns=False)
    return parser


def _command(
    commands: argparse._SubParsersAction[argparse.ArgumentParser],
    name: str,
    command: Command,
    words: str,
) -> argparse.ArgumentParser:
    parser = commands.add_parser(name, help=words, description=words)
    parser.set_defaults(command=command, reads_patterns=True)
    return parser


def _one_slug(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("slug", nargs=1, help="folder of the pattern")
    parser.add_argument("--size", help="key of a size; the first if left out")


def _many_slugs(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("slug", nargs="*", help="folders of patterns; all if left out")


if __name__ == "__main__":
    sys.exit(main())
