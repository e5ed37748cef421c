"""``precheck explain``: a rule or a limit, what it means, its value here and now, its history, who reads it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from precheck.cli.setup import adopt, heeded, library, load_plugins, project_options, say
from precheck.files.mistakes import nearest
from precheck.reports import words
from precheck.reports.width import wrapped
from precheck.review.chosen import rules_of
from precheck.rules.rule import STANDS_ASIDE, Rule
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import Limit


@click.command(epilog="Example: precheck explain stairs.riser-height --ruleset 'Tamarack County'")
@click.argument("name")
@project_options
@click.option("--project", help="Explain what the rule finds on this project, with every step of its calculation.")
@click.option("--part", help="Of that project, explain this part alone, by its id.")
def command(
    name: str,
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    mapping: Path | None,
    project: str | None,
    part: str | None,
) -> None:
    """Explain the rule or limit NAME in effect under a ruleset."""
    heeded(mapping, *([project] if project else []))
    if project is not None:
        from precheck.cli.finding import explained

        for line in explained(name, project, part, ruleset, on, folders, mapping):
            say(line)
        return
    plugins = load_plugins()
    code = adopt(library(plugins, folders), ruleset, on)
    rules = {rule.name: rule for rule in rules_of(code, plugins)}
    if name not in rules and name not in code.limits:
        meant = nearest(name, [*rules, *code.limits]) or "; `precheck rules` and `precheck limits` list them"
        raise click.BadParameter(f"no rule or limit is called `{name}`{meant}")
    say(
        f"Under {' < '.join(step.name for step in reversed(code.chain))}, as of {on.date() if on else 'the newest adoption'}"
    )
    click.echo("")
    lines = _rule(rules[name], code) if name in rules else _limit(code.limits[name], rules.values(), code)
    for line in lines:
        say(line)


def _rule(rule: Rule, code: AdoptedCode) -> Iterator[str]:
    engineered = "; engineered parts stand aside" if rule.engineered == STANDS_ASIDE else ""
    yield f"{rule.name} ({rule.stage} stage; existing parts {rule.existing}{engineered})"
    for paragraph in rule.meaning.split("\n\n"):
        yield from wrapped(" ".join(paragraph.split()), indent=2)
    yield f"Applies to: {applies_to(rule)}"
    for name in rule.limit_names:
        yield ""
        limit = code.limits.get(name)
        yield from (
            _value(limit) if limit else wrapped(f"{name} is not defined by this code: the check reports an error")
        )


def applies_to(rule: Rule) -> str:
    """Return what a person calls the kind of thing that `rule` is about."""
    subject = rule.signature.subject
    called = getattr(subject, "kind", "")  # of some facts this is another thing
    return called if called and isinstance(called, str) else _WITHIN.sub(" ", subject.__name__).lower()


def _limit(limit: Limit[Any], rules: Iterable[Rule], code: AdoptedCode) -> Iterator[str]:
    yield from _value(limit)
    for lock in code.locks:
        if lock.covers(limit):
            yield from wrapped(str(lock), indent=2, hang=2)
    readers = [rule.name for rule in rules if limit.name in rule.limit_names]
    yield from wrapped(f"Read by: {', '.join(readers) or 'no rule, so it is not checked'}")


def _value(limit: Limit[Any]) -> Iterator[str]:
    yield from wrapped(f"{limit.name}: {limit.text}", hang=4)
    for one in limit.for_some:
        yield from wrapped(f"{one.limit.text} for {one}", indent=2, hang=2)
    yield from wrapped(limit.measures, indent=2)
    if limit.advised:
        yield "  Recommended, not required: it warns and never fails."
    if limit.tolerance is not None:
        yield f"  Field tolerance: {limit.tolerance}; what passes by less is flagged for review."
    if limit.note:
        yield from wrapped(f"Note: {limit.note}", indent=2, hang=2)
    for event in (*limit.history, *(event for one in limit.for_some for event in one.limit.history if event.of)):
        act, value = words.act(event)
        yield from wrapped(f"{act}{': ' if value else ''}{value} by {event.source}", indent=2, hang=2)
        yield f"    {event.place}"
    source = f", {limit.source}" if limit.source else ""
    yield from wrapped(f"Basis: {_BASES[limit.basis]}{source}", indent=2, hang=2)


_WITHIN = re.compile("(?<=[a-z])(?=[A-Z])")  # where a word begins within a name such as EscapeOpening
_BASES = {
    "read": "read for this edition",
    "read elsewhere": "read in another edition or a summary, and carried over",
    "memory": "from memory, not read",
    "practice": "common practice, no source",
    "local": "set by the jurisdiction",
    "demo": "invented for the demo",
}
