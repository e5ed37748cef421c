"""``precheck ruleset verify``: every problem of a ruleset at its line, what its parent says, and its own cases."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from precheck.cli import EXIT_CORRECTIONS, EXIT_READY, EXIT_UNUSABLE
from precheck.cli.setup import folders_option, library, load_plugins, say
from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest
from precheck.files.respelling import merged
from precheck.files.source import Block, Unusable
from precheck.reports.width import wrapped
from precheck.review.chosen import rules_of
from precheck.rules.plugins import Plugins
from precheck.rulesets import Amendment, Library, RulesetCase, slug
from precheck.rulesets.common import as_yaml
from precheck.rulesets.limit import Limit
from precheck.rulesets.verify import Verified, acts, verify
from precheck.runs import cases


@click.command("verify", epilog="Example: precheck ruleset verify alder/2026-03-01.yaml --rulesets rulesets")
@click.argument("names", nargs=-1, required=True, metavar="FILE|NAME...")
@folders_option
def command(names: tuple[str, ...], folders: tuple[Path, ...]) -> None:
    """Report every problem of rulesets: an adoption FILE, or all those of the jurisdiction or edition NAME.

    Exit status: 0 when nothing is wrong, 1 when a case of the ruleset comes to something else than it expects, 2 when
    the ruleset cannot be used.
    """
    plugins = load_plugins()
    known = {folder.resolve() for folder in (*plugins.rulesets, *folders)}
    beside = (folder for folder in _folders_of(names) if folder.resolve() not in known)
    rulesets = library(plugins, dict.fromkeys((*folders, *beside)))
    sys.exit(max(_verify(name, rulesets, plugins) for name in names))


def _folders_of(names: tuple[str, ...]) -> Iterator[Path]:
    """Yield the folders of rulesets in which adoption files stand, so that what they adopt is found beside them."""
    for path in (Path(name) for name in names if Path(name).suffix in (".yaml", ".yml")):
        if path.parent.parent.name == "jurisdictions":
            yield path.parent.parent.parent


def _verify(name: str, rulesets: Library, plugins: Plugins) -> int:
    if slug(name) in rulesets.editions:
        return _edition(rulesets, slug(name))
    return max(_told(verify(rulesets, path), plugins) for path in _files(rulesets, name))


def _files(rulesets: Library, name: str) -> list[Path]:
    if Path(name).suffix in (".yaml", ".yml"):
        return [Path(name)]
    paths = rulesets.jurisdictions.get(slug(name))
    if not paths:
        known = [*rulesets.jurisdictions, *rulesets.editions]
        raise click.BadParameter(f"no ruleset is called `{name}`{nearest(slug(name), known)}")
    return paths


def _edition(rulesets: Library, name: str) -> int:
    code = rulesets.adopt(name)  # raises with every problem at its line
    say(
        f"{name}: {len(code.limits)} limits in {len(rulesets.topics(rulesets.editions[name].code.code))} files, nothing wrong."
    )
    return EXIT_READY


def _told(found: Verified, plugins: Plugins) -> int:
    say(str(found.path))
    taken = list(_taken_names(found, plugins))
    for problem in (*found.problems, *taken):
        say(str(problem), err=True)
    if found.problems or taken:
        count = len(found.problems) + len(taken)
        say(f"{count} problem{'s' if count > 1 else ''} to mend.", err=True)
        return EXIT_UNUSABLE
    for line in (*merged(found.told), *_acts(found, plugins)):
        say(str(line))
    return _cases(found, plugins)


def _taken_names(found: Verified, plugins: Plugins) -> Iterator[object]:
    try:
        if found.newest is not None:
            rules_of(found.newest, plugins)
    except Unusable as error:
        yield from error.problems


def _acts(found: Verified, plugins: Plugins) -> Iterator[str]:
    assert found.adoption is not None
    adoption = found.adoption
    partial = " It says that it is partial." if adoption.partial else ""
    adopts = adoption.adopts or "no code of its own"
    when = f"in force {adoption.in_force}, by {adoption.by}"
    yield from wrapped(f"{adoption.jurisdiction} adopts {adopts}, {when}.{partial}")
    read = _read(found, plugins)
    for amendment, limits in acts(found):
        yield from wrapped(f"line {amendment.place.line}: {_acted(amendment, limits)}", indent=2, hang=2)
        if len(limits) == 1 and limits[0].name not in read:
            yield from wrapped("no rule reads it, so reports list it as not checked", indent=4)


def _acted(amendment: Amendment, limits: list[Limit[object]]) -> str:
    """Return what an amendment does to one limit, or to all under a part of the code, or what it locks."""
    if not is_missing(amendment.lock):
        return f"locks {amendment.lock}: localities {amendment.localities}"
    if len(limits) == 1:
        return _act(amendment, limits[0])
    return f"{len(limits)} limits under {amendment.delete} are deleted"


def _read(found: Verified, plugins: Plugins) -> set[str]:
    rules = rules_of(found.newest, plugins) if found.newest is not None else ()
    return {name for rule in rules for name in rule.limit_names}


def _act(amendment: Amendment, limit: Limit[object]) -> str:
    """Return what an amendment does and what it replaced, as the history of the limit tells."""
    mine = next((i for i, e in enumerate(limit.history) if _is_of(amendment, e.place)), None)
    if mine is None:  # it is over, or a ruleset above does not let it
        return f"{limit.name} stays {limit.text}: the change does not hold by now"
    event = limit.history[mine]
    since = "" if is_missing(amendment.from_) else f" from {amendment.from_} on"
    if mine == 0:
        return f"adds {limit.name}: {event.value}{since}"
    before, of = limit.history[mine - 1], f" for {event.of}" if event.of else ""
    if not is_missing(amendment.row):
        row = amendment.row if isinstance(amendment.row, str) else ", ".join(amendment.row)
        was, to = as_yaml(amendment.was), as_yaml(amendment.to)
        return f"{limit.name}, row {row}, becomes {to}{of}{since}; the parent says {was} ({before.source})"
    now = "is deleted" if event.act == "deleted" else f"becomes {event.value}{of}"
    return f"{limit.name} {now}{since}; the parent says {before.value} ({before.source})"


def _is_of(amendment: Amendment, place: tuple[str, int, int]) -> bool:
    start = amendment.place
    places = {amendment.place_of(key)[1] for key in ("amend", "delete", "add", "to", "value")}
    return place[0] == start.file and place[1] in places


def _cases(found: Verified, plugins: Plugins) -> int:
    assert found.adoption is not None
    failed = 0
    for case in found.adoption.cases:
        if told := _case(found, case, plugins):
            failed += 1
            say(f"{case.place}: case `{case.case}`", err=True)
            say("\n".join(f"  {line}" for line in told), err=True)
    count = len(found.adoption.cases)
    if count:
        say(f"{count - failed} of {count} cases come to what they expect.")
    elif found.adoption.amendments:
        say("It carries no cases; add some under `cases:` to hold it to what it should say.")
    return EXIT_CORRECTIONS if failed else EXIT_READY


def _case(found: Verified, case: RulesetCase, plugins: Plugins) -> list[str]:
    """Return how a case differs from what it expects, and what was found; nothing where it does not."""
    if not cases.is_outcome(case.expect):
        return [f"`{case.expect}` is no outcome; write pass, warn, fail, not shown, does not apply or nothing"]
    code = found.newest if is_missing(case.on) else found.codes.get(case.on)
    if code is None or not isinstance(case.given, Block):
        return ["`given` is a fragment of a project: a mapping such as {spaces: [...], stairs: [...]}"]
    try:
        said = cases.findings_of(case.rule, case.given, code, plugins)
    except Unusable as error:
        return [str(problem) for problem in error.problems]
    if said is None:
        return [cases.no_such_rule(case.rule, code, plugins)]
    wrong = cases.wrong(said, case.expect, case.says, case.fix, case.needs)
    return [*wrong, "the rule found:", *(f"  {line}" for line in cases.as_lines(said))] if wrong else []
