"""What ruleset files hold: the records of an edition's topics and of a jurisdiction's adoptions."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.files.values import Before
from precheck.rules.rule import MAY_REMAIN, Existing


class AdoptedText(Record):
    """A text of one edition, as a state or city adopted it, that limits were held against."""

    kind = "text"
    edition: str
    """The edition whose text it is."""
    name: str
    """What the text is called in reports."""
    page: str = ""
    """Where it can be read."""


class ModelCode(Record):
    """A family of model codes: its editions, oldest first, and the adopted texts that its limits were read in.

    `lacks` names the rules, or whole topics, for which this family has nothing: they are not run under it. `formerly`
    gives for a name of a limit that was bettered the one of today.
    """

    kind = "model code"
    code: str
    """The name of the family, such as irc."""
    title: str = ""
    """Its full name."""
    editions: tuple[str, ...]
    """The labels of its editions, oldest first."""
    texts: dict[str, AdoptedText] = {}
    """The adopted texts, by the short names under which limits cite them."""
    lacks: tuple[str, ...] = ()
    """The rules, or whole topics, for which this family has nothing."""
    formerly: dict[str, str] = {}
    """Names of limits that were bettered, each with the one of today."""


class NotChecked(Record):
    """Something that the code asks and that no rule here checks, with the reason.

    `editions` says by edition where its section is another, or that it is `not there`.
    """

    kind = "not checked"
    what: str
    """What the code asks."""
    section: str = ""
    """Where the code asks it."""
    why: str
    """Why no rule checks it."""
    editions: dict[str, str] = {}
    """By edition, another section, or `not there`."""


class TopicFile(Record):
    """One topic of a model code: its limits over all editions, what works take of it, and what of it is not checked.

    `sources` are the pages that limits name by a short name; `trade` is what a person calls it who rules it out.
    `model_code.py` reads `limits`, `takes` and `not_checked`.
    """

    kind = "topic file"
    topic: str
    """The name of the topic."""
    sources: dict[str, Any] = {}
    """The pages that limits cite, by short names."""
    trade: str = ""
    """What a person calls it who rules it out."""
    limits: dict[str, Any] = {}
    """The limits, by rule and name, each once for all editions."""
    takes: dict[str, Any] = {}
    """The lines of what works take, by name."""
    not_checked: tuple[NotChecked, ...] = ()
    """What the code asks of this topic and no rule checks."""


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
    """The kind of part that it is about, such as window."""
    when: dict[str, Any] = {}
    """When it is due: all of these conditions; leave it out where it is always due."""
    measure: str
    """What is compared with the value."""
    share_of: Maybe[str] = NOT_GIVEN
    """Compare the measure as a share of this, in percent."""
    comparison: Literal["minimum", "maximum", "under", "one of", "required"]
    """How the measure must stand to the value."""
    stage: Literal["intake", "plan", "foundation", "framing", "rough-in", "insulation", "final"] = "plan"
    """When a person looks."""
    existing: Annotated[Existing, Before(_as_now_called)] = MAY_REMAIN
    """Whether a part that stands and stays must comply."""
    fix: str = ""
    """What to do where it is not met."""


class RulesetCase(Record):
    """An example that a ruleset carries: a fragment of a project, and what one rule must say of it under this code."""

    kind = "case"
    case: str
    """What the case shows, in a few words."""
    rule: str
    """The rule, or the added requirement, that is tried."""
    on: Maybe[date] = NOT_GIVEN
    """The day on which it is tried; without it the last on which the file is used."""
    given: Any
    """A fragment of a project file."""
    expect: str
    """What the rule must come to."""
    says: str = ""
    """Words that its finding must have."""
    fix: str = ""
    """Words that its remedy must have."""
    needs: tuple[str, ...] = ()
    """What it must ask for."""


class Amendment(Record):
    """One change by ordinance: exactly one of `amend`, `delete`, `add` and `lock` names the limit.

    What is deleted or locked may also be `section R302.13`, `chapter 11`, `chapters 11 to 31` or `topic energy`, with all
    limits under it.
    """

    kind = "amendment"
    amend: Maybe[str] = NOT_GIVEN
    """The limit whose value is changed."""
    delete: Maybe[str] = NOT_GIVEN
    """The limit, section, chapter or topic that is not adopted."""
    add: Maybe[str] = NOT_GIVEN
    """A name of your own for a requirement that the code does not have."""
    lock: Maybe[str] = NOT_GIVEN
    """The limit, section, chapter or topic, or the whole code, that localities may not change freely."""
    localities: Maybe[Literal["may not require more", "may not require less", "may not change"]] = NOT_GIVEN
    """What rulesets that adopt this one may not do to what is locked."""
    despite: str = ""
    """The act by which this holds although a ruleset above locks it."""
    part: Maybe[str] = NOT_GIVEN
    """The kind of part for which the value is changed, where it is not for all."""
    where: dict[str, Any] = {}
    """Which parts of that kind: all of these conditions, as under `when` of a check."""
    row: Maybe[str | tuple[str, ...]] = NOT_GIVEN
    """The row of a table, or the way to one cell of it, that is changed."""
    was: Any = None
    """The value that is replaced."""
    to: Any = None
    """The value from now on."""
    new_words: tuple[str, ...] = ()
    """Words of the new value that no field of a project offers."""
    meant: bool = False
    """Whether a value ten times off the one in effect is no slip of the pen."""
    value: Any = None
    """The value of what is added."""
    by: str
    """The ordinance or act, with its section."""
    from_: Maybe[date] = NOT_GIVEN
    """The first day of the change, where that is later than that of the adoption."""
    until: Maybe[date] = NOT_GIVEN
    """The last day of the change."""
    section: str = ""
    """The section of what is added."""
    measures: str = ""
    """What is measured, as a plan reviewer calls it."""
    force: Literal["shall", "advise"] = "shall"
    """`advise` warns and never fails; `shall` binds."""
    tolerance: Maybe[str] = NOT_GIVEN
    """What passes by less than this is worth a look."""
    source: str = ""
    """Where the change can be read."""
    note: str = ""
    """What the value leaves out; every report repeats it."""
    check: Maybe[CheckBlock] = NOT_GIVEN
    """How what is added is checked; without it reports list it as not checked."""

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
    """The name of the place; its folder bears it too."""
    adopts: str = ""
    """An edition, or another jurisdiction such as its county or state; what does no more than lock may leave it out."""
    held_to: tuple[str, ...] = ()
    """Laws, each a ruleset that locks and adopts nothing, such as a state's, whose locks hold here."""
    in_force: date
    """The first day on which it is used."""
    until: Maybe[date] = NOT_GIVEN
    """The last day on which it may be used, beside a later adoption or without one."""
    by: str
    """The ordinance or act that adopts it."""
    partial: bool = False
    """Whether it holds only some of the local amendments; reports repeat it."""
    demo: bool = False
    """Whether it is invented, for a demonstration."""
    source: str = ""
    """Where the ordinance can be read."""
    note: str = ""
    """What a reader should know; every report repeats it."""
    design_criteria: dict[str, Any] = {}
    """What the place sets for its climate and ground."""
    amendments: tuple[Amendment, ...] = ()
    """What it changes, each by its act."""
    cases: tuple[RulesetCase, ...] = ()
    """Examples that hold the ruleset to what it should say."""


def slug(name: str) -> str:
    """Return the folder name of a jurisdiction: ``Tamarack County`` is kept in ``tamarack-county``."""
    return "-".join("".join(c if c.isalnum() else " " for c in name.lower()).split())
