"""The metric figure that the code prints beside a value complies, and what misses it by a millimeter does not."""

from __future__ import annotations

import pytest

from precheck import Length
from precheck.checks import Outcome
from precheck.checks.compare import compared, exceeds
from precheck.checks.relation import RELATIONS
from precheck.rulesets.limit import Limit
from precheck.testing import code

EDITIONS = ("irc-2015", "irc-2018", "irc-2021", "irc-2024")
MILLIMETER = Length.parse("1 mm")
LIMITS = [
    (edition, limit) for edition in EDITIONS for limit in code(edition).limits.values() if limit.metric is not None
]


def test_many_limits_have_one() -> None:
    assert len({limit.name for _, limit in LIMITS}) > 100


@pytest.mark.parametrize(("edition", "limit"), LIMITS, ids=lambda one: one if isinstance(one, str) else one.name)
def test_the_printed_figure_complies(edition: str, limit: Limit[Length]) -> None:
    assert limit.metric is not None
    assert abs(limit.metric - limit.value) * 50 <= limit.value
    if limit.sense not in RELATIONS:
        assert exceeds(limit.metric, limit) is False
        assert exceeds(limit.metric * 2, limit) is True
        return
    relation = RELATIONS[limit.sense]
    within = limit.metric if limit.sense in ("minimum", "maximum") else limit.metric - MILLIMETER * relation.wrong_side
    assert compared(relation, within, limit).outcome in (Outcome.PASS, Outcome.WARN)
    if isinstance(limit.metric, Length) and relation.is_ordered and not limit.advised:
        worse = limit.metric + MILLIMETER * 2 * relation.wrong_side
        assert compared(relation, worse, limit).outcome is Outcome.FAIL
