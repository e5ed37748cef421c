"""The rules of a run: those of plugins, and the requirements that a ruleset adds as data, as rules like any other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property, lru_cache
from typing import Any, NamedTuple

from precheck.checks import Check
from precheck.files import spelling
from precheck.files.missing import is_missing
from precheck.files.record import Record
from precheck.files.source import Problem, Unusable
from precheck.immutable import fixed
from precheck.rules.line import Line, line, shown, to_show
from precheck.rules.plugins import Plugins
from precheck.rules.rule import Rule, Signature
from precheck.rulesets import CRITERIA, AdoptedCode, Requirement
from precheck.rulesets.limit import WORKS, Limit
from precheck.rulesets.quantity import lies_in
from precheck.survey import House
from precheck.survey.works import Work
from precheck.units import Measure


class OneLimit(NamedTuple):
    """The limit that the ordinance added with the requirement."""

    limit: Limit[Any]


@fixed
class AddedRule(Rule):
    """A rule made of a requirement that stands in a ruleset. It reads the one limit of its own name."""

    requirement: Requirement

    @property
    def meaning(self) -> str:
        """The plain reading, from what the limit means and when it is due."""
        return self.requirement.meaning

    @cached_property
    def signature(self) -> Signature:
        """The part that the requirement is about, and its limit."""
        return Signature(self.requirement.part, OneLimit, (self.name,), True)


def added_rules(code: AdoptedCode) -> tuple[Rule, ...]:
    """Return the requirements that the rulesets of `code` add, as rules."""
    return _rules(code.requirements)


@lru_cache(maxsize=64)
def _rules(requirements: tuple[Requirement, ...]) -> tuple[Rule, ...]:
    return tuple(_rule(found) for found in requirements)


def _rule(found: Requirement) -> AddedRule:
    def function(subject: Any, limits: OneLimit, house: Any) -> Any:
        return found.check(subject, limits.limit, house)

    return AddedRule(found.name, function, found.stage, found.existing, found)


def rules_of(code: AdoptedCode, plugins: Plugins) -> tuple[Rule, ...]:
    """Return the rules of `plugins` and those that `code` adds as data.

    Raises `Unusable` where a name is taken, or a value set locally is of a kind that no rule could compare.
    """
    added = added_rules(code)
    taken = {rule.name for rule in plugins.rules} if added else set()
    twice = [found for found in code.requirements if found.name in taken]
    if twice:
        what = "is the name of a rule that a plugin offers; amend that rule's limits, or choose another name"
        raise Unusable(Problem(found.place, f"`{found.name}` {what}") for found in twice)
    odd = {*_of_another_kind(code, plugins.rules), *_of_other_parts(code, (*plugins.rules, *added))}
    if odd:
        raise Unusable(sorted(odd))
    return (*plugins.rules, *added, *_listed_lines(code, plugins.rules))


def _of_other_parts(code: AdoptedCode, rules: Iterable[Rule]) -> Iterator[Problem]:
    """Yield the values for some parts of which no rule that reads the limit is about any."""
    with_some = {name: limit for name, limit in code.limits.items() if limit.for_some}
    if not with_some:
        return
    about: dict[str, list[type[Any]]] = {}
    for rule in rules:
        for name in with_some.keys() & set(rule.limit_names):
            about.setdefault(name, []).append(rule.signature.subject)
    for name, kinds in about.items():
        records = [kind for kind in kinds if issubclass(kind, Record)]
        for one in (
            with_some[name].for_some if len(records) == len(kinds) else ()
        ):  # where a fact leads is seen in a run
            if not any(lies_in(kind, one.part) for kind in records):
                known = ", ".join(dict.fromkeys(kind.kind for kind in records))
                told = f"`{name}` is asked of a {known}, which lies in no {one.part.kind}; name another `part`"
                yield Problem(one.limit.history[-1].place, told)


def _listed_lines(code: AdoptedCode, rules: Iterable[Rule]) -> Iterator[Line]:
    """Yield the lines that a ruleset has and no plugin answers: they are settled by what the submittal lists as shown."""
    answered = {rule.limit_name for rule in rules if isinstance(rule, Line)}
    for name, limit in code.limits.items():
        if limit.takes is not None and not limit.takes.not_checked and name not in answered:
            yield _listed(name.removesuffix(f".{WORKS}"), limit.measures)


def _listed(name: str, text: str) -> Line:
    @line(name)
    def is_listed(work: Work, house: House) -> Check:
        submittal = house.project.submittal
        listed = () if is_missing(submittal) else submittal.shows
        return shown("the submittal") if spelling.plain(text) in map(spelling.plain, listed) else to_show(text, work)

    return is_listed


def _of_another_kind(code: AdoptedCode, rules: Iterable[Rule]) -> Iterator[Problem]:
    """Yield the values that a jurisdiction gave, where the edition leaves them open, and that are not what rules read."""
    local = {name for name, limit in code.limits.items() if limit.basis == "local" and limit.value is not None}
    for rule in rules:
        for name in local.intersection(rule.limit_names):
            kind, limit = rule.kind_of(name), code.limits[name]
            if kind is not None and not is_missing(limit.value) and not _is_of(kind, limit.value):
                yield Problem(limit.history[-1].place, f"{limit.measures}: `{limit.text}` is not {_form(kind)}")


def _is_of(kind: type[Any], value: object) -> bool:
    return isinstance(value, kind) and (kind is bool or not isinstance(value, bool))


def _form(kind: type[Any]) -> str:
    if issubclass(kind, Measure):
        return f"{kind.a()}; write it like {kind.example}"
    return "`required`, `allowed` or `not required`; write one of them" if kind is bool else "a whole number; write one"


class Chosen(NamedTuple):
    """The rules that are `offered`, those of them that a run is about, and what no rule of the run checks."""

    offered: tuple[Rule, ...]
    rules: tuple[Rule, ...]
    not_checked: tuple[str, ...]


@lru_cache(maxsize=512)
def chosen_rules(code: AdoptedCode, plugins: Plugins, topics: frozenset[str] = frozenset()) -> Chosen:
    """Return the rules of `topics`, or all where none is named; worked out once for all projects under one code."""
    offered = rules_of(code, plugins)
    wanted = topics | _local_topics(code, plugins) if topics else topics
    rules = tuple(rule for rule in offered if (not wanted or rule.topic in wanted) and not _is_foreign(rule, code))
    return Chosen(offered, rules, tuple(_not_checked(code, offered, plugins, wanted)))


def _local_topics(code: AdoptedCode, plugins: Plugins) -> frozenset[str]:
    """Return the topics that rulesets made for what they add: no plugin has them, and a run about a topic keeps them."""
    return frozenset(rule.topic for rule in added_rules(code)) - {rule.topic for rule in plugins.rules}


def _is_foreign(rule: Rule, code: AdoptedCode) -> bool:
    """Whether the model code says that it has nothing for `rule`, or for its topic."""
    return rule.name in code.lacks or rule.topic in code.lacks


def _not_checked(code: AdoptedCode, rules: Iterable[Rule], plugins: Plugins, wanted: frozenset[str]) -> Iterator[str]:
    read = {name for rule in rules for name in rule.limit_names}
    left_out = sorted({rule.topic for rule in rules if wanted and rule.topic not in wanted})
    if left_out:
        yield f"left out of this run: {', '.join(left_out)}"
    if plugins.left_out:
        yield f"plugins left out of this run: {', '.join(plugins.left_out)}"
    for old, new in plugins.replaced.items():
        yield f"rule {old}: {new} runs in its place"
    for rule in rules:
        if (not wanted or rule.topic in wanted) and _is_foreign(rule, code):
            yield f"rule {rule.name}: {code.edition} has nothing like it"
    for name, limit in sorted(code.limits.items()):
        if name not in read and limit.value is not None and not name.startswith(CRITERIA):
            yield f"{limit.name}: {limit.measures} ({limit.citation})"
    for name, note in code.caveats:
        if not name or not wanted or name.partition(".")[0] in wanted:
            yield f"{name or code.name}: {' '.join(note.split())}"
    yield from map(str, code.not_checked)
