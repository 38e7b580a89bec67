"""A pattern's file as designs, one for each size, with every problem of the file at once.

In: the bytes of ``pattern.yaml`` and the construction methods. Out: designs, problems, and the
file's lines for display. Designs are complete only if there are no problems; whether the names in
them are declared is for `checks`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import PurePosixPath
from typing import Any, Protocol

from pieceproof.forms import Scalar, keys_of
from pieceproof.model import BORDERS, LAYOUTS, ROUNDS, Design, Grid, Places
from pieceproof.problems import Place, Problem
from pieceproof.records import Desk, Spot, matched, read_record, read_value
from pieceproof.scalars import Complaint, name_complaint
from pieceproof.source import Entry, MapNode, Node, TextNode, UnreadNode, read_source
from pieceproof.wording import listed, one_of, quoted, write_instead

GRID = "grid"
"""The method of a unit that is made of other units."""

CHANGEABLE = (
    *("units", "blocks", "setting", "borders"),
    *("binding", "backing", "batting", "sleeve", "bed", "quantity"),
)
"""What a size may state anew."""

MOST_SIZES = 12

ONE_SIZE = ("one size", "One size")
"""Key and label where the file has no ``sizes``."""

_TAGS = ("method", "layout")


class MethodLike(Protocol):
    """What reading needs to know of a construction method."""

    @property
    def name(self) -> str:
        """Its word in the file."""

    @property
    def design(self) -> type[Any]:
        """The class of its keys."""


def read_pattern(
    file_name: str, data: bytes, methods: Sequence[MethodLike]
) -> tuple[tuple[Design, ...], tuple[Problem, ...], tuple[str, ...]]:
    """Designs, problems in the order of the file, and its lines. Never raises."""
    tree, faults, lines = read_source(file_name, data)
    slug = PurePosixPath(file_name).parent.name
    desk = Desk(choices(methods), [*faults, *folder_problems(file_name, slug)])
    designs: tuple[Design, ...] = ()
    if tree is not None:
        designs = tuple(_designs(desk, slug, tree))
    return designs, tuple(sorted(set(desk.problems))), lines


def choices(methods: Sequence[MethodLike]) -> Mapping[str, Mapping[str, type[Any]]]:
    """The classes by tag key and word."""
    by_method: dict[str, type[Any]] = {method.name: method.design for method in methods}
    return {
        "method": {**by_method, GRID: Grid},
        "layout": LAYOUTS,
        "round": ROUNDS,
        "style": BORDERS,
    }


def folder_problems(file_name: str, folder: str) -> Iterator[Problem]:
    """What is wrong with the name of the folder of a pattern's file."""
    if re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", folder) is None or len(folder) > 60:
        yield Problem(
            Place(file_name, 1, 1),
            "folder-name",
            f"a pattern in the folder {quoted(folder)}",
            "a folder name of small letters, digits and single hyphens, such as `heron-landing`",
            "rename the folder; it becomes the page's address",
        )


def _designs(desk: Desk, slug: str, tree: MapNode) -> Iterator[Design]:
    known = (*(key.text for key in keys_of(Design)), "sizes")
    entries = dict(matched(desk, known, tree))
    sizes = entries.pop("sizes", None)
    base = MapNode(tuple(replace(entry, key=key) for key, entry in entries.items()), tree.place)
    if sizes is None:
        given = {"slug": slug, "size": ONE_SIZE[0], "label": ONE_SIZE[1]}
        yield read_record(desk, Design, base, Spot("a pattern", "", tree.place), given=given)
        return
    for entry, change in _size_entries(desk, sizes):
        yield _sized(desk, slug, entry, _changed(desk, base, change))


def _sized(desk: Desk, slug: str, entry: Entry, tree: MapNode) -> Design:
    """The design of one size; ``tree`` has the size's own ``label``."""
    label, rest = tree.get("label"), tuple(e for e in tree.entries if e.key != "label")
    spot = Spot(quoted(entry.key), f"{entry.key}: ", entry.key_place)
    text = (
        ""
        if label is None
        else read_value(desk, _LABEL, label.value, spot.entry("label", label.key_place))
    )
    given = {"slug": slug, "size": entry.key, "label": text}
    design: Design = read_record(
        desk, Design, MapNode(rest, tree.place), Spot("a pattern", "", tree.place), given=given
    )
    places = Places(
        design.at.here,
        {**design.at.of, **spot.of},
        {**design.at.keys, **spot.keys, "size": entry.key_place},
    )
    return replace(design, at=places)


def _size_entries(desk: Desk, sizes: Entry) -> Iterator[tuple[Entry, MapNode]]:
    """The sizes with their known keys, up to the most there can be."""
    value = sizes.value
    if not isinstance(value, MapNode) or not value.entries:
        if not isinstance(value, UnreadNode):
            desk.report(sizes.key_place, _NO_SIZES)
        return
    if len(value.entries) > MOST_SIZES:
        desk.report(sizes.key_place, _too_many_sizes(len(value.entries)))
    for entry in value.entries[:MOST_SIZES]:
        complaint = name_complaint(entry.key)
        if complaint is not None:
            desk.report(entry.key_place, complaint)
        yield entry, _size_keys(desk, entry)


def _size_keys(desk: Desk, entry: Entry) -> MapNode:
    if not isinstance(entry.value, MapNode):
        if not isinstance(entry.value, UnreadNode):
            desk.report(entry.value.place, _not_a_size(entry))
        return MapNode((), entry.value.place)
    fixed = {key.text for key in keys_of(Design)} - set(CHANGEABLE)
    for inner in entry.value.entries:
        if inner.key in fixed:
            desk.report(inner.key_place, _fixed_key(inner.key))
    own = tuple(inner for inner in entry.value.entries if inner.key not in fixed)
    entries = matched(desk, ("label", *CHANGEABLE), MapNode(own, entry.value.place))
    if "label" not in entries:
        desk.report(entry.key_place, _no_label(entry.key))
    kept = tuple(replace(inner, key=key) for key, inner in entries.items())
    return MapNode(kept, entry.value.place)


def _changed(desk: Desk, base: MapNode, change: MapNode) -> MapNode:
    """The base with a size's changes; new units and blocks are reported and left out."""
    entries = [_known_names(desk, base, entry) for entry in change.entries]
    merged = _merged(base, MapNode(tuple(entries), base.place))
    assert isinstance(merged, MapNode)
    return merged


def _known_names(desk: Desk, base: MapNode, entry: Entry) -> Entry:
    declared = base.get(entry.key)
    if entry.key not in ("units", "blocks") or not isinstance(entry.value, MapNode):
        return entry
    names: tuple[str, ...] = ()
    if declared is not None and isinstance(declared.value, MapNode):
        names = tuple(inner.key for inner in declared.value.entries)
    for inner in entry.value.entries:
        if inner.key not in names:
            desk.report(inner.key_place, _new_name(inner.key, entry.key, names))
    kept = tuple(inner for inner in entry.value.entries if inner.key in names)
    return replace(entry, value=replace(entry.value, entries=kept))


def _merged(base: Node, change: Node) -> Node:
    """Keys of the change in place of the base's, at every depth.

    A part that names another method or layout than the base stands alone.
    """
    if not isinstance(base, MapNode) or not isinstance(change, MapNode):
        return change
    if any(_text(change, tag) not in (None, _text(base, tag)) for tag in _TAGS):
        return change
    changed = [_merged_entry(old, change.get(old.key)) for old in base.entries]
    added = [entry for entry in change.entries if base.get(entry.key) is None]
    return MapNode((*changed, *added), change.place)


def _merged_entry(old: Entry, new: Entry | None) -> Entry:
    return old if new is None else replace(new, value=_merged(old.value, new.value))


def _text(node: MapNode, key: str) -> str | None:
    entry = node.get(key)
    return entry.value.text if entry is not None and isinstance(entry.value, TextNode) else None


_LABEL = Scalar(str, 60)

_NO_SIZES = Complaint(
    "no-sizes",
    "`sizes` without a size",
    "a name for each size with its `label` and what it changes",
    "write `large: {label: Large, setting: {across: 7}}` below it, or delete `sizes` if the "
    "pattern has one size",
)


def _too_many_sizes(count: int) -> Complaint:
    return Complaint(
        "too-many",
        f"{count} names in `sizes`",
        f"at most {MOST_SIZES}",
        "delete some, or split the pattern",
    )


def _not_a_size(entry: Entry) -> Complaint:
    text = entry.value.text if isinstance(entry.value, TextNode) else ""
    found = f"the text {quoted(text)}" if text else "no keys"
    return Complaint(
        "wrong-type",
        f"{found} as {quoted(entry.key)}",
        "a `label` and the keys that differ in this size",
        f"write `{entry.key}: {{label: {text or 'Large'}}}`",
    )


def _no_label(size: str) -> Complaint:
    return Complaint(
        "missing-key",
        f"{quoted(size)} without `label`",
        "`label`: what customers read when they choose this size",
        "add `label: Large`, with your own word",
    )


def _fixed_key(key: str) -> Complaint:
    return Complaint(
        "fixed-key",
        f"{quoted(key)} in a size",
        f"only what can differ between sizes: {listed(('label', *CHANGEABLE))}",
        f"delete it here; {quoted(key)} is the same for all sizes and stands at the left margin",
    )


def _new_name(name: str, section: str, known: tuple[str, ...]) -> Complaint:
    return Complaint(
        "new-in-size",
        f"{quoted(name)}, which {quoted(section)} of the pattern does not have",
        f"a change to {one_of(known)}" if known else f"a pattern with {quoted(section)}",
        write_instead(name, known, f"add it to {quoted(section)} at the left margin first"),
    )
