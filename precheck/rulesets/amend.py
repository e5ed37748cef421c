"""What an adoption does to the limits of its parent: design criteria, amendments, deletions, additions."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import partial
from types import MappingProxyType
from typing import Any, TypeVar

from precheck.files import spelling
from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest
from precheck.files.record import fields_of, read_record
from precheck.files.source import Block, Place, Problem, Unusable
from precheck.project import DesignCriteria
from precheck.rulesets.common import as_yaml, known_names, refuse, tolerance_of, value_at, written_as
from precheck.rulesets.files import Adoption, Amendment, slug
from precheck.rulesets.limit import CRITERIA, LOCAL, VOID, Event, Limit, Sense, amended, deleted, same_kind
from precheck.rulesets.lock import WHOLE_CODE
from precheck.rulesets.part_of_code import PartOfCode, part_of_code
from precheck.rulesets.replacement import as_part, doubts
from precheck.rulesets.requirement import Requirement, limit_value, requirement
from precheck.rulesets.some_parts import Aim, aim_at, is_for_some, left_standing, named, with_some
from precheck.rulesets.vocabulary import Vocabulary
from precheck.rulesets.was import Parent, cell, held_to_was, rows_of
from precheck.units import Measure, Temperature

_BELONGS = {
    "amend": ("part", "where", "row", "was", "to", "new words", "meant", "tolerance", "force", "despite"),
    "delete": ("was", "despite"),
    "add": ("value", "measures", "section", "force", "tolerance", "check", "despite"),
    "lock": ("localities",),
}
_ALWAYS = ("by", "from", "until", "source", "note")
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
    written = _as_places_have_it(key, adoption.design_criteria[key], place)
    limits[name] = _checked(place, limits[name], written, Event("amended", written, adoption.by, place))


def _as_places_have_it(key: str, written: Any, place: Place) -> str:
    """Return a criterion as the code writes it, held to the words and the range that the title sheet is held to.

    Raises `Unusable`.
    """
    field = next((name for name, of in fields_of(DesignCriteria).items() if of.key == key), None)
    if field is None or not isinstance(written, str) or written in (LOCAL, VOID, "required"):
        return str(written)
    at = (place.line - 1, place.column - 1)
    alone = Block(at, place.file)
    alone[key], alone.keys_at[key] = written, at
    found = getattr(read_record(DesignCriteria, alone), field)
    return found if isinstance(found, str) else written


def verb_of(amendment: Amendment) -> str:
    """Return what an amendment does: ``amend``, ``delete``, ``add`` or ``lock``. Raises `Unusable` unless it does one thing."""
    given = [verb for verb in _BELONGS if not is_missing(getattr(amendment, verb))]
    if len(given) != 1:
        listed = "`amend:`, `delete:`, `add:` or `lock:`"
        raise refuse(amendment.place, f"an amendment does one thing; begin it with {listed}")
    return given[0]


def locked(amendment: Amendment, limits: Mapping[str, Limit[Any]], parent: Parent, told: list[Problem]) -> str:
    """Return what `amendment` locks: a limit by its name of today, a part of the code, or the whole. Raises `Unusable`."""
    _nothing_stray(amendment, "lock")
    place, named = amendment.place_of("lock"), str(amendment.lock)
    if is_missing(amendment.localities):
        raise refuse(
            place, "`localities` is not given; write may not require more, may not require less or may not change"
        )
    if named == WHOLE_CODE:
        return named
    if (part := part_of_code(named)) is not None:
        _under(part, limits, place)
        return str(part)
    return _name_of_today(named, limits, parent.formerly, place, told)


def act_on(
    amendment: Amendment,
    limits: dict[str, Limit[Any]],
    requirements: dict[str, Requirement],
    parent: Parent,
    told: list[Problem],
) -> None:
    """Do in `limits` (and, for what is added with its check, in `requirements`) what `amendment` says.

    A limit may be named as it was formerly; that, and what the `parent` changed since, is `told`. Raises `Unusable`.
    """
    verb = verb_of(amendment)
    name = getattr(amendment, verb)
    _nothing_stray(amendment, verb)
    if verb == "add":
        limits[name] = _addition(amendment, name, limits, requirements, parent.words)
        return
    if verb == "delete" and (part := part_of_code(name)) is not None:
        limits.update(_deleted_under(part, amendment, limits))
        return
    limit = limits[_name_of_today(name, limits, parent.formerly, amendment.place_of(verb), told)]
    some = named(amendment, limit, parent.words) if is_for_some(amendment) else None
    aim: Aim = aim_at(some) if some is not None else lambda whole: whole
    changed = _together(
        partial(held_to_was, amendment, aim(limit), verb == "amend", parent, told, aim),
        partial(_change, verb, amendment, aim(limit)),
    )
    limits[limit.name] = with_some(limit, some, changed) if some is not None else changed
    if some is None and verb == "amend":
        told.extend(left_standing(amendment, limit))


def _deleted_under(part: PartOfCode, amendment: Amendment, limits: dict[str, Limit[Any]]) -> dict[str, Limit[Any]]:
    """Return as deleted all limits of a section, chapter or topic. Raises `Unusable` where there is none."""
    place = amendment.place_of("delete")
    found = _under(part, limits, place)
    event = Event("deleted", "deleted", amendment.by, place)
    return {name: deleted(limit, event) for name, limit in found.items()}


def _under(part: PartOfCode, limits: Mapping[str, Limit[Any]], place: Place) -> dict[str, Limit[Any]]:
    """Return the limits of a section, chapter or topic. Raises `Unusable` where there is none."""
    found = {name: limit for name, limit in limits.items() if part.holds(limit)}
    if not found:
        raise refuse(place, f"no limit stands under {part}; `precheck limits` gives the section of each")
    return found


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
    amendment: Amendment,
    name: str,
    limits: dict[str, Limit[Any]],
    requirements: dict[str, Requirement],
    words: Vocabulary,
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
        requirements[name] = requirement(amendment, name, amendment.check, words)
        value = limit_value(requirements[name], amendment.value, amendment.place_of("value"))
    event = Event("added", written_as(amendment.value), amendment.by, place)
    return Limit(name, value, amendment.section, amendment.measures, amendment.force == "advise", tolerance_of(amendment),
                 "local", amendment.source, None, (event,), _sense(amendment))  # fmt: skip


def _sense(amendment: Amendment) -> Sense:
    """Return how a requirement that is added with its check compares with the limit; nothing where no check is added."""
    return "" if is_missing(amendment.check) else amendment.check.comparison


def _change(verb: str, amendment: Amendment, limit: Limit[Any]) -> Limit[Any]:
    place, since = amendment.place_of(verb), None if is_missing(amendment.from_) else amendment.from_
    _not_twice(verb, amendment, limit)
    if verb == "delete":
        return deleted(limit, Event("deleted", "deleted", amendment.by, place, since))
    if amendment.to is None:
        raise refuse(place, f"`to` is not given; write the new value of `{limit.name}`")
    to = amendment.place_of("to")
    changes: dict[str, Any] = {} if is_missing(amendment.tolerance) else {"tolerance": tolerance_of(amendment)}
    if "force" in (amendment.block or ()):  # an office makes binding what is only good practice, or the reverse
        changes["advised"] = amendment.force == "advise"
    value, before = _not_below_zero(to, limit, amendment.to), cell(amendment, limit)
    found = doubts(to, limit, amendment.to, value, before, amendment.new_words, amendment.meant)
    if problems := sorted(found):
        raise Unusable(problems)
    whole = _with_cell(limit.value, rows_of(amendment), value)
    text = as_yaml(whole) if rows_of(amendment) else written_as(amendment.to)
    return amended(limit, whole, Event("amended", text, amendment.by, to, since), **changes)


def _not_twice(verb: str, amendment: Amendment, limit: Limit[Any]) -> None:
    """Refuse what does nothing: a value that replaces itself, and what the same file has deleted before."""
    last, place = limit.history[-1] if limit.history else None, amendment.place_of(verb)
    if verb == "delete" and last is not None and last.act == "deleted" and last.place.file == place.file:
        raise refuse(place, f"`{limit.name}` is deleted twice, first at {last.place}; keep one")
    said = {"force", "tolerance"} & set(amendment.block or ())
    if verb == "amend" and amendment.to is not None and not said and amendment.was == amendment.to:
        raise refuse(
            amendment.place_of("to"), f"`to` says what `was` says, so `{limit.name}` stays; leave the amendment out"
        )


def _with_cell(table: Any, rows: tuple[str, ...], value: Any) -> Any:
    """Return `table` with `value` in the cell to which `rows` lead."""
    if not rows:
        return value
    return MappingProxyType({**table, rows[0]: _with_cell(table[rows[0]], rows[1:], value)})


def _not_below_zero(place: Place, limit: Limit[Any], to: Any) -> Any:
    value = as_part(value_at(place, to, limit.measures), limit.value)
    below = isinstance(to, str) and to.startswith("-") and isinstance(limit.value, Measure | int)
    if below and not isinstance(value, Temperature):
        raise refuse(place, f"`{to}` cannot be; write zero or more")
    return value


def _checked(place: Place, limit: Limit[Any], to: Any, event: Event) -> Limit[Any]:
    value = _not_below_zero(place, limit, to)
    if not same_kind(value, limit.value):
        raise refuse(place, f"`{written_as(to)}` cannot replace `{limit.text}`; write a value of the same kind")
    return amended(limit, value, event)
