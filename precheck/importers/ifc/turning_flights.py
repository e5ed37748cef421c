"""What a flight whose treads turn says in a project: its winders, or the treads of a spiral stair."""

from __future__ import annotations

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.spirals import spiral_width
from precheck.importers.ifc.tapered_treads import TaperedTread, path_turns, tapered_treads
from precheck.importers.ifc.treads import Treads


def turning_treads(plan: Plan, treads: Treads, spiral: bool, part: str) -> Entry:
    """Return what a flight says of its treads that turn: winders, or the treads of a spiral stair; nothing of another one.

    Where they turn and their edges do not tell them, winders of no known number ask for what is not taken.
    """
    if treads.going is not None or len(treads.levels) < 2:
        return {}
    found = tapered_treads(treads.outlines)
    if found is None and path_turns(treads.middles):
        told = "its treads turn, and their edges do not tell their depth at the walkline: not taken from the body"
        plan.model.draft.doubt(told, part)
        return {} if spiral else {"winders": {"count": Value("", "not told by the body")}}
    if not found:
        return {}
    plan.model.draft.doubt("its treads turn: they are measured 12 in from their narrow side, as modeled", part)
    if not spiral and len(found) == len(treads.levels):
        plan.model.draft.doubt("all of its treads turn, and not about one post: taken for winders", part)
    known = [tread for tread in found if tread is not None]
    told = "between the front edges of the treads as modeled, 12 in from the narrow side"
    depths = {"tread depths" if spiral else "depths at walkline":
              Value(f"[{', '.join(plan.length(tread.depth) for tread in known)}]", told)} if known else {}  # fmt: skip
    if spiral:
        return depths | _spiral(plan, known, told)
    turn: Entry = {"count": Value(str(len(found)), "treads of the body that turn"), **depths}
    if known:
        turn["narrow end"] = Value(plan.length(min(tread.narrow_end for tread in known)), "the smallest, as modeled")
    return {"winders": turn}


def _spiral(plan: Plan, known: list[TaperedTread], told: str) -> Entry:
    """Return how far out the walkline of a spiral stair lies, and how wide it is."""
    radius, width = max((tread.radius for tread in known), default=None), spiral_width(known)
    if radius is None or width is None:
        return {}
    across = Value(plan.length(width), "from the post to the outer end of the treads; rails are not deducted")
    return {"walkline radius": Value(plan.length(radius), told), "width": across}


__all__ = ["turning_treads"]
