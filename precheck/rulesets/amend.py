"""What an adoption does to the limits of its parent: design criteria, amendments, deletions, additions."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import partial
from typing import Any, TypeVar

from precheck.files import spelling
from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest
from precheck.files.source import Block, Place, Problem, Unusable
from precheck.rulesets.common import known_names, refuse, tolerance_of, value_at, written_as
from precheck.rulesets.files import Adoption, Amendment, slug
from precheck.rulesets.limit import Event, Limit, Sense, amended, deleted, same_kind
from precheck.rulesets.requirement import Requirement, limit_value, requirement
from precheck.units import Measure, Temperature

CRITERIA = "criteria"
_BELONGS = {
    "amend": ("was", "to", "tolerance", "force"),
    "delete": ("was",),
    "add": ("value", "measures", "section", "force", "tolerance", "check"),
}
_ALWAYS = ("by", "from", "source", "note")
T = TypeVar("T")
_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)+")


def set_criterion(adoption: Adoption, key: str, limits: dict[str, Limit[Any]]) -> None:
    """Set the design criterion `key` of `adoption` in `limits`. Raises `Unusable`."""
    block = adoption.block["design criteria"] if adoption.block is not None else {}
    place = block.place_of(key) if isinstance(block, Block) else adoption.place
    name = f"{CRITERIA}.{slug(key)}"
    if name not in limits:
        known = [n.partition(".")[2].replace("-", " ") for n in limits if n.startswith(f"{CRITERIA}.")]
        raise refuse(place, f"`{key}` is no design criterion of the edition{nearest(key, known) or known_names(known)}")
    written = str(adoption.design_criteria[key])
    limits[name] = _checked(place, limits[name], written, Event("amended", written, adoption.by, place))


def act_on(
    amendment: Amendment,
    limits: dict[str, Limit[Any]],
    requirements: dict[str, Requirement],
    formerly: Mapping[str, str],
    renamed: list[Problem],
) -> None:
    """Do in `limits` (and, for what is added with its check, in `requirements`) what `amendment` says.

    A limit may be named as it was `formerly`; `renamed` is told so. Raises `Unusable`.
    """
    named = [(verb, getattr(amendment, verb)) for verb in ("amend", "delete", "add")]
    given = [(verb, name) for verb, name in named if not is_missing(name)]
    if len(given) != 1:
        raise refuse(amendment.place, "an amendment does one thing; begin it with `amend:`, `delete:` or `add:`")
    verb, name = given[0]
    _nothing_stray(amendment, verb)
    if verb == "add":
        limits[name] = _addition(amendment, name, limits, requirements)
        return
    limit = limits[_name_of_today(name, limits, formerly, amendment.place_of(verb), renamed)]
    limits[limit.name] = _together(
        partial(_was, amendment, limit, verb == "amend"), partial(_change, verb, amendment, limit)
    )


def _name_of_today(
    name: str, limits: Mapping[str, Any], formerly: Mapping[str, str], place: Place, renamed: list[Problem]
) -> str:
    found = spelling.name(name, limits, formerly)
    if found is None:
        known = nearest(name, limits) or "; `precheck limits` lists what can be amended"
        raise refuse(place, f"`{name}` is not in the code that is adopted{known}")
    if found != name:
        renamed.append(Problem(place, f"`{name}` is called `{found}` now; both are read"))
    return found


def _together(*acts: Callable[[], T]) -> T:
    """Do all `acts` and return what the last comes to. Raises `Unusable` with what is wrong with any of them."""
    problems: list[Problem] = []
    for act in acts:
        try:
            done = act()
        except Unusable as error:
            problems.extend(error.problems)
    if problems:
        raise Unusable(problems)
    return done


def _nothing_stray(amendment: Amendment, verb: str) -> None:
    """Refuse a key that the amendment would pass over: a person who wrote it expects something of it."""
    for key in amendment.block or ():
        if key not in (verb, *_BELONGS[verb], *_ALWAYS):
            of = next((f"; it belongs to `{other}`" for other, keys in _BELONGS.items() if key in keys), "")
            raise refuse(amendment.place_of(key), f"`{key}` says nothing beside `{verb}`{of}; leave it out here")


def _addition(
    amendment: Amendment, name: str, limits: dict[str, Limit[Any]], requirements: dict[str, Requirement]
) -> Limit[Any]:
    place = amendment.place_of("add")
    if name in limits:
        raise refuse(place, f"`{name}` is in the adopted code already; amend it, or choose another name")
    if not _NAME.fullmatch(name):
        raise refuse(place, f"`{name}` is no name of a limit; write it like storage-stair.width.minimum")
    if amendment.value is None or not amendment.measures:
        raise refuse(place, f"`{name}` lacks its `value` or what it `measures`; give both")
    if is_missing(amendment.check):
        value = value_at(amendment.place_of("value"), amendment.value, amendment.measures)
    else:
        requirements[name] = requirement(amendment, name, amendment.check)
        value = limit_value(requirements[name], amendment.value, amendment.place_of("value"))
    event = Event("added", written_as(amendment.value), amendment.by, place)
    return Limit(name, value, amendment.section, amendment.measures, amendment.force == "advise", tolerance_of(amendment),
                 "local", amendment.source, None, (event,), _sense(amendment))  # fmt: skip


def _sense(amendment: Amendment) -> Sense:
    """Return how a requirement that is added with its check compares with the limit; nothing where no check is added."""
    return "" if is_missing(amendment.check) else amendment.check.comparison


def _was(amendment: Amendment, limit: Limit[Any], needed: bool) -> Limit[Any]:
    place = amendment.place_of("was")
    if amendment.was is None:
        if needed:
            raise refuse(place, f"`was` is not given; write `was: {limit.text}`, the value that is replaced")
        return limit
    was = value_at(place, amendment.was, limit.measures)
    if was != limit.value and written_as(amendment.was) != limit.text:
        origin = limit.history[-1]
        wrong = f"`was: {written_as(amendment.was)}` does not match: the value in effect is {limit.text}"
        raise refuse(place, f"{wrong} ({origin.source}, {origin.place}); write `was: {limit.text}`")
    return limit


def _change(verb: str, amendment: Amendment, limit: Limit[Any]) -> Limit[Any]:
    place = amendment.place_of(verb)
    if verb == "delete":
        return deleted(limit, Event("deleted", "deleted", amendment.by, place))
    if amendment.to is None:
        raise refuse(place, f"`to` is not given; write the new value of `{limit.name}`")
    to = amendment.place_of("to")
    changes: dict[str, Any] = {} if is_missing(amendment.tolerance) else {"tolerance": tolerance_of(amendment)}
    if "force" in (amendment.block or ()):  # an office makes binding what is only good practice, or the reverse
        changes["advised"] = amendment.force == "advise"
    event = Event("amended", written_as(amendment.to), amendment.by, to)
    return _checked(to, limit, amendment.to, event, **changes)


def _checked(place: Place, limit: Limit[Any], to: Any, event: Event, **changes: Any) -> Limit[Any]:
    value = value_at(place, to, limit.measures)
    below = isinstance(to, str) and to.startswith("-") and isinstance(limit.value, Measure | int)
    if below and not isinstance(value, Temperature):
        raise refuse(place, f"`{to}` cannot be; write zero or more")
    if not same_kind(value, limit.value):
        raise refuse(place, f"`{written_as(to)}` cannot replace `{limit.text}`; write a value of the same kind")
    return amended(limit, to, event, **changes)
