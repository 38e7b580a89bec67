"""Pattern folders on disk as bytes in memory, and single files written whole.

In: the folder that holds all patterns. Out: the bytes of each pattern's files by their path below
the pattern's folder, with problems where something is no plain file or too large. Symbolic links
are never followed, so nothing outside a pattern's folder is read. What the bytes mean is not known
here.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from pieceproof.problems import Place, Problem

TEXT_BYTES = 256 * 1024
PICTURE_BYTES = 4 * 1024 * 1024
MOST_FILES = 200

MOST_BYTES = {
    ".yaml": TEXT_BYTES,
    ".md": TEXT_BYTES,
    ".txt": TEXT_BYTES,
    ".png": PICTURE_BYTES,
    ".jpg": PICTURE_BYTES,
    ".jpeg": PICTURE_BYTES,
    ".webp": PICTURE_BYTES,
}
"""What is read, by the ending of its name. Other files are the writer's own business."""

Folder = Mapping[str, bytes]


@dataclass(frozen=True)
class _Entry:
    """A file or link as it was found, by its path below the pattern's folder."""

    name: str
    path: Path


def read_folders(root: Path) -> tuple[Mapping[str, Folder], tuple[Problem, ...]]:
    """The files of every pattern by the name of its folder, in order of name."""
    folders: dict[str, Folder] = {}
    problems: list[Problem] = []
    for path in sorted(root.iterdir()):
        if path.name.startswith(".") or not (path.is_dir() or path.is_symlink()):
            continue
        folder, faults = _read_folder(root, path)
        problems += faults
        if not path.is_symlink():
            folders[path.name] = folder
    return folders, tuple(problems)


def read_texts(folder: Path) -> Mapping[str, str]:
    """The text files in a folder and below, by name without the ending; none if it is not there."""
    return {path.stem: path.read_text("utf-8") for path in sorted(folder.rglob("*.txt"))}


def read_beside(root: Path, name: str) -> tuple[bytes | None, tuple[Problem, ...]]:
    """A text in the folder of all patterns itself; None where there is none."""
    path = root / name
    if not (path.exists() or path.is_symlink()):
        return None, ()
    content, fault = _read_file(f"{root.name}/{name}", path)
    return content, () if fault is None else (fault,)


def replace_file(path: Path, content: bytes) -> None:
    """Write a file whole or not at all: into a temporary file first, which then takes its name."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        temporary.chmod(0o644)
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def _read_folder(root: Path, folder: Path) -> tuple[Folder, tuple[Problem, ...]]:
    shown = f"{root.name}/{folder.name}"
    if folder.is_symlink():
        return {}, (_linked(shown),)
    files: dict[str, bytes] = {}
    problems: list[Problem] = []
    for number, entry in enumerate(_entries(folder)):
        if number == MOST_FILES:
            problems.append(_too_many(shown))
            break
        content, fault = _read_file(f"{shown}/{entry.name}", entry.path)
        if fault is None:
            files[entry.name] = content
        else:
            problems.append(fault)
    return files, tuple(problems)


def _entries(folder: Path) -> Iterator[_Entry]:
    """Files to read, and every link, in order of name; folders that are links are not entered."""
    for path, folders, files in os.walk(folder, followlinks=False):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        links = [name for name in folders if (Path(path) / name).is_symlink()]
        plain = [name for name in files if _is_read(name)]
        for name in sorted((*plain, *links)):
            whole = Path(path) / name
            yield _Entry(whole.relative_to(folder).as_posix(), whole)


def _read_file(shown: str, path: Path) -> tuple[bytes, Problem | None]:
    if path.is_symlink() or not path.is_file():
        return b"", _linked(shown)
    most = MOST_BYTES[path.suffix]
    with path.open("rb") as file:
        content = file.read(most + 1)
    return (content, None) if len(content) <= most else (b"", _too_large(shown, most))


def _is_read(name: str) -> bool:
    return Path(name).suffix in MOST_BYTES and not name.startswith(".")


def _linked(shown: str) -> Problem:
    return Problem(
        Place(shown, 1, 1),
        "not-a-plain-file",
        "a link or special file",
        "plain files and folders inside the pattern's own folder",
        "put a copy of the file here, or delete the link",
    )


def _too_large(shown: str, most: int) -> Problem:
    return Problem(
        Place(shown, 1, 1),
        "file-too-large",
        f"more than {most // 1024} KB",
        "texts that a person has written, and pictures made ready for a page",
        "make it smaller, or move it out of the pattern's folder",
    )


def _too_many(shown: str) -> Problem:
    return Problem(
        Place(shown, 1, 1),
        "too-many-files",
        f"more than {MOST_FILES} texts and pictures",
        "one pattern in the folder",
        "move what does not belong to the pattern elsewhere",
    )
