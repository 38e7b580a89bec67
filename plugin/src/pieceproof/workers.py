"""The same work on each of many things, on all processors.

In: a function of one thing that is defined at the top of a module, and the things. Out: what it
makes of each, in their order. One thing, or one processor, needs no further process.
"""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from typing import TypeVar

Thing = TypeVar("Thing")
Made = TypeVar("Made")


def each(work: Callable[[Thing], Made], things: Sequence[Thing]) -> list[Made]:
    """``[work(thing) for thing in things]``; what goes in and comes out is sent by pickle."""
    return list(one_by_one(work, things))


def one_by_one(work: Callable[[Thing], Made], things: Sequence[Thing]) -> Iterator[Made]:
    """The same, each result as soon as it and all before it are made."""
    processes = min(len(things), os.cpu_count() or 1)
    if processes < 2:
        yield from map(work, things)
        return
    # A fresh interpreter each: MkDocs serves from threads, and a fork of threads can hang.
    fresh = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(processes, mp_context=fresh) as pool:
        yield from pool.map(work, things)
