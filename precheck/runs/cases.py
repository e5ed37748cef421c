"""Examples that hold rules to what they should say, for the case files beside rules and the cases of a ruleset."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from precheck.checks import Outcome
from precheck.files import spelling
from precheck.files.mistakes import nearest
from precheck.files.record import key_of
from precheck.files.source import Block
from precheck.project import project_from
from precheck.reports import words
from precheck.review.chosen import rules_of
from precheck.review.finding import Finding
from precheck.review.run import run
from precheck.rules.plugins import Plugins
from precheck.rulesets import AdoptedCode
from precheck.survey import House

NOTHING = "nothing"  # expected where no part of the house is a subject of the rule


def findings_of(rule_name: str, fragment: Block, code: AdoptedCode, plugins: Plugins) -> list[Finding] | None:
    """Return what one rule says of a fragment of a project under `code`, or None where there is no such rule."""
    rules = {rule.name: rule for rule in rules_of(code, plugins)}
    rule = rules.get(spelling.name(rule_name, rules, spelling.FORMER_RULES) or "")
    if rule is None:
        return None
    fragment.setdefault("project", "case")
    return list(run(rule, House(project_from(fragment, plugins.added)), code))


def no_such_rule(rule_name: str, code: AdoptedCode, plugins: Plugins) -> str:
    """Return the words that no rule is called `rule_name`, and which plugins did not load."""
    failed = "; ".join(f"{f.plugin}: {f.why}" for f in plugins.failures)
    near = nearest(rule_name, [rule.name for rule in rules_of(code, plugins)])
    return f"no loaded plugin offers a rule `{rule_name}`{near}{f' (not loaded: {failed})' if failed else ''}"


def is_outcome(word: str) -> bool:
    """Return whether a case may expect `word`."""
    return word in (*(outcome.word for outcome in Outcome), NOTHING)


def wrong(
    found: list[Finding],
    outcome: str,
    says: str = "",
    fix: str = "",
    needs: tuple[str, ...] = (),
    changes: Mapping[str, Any] | None = None,
) -> list[str]:
    """Return how `found` differs from what is expected: its worst outcome, and words and changes of what came to it."""
    worst = min((f.outcome for f in found), default=None)
    came_to = worst.word if worst is not None else NOTHING
    telling = [f for f in found if f.outcome is worst]
    asked = {need for f in telling for need in words.needs(f)}
    differences = [
        f"it came to `{came_to}` instead of `{outcome}`" if came_to != outcome else "",
        _lacks("says", says, [f"{words.message(f)} {f.check.why}" for f in telling]),
        _lacks("fix", fix, [f.check.remedy for f in telling]),
        *(f"`{need}` is not among its needs" for need in needs if need not in asked),
        "" if changes is None else _changes_else({key: _written(value) for key, value in changes.items()}, telling),
    ]
    return [difference for difference in differences if difference]


def _changes_else(wanted: dict[str, str], telling: list[Finding]) -> str:
    values: dict[str, dict[str, None]] = {}
    for one in (one for finding in telling for one in finding.check.changes):
        values.setdefault(key_of(type(one.record), one.field), {})[_written(one.value)] = None
    made = {key: ", ".join(found) for key, found in values.items()}
    return "" if made == wanted else f"its remedy changes {made or 'nothing'} instead of {wanted or 'nothing'}"


def _written(value: Any) -> str:
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)


def as_lines(found: list[Finding]) -> list[str]:
    """Return all that was found, a line each, for the message of a case that failed."""
    return [_told(finding) for finding in found] or ["nothing"]


def _told(finding: Finding) -> str:
    needs = ", ".join(words.needs(finding))
    told = {"": f"{finding.outcome.word}: {words.message(finding)}", "fix: ": finding.check.remedy, "needs: ": needs}
    return " | ".join(f"{what}{text}" for what, text in told.items() if text)


def _lacks(what: str, wanted: str, texts: list[Any]) -> str:
    return "" if not wanted or any(wanted in text for text in texts) else f"its `{what}` lacks `{wanted}`"
