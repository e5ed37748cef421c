"""Sheets that say the same thing: one address and one code on every title block, one place and finish for each part."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from precheck_plugins.package.sheets import live

from precheck import (
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    Opening,
    Part,
    Sheet,
    Statement,
    agrees,
    all_of,
    does_not_apply,
    every,
    fact,
    is_missing,
    required,
    rule,
)

SAME_PLACE = Length.parse("1 in")  # drawn places are rounded; a door this far off is still where it was
FIELDS = {
    "place in plan": "place_in_plan", "size": "size", "level": "level", "finish": "finish",
    "description": "description",
}  # fmt: skip
_WORD = re.compile(r"[a-z0-9#]+")


@fact
class SaidTwice(Fact):
    """A part of which two sheets, or a sheet and the file itself, say the same kind of thing."""

    part: Part
    what: str
    said: tuple[tuple[str, Any], ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[SaidTwice]:
        """Yield each part once for each thing that is said of it more than once, with who says it."""
        sheets = {s for sheet in live(house.project) for s in sheet.says}
        stated = [s for s in house.subjects(Statement) if s in sheets]
        for part in dict.fromkeys(house.project.by_id[s.of] for s in stated):
            for what, field in FIELDS.items():
                given = [(s, getattr(s, field)) for s in stated if s.of == part.id]
                said = [(f"sheet {s.owner.id}", value) for s, value in given if not is_missing(value)]
                own = _of_the_file(part, field)
                all_said = (*(() if is_missing(own) else (("the plan", own),)), *said)
                if said and len(all_said) > 1:
                    yield cls(part, part, what, all_said)

    @property
    def label(self) -> str:
        """The thing and the part."""
        return f"{self.what} of {self.part.label}"

    @property
    def phase(self) -> Any:
        """None: sheets agree about what stands as well."""
        return None


def _of_the_file(part: Part, field: str) -> Any:
    own = {"place_in_plan": "middle", "size": "unit_size"}.get(field)
    return getattr(part, own) if own and isinstance(part, Opening) else Missing()


@rule("package.sheets-agree", stage="intake", existing="must comply")
def sheets_agree(twice: SaidTwice) -> Check:
    """Sheets that show the same part agree on its place, size, level, finish and description."""
    return all_of(*(_same(twice.what, one, other) for one, other in pairwise(twice.said)))


def _same(what: str, one: tuple[str, Any], other: tuple[str, Any]) -> Check:
    (first, value), (second, again) = one, other
    told = f"the {what} on {first} and on {second}"
    if isinstance(value, str):
        return agrees(value, value if plain(value) == plain(again) else again, told)
    if what == "place in plan":
        return all_of(*(agrees(a, b, told, SAME_PLACE) for a, b in zip(value, again, strict=True)))
    return agrees(value, again, told)


def plain(text: str) -> tuple[str, ...]:
    """Return the words of `text` without their case, points and commas."""
    return tuple(_WORD.findall(text.lower()))


class BlockLimits(Limits):
    same: Limit[bool]


@rule("package.title-blocks", stage="intake", existing="must comply")
def title_blocks(sheet: Sheet, limit: BlockLimits, house: House) -> Check:
    """Each title block names the address and the lot of this job, and the code that the other sheets name.

    A sheet of another house is found by it. A sheet whose title block is not told of is not asked for it.
    """
    project = house.project
    first = next((s.code_edition for s in live(project) if not is_missing(s.code_edition)), Missing())
    lot = Missing() if is_missing(project.lot) else project.lot.legal_description
    pairs = (
        ("address", sheet.address, project.address or Missing()),
        ("legal description", sheet.legal_description, lot),
        ("code edition", sheet.code_edition, first),
    )
    held = [(what, own, job) for what, own, job in pairs if not is_missing(own) and not is_missing(job)]
    checks = [required(_begins_alike(own, job), limit.same, _told(what, own, job)) for what, own, job in held]
    unsaid = [does_not_apply(f"{what}: not stated") for what, own, job in pairs if is_missing(own) or is_missing(job)]
    return every(checks and [*checks, *unsaid], "its title block is not told of")


def _begins_alike(one: str, other: str) -> bool:
    """Return whether both say the same, or one says more after it, as a city after the street."""
    short, long_ = sorted((plain(one), plain(other)), key=len)
    return bool(short) and long_[: len(short)] == short


def _told(what: str, own: str, job: str) -> str:
    return f"{what} of this job: the sheet says {own}" if plain(own) != plain(job) else f"{what} of this job"
