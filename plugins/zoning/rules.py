"""Zoning: setbacks, overhangs, coverage, height, easements, approval. The jurisdiction sets every limit."""

from __future__ import annotations

from typing import Any

from precheck_plugins.zoning.lot_lines import FacingLine
from precheck_plugins.zoning.site_work import OPEN_BEFORE, SiteWork, stands_anew

from precheck import (
    Area,
    Check,
    CoveredArea,
    Easement,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Lot,
    Missing,
    Outcome,
    Project,
    Ratio,
    Space,
    Work,
    agrees,
    all_of,
    ask_unless_set,
    at_least,
    at_most,
    does_not_apply,
    is_missing,
    look_at,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)

MEASURED_FROM = frozenset(("wall", "post", "roof edge"))
SAME_DISTANCE = Length.parse("2 in")  # a dimension on the site plan this close to the drawn distance agrees with it


class SetbackLimits(Limits):
    front: Limit[Length]
    side: Limit[Length]
    street_side: Limit[Length]
    rear: Limit[Length]
    measured_from: Limit[str]


@rule("zoning.setback", stage="intake")
def setback(side: FacingLine, limit: SetbackLimits) -> Check:
    """New or newly enclosed space keeps the setback of its zone, measured from the part that the zone names.

    Walls of a garage that is converted where it stands may be lawful as they are; the department decides.
    """
    if side.is_square:
        return does_not_apply("this wall runs square to the lot line")
    yard = getattr(limit, side.line.side.replace(" ", "_")) if not is_missing(side.line.side) else None
    if yard is None:
        return not_shown(side.line.absent("side (front, side, street side or rear)"))
    told = limit.measured_from.value
    if isinstance(told, str) and told not in MEASURED_FROM:
        return look_at(Look.OFFICIAL, f"setbacks are measured from the {told} here, which the drawings do not give")
    measured = side.edge_distance if told == "roof edge" else side.distance
    kept = at_least(measured, yard).or_fix(
        lambda: f"move it {yard.value - measured} back from the line, or ask for a variance"
    )
    stood = kept.outcome is Outcome.FAIL and not stands_anew(side.space)
    ask = look_at(
        Look.OFFICIAL, f"it stands {measured} from the line, inside the {yard.measures}; ask whether it may stay"
    )
    return ask_unless_set(limit.measured_from, yard) or (ask if stood else kept)


class OverhangLimits(Limits):
    maximum: Limit[Length]
    front: Limit[Length] = reads("zoning.setback.front")
    side: Limit[Length] = reads("zoning.setback.side")
    street_side: Limit[Length] = reads("zoning.setback.street-side")
    rear: Limit[Length] = reads("zoning.setback.rear")


@rule("zoning.overhang", stage="intake")
def overhang(side: FacingLine, limit: OverhangLimits) -> Check:
    """Eaves reach no farther into a required yard than the zone allows."""
    if side.is_square or is_missing(side.line.side):
        return does_not_apply("the rule for setbacks asks which yard this is")
    yard = getattr(limit, side.line.side.replace(" ", "_"))
    if is_missing(side.of("overhang")) and side.is_beyond_eaves(yard.value):
        return does_not_apply(f"the wall stands {side.distance} from the line, farther than eaves reach")
    reach = when_given(lambda setback_, edge: max(setback_ - edge, Length(0)), yard.value, side.edge_distance)
    into = at_most(reach, limit.maximum, lambda: f"{yard.value} yard less {side.edge_distance} to the roof edge")
    return ask_unless_set(yard) or ask_unless_set(limit.maximum) or into


@rule("zoning.distances-agree", stage="intake", existing="must comply")
def distances_agree(side: FacingLine) -> Check:
    """The dimensioned distance to a lot line matches the drawn one."""
    if side.stated is None or side.drawn is None:
        return does_not_apply("the distance is given once")
    return agrees(
        side.stated.distance, side.drawn, "the distance to the lot line", SAME_DISTANCE, "from the plan drawn"
    )


class CoverageLimits(Limits):
    roofed: Limit[Ratio]
    roofed_and_paved: Limit[Ratio]


@rule("zoning.coverage", stage="intake")
def coverage(project: Project, limit: CoverageLimits, house: House) -> Check:
    """Roofs and paving cover no more of the lot than the zone allows; a lot over before may not grow.

    The sum is of the house that stands and of what the work adds: where either is not among the areas, it is not known.
    """
    grown = [work.space for work in house.subjects(SiteWork) if work.space.phase == "new"]
    areas = house.subjects(CoveredArea)
    if not areas and not grown:
        return does_not_apply("nothing on the ground is new")
    lacking = _uncounted(project, house, areas, grown)
    if lacking is not None:
        return ask_unless_set(limit.roofed) or not_shown(lacking)
    return all_of(
        ask_unless_set(limit.roofed) or _covered(project.lot, house, limit.roofed, roofed_only=True),
        ask_unless_set(limit.roofed_and_paved)
        or _covered(project.lot, house, limit.roofed_and_paved, roofed_only=False),
    )


def _uncounted(project: Project, house: House, areas: tuple[CoveredArea, ...], grown: list[Space]) -> Missing | None:
    """Return what is missing of a sum over all that covers the lot; None where it can be whole."""
    if not areas:
        return project.absent("covered areas")
    if grown and not any(area.phase in ("new", "altered") for area in areas):
        return grown[0].absent("covered area")
    stands = any(space.phase in ("existing", "altered") for space in house.project.spaces)
    counted = any(area.phase in ("existing", "altered") and area.is_roofed for area in areas)
    return project.absent("covered area of the house that stands") if stands and not counted else None


def _covered(lot: Lot | Missing, house: House, limit: Limit[Ratio], roofed_only: bool) -> Check:
    counted = [a for a in house.subjects(CoveredArea) if a.is_roofed or not roofed_only]
    before = _total([a for a in counted if a.phase != "new"])
    after = _total([a for a in counted if not a.is_removed])
    share = when_given(lambda covered, whole: Ratio(covered / whole), after, lot.area)
    over = at_most(share, limit, lambda: f"{after} / {lot.area}")
    grown = when_given(lambda a, b: a > b, after, before)
    if over.outcome is Outcome.FAIL and grown is False:
        return look_at(Look.OFFICIAL, f"the lot is over the {limit.measures} already and the work adds nothing; ask")
    return over


def _total(areas: list[CoveredArea]) -> Area | Missing:
    total: Area | Missing = Area(0)
    for covered in areas:
        total = total + covered.area
    return total


class LotLimits(Limits):
    minimum: Limit[Area]


@rule("zoning.lot-size", stage="intake")
def lot_size(project: Project, limit: LotLimits, house: House) -> Check:
    """A lot with an addition meets the minimum lot size of its zone; a smaller one may be lawful, and the department says."""
    built = (work.space for work in house.subjects(SiteWork) if work.space.phase == "new")
    if all(space.use in OPEN_BEFORE for space in built):
        return does_not_apply("no building is added")
    return ask_unless_set(limit.minimum) or at_least(project.lot.area, limit.minimum)


class HeightLimits(Limits):
    maximum: Limit[Length]


@rule("zoning.height", stage="intake")
def height(project: Project, limit: HeightLimits, house: House) -> Check:
    """A new roof stays within the building height of the zone."""
    tall = project.lot.building_height
    grows = any(work.space.phase == "new" and work.space.use != "deck" for work in house.subjects(SiteWork))
    if not grows and not any(work.kind == "upper addition" for work in house.subjects(Work)):
        return does_not_apply("the roof stays as it is")
    return ask_unless_set(limit.maximum) or at_most(tall, limit.maximum)


class EasementLimits(Limits):
    spaces: Limit[int]


@rule("zoning.easement", stage="intake", existing="must comply")
def easement(strip: Easement, limit: EasementLimits, house: House) -> Check:
    """No new or newly enclosed space reaches into a recorded easement."""
    reaching = set(strip.built_over_by)
    along = None if is_missing(strip.along) else strip.along
    sides = [s for s in house.subjects(FacingLine) if s.line.id == along and s.space.phase in ("new", "altered")]
    if along is None and not strip.built_over_by and house.subjects(SiteWork):
        return ask_unless_set(limit.spaces) or not_shown(strip.absent("along"), strip.absent("width"))
    near = [s for s in sides if not (is_missing(s.of("overhang")) and s.is_beyond_eaves(strip.width))]
    unknown = when_given(lambda *_: True, *(s.edge_distance for s in near), *([strip.width] if sides else []))
    if is_missing(unknown):
        return ask_unless_set(limit.spaces) or not_shown(unknown)
    reaching |= {s.space.id for s in near if s.edge_distance < strip.width}
    told = f"{', '.join(sorted(reaching))} reach into it" if reaching else "nothing reaches into it"
    return ask_unless_set(limit.spaces) or at_most(len(reaching), limit.spaces, told)


class EasementShownLimits(Limits):
    shown: Limit[bool]


@rule("zoning.easements-shown", stage="intake")
def easements_shown(project: Project, limit: EasementShownLimits, house: House) -> Check:
    """The site plan shows the easements on record, or says that there are none."""
    if not house.subjects(SiteWork):
        return does_not_apply("nothing on the ground is new")
    on_record: Any = project.lot if is_missing(project.lot) else project.lot.easements_on_record
    if is_missing(on_record):
        on_record = bool(project.easements) or project.absent("number of easements on record (of the lot)")
    shown = when_given(lambda count: len(project.easements) >= count, on_record)
    return required(shown, limit.shown)


class ApprovalLimits(Limits):
    before_permit: Limit[bool]


@rule("zoning.approval", stage="intake")
def approval(project: Project, limit: ApprovalLimits, house: House) -> Check:
    """Zoning has approved the work before the building permit is applied for, where the jurisdiction requires it."""
    converted = [s for s in house.spaces if s.changes_use]
    if not converted and not house.subjects(SiteWork):
        return does_not_apply("no use changes and nothing on the ground is new")
    given: Any = (
        project.absent("zoning approved (of the lot)") if is_missing(project.lot) else project.lot.zoning_approved
    )
    return ask_unless_set(limit.before_permit) or required(given, limit.before_permit)
