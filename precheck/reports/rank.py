"""What stops a job first: use of the lot, then structure, the way out, ceilings, fire, the trades, and the papers.

What comes early costs the most to redo once the rest is drawn. A line of what a work takes says itself how early an
office asks for it.
"""

from __future__ import annotations

from typing import Final

from precheck.checks import Outcome
from precheck.review.finding import Finding
from precheck.rulesets.limit import Asked

IN_TURN: Final = (
    ("zoning", "flood", "wildfire"),
    (
        "framing", "roof-framing", "decks", "walls", "bracing", "foundations", "anchorage", "loads", "slabs", "retaining",
        "crawl-spaces",
    ),
    (
        "escape", "doors", "stairs", "stairways", "special-stairs", "ramps", "handrails", "guards", "access",
    ),
    ("ceilings", "rooms", "light-and-air"),
    ("separation", "fire-separation", "alarms", "fireblocking", "garages"),
    ("electrical", "plumbing", "ventilation", "appliances", "radon"),
    ("energy", "cladding", "roofing", "glazing", "decay", "attics", "attic-ventilation"),
    ("permits", "package", "existing", "address"),
)  # fmt: skip
"""Topics in the order in which they stop a job; a topic that is not listed stands before the papers."""

_TURN = {topic: turn for turn, topics in enumerate(IN_TURN) for topic in topics}
_OTHERS = len(IN_TURN) - 2
_ASKED: dict[Asked, int] = {"first": 0, "early": 1, "late": 2}
_LATE = frozenset(("flood.hazard",))
"""Rules that only ask, late: most lots lie in no flood hazard area, and one answer settles it."""
_FIRST_TURNS, _EARLY_TURNS = 5, 6  # topics up to fire separation are asked first, the trades early, the rest late


def rank_of(finding: Finding) -> tuple[bool, int, int]:
    """Return the rank of a finding: what stops the job first, errors before all; then how early it is asked, and its topic."""
    turn = _TURN.get(finding.rule.topic, _OTHERS)
    if finding.outcome is Outcome.ERROR:
        return False, -1, turn
    return finding.outcome is Outcome.WARN, _asked(finding, turn), turn


def _asked(finding: Finding, turn: int) -> int:
    takes = next((limit.takes for limit in finding.limits if limit.takes is not None), None)
    if takes is not None:
        return _ASKED[takes.asked]
    if finding.rule.name in _LATE:
        return _ASKED["late"]
    return 0 if turn < _FIRST_TURNS else 1 if turn < _EARLY_TURNS else 2
