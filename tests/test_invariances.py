"""What says nothing of the house changes no outcome, over every case of every rule: order, names, place, direction, units."""

from __future__ import annotations

import pytest
from case_houses import TOPICS, TRIED, Change, Tried
from house_changes import FEET, from_the_other_side, in_another_order, in_millimeters, redrawn, with_other_ids

CHANGES: dict[str, Change] = {
    "in another order": in_another_order,
    "from the other side": from_the_other_side,
    "with other ids": with_other_ids,
    "moved on the sheet": redrawn(lambda x, y: (x + 100 * FEET, y - 37 * FEET)),
    "turned by a quarter": redrawn(lambda x, y: (-y, x)),
    "mirrored": redrawn(lambda x, y: (-x, y)),
    "in millimeters": in_millimeters,
}
EXEMPT = {
    ("stairs.width-at-rails", "in millimeters"): "the code prints 787 mm beside 31 1/2 in, and 787 mm is 31 in",
    ("package.cover", "in another order"): "the sheets of a set have an order: the first one listed is the cover",
}
"""What may change by rule and change, and why."""


@TRIED
@pytest.mark.parametrize("topic", TOPICS)
def test_the_same_house_has_the_same_outcomes(topic: str, tried: Tried) -> None:
    differ = {}
    for house in tried(topic):
        before = house.outcomes()
        for name, change in CHANGES.items():
            if (house.rule.name, name) not in EXEMPT and (after := house.outcomes(change)) != before:
                differ[f"{house.rule.name}, {house.case}, {name}"] = (dict(before), dict(after))
    assert differ == {}
