"""The command line: check patterns, write their facts, print cutting lists, draw.

Reads the patterns folder and writes what it is told to write, whole or not at all. Results go to
standard output, problems to standard error. Exit status: 0 fine, 1 problems in patterns, 2 wrong
usage. MkDocs is not needed.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from typing import TextIO, TypeAlias

from pieceproof.booklet.editions import Edition, Paper
from pieceproof.booklet.press import copies_of, orders_of
from pieceproof.comparison import comparison_text
from pieceproof.compile import DESIGN_FILE, Sized
from pieceproof.cutlist import cut_list_data, cut_list_text
from pieceproof.diagrams.legible import PHONE, scale_of
from pieceproof.diagrams.numbered_seams import Plate, seam_plates
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.photographed import photographed
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.subject import subject
from pieceproof.drawing.raster import to_png
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.editions import edition_of
from pieceproof.explained import EXPLAINED
from pieceproof.fact_files import file_name
from pieceproof.folders import Folder, read_beside, read_folders, replace_file
from pieceproof.kits.book import BOOK_FILE
from pieceproof.kits.command import (
    Answer,
    add_kit_words,
    asked,
    designs_in,
    kits_answer,
    shown,
)
from pieceproof.lengths import parse_length
from pieceproof.methods import METHODS
from pieceproof.model import Measure
from pieceproof.own_cloth import (
    own_cloth_data,
    own_cloth_text,
    own_plan,
    read_own_cloths,
    unknown_parts,
)
from pieceproof.pressroom import CACHE, bar_of, make_booklets, progress
from pieceproof.problems import Problem, nearest, show_problem
from pieceproof.review.checked import Checked, checked
from pieceproof.review.compare import RELEASED, compare
from pieceproof.review.compared_html import compared_html
from pieceproof.review.compared_text import compared_text
from pieceproof.review.kept import files_to_keep, kept_of
from pieceproof.review.releases import NOT_KEPT, release_problems
from pieceproof.review.sarif import sarif
from pieceproof.revisions import RELEASE, WORKING_TREE, folders_at, sides
from pieceproof.schema import pattern_schema, shop_schema
from pieceproof.shelf import (
    Shelved,
    committed_facts,
    compile_folders,
    fact_differences,
    fact_texts,
    problem_texts,
    show_notes,
    show_problems,
)
from pieceproof.writing.explaining import explanation_text
from pieceproof.writing.fact_traces import trace_of_fact
from pieceproof.writing.redrawn import redrawn_folder
from pieceproof.writing.starting import SCHEMA_FILE, starting_folder
from pieceproof.writing.tracing import letter_in, trace_text, traces_of

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
Beforehand: TypeAlias = Callable[[argparse.Namespace, Mapping[str, Folder]], Outcome | None]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status."""
    options = command_line().parse_args(arguments)
    outcome = _run(options)
    try:
        for path, content in outcome.written.items():
            replace_file(path, content)
        for path in outcome.removed:
            path.unlink()
    except OSError as error:
        outcome = _misused(f"cannot write {error.filename}: {error.strerror}")
    for text, stream in ((outcome.result, sys.stdout), (outcome.complaint, sys.stderr)):
        if text:
            _say(text, stream)
    return outcome.status


def _say(text: str, stream: TextIO) -> None:
    """Print; what a reader who stops early, as `head` does, leaves unread goes nowhere.

    The way of the note on SIGPIPE in the documentation of Python's `signal`.
    """
    try:
        print(text, file=stream, flush=True)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _run(options: argparse.Namespace) -> Outcome:
    command: Command = options.command
    if not options.reads_patterns:
        return command(options, {})
    folders, outside, fault = _folders(options)
    beforehand: Beforehand = options.beforehand
    fault = fault or beforehand(options, folders)
    if fault is not None:
        return fault
    shelf = compile_folders(folders, {}, _proving)
    texts = [*(show_problem(p, "") for p in outside), *show_problems(shelf.values())]
    if texts:
        return Outcome(PROBLEMS, complaint="\n\n".join(texts))
    return command(options, shelf)


def _folders(
    options: argparse.Namespace,
) -> tuple[Mapping[str, Folder], list[Problem], Outcome | None]:
    """The folders of the patterns asked for and what cannot be read of them; or a complaint."""
    root: Path = options.patterns
    if not root.is_dir():
        missing = f"there is no folder {root}; say where the patterns are with --patterns"
        return {}, [], _misused(missing)
    folders, problems = read_folders(root)
    wanted = options.slug or list(folders)
    unknown = [slug for slug in wanted if slug not in folders]
    if unknown:
        return {}, [], _misused(_unknown("pattern", unknown[0], folders))
    outside = [p for p in problems if not options.slug or p.place.file.split("/")[1] in wanted]
    return {slug: folders[slug] for slug in wanted}, outside, None


def _check(options: argparse.Namespace, _shelf: Shelf) -> Outcome:
    """Everything that is wrong with the patterns, or what was proved of each."""
    root: Path = options.patterns
    folders, outside, fault = _folders(options)
    if fault is None and options.changed_since is not None:
        before, complaint = folders_at(root, options.changed_since)
        fault = _misused(complaint) if complaint else None
        folders = {slug: files for slug, files in folders.items() if before.get(slug) != files}
        outside = [p for p in outside if p.place.file.split("/")[1] in folders]
    if fault is not None:
        return fault
    shelf = compile_folders(folders, {}, _proving)
    found = checked(shelf, outside)
    problems = [problem for one in found for problem in one.problems]
    written: dict[Path, bytes] = {}
    if options.sarif is not None:
        remarks = [note for shelved in shelf.values() for note in shelved.pattern.notes]
        data = sarif(problems, remarks, PurePosixPath(_from_top(root)))
        written[options.sarif] = f"{json.dumps(data, indent=2)}\n".encode()
    right = "\n".join(f"{one.slug}: {one.summary}" for one in found if one.summary)
    if not problems:
        shown = "\n\n".join(show_notes(shelf.values()))
        return Outcome(result=right or "no pattern changed", complaint=shown, written=written)
    return Outcome(PROBLEMS, right, "\n\n".join(_shown(found, shelf)), written)


def _proving(done: int, total: int, slug: str) -> None:
    """A bar on a terminal, wiped off at the end; a pipe and a file hear nothing."""
    if sys.stderr.isatty() and total > 1:
        bar = bar_of("proving", done, total, slug) if done < total else ""
        print(f"\r\x1b[K{bar}", end="", file=sys.stderr, flush=True)


def _shown(found: Iterable[Checked], shelf: Shelf) -> Iterator[str]:
    """The problems of each pattern, then how its facts files differ."""
    for one in found:
        shelved = shelf.get(one.slug)
        if shelved is None:
            yield from (show_problem(problem, "") for problem in one.problems)
            continue
        yield from problem_texts(shelved, one.problems)
        if changed := fact_differences(shelved):
            yield changed


def _from_top(root: Path) -> str:
    """The patterns folder from the top of its repository; as it is if it is in none."""
    whole = root.resolve()
    top = next((folder for folder in whole.parents if (folder / ".git").exists()), None)
    return (root if top is None else whole.relative_to(top)).as_posix()


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


def _release(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """Keep what is published now as the editions that the patterns state."""
    drafts = [
        s for s, shelved in shelf.items() if edition_of(shelved.pattern.sizes[0].design) is None
    ]
    if set(drafts) & set(options.slug):
        words = "is a draft; give it a `release` with `edition` and `date` first"
        return _misused(f"{drafts[0]} {words}")
    kept = [_keep(options, shelved) for slug, shelved in shelf.items() if slug not in drafts]
    stopped = [outcome.complaint for outcome in kept if outcome.complaint]
    if stopped:
        return Outcome(PROBLEMS, complaint="\n\n".join(stopped))
    return Outcome(
        result="\n".join(outcome.result for outcome in kept),
        written={path: data for outcome in kept for path, data in outcome.written.items()},
        removed=tuple(path for outcome in kept for path in outcome.removed),
    )


def _keep(options: argparse.Namespace, shelved: Shelved) -> Outcome:
    """The files of one release, or why it must not go out."""
    slug, kept, edition = (
        shelved.pattern.slug,
        kept_of(shelved.folder),
        edition_of(shelved.pattern.sizes[0].design),
    )
    stops = [p for p in release_problems(shelved.pattern, shelved.folder) if p.code != NOT_KEPT]
    if stops and not (options.again and edition == kept.edition):
        return Outcome(PROBLEMS, complaint="\n\n".join(problem_texts(shelved, stops)))
    folder: Path = options.patterns / slug
    files = files_to_keep(shelved.pattern, shelved.folder)
    gone = [f"{RELEASED}{name}" for name in kept.files if f"{RELEASED}{name}" not in files]
    return Outcome(
        result=f"{slug}: edition {edition} is kept in {folder / RELEASED}",
        written={folder / n: d for n, d in files.items() if shelved.folder.get(n) != d},
        removed=tuple(folder / name for name in gone),
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


def _methods(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """Every method that can make a unit of one size, side by side."""
    sized, fault = _size(options, shelf)
    if sized is None:
        return fault
    units = [options.unit] if options.unit else list(sized.design.units)
    unknown = [unit for unit in units if unit not in sized.design.units]
    if unknown:
        return _misused(_unknown("unit", unknown[0], sized.design.units))
    return Outcome(result=comparison_text(sized.design, sized.publication, units))


def _stash(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """What can be cut from cloth that is there, and what is still to buy."""
    sized, fault = _size(options, shelf)
    if sized is None:
        return fault
    path: Path = options.list
    data, problems = read_beside(path.parent, path.name)
    if data is None:
        complaint = "\n\n".join(show_problem(p, "") for p in problems)
        return Outcome(PROBLEMS, complaint=complaint) if problems else _misused(f"no file {path}")
    own, problems_in, lines = read_own_cloths(path.name, data)
    unknown = [] if problems_in else [*unknown_parts(own, sized)]
    if problems_in or unknown:
        return Outcome(PROBLEMS, complaint=shown((*problems_in, *unknown), tuple(lines)))
    colourways = sized.design.colourways
    if options.colourway not in (None, *colourways):
        return _misused(_unknown("colourway", options.colourway, colourways))
    found = own_plan(own, sized, options.colourway)
    if found.faults:
        return Outcome(PROBLEMS, complaint="\n".join(found.faults))
    if options.json:
        return Outcome(result=json.dumps(own_cloth_data(found, sized), indent=2))
    return Outcome(result=own_cloth_text(found, sized))


def _kits(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """The sheet for a batch of kits."""
    (shelved,) = shelf.values()
    stock, _ = read_beside(options.patterns, BOOK_FILE)
    return _answered(kits_answer(options, shelved, stock))


def _kits_asked(options: argparse.Namespace, folders: Mapping[str, Folder]) -> Outcome | None:
    """What is wrong with an order of kits, told before anything is proved."""
    stock, problems = read_beside(options.patterns, BOOK_FILE)
    if problems:
        return Outcome(PROBLEMS, complaint="\n\n".join(show_problem(p, "") for p in problems))
    ((slug, folder),) = folders.items()
    designs = designs_in(slug, folder.get(DESIGN_FILE, b""))
    wanted = asked(options, designs, stock) if designs else None
    return _answered(wanted) if isinstance(wanted, Answer) else None


def _answered(answer: Answer) -> Outcome:
    if answer.unknown is not None:
        unknown = answer.unknown
        return _misused(_unknown(unknown.what, unknown.word, unknown.known))
    if answer.misused:
        return _misused(answer.misused)
    if answer.problems:
        return Outcome(PROBLEMS, complaint=answer.problems)
    return Outcome(result=answer.result)


def _nothing_asked(_options: argparse.Namespace, _folders: Mapping[str, Folder]) -> None:
    """Most words can only be understood when the patterns are compiled."""


def _schema(options: argparse.Namespace, _shelf: Shelf) -> Outcome:
    """The JSON Schema of pattern files, or of the shop's own file."""
    schema = shop_schema() if options.kits else pattern_schema(METHODS)
    return Outcome(result=json.dumps(schema, indent=2))


def _trace(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """Why a piece is cut at its size, or how any other published value comes about."""
    sized, fault = _size(options, shelf)
    if sized is None:
        return fault
    (shelved,) = shelf.values()
    keys = [fact.key for fact in sized.facts]
    key = options.what.partition(" = ")[0]
    if key in keys and not key.startswith("piece "):
        return Outcome(result=trace_of_fact(sized, key, shelved.lines))
    designs = [size.design for size in shelved.pattern.sizes]
    traces = traces_of(designs, sized.design.size)
    letter = letter_in(key)
    if letter not in traces:
        near = nearest(key, [*traces, *keys])
        guess = f"; did you mean `{near}`?" if near else ""
        known = (
            f"pieces: {', '.join(traces)}; facts: all that stand in {file_name(sized.design.size)}"
        )
        return _misused(f"there is no piece or fact `{key}`{guess}\n{known}")
    return Outcome(result=trace_text(traces[letter], shelved.lines))


def _resize(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """A pattern redrawn in a folder of its own, if it is right at its new size."""
    (shelved,) = shelf.values()
    goal = options.block and parse_length(options.block)
    if options.block and not goal:
        return _misused(f"`{options.block}` is no length; write it like `9` or `4 1/2`")
    measure = shelved.pattern.sizes[0].design.measure
    if not goal and measure.value == (options.to or measure.value):
        return _misused("say how wide a block is to be with --block, or --to centimetre")
    redrawn = redrawn_folder(shelved, goal or None, Measure(options.to or measure.value))
    folder: Path = options.patterns / redrawn.slug
    if os.path.lexists(folder):
        return _misused(f"{folder} is there already; nothing was changed")
    if redrawn.problems:
        return Outcome(PROBLEMS, complaint="\n".join(redrawn.problems))
    written = {folder / name: data for name, data in redrawn.files.items()}
    return Outcome(result=f"wrote {folder}\n{redrawn.report}", written=written)


def _explain(options: argparse.Namespace, _shelf: Shelf) -> Outcome:
    """What a problem means, by its code."""
    if options.code not in EXPLAINED:
        return _misused(_unknown("problem", options.code, EXPLAINED))
    return Outcome(result=explanation_text(options.code, EXPLAINED[options.code]))


def _new(options: argparse.Namespace, _shelf: Shelf) -> Outcome:
    """A new pattern in a folder that was not there, and the schema for its writer's editor."""
    root: Path = options.patterns
    if not root.is_dir():
        return _misused(f"there is no folder {root}; say where the patterns are with --patterns")
    files, problems = starting_folder(options.slug, Measure(options.measure))
    if problems:
        return Outcome(PROBLEMS, complaint="\n\n".join(show_problem(p, "") for p in problems))
    folder = root / options.slug
    if os.path.lexists(folder):
        return _misused(f"{folder} is there already; nothing was changed")
    schema = f"{json.dumps(pattern_schema(METHODS), indent=2)}\n".encode()
    return Outcome(
        result=f"wrote {folder}; change {folder / DESIGN_FILE} and watch its page",
        written={root / SCHEMA_FILE: schema, **{folder / n: d for n, d in files.items()}},
    )


def _compare(options: argparse.Namespace, _shelf: Shelf) -> Outcome:
    """What differs between two editions, as text, and as a page where one is asked for."""
    root: Path = options.patterns
    if not root.is_dir():
        return _misused(f"there is no folder {root}; say where the patterns are with --patterns")
    old, new, complaint = sides(root, options.old, options.new)
    if complaint:
        return _misused(complaint)
    compared = compare(old, new)
    if options.html is None:
        return Outcome(result=compared_text(compared))
    page = compared_html(compared, options.old, options.new or WORKING_TREE)
    return Outcome(result=compared_text(compared), written={options.html: page.encode()})


def _draw(options: argparse.Namespace, shelf: Shelf) -> Outcome:
    """One drawing as SVG or PNG."""
    path: Path = options.output
    if path.suffix not in (".svg", ".png"):
        return _misused(f"{path}: write to a file that ends in .svg or .png")
    sized, fault = _size(options, shelf)
    if sized is None:
        return fault
    seen = subject(sized.design, sized.publication, sized.drawing)
    plain = {name: Plate(scene, PHONE) for name, scene in plates(seen).items()}
    scenes = {**plain, **seam_plates(seen)}
    if options.which not in scenes:
        return _misused(_unknown("drawing", options.which, scenes))
    colourways = sized.design.colourways
    colourway = options.colourway or next(iter(colourways))
    if colourway not in colourways:
        return _misused(_unknown("colourway", colourway, colourways))
    plate, colours = scenes[options.which], palette(sized.design, colourway)
    (shelved,) = shelf.values()
    prints = shelved.pattern.prints if options.which == "top" else {}
    shown = photographed(sized.design, colourway, prints, scale_of(plate.scene, PICTURE_PX))
    svg = to_svg(plate.scene, Look.COLOUR, "drawing", plate.width, colours, shown)
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


def command_line() -> argparse.ArgumentParser:
    """What can be said on the command line."""
    parser = argparse.ArgumentParser(
        prog="pieceproof", description="Check, prove and draw patterns."
    )
    parser.add_argument(
        "--patterns", type=Path, default=Path("patterns"), help="folder of all patterns"
    )
    commands = parser.add_subparsers(required=True, metavar="command")
    _add_proofreading(commands)
    _add_cutting(commands)
    _add_writing(commands)
    _add_printing(commands)
    return parser


_Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def _add_proofreading(commands: _Commands) -> None:
    check = _command(commands, "check", _check, "check and prove everything about patterns")
    _many_slugs(check)
    check.add_argument("--changed-since", help="only patterns that differ from a revision in git")
    check.add_argument("--sarif", type=Path, help="write problems to this file, for a forge")
    check.set_defaults(reads_patterns=False)
    facts = _command(commands, "facts", _facts, "write the facts files of patterns")
    _many_slugs(facts)
    release = _command(commands, "release", _release, "keep what patterns publish as editions")
    _many_slugs(release)
    release.add_argument(
        "--again", action="store_true", help="replace an edition that nobody has bought yet"
    )
    compared = _command(commands, "compare", _compare, "say what differs between two editions")
    compared.add_argument("old", help=f"a revision in git, or `{RELEASE}` for what was released")
    compared.add_argument("new", nargs="?", help="a revision in git; what is on disk if left out")
    compared.add_argument("--html", type=Path, help="write a page with drawings to this file")
    compared.set_defaults(reads_patterns=False)


def _add_cutting(commands: _Commands) -> None:
    cutlist = _command(commands, "cutlist", _cutlist, "print a cutting list")
    _one_slug(cutlist)
    cutlist.add_argument("--width", help="usable width of the cloth; the usual one if left out")
    cutlist.add_argument("--json", action="store_true", help="print data for other programs")
    stash = _command(commands, "stash", _stash, "say what can be cut from cloth that is there")
    _one_slug(stash)
    stash.add_argument("list", type=Path, help="YAML file that lists pieces of cloth")
    stash.add_argument("--colourway", help="its key: what one cloth plays is bought together")
    stash.add_argument("--json", action="store_true", help="print data for other programs")
    kits = _command(commands, "kits", _kits, "plan, label and price a batch of kits")
    _one_slug(kits)
    add_kit_words(kits)
    kits.set_defaults(beforehand=_kits_asked)


def _add_writing(commands: _Commands) -> None:
    new = _command(commands, "new", _new, "start a new pattern")
    new.add_argument("slug", help="name of its folder, such as low-water")
    new.add_argument(
        "--measure", choices=[m.value for m in Measure], default="inch", help="unit of its lengths"
    )
    new.set_defaults(reads_patterns=False)
    resize = _command(commands, "resize", _resize, "redraw a pattern at another size")
    resize.add_argument("slug", nargs=1, help="folder of the pattern")
    resize.add_argument("--block", help="finished width of a block, in the new unit")
    resize.add_argument("--to", choices=[Measure.CENTIMETRE.value], help="redraw in centimetres")
    trace = _command(commands, "trace", _trace, "say why a published value is what it is")
    _one_slug(trace)
    trace.add_argument("what", help='a piece\'s letter, or a fact such as "finished size, width"')
    explain = _command(commands, "explain", _explain, "explain a problem by its code")
    explain.add_argument("code", help="the code, such as off-the-ruler; a wrong one lists all")
    explain.set_defaults(reads_patterns=False)
    methods = _command(commands, "methods", _methods, "compare the methods that can make a unit")
    _one_slug(methods)
    methods.add_argument("unit", nargs="?", help="name of the unit; all if left out")
    schema = _command(commands, "schema", _schema, "print the JSON Schema of pattern files")
    schema.set_defaults(reads_patterns=False)
    schema.add_argument("--kits", action="store_true", help="of the shop's kits.yaml instead")


def _add_printing(commands: _Commands) -> None:
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


def _command(
    commands: _Commands,
    name: str,
    command: Command,
    words: str,
) -> argparse.ArgumentParser:
    parser = commands.add_parser(name, help=words, description=words)
    parser.set_defaults(command=command, reads_patterns=True, beforehand=_nothing_asked)
    return parser


def _one_slug(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("slug", nargs=1, help="folder of the pattern")
    parser.add_argument("--size", help="key of a size; the first if left out")


def _many_slugs(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("slug", nargs="*", help="folders of patterns; all if left out")


if __name__ == "__main__":
    sys.exit(main())
