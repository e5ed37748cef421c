"""What ruleset files hold: the records of an edition's topics and of a jurisdiction's adoptions."""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

from pydantic import Field

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.rulesets.limit import Basis


class LimitEntry(Record):
    """One limit of an edition's topic file, or one that an ordinance adds."""

    kind = "limit"
    value: Any
    section: str = ""
    means: str
    force: Literal["shall", "advise"] = "shall"
    tolerance: Maybe[str] = NOT_GIVEN
    basis: Maybe[Basis] = NOT_GIVEN
    source: str = ""


class NotChecked(Record):
    """Something that the code asks and that no rule here checks, with the reason."""

    kind = "not checked"
    what: str
    section: str = ""
    why: str


class TopicFile(Record):
    """One topic of an edition: its limits, and what of it is not checked."""

    kind = "topic file"
    edition: str
    topic: str
    basis: Basis = "memory"
    source: str = ""
    limits: dict[str, Any] = Field(default_factory=dict)
    not_checked: tuple[NotChecked, ...] = ()


class CheckBlock(Record):
    """How an added requirement is checked: on which part, when, what is measured, how it compares with the limit."""

    kind = "check"
    part: str
    when: dict[str, Any] = Field(default_factory=dict)
    measure: str
    comparison: Literal["at most", "at least", "less than", "required", "one of"]
    stage: Literal["intake", "plan", "foundation", "framing", "rough-in", "insulation", "final"] = "plan"
    existing: Literal["may stay", "must comply"] = "may stay"
    fix: str = ""


class RulesetCase(Record):
    """An example that a ruleset carries: a fragment of a project, and what one rule must say of it under this code."""

    kind = "case"
    case: str
    rule: str
    on: Maybe[date] = NOT_GIVEN
    given: Any
    expect: str
    says: str = ""
    fix: str = ""
    needs: tuple[str, ...] = ()


class Amendment(Record):
    """One change by ordinance: exactly one of `amend`, `delete` and `add` names the limit."""

    kind = "amendment"
    amend: Maybe[str] = NOT_GIVEN
    delete: Maybe[str] = NOT_GIVEN
    add: Maybe[str] = NOT_GIVEN
    was: Any = None
    to: Any = None
    value: Any = None
    by: str
    from_: Maybe[date] = NOT_GIVEN
    section: str = ""
    means: str = ""
    force: Literal["shall", "advise"] = "shall"
    tolerance: Maybe[str] = NOT_GIVEN
    source: str = ""
    note: str = ""
    check: Maybe[CheckBlock] = NOT_GIVEN


class Adoption(Record):
    """One jurisdiction's adoption of a code, from a date on."""

    kind = "adoption"
    jurisdiction: str
    adopts: str
    in_force: date
    by: str
    partial: bool = False
    demo: bool = False
    source: str = ""
    note: str = ""
    design_criteria: dict[str, Any] = Field(default_factory=dict)
    amendments: tuple[Amendment, ...] = ()
    cases: tuple[RulesetCase, ...] = ()


def slug(name: str) -> str:
    """Return the folder name of a jurisdiction: ``Tamarack County`` is kept in ``tamarack-county``."""
    return "-".join("".join(c if c.isalnum() else " " for c in name.lower()).split())
