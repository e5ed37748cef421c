"""Stairs that wind about a post: told by their treads where the model does not say what form they have."""

from __future__ import annotations

from math import hypot
from statistics import mean

from precheck.importers.ifc.tapered_treads import TaperedTread, tapered_treads
from precheck.importers.ifc.treads import Treads

ALIKE = 0.025  # meters within which the treads of a spiral stair meet at one center, and end as far from it
POST = 0.3175  # meters (12 1/2 in) from the center up to which treads end at a post: beyond, they curve about a well
HALF_TURN = 180.0  # degrees beyond which a stair winds, and does not just turn back


def winds_about_a_post(flights: list[Treads]) -> bool:
    """Return whether all treads of a stair of one flight are alike and reach out from one post, by more than a half turn."""
    if len(flights) != 1 or flights[0].going is not None or len(flights[0].levels) < 2:
        return False
    found = tapered_treads(flights[0].outlines) or []
    known = [tread for tread in found if tread is not None]
    return len(found) == len(flights[0].levels) and len(known) > 1 and _about_one_post(known)


def spiral_width(treads: list[TaperedTread]) -> float | None:
    """Return how wide a spiral stair is, in meters, from the post to the outer end of its treads."""
    return min((tread.ends[1] - tread.ends[0] for tread in treads), default=None)


def _about_one_post(treads: list[TaperedTread]) -> bool:
    x, y = mean(tread.center[0] for tread in treads), mean(tread.center[1] for tread in treads)
    one_center = all(hypot(tread.center[0] - x, tread.center[1] - y) < ALIKE for tread in treads)
    alike = all(_spread([tread.ends[end] for tread in treads]) < ALIKE for end in (0, 1))
    winds = sum(tread.turn for tread in treads) > HALF_TURN
    return one_center and alike and winds and max(tread.ends[0] for tread in treads) <= POST


def _spread(values: list[float]) -> float:
    return max(values) - min(values)


__all__ = ["spiral_width", "winds_about_a_post"]
