"""Findings in groups by what a person does about them: fix it, add it to the plans, ask the office, review it."""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

from precheck.checks import Look, Outcome
from precheck.review.finding import Finding


class _Said(NamedTuple):
    key: str
    title: str
    lead: str
    one: str
    many: str


class Group(Enum):
    """What is done about findings; `title` heads their list, and `lead` says what the list is for."""

    ERRORS = _Said(
        "error",
        "Errors, not checked",
        "These checks failed to run. Look at them by hand; they count as corrections.",
        "check with an error",
        "checks with errors",
    )
    FIX = _Said(
        "fail", "Fix", "What is drawn does not meet the limit. Change the design.", "item to fix", "items to fix"
    )
    ADD = _Said(
        "not-shown",
        "Add to the plans",
        "The plans do not say. Add these values; nothing is assumed for you.",
        "item not shown",
        "items not shown",
    )
    ASK = _Said(
        "ask",
        "Ask the building department",
        "Set or decided locally. Call before you submit, and note who answered and when.",
        "question for the building department",
        "questions for the building department",
    )
    REVIEW = _Said(
        "warn", "Review", "Look these over before you submit; they stop nothing.", "item to review", "items to review"
    )

    @property
    def key(self) -> str:
        """The group as one word for ids and styles."""
        return self.value.key

    @property
    def title(self) -> str:
        """The heading of its list."""
        return self.value.title

    @property
    def lead(self) -> str:
        """What its list is for."""
        return self.value.lead

    def counted(self, count: int) -> str:
        """Return in words that it holds `count` things; nothing for none."""
        return f"{count} {self.value.one if count == 1 else self.value.many}" if count else ""


LABELS = {
    Outcome.ERROR: "Error",
    Outcome.FAIL: "Fix",
    Outcome.NOT_SHOWN: "Not shown",
    Outcome.WARN: "Review",
    Outcome.PASS: "OK",
    Outcome.DOES_NOT_APPLY: "Not applicable",
}
"""What an outcome is called beside a single comparison or mark."""

LOOKS = {
    Look.CLOSE: "Right at the limit: no tolerance left in the field",
    Look.PRACTICE: "Recommended, not required",
    Look.EXISTING: "Existing condition: may remain, verify in the field",
    Look.ENGINEER: "Needs a licensed engineer or architect",
    Look.OFFICIAL: "Confirm with the building department",
}
"""Why a person should look, as reports say it."""

_OF_OUTCOME = {Outcome.ERROR: Group.ERRORS, Outcome.FAIL: Group.FIX, Outcome.NOT_SHOWN: Group.ADD}


def group_of(finding: Finding) -> Group | None:
    """Return what is done about `finding`; None where nothing is, because it is met, does not apply or is accepted."""
    if finding.accepted is not None or finding.outcome >= Outcome.PASS:
        return None
    asks = Look.OFFICIAL in finding.look
    return _OF_OUTCOME.get(finding.outcome, Group.ASK if asks else Group.REVIEW)
