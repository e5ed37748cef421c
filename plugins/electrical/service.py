"""Circuits and AFCI protection, the panel and its working space, the service, cables."""

from __future__ import annotations

from dataclasses import replace

from precheck_plugins.electrical.around import CircuitOf, LoadedService, PanelAt
from precheck_plugins.electrical.rooms import PURPOSES, Rewired, RoomOutlets

from precheck import (
    Cable,
    Check,
    Circuit,
    Length,
    Limit,
    Limits,
    NewValue,
    all_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    first_given,
    if_stated,
    is_missing,
    less_than,
    met,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)


class CircuitLimits(Limits):
    small_appliance: Limit[int]
    laundry: Limit[int]
    bathroom: Limit[int]
    garage: Limit[int]
    amps: Limit[int]


@rule("electrical.required-circuits", stage="rough-in")
def required_circuits(room: RoomOutlets, limit: CircuitLimits) -> Check:
    """Kitchens, laundries, bathrooms and garages have the circuits of their own."""
    fewest = {
        "kitchen": limit.small_appliance,
        "laundry": limit.laundry,
        "bathroom": limit.bathroom,
        "garage": limit.garage,
    }
    use = room.space.use
    if is_missing(use) or use not in PURPOSES:
        return does_not_apply("no circuit of its own is asked of this room")
    own = [c for c in room.circuits if c.purpose == PURPOSES[use]]
    count = len(own) if own else room.without_circuit
    return all_of(at_least(count, fewest[use]), *(at_least(c.amps, limit.amps) for c in own))


class RatingLimits(Limits):
    maximum: Limit[int]


@rule("electrical.circuit-rating", stage="rough-in")
def circuit_rating(circuit: Circuit, limit: RatingLimits) -> Check:
    """A circuit with receptacles and lights of rooms is not rated for more than they are made for."""
    if circuit.purpose == "appliance":
        return does_not_apply("it serves an appliance alone")
    stated = limit.maximum.value is not None and not is_missing(circuit.amps)
    if stated and circuit.amps > limit.maximum.value and "purpose" not in circuit.model_fields_set:
        return not_shown(circuit.absent("purpose"))  # it may well be that of a dryer or a range
    return if_stated(circuit.amps, at_most, limit.maximum).or_fix(
        lambda: f"use a {limit.maximum.value} A circuit, and put what needs more on a circuit of its own",
        lambda: [NewValue(circuit, "amps", limit.maximum.value)],
    )


class ArcFaultLimits(Limits):
    rooms: Limit[tuple[str, ...]]
    protected: Limit[bool]
    extension_without: Limit[Length]


@rule("electrical.arc-fault", stage="final")
def arc_fault(found: CircuitOf, limit: ArcFaultLimits) -> Check:
    """Circuits that are new or extended in living areas have AFCI protection.

    A short extension without a new outlet or device needs none.
    """
    circuit, served = found.circuit, found.served
    listed = [s for s in served if s.use in limit.rooms.value]
    unknown = [s.use for s in served if is_missing(s.use)]
    if not served and circuit.purpose in ("general", "small appliance", "laundry") and circuit.afci is not True:
        return not_shown(circuit.absent("serves"))
    if not listed and not unknown:
        return does_not_apply("it serves none of the rooms that ask for AFCI protection")
    due = required(circuit.afci, limit.protected).or_fix(
        "use an AFCI breaker, or an AFCI receptacle as the first outlet", lambda: [NewValue(circuit, "afci", True)]
    )
    if not is_missing(circuit.extended_by):
        short = less_than(circuit.extended_by, limit.extension_without)
        spared = short.is_met and circuit.adds_outlets is False
        return does_not_apply(f"extended by {circuit.extended_by} without a new outlet") if spared else due
    return decide(True if listed else unknown[0], due, met("no listed room"))


class RoomCircuitLimits(Limits):
    rooms: Limit[tuple[str, ...]] = reads("electrical.arc-fault.rooms")
    protected: Limit[bool] = reads("electrical.arc-fault.protected")


@rule("electrical.room-circuit", stage="final")
def room_circuit(found: Rewired, limit: RoomCircuitLimits) -> Check:
    """The plans show the circuit of new receptacles and lights in each room that takes AFCI protection.

    Whether the circuit is protected is judged with the circuit (`electrical.arc-fault`).
    """
    space = found.room.space
    if is_missing(space.use):
        return not_shown(space.use)
    if space.use not in (limit.rooms.value or ()):
        return does_not_apply("not a room that takes AFCI protection")
    if found.room.circuits:
        return met(f"served by {', '.join(circuit.label for circuit in found.room.circuits)}")
    due = required(found.room.without_circuit, limit.protected)
    return due.because(f"{found.outlets[0].label} is {found.outlets[0].phase}")


class PanelLimits(Limits):
    depth: Limit[Length]
    width: Limit[Length]
    height: Limit[Length]
    prohibited_rooms: Limit[tuple[str, ...]]
    over_steps: Limit[int]
    free_above: Limit[Length]
    other_systems: Limit[int]


@rule("electrical.panel", stage="rough-in")
def panel(at: PanelAt, limit: PanelLimits) -> Check:
    """A panel has its working space, and is in no closet or bathroom nor over a stair."""
    panel = at.panel
    steps, foreign = panel.over_steps, panel.foreign_pipes_or_ducts
    wide = max(first_given(panel.panel_width, limit.width.value), limit.width.value)
    own_width = does_not_apply("panel width: not stated" if is_missing(panel.panel_width) else "panel width: counted")
    return all_of(
        own_width,
        at_least(panel.clear_depth, limit.depth),
        at_least(panel.clear_width, replace(limit.width, value=wide)),
        at_least(panel.clear_height, limit.height),
        _room(at, limit).or_fix("move the panel to a hall, a garage or a utility room"),
        if_stated(when_given(int, steps), at_most, limit.over_steps),
        if_stated(panel.free_space_above, at_least, limit.free_above),
        if_stated(when_given(int, foreign), at_most, limit.other_systems),
    )


def _room(at: PanelAt, limit: PanelLimits) -> Check:
    space = at.space
    if space is None:
        return not_shown(at.panel.absent("space"))
    barred = when_given(lambda use: use in (limit.prohibited_rooms.value or ()), space.use)
    return decide(barred, broken(f"it is in a {space.use}", limit.prohibited_rooms), met(f"it is in a {space.use}"))


class ServiceLimits(Limits):
    amps: Limit[int]
    surge: Limit[bool]
    disconnect: Limit[bool]


@rule("electrical.service", stage="rough-in")
def service(loaded: LoadedService, limit: ServiceLimits) -> Check:
    """The service is large enough for its calculated load; later editions ask for surge protection.

    The load calculation itself is the electrician's; what it comes to in amperes is compared with the service. An old
    service that gets new circuits must carry the load, and keeps what else it is.
    """
    service = loaded.service
    load = service.calculated_load
    enough = (
        does_not_apply("no load calculation is given")
        if is_missing(load)
        else at_least(service.amps, _as_limit(limit.amps, load), f"calculated load {load} A")
    )
    if service.is_existing and loaded.added:
        return enough
    return all_of(
        at_least(service.amps, limit.amps),
        enough,
        required(service.surge_protection, limit.surge),
        required(service.disconnect_outdoors, limit.disconnect),
    )


def _as_limit(limit: Limit[int], load: int) -> Limit[int]:
    return replace(limit, value=load)


class CableLimits(Limits):
    stud_edge: Limit[Length]
    plate: Limit[Length]
    guard_near_hatch: Limit[Length]
    guard_below: Limit[Length]
    direct_burial: Limit[Length]
    metal_conduit: Limit[Length]
    plastic_conduit: Limit[Length]
    gfci_branch: Limit[Length]


@rule("electrical.cables", stage="rough-in")
def cables(cable: Cable, limit: CableLimits) -> Check:
    """Cables are protected from nails, guarded in attics, and buried deep enough."""
    if cable.runs == "through framing":
        far = at_least(cable.from_stud_edge, limit.stud_edge)
        plated = at_least(first_given(cable.plate, Length(0)), limit.plate).or_fix(
            "cover it with a steel plate", lambda: [NewValue(cable, "plate", limit.plate.value)]
        )
        return far if far.outcome != far.outcome.FAIL else plated
    if cable.runs == "underground":
        depth = {"direct burial": limit.direct_burial, "metal conduit": limit.metal_conduit,
                 "plastic conduit": limit.plastic_conduit, "GFCI branch circuit": limit.gfci_branch}  # fmt: skip
        return (
            at_least(cable.method, limit.direct_burial)
            if is_missing(cable.method)
            else at_least(cable.depth, depth[cable.method])
        )
    return _in_attic(cable, limit)


def _in_attic(cable: Cable, limit: CableLimits) -> Check:
    if cable.guarded is True:
        return met("guarded")
    near_hatch = at_least(cable.to_hatch, limit.guard_near_hatch)
    low = at_least(cable.above_attic_floor, limit.guard_below)
    return decide(cable.permanent_stair, low, near_hatch).or_fix("run guard strips beside the cable, or move it")
