"""Known units of the strip, log and foundation family, for the tests of methods."""

from __future__ import annotations

from collections.abc import Callable

from method_path import CLAY, MIST, NIGHT, REED, SLATE
from quicktions import Fraction

from pieceproof.methods.courthouse_steps import CourthouseSteps
from pieceproof.methods.foundation_piecing import (
    FoundationPiecing,
    FoundationPoint,
    FoundationSection,
    Toward,
)
from pieceproof.methods.log_cabin import LogCabin
from pieceproof.methods.logs import Logs
from pieceproof.methods.partial_seams import PartialSeams, RingStrip
from pieceproof.methods.strings import Strings, StringStrip
from pieceproof.methods.strip_sets import StripSets
from pieceproof.model import Size, Unit

F = Fraction


def log_cabin() -> Unit:
    return LogCabin(
        Size(F(2), F(2)),
        Logs((MIST, REED), (F(1),)),
        Logs((SLATE, NIGHT), (F(1), F(3, 2))),
        centre=CLAY,
    )


def courthouse_steps() -> Unit:
    return CourthouseSteps(
        Size(F(2), F(3)), Logs((MIST, REED), (F(1), F(1))), Logs((SLATE,), (F(3, 2),)), centre=CLAY
    )


def pieced_centre() -> Unit:
    return LogCabin(
        Size(F(3), F(2)), Logs((MIST,), (F(1),)), Logs((SLATE,), (F(3, 2),)),
        centre_rows=((CLAY, NIGHT), (NIGHT, CLAY)),
    )  # fmt: skip


def nine_patch() -> StripSets:
    odd, even = (SLATE, MIST, SLATE), (MIST, SLATE, MIST)
    return StripSets((odd, even, odd), (F(2),), (F(2),))


def four_patch() -> StripSets:
    return StripSets(((SLATE, MIST), (MIST, SLATE)), (F(3),), (F(3),))


def rail_fence() -> StripSets:
    return StripSets(((SLATE, CLAY, MIST),), (F(1), F(3, 2), F(1)), (F(7, 2),))


def three_by_two() -> StripSets:
    rows = ((SLATE, CLAY, MIST), (MIST, NIGHT, SLATE))
    return StripSets(rows, (F(1), F(3, 2), F(2)), (F(7, 2), F(1)))


def arrow() -> FoundationPiecing:
    """A steep edge beside a sky, above a band that runs a little uphill."""
    return FoundationPiecing(
        Size(F(4), F(4)),
        SLATE,
        (
            FoundationSection(MIST, ("tip", "bottom left"), Toward.TOP_LEFT),
            FoundationSection(CLAY, ("low", "high"), Toward.BOTTOM),
        ),
        {
            "tip": FoundationPoint(across=F(2)),
            "low": FoundationPoint(down=F(3)),
            "high": FoundationPoint(F(4), F(5, 2)),
        },
    )


def strings() -> Strings:
    return Strings(
        F(3),
        StringStrip(CLAY, F(1)),
        (StringStrip(MIST, F(7, 4)),),
        (StringStrip(NIGHT, F(1)), StringStrip(REED, F(3, 4))),
    )


def ring() -> PartialSeams:
    widths = (F(1), F(3, 2), F(2), F(5, 4))
    strips = (RingStrip(f, w) for f, w in zip((MIST, SLATE, REED, NIGHT), widths, strict=True))
    return PartialSeams(CLAY, Size(F(2), F(3)), *strips)


UNITS: dict[str, Callable[[], Unit]] = {
    "log cabin": log_cabin,
    "log cabin with a pieced centre": pieced_centre,
    "courthouse steps": courthouse_steps,
    "nine patch": nine_patch,
    "four patch": four_patch,
    "rail fence": rail_fence,
    "three by two": three_by_two,
    "arrow": arrow,
    "strings": strings,
    "ring": ring,
}
