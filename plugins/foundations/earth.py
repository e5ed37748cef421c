"""Earth that a wall holds: how much of it needs no design."""

from __future__ import annotations

from precheck import Check, Length, Limit, Look, at_most, is_missing, look_at


def held_or_designed(fill: object, limit: Limit[Length], why: str) -> Check:
    """Check that a wall holds no more earth than `limit`; more is an engineer's, for the reason `why`."""
    if is_missing(fill) or not isinstance(fill, Length) or fill <= limit.value:
        return at_most(fill, limit)
    over = fill - limit.value
    return look_at(
        Look.ENGINEER, f"it holds {fill} of earth, {over} over the {limit.value} that needs no design; {why}"
    )
