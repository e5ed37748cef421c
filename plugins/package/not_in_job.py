"""The work as a whole: that there is some, and that what is said not to be in this job is not in it."""

from __future__ import annotations

from precheck import Appliance, Check, Exclusion, House, NoWork, Part, Work, broken, met, not_shown, rule

TRADES: dict[str, frozenset[str]] = {
    "structure": frozenset(("member", "truss", "roof frame", "framed opening", "ledger", "support", "braced wall line")),
    "foundation": frozenset(("footing", "foundation wall", "slab", "retaining wall")),
    "roof": frozenset(("roof", "roof frame", "truss", "skylight")),
    "exterior": frozenset(("cladding", "flashing", "veneer", "window", "board")),
    "plumbing": frozenset(("fixture", "pipe", "water heater")),
    "electrical": frozenset(("receptacle", "circuit", "light", "panel", "service", "cable", "permanent lighting")),
    "heating and cooling": frozenset(
        ("heating", "duct", "duct run", "furnace", "boiler", "air handler", "room heater", "heat pump", "mini-split",
         "air conditioner")
    ),
    "insulation": frozenset(("assembly", "slab edge")),
    "escape and alarms": frozenset(("alarm",)),
    "stairs": frozenset(("stair", "guard", "ramp")),
}  # fmt: skip
"""Parts that are work of a trade when the project changes them; an appliance by what it is."""
CHANGED = ("new", "altered", "removed")


@rule("package.work", stage="intake", existing="must comply")
def work(nothing: NoWork, house: House) -> Check:
    """The plans say what work is proposed: by what is new, altered or removed, or in a list of the work."""
    return not_shown(house.project.absent("what work is proposed"))


@rule("package.not-in-this-job", stage="intake", existing="must comply")
def not_in_this_job(exclusion: Exclusion, house: House) -> Check:
    """What is said not to be in this job is not in it, and is something that this job could be asked for."""
    said = f"`{exclusion.what}` is said not to be in this job"
    held = next((work for work in house.subjects(Work) if work.kind == exclusion.work), None)
    if held is not None:
        return broken(f"{said}, and the work holds {held.label}").or_fix(f"take `{exclusion.what}` off the list")
    part = next((p for p in house.project.parts if p.phase in CHANGED and _is_of(exclusion.what, p)), None)
    if part is not None:
        told = f"take `{exclusion.what}` off the list, or leave {part.label} as it is"
        return broken(f"{said}, and {part.label} is {part.phase}").or_fix(told, decide="which way to take")
    return met(f"{said}, and nothing of the work is")


def _is_of(trade: str, part: Part) -> bool:
    kind = part.what if isinstance(part, Appliance) else part.kind
    return kind in TRADES.get(trade.strip().lower(), ())
