"""Pattern folders as a revision in git has them.

In: the patterns folder on disk and the name of a revision. Out: the bytes of each pattern's files
by their path below the pattern's folder, like `folders`, or a sentence that says why not. Asks git
for nothing but objects that it has: a shallow clone is enough, and the working tree is not touched.
"""

from __future__ import annotations

import subprocess
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

from pieceproof.folders import MOST_BYTES, Folder, read_folders
from pieceproof.review.compare import Side, released_side
from pieceproof.shelf import compile_folders

RELEASE = "release"
WORKING_TREE = "what is on disk"

_PLAIN_FILES = (b"100644", b"100755")


def folders_at(root: Path, revision: str) -> tuple[Mapping[str, Folder], str]:
    """The folders below ``root`` at a revision, in order of name; a complaint if there are none."""
    try:
        named = _git(root, "rev-parse", "--verify", "--end-of-options", f"{revision}^{{tree}}")
        if named.returncode:
            return {}, _unknown(root, revision)
        files = dict(_listed(root, revision))
        contents = _contents(root, files)
    except OSError as error:
        return {}, f"git cannot be run: {error.strerror}"
    folders: dict[str, dict[str, bytes]] = {}
    for path, data in contents.items():
        slug, _, name = path.partition("/")
        if name and not slug.startswith("."):
            folders.setdefault(slug, {})[name] = data
    return dict(sorted(folders.items())), ""


def sides(root: Path, old: str, new: str | None) -> tuple[Side, Side, str]:
    """Both sides of a comparison; a complaint if one of them is not there.

    ``old`` may be `RELEASE`: what each pattern published last. Without ``new`` it is the folder
    on disk, whose facts are computed, for its files may not be up to date.
    """
    on_disk, _ = read_folders(root)
    if old == RELEASE:
        before, complaint = released_side(on_disk), ""
    else:
        folders, complaint = folders_at(root, old)
        before = Side(folders)
    if complaint or new is not None:
        folders, missing = ({}, "") if new is None else folders_at(root, new)
        return before, Side(folders), complaint or missing
    wanted = {slug: folder for slug, folder in on_disk.items() if slug in before.folders}
    changed = {s: f for s, f in wanted.items() if old == RELEASE or before.folders[s] != f}
    shown = changed if old == RELEASE else on_disk
    return before, Side(shown, compile_folders(changed, {})), ""


def _listed(root: Path, revision: str) -> Iterator[tuple[str, str]]:
    """Plain files that are texts or pictures: path below ``root`` and object."""
    done = _git(root, "ls-tree", "-r", "-z", "--end-of-options", revision)
    for line in filter(None, done.stdout.split(b"\0")):
        described, _, path = line.partition(b"\t")
        mode, _, name = described.split(b" ")
        shown = path.decode("utf-8", "replace")
        if mode in _PLAIN_FILES and PurePosixPath(shown).suffix in MOST_BYTES:
            yield shown, name.decode()


def _contents(root: Path, files: Mapping[str, str]) -> Mapping[str, bytes]:
    """The bytes of objects, in one run of git; larger ones than `folders` reads are left out."""
    wanted = "".join(f"{name}\n" for name in files.values()).encode()
    rest = _git(root, "cat-file", "--batch", given=wanted).stdout
    found: dict[str, bytes] = {}
    for path in files:
        head, _, rest = rest.partition(b"\n")
        size = int(head.split(b" ")[-1])
        data, rest = rest[:size], rest[size + 1 :]
        if size <= MOST_BYTES[PurePosixPath(path).suffix]:
            found[path] = data
    return found


def _git(root: Path, *words: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        ["git", "-C", str(root), *words], input=given, capture_output=True, check=False
    )


def _unknown(root: Path, revision: str) -> str:
    if _git(root, "rev-parse", "--git-dir").returncode:
        return f"{root} is not in a git repository"
    shallow = _git(root, "rev-parse", "--is-shallow-repository").stdout.strip() == b"true"
    fetch = (
        "; this clone is shallow: fetch the revision with `git fetch --depth=1 origin REVISION`"
        if shallow
        else ""
    )
    return f"git has no revision `{revision}`{fetch}"
