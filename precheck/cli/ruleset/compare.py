"""``precheck ruleset compare``: what changes between two adoptions or editions, section by section."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import click

from precheck.cli.setup import folders_option, library, load_plugins, say
from precheck.reports.width import wrapped
from precheck.rulesets import AdoptedCode, Library, slug
from precheck.rulesets.compare import Comparison, LimitChange, by_section, compare
from precheck.rulesets.limit import Limit


@click.command("compare", epilog="Example: precheck ruleset compare irc-2018 'Tamarack County@2026-01-01'")
@click.argument("first", metavar="A")
@click.argument("second", metavar="B")
@click.option("--topic", "topics", multiple=True, help="Compare only this topic. May be given again.")
@click.option("--sections", is_flag=True, help="List also the limits whose section has only another number.")
@folders_option
def command(first: str, second: str, topics: tuple[str, ...], sections: bool, folders: tuple[Path, ...]) -> None:
    """Show what changes from A to B: jurisdictions, editions or adoption files.

    Each may end in @ and a date, for the code as in effect on that day; without it the newest counts. Where a place
    leaves the choice, @ and an edition stand before that.
    """
    rulesets = library(load_plugins(), folders)
    before, after = (rulesets.adopt(*_named(text, rulesets)) for text in (first, second))
    for line in _lines(compare(before, after, topics), sections):
        say(line)


def _named(text: str, rulesets: Library) -> tuple[str, date | None]:
    """Return the name of a ruleset, with the edition that is chosen where one is, and the day after its last @."""
    name, at, day = text.rpartition("@")
    if not at or slug(day) in rulesets.editions:
        return text, None
    try:
        return name, date.fromisoformat(day)
    except ValueError:
        raise click.BadParameter(f"`{day}` is not a date; write year-month-day, such as {name}@2026-01-01") from None


def _lines(found: Comparison, sections: bool) -> Iterator[str]:
    yield f"From: {_chain(found.before)}"
    yield f"To:   {_chain(found.after)}"
    for name in (s.name for s in (*found.before.chain, *found.after.chain) if s.partial):
        yield from wrapped(f"The ruleset of {name} is partial: it does not hold all local amendments.")
    for section, changes in by_section(found.changes):
        yield ""
        yield section or "Without a section"
        for change in changes:
            yield from _change(change)
    yield ""
    yield f"{len(found.changes)} limits change, {found.same} stay."
    if found.renumbered:
        yield from _renumbered(found, sections)


def _chain(code: AdoptedCode) -> str:
    names = " < ".join(step.name for step in reversed(code.chain))
    return f"{names}, {f'as of {code.applied_on}' if code.applied_on else 'newest'}"


def _change(change: LimitChange) -> Iterator[str]:
    yield from wrapped(f"{change.either.measures} ({change.name})", indent=2, hang=2)
    if change.before is None or change.after is None:
        word, limit = ("new", change.after) if change.before is None else ("no longer in the code", change.before)
        yield from wrapped(f"{word}: {_value(limit)}", indent=4, hang=2)
        yield from _for_some(change)
        return
    yield from _for_some(change)
    if (change.before.value, change.before.advised) == (change.after.value, change.after.advised):
        return
    yield from wrapped(f"{_value(change.before)} -> {_value(change.after)}", indent=4, hang=2)
    act = change.after.history[-1]
    if act.act != "set":
        yield from wrapped(f"{act.act} by {act.source} ({act.place})", indent=4, hang=2)
    if change.before.section and change.before.section != change.after.section:
        yield f"    before in {change.before.section}"


def _value(limit: Limit[Any] | None) -> str:
    if limit is None:
        return ""
    if limit.value is None:
        return "not required" if limit.history[-1].act != "deleted" else "deleted"
    return f"{limit.text}{' (good practice)' if limit.advised else ''}"


def _for_some(change: LimitChange) -> Iterator[str]:
    """Yield the values of some parts that one side has and the other has not, or has otherwise."""
    before, after = (
        {str(one): one.limit for one in limit.for_some} if limit is not None else {}
        for limit in (change.before, change.after)
    )
    for parts in dict.fromkeys((*before, *after)):
        was, now = _value(before.get(parts, change.before)), _value(after.get(parts, change.after))
        if was != now:
            yield from wrapped(f"for {parts}: {was} -> {now}", indent=4, hang=2)
        if was != now and parts in after:
            event = after[parts].history[-1]
            yield from wrapped(f"{event.act} by {event.source} ({event.place})", indent=4, hang=2)


def _renumbered(found: Comparison, all_of_them: bool) -> Iterator[str]:
    count = len(found.renumbered)
    if not all_of_them:
        yield from wrapped(f"{count} of those that stay have another section number; --sections lists them.")
        return
    yield f"{count} of those that stay have another section number:"
    for change in found.renumbered:
        before, after = (limit.section if limit else "" for limit in (change.before, change.after))
        yield from wrapped(f"{before or 'none'} -> {after or 'none'}: {change.name}", indent=2, hang=2)
