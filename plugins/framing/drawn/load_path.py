"""The way of the loads: from each member to what it bears on, down to the ground.

A member gets the reactions of all members that bear on it: of a row of joists as a load along it, of a beam or post as
a load at a point. Reactions are kept by kind of load, the greatest and the least that each may be at a support.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum

from precheck_plugins.framing.drawn.exposure import exposure_of
from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.loads import DEAD, Piece, own_pieces
from precheck_plugins.framing.drawn.resting import is_hung_on, leans_at, resting_on
from precheck_plugins.framing.drawn.setting import Setting, inches
from precheck_plugins.framing.drawn.sizes import section_of
from precheck_plugins.framing.members.patterns import Reach
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import dressed_section
from precheck_plugins.framing.timber.steps import STATICS, Step, number
from precheck_plugins.framing.timber.weight import FORMULA, MADE_PCF, density_pcf, own_weight

from precheck import Bearing, MakerData, Member, Missing, is_missing

Reactions = dict[str, tuple[Reach, ...]]


def loading_of(member: Member, setting: Setting, above: tuple[str, ...] = ()) -> Loading | Missing:
    """Return the loads on a member. Raises OutsideMethodError where members bear on each other in a circle."""
    if member.id in above:
        raise OutsideMethodError(f"{' bears on '.join((*above, member.id))}: members cannot carry each other")
    return setting.once(_loading, member, above)


def _loading(member: Member, setting: Setting, above: tuple[str, ...]) -> Loading | Missing:
    spans = _spans(member)
    if is_missing(spans):
        return spans
    pieces = _pieces(member, setting, (*above, member.id))
    if is_missing(pieces):
        return pieces
    own = _own_weight(member, setting)
    if is_missing(own):
        return own
    past, before = (
        0.0 if is_missing(own) or not spans else inches(own) for own in (member.overhang, member.first_overhang)
    )
    veneer = any(load.masonry_veneer is True for load in member.carries)
    return Loading(spans, past, pieces, own, before, is_hung_on(member, setting), veneer)


def _spans(member: Member) -> tuple[float, ...] | Missing:
    """Return the spans, in; none of a post."""
    if member.role == "post":
        return ()
    if member.spans:
        short = len(member.bears_on) > len(member.spans) + 1
        return member.absent("spans, one fewer than its supports") if short else tuple(map(inches, member.spans))
    if len(member.bears_on) > 2:
        return member.absent("spans, one between each two of its supports")
    return member.span if is_missing(member.span) else (inches(member.span),)


def _pieces(member: Member, setting: Setting, above: tuple[str, ...]) -> tuple[Piece, ...] | Missing:
    found: list[Piece] = []
    groups = [*(own_pieces(member, load, setting) for load in member.carries), *_brought(member, setting, above)]
    for group in groups:
        if is_missing(group):
            return group
        found.extend(group)
    return tuple(found) if found else member.absent("carries")


def _own_weight(member: Member, setting: Setting) -> Step | Missing | None:
    """Return what a member weighs itself with its sisters, plf, a post lb; None where a stated load of a row holds it."""
    if member.is_repeated and any(not is_missing(load.dead) for load in member.carries):
        return None
    section = section_of(member)
    if is_missing(section):
        return section
    if isinstance(member.maker, MakerData):
        pcf, source = MADE_PCF, "no made product of wood weighs more (practice)"
    else:
        exposure = exposure_of(member, setting)
        pcf, source = density_pcf(str(member.species), is_missing(exposure) or exposure.wet), FORMULA
    sisters = [dressed_section(s.size).built_up(s.plies) for s in member.sisters if not is_missing(s.size)]
    steps = [own_weight(piece, pcf, source) for piece in (section, *sisters)]
    along = steps[0] if len(steps) == 1 else _together(steps)
    return along if member.role != "post" else _of_post(member, along)


def _together(steps: list[Step]) -> Step:
    text = " + ".join(number(step.value) for step in steps)
    total = fsum(step.value for step in steps)
    return Step("w", "own weight with what is fixed along it", text, total, "plf", steps[0].source)


def _of_post(member: Member, along: Step) -> Step | Missing:
    if is_missing(member.height):
        return member.height
    high = inches(member.height) / 12
    text = f"{number(along.value)} * {number(high)}"
    return Step("P", "own weight of the post", text, along.value * high, "lb", along.source)


def _brought(member: Member, setting: Setting, above: tuple[str, ...]) -> Iterator[tuple[Piece, ...] | Missing]:
    for other, index, bearing in resting_on(member, setting):
        reactions = reactions_of(other, setting, above)
        if is_missing(reactions):
            yield reactions
        else:
            yield _landed(member, other, bearing, at_support(reactions, index))


def at_support(reactions: Reactions, index: int) -> dict[str, Reach]:
    """Return what a member brings to one support, lb by kind; a post has one foot."""
    return {kind: ends[min(index, len(ends) - 1)] for kind, ends in reactions.items()}


def reactions_of(member: Member, setting: Setting, above: tuple[str, ...] = ()) -> Reactions | Missing:
    """Return what a member brings to each of its supports, lb by kind; a post brings all to its foot."""
    return setting.once(_reactions, member, above)


def _reactions(member: Member, setting: Setting, above: tuple[str, ...]) -> Reactions | Missing:
    loading = loading_of(member, setting, above)
    if is_missing(loading):
        return loading
    found = {kind: loading.reaches(kind) for kind in loading.kinds}
    leaning = leans_at(member, setting)
    if leaning is None or member.role == "post":
        return found
    return {kind: _to_plate(loading, kind, leaning) for kind in found}


def _to_plate(loading: Loading, kind: str, ridge: int) -> tuple[Reach, ...]:
    """All of the load to the support that is no ridge: rafters that lean on each other bring none to their ridge board."""
    whole = fsum(loading.beam({kind: 1.0}).reactions_lb)
    plate, nothing = Reach(whole, whole if kind == DEAD else 0.0), Reach(0.0, 0.0)
    return (nothing, plate) if ridge == 0 else (plate, nothing)


def _landed(member: Member, other: Member, bearing: Bearing, forces: dict[str, Reach]) -> tuple[Piece, ...] | Missing:
    if other.is_repeated and member.role == "post":
        return bearing.absent(f"beam between the row {other.id} and the post")
    if member.role == "post":
        return tuple(_point(other, kind, reach, 0.0) for kind, reach in forces.items())
    if other.is_repeated:
        if is_missing(other.spacing):
            return other.spacing
        apart = inches(other.spacing)
        return tuple(_line(other, bearing, kind, reach, apart) for kind, reach in forces.items())
    if is_missing(bearing.at):
        return bearing.at
    place_in = inches(bearing.at)
    return tuple(_point(other, kind, reach, place_in) for kind, reach in forces.items())


def _line(other: Member, bearing: Bearing, kind: str, reach: Reach, apart_in: float) -> Piece:
    plf = reach.greatest * 12 / apart_in
    text = f"{number(reach.greatest)} * 12 / {number(apart_in)}"
    step = Step("w", f"{kind} load from {other.id}", text, plf, "plf", STATICS)
    start, end = (None if is_missing(place) else inches(place) for place in (bearing.at, bearing.to))
    return Piece(kind, plf, step, start, end, reach.least * 12 / apart_in)


def _point(other: Member, kind: str, reach: Reach, at_in: float) -> Piece:
    lb = reach.greatest
    return Piece(
        kind, lb, Step("P", f"{kind} load from {other.id}", number(lb), lb, "lb", STATICS), at_in, None, reach.least
    )
