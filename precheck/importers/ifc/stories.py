"""Stories: those that hold spaces, each with its level among them."""

from __future__ import annotations

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import guid
from precheck.importers.ifc.plan import Plan, elevation

NEAR_DATUM = 0.6  # meters; the story whose level is within this of zero is the ground story


def read_stories(plan: Plan, used: set[int]) -> None:
    """Read the stories that hold spaces (`used`) into the draft."""
    model = plan.model
    every = sorted(model.all("IfcBuildingStorey"), key=lambda s: elevation(s, model) or 0.0)
    ground = min((abs(elevation(s, model) or 0.0) for s in every if s.id() in used), default=9.0)
    ground = ground if plan.ground_known else 9.0
    for story in every:
        name = plain(story.Name or story.LongName or f"story {story.id()}")
        if story.id() not in used:
            model.draft.doubt("a story without rooms, not taken over", name)
            continue
        plan.stories[story.id()] = model.draft.free_id(name)
        entry: Entry = {"id": Value(plan.stories[story.id()], plain(story.Name or ""), str(story.id()))}
        at = elevation(story, model)
        if at is not None and abs(at) == ground <= NEAR_DATUM:
            entry["level"] = Value("ground", f"#{story.id()} Elevation {plan.length(at)}, nearest to zero")
        elif "attic" in name.lower() or "basement" in name.lower():
            entry["level"] = Value("attic" if "attic" in name.lower() else "basement", "its name")
        elif at is not None and at > NEAR_DATUM and ground <= NEAR_DATUM and "roof" not in name.lower():
            entry["level"] = Value("upper", f"#{story.id()} Elevation {plan.length(at)}")
        else:
            model.draft.doubt("whether the story is a basement, upper story or attic is not said", name)
        model.draft.add("stories", {**entry, "drawn from": guid(story)})


__all__ = ["read_stories"]
