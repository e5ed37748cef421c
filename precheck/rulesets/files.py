"""What ruleset files hold: the records of an edition's topics and of a jurisdiction's adoptions."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.rules.rule import MAY_REMAIN, Existing


class AdoptedText(Record):
    """A text of one edition, as a state or city adopted it, that limits were held against."""

    kind = "text"
    edition: str
    name: str
    page: str = ""


class ModelCode(Record):
    """A family of model codes: its editions, oldest first, and the adopted texts that its limits were read in.

    `lacks` names the rules, or whole topics, for which this family has nothing: they are not run under it. `formerly`
    gives for a name of a limit that was bettered the one of today.
    """

    kind = "model code"
    code: str
    title: str = ""
    editions: tuple[str, ...]
    texts: dict[str, AdoptedText] = Field(default_factory=dict)
    lacks: tuple[str, ...] = ()
    formerly: dict[str, str] = Field(default_factory=dict)


class NotChecked(Record):
    """Something that the code asks and that no rule here checks, with the reason.

    `editions` says by edition where its section is another, or that it is `not there`.
    """

    kind = "not checked"
    what: str
    section: str = ""
    why: str
    editions: dict[str, str] = Field(default_factory=dict)


class TopicFile(Record):
    """One topic of a model code: its limits over all editions, what works take of it, and what of it is not checked.

    `sources` are the pages that limits name by a short name; `trade` is what a person calls it who rules it out.
    `model_code.py` reads `limits`, `takes` and `not_checked`.
    """

    kind = "topic file"
    topic: str
    sources: dict[str, Any] = Field(default_factory=dict)
    trade: str = ""
    limits: dict[str, Any] = Field(default_factory=dict)
    takes: dict[str, Any] = Field(default_factory=dict)
    not_checked: tuple[NotChecked, ...] = ()


def _as_now_called(existing: object) -> object:
    """Return the word for what may remain; rulesets used to say `may stay`, and are not asked to be written anew."""
    return MAY_REMAIN if existing == "may stay" else existing


class CheckBlock(Record):
    """How an added requirement is checked: on which part, when, what is measured, how it compares with the limit.

    All conditions of `when` are to hold; `any of` lists such mappings of which one is enough, and `not` in the place of a
    value says what it must not be. With `share of` the measure is compared as a share of another, in percent.
    """

    kind = "check"
    part: str
    when: dict[str, Any] = Field(default_factory=dict)
    measure: str
    share_of: Maybe[str] = NOT_GIVEN
    comparison: Literal["minimum", "maximum", "under", "one of", "required"]
    stage: Literal["intake", "plan", "foundation", "framing", "rough-in", "insulation", "final"] = "plan"
    existing: Annotated[Existing, BeforeValidator(_as_now_called)] = MAY_REMAIN
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
    """One change by ordinance: exactly one of `amend`, `delete`, `add` and `lock` names the limit.

    `row` names the one row of a table, or the way to one cell of it, that is amended. `new_words` are words of a list that
    no field of a project offers; `meant` says that a value ten times off the one in effect is no slip of the pen. What is
    deleted may be a limit, or `section R302.13`, `chapter 11` or `topic energy` with all limits under it. What is locked
    may be these, or the `whole code`: `localities` says what rulesets that adopt this one may not do to it, and `despite` in
    one of these names the act that allows it none the less. `until` is the last day on which the change holds.
    """

    kind = "amendment"
    amend: Maybe[str] = NOT_GIVEN
    delete: Maybe[str] = NOT_GIVEN
    add: Maybe[str] = NOT_GIVEN
    lock: Maybe[str] = NOT_GIVEN
    localities: Maybe[Literal["may not require more", "may not require less", "may not change"]] = NOT_GIVEN
    despite: str = ""
    row: Maybe[str | tuple[str, ...]] = NOT_GIVEN
    was: Any = None
    to: Any = None
    new_words: tuple[str, ...] = ()
    meant: bool = False
    value: Any = None
    by: str
    from_: Maybe[date] = NOT_GIVEN
    until: Maybe[date] = NOT_GIVEN
    section: str = ""
    measures: str = ""
    force: Literal["shall", "advise"] = "shall"
    tolerance: Maybe[str] = NOT_GIVEN
    source: str = ""
    note: str = ""
    check: Maybe[CheckBlock] = NOT_GIVEN

    @property
    def begins(self) -> date:
        """The day from which it holds; the earliest day there is where it holds from the adoption on."""
        return date.min if is_missing(self.from_) else self.from_

    def holds(self, on: date | None) -> bool:
        """Return whether the change is in effect on a day; without a day, after all that is known to take effect.

        A change that ends counts without a day as long as its last day is not past.
        """
        if not is_missing(self.until) and self.until < (on or date.today()):  # noqa: DTZ011  # where the person sits
            return False
        return on is None or self.begins <= on


class Adoption(Record):
    """One jurisdiction's adoption of a code, from a date on.

    `until` is the last day on which it may be used; where a later adoption is in force by then, either may be used. Without
    it a later adoption ends this one.
    """

    kind = "adoption"
    jurisdiction: str
    adopts: str
    in_force: date
    until: Maybe[date] = NOT_GIVEN
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
