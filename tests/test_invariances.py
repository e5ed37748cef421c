"""What says nothing of the house changes no outcome, over every case of every rule: order, place, direction and units."""

from __future__ import annotations

import pytest
from case_houses import TOPICS, Change, houses, in_another_order, in_millimeters, moved, turned

from precheck import Length

FEET = int(Length.parse("1 ft").n)
CHANGES: dict[str, Change] = {
    "in another order": in_another_order,
    "moved on the sheet": moved(lambda x, y: (x + 100 * FEET, y - 37 * FEET)),
    "turned by a quarter": turned,
    "in millimeters": in_millimeters,
}
EXEMPT = {
    ("stairs.width-at-rails", "in millimeters"): "the code prints 787 mm beside 31 1/2 in, and 787 mm is 31 in",
    ("package.cover", "in another order"): "the sheets of a set have an order: the first one listed is the cover",
    ("glazing.stair-bottom", "turned by a quarter"): "a stair says in a word which way it runs on the sheet",
}
"""What may change by rule and change, and why."""


@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize("topic", TOPICS)
def test_the_same_house_has_the_same_outcomes(topic: str, change: str) -> None:
    differ = {
        f"{house.rule.name}, {house.case}": (dict(before), dict(after))
        for house in houses(topic)
        if (house.rule.name, change) not in EXEMPT
        and (before := house.outcomes()) != (after := house.outcomes(CHANGES[change]))
    }
    assert differ == {}
