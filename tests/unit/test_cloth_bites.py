"""The proof of the cloth notices each single changed number of a requirement.

Left out: a plan's bound, which says how short another plan might be and is not asked here; words.
"""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from change_numbers import changes
from cloth_samples import F, Sized, published, small, with_prints

from pieceproof.cloth_proof import cloth_faults, group_faults, need_faults
from pieceproof.model import Measure
from pieceproof.print_proof import ends_of
from pieceproof.requirements import USABLE_WIDTHS, Requirements, requirements

_LEFT_OUT = ("plan.bound", "plan.proven")


def samples() -> Iterator[tuple[str, Sized]]:
    yield "runner", in_one_colourway(published("heron-landing")[1])
    yield "quilt", in_one_colourway(published("weir-pool")[1])
    yield "mats", in_one_colourway(published("ferry-wake")[1])
    yield "prints", in_one_colourway(with_prints(published("heron-landing")[1]))
    yield (
        "one cloth for all",
        small(
            {"ground": [(F(3), F(60), 2, "top"), (F(2), F(9, 2), 30, "star")]},
            binding=("edge", F(9, 4), F(170)),
            backing=("ground", F(60), F(80)),
            colourways={"a": {"ground": "mist", "edge": "mist"}},
        ),
    )


def in_one_colourway(sized: Sized) -> Sized:
    """The others would be proved again for each change."""
    design, publication = sized
    name, first = next(iter(design.colourways.items()))
    return replace(design, colourways={name: first}), publication


@pytest.mark.parametrize("name", [name for name, _ in samples()])
def test_no_changed_number_goes_unnoticed(name: str) -> None:
    design, publication = dict(samples())[name]
    widths = USABLE_WIDTHS[design.measure][:1]
    found, problems = requirements(design, publication, widths)
    assert not problems
    assert cloth_faults(design, publication, found) == ()
    mutants = [
        (where, mutant)
        for where, mutant in changes("", found)
        if not any(part in where for part in _LEFT_OUT)
    ]
    assert len(mutants) > 100
    ends = ends_of(design, publication)
    sound = {id(need) for need in found.needs}

    def is_noticed(mutant: Requirements) -> bool:
        """Needs that are the very same as before have just been found sound."""
        changed = (need for need in mutant.needs if id(need) not in sound)
        by_need = (
            fault for need in changed for fault in need_faults(design, publication, need, ends)
        )
        return any(group_faults(design, publication, mutant)) or any(by_need)

    assert [where for where, mutant in mutants if not is_noticed(mutant)] == []


def test_a_changed_cutting_list_is_noticed() -> None:
    """Requirements of the five-star runner do not do for the seven-star one."""
    (design, publication), (_, longer) = published("heron-landing")[1:]
    found: Requirements = requirements(design, publication, USABLE_WIDTHS[Measure.INCH][:2])[0]
    assert cloth_faults(design, longer, found)
