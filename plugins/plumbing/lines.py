"""What baths, kitchens and laundries take of pipes: drains with their vents, and water."""

from __future__ import annotations

from precheck import Check, Fixture, House, Missing, Pipe, Space, Work, does_not_apply, line, shown, to_show


@line("plumbing.drain-and-vent")
def drain_and_vent(work: Work, house: House) -> Check:
    """The plans show the drains of the new fixtures, with their traps, and the vents."""
    return _piped(work, house, ("drain", "vent"), "drains, traps and vents of the new fixtures")


@line("plumbing.water-supply")
def water_supply(work: Work, house: House) -> Check:
    """The plans show the hot and cold water to the new fixtures."""
    hot = any(fixture.what != "toilet" for fixture in _fixtures(work, house))
    kinds = ("cold water", "hot water") if hot else ("cold water",)
    return _piped(work, house, kinds, "hot and cold water to the new fixtures")


def _piped(work: Work, house: House, kinds: tuple[str, ...], what: str) -> Check:
    if not work.rooms:
        return to_show(what, work)
    fixtures = _fixtures(work, house)
    stays = all(room.is_existing and not room.changes_use for room in work.rooms)
    if stays and fixtures and all(fixture.replacement is True for fixture in fixtures):
        return does_not_apply("its fixtures take the place of others")
    found = [_serving(room, kind, house) for room in work.rooms for kind in kinds]
    lacking = [one for one in found if isinstance(one, Missing)]
    return to_show("", work, *lacking) if lacking else shown(*(one for one in found if isinstance(one, Pipe)))


def _fixtures(work: Work, house: House) -> list[Fixture]:
    """Return the fixtures that the work puts into its rooms."""
    rooms = {room.id for room in work.rooms}
    changed = [f for f in house.subjects(Fixture) if f.phase in ("new", "altered")]
    return [f for f in changed if f.space in rooms]


def _serving(room: Space, kind: str, house: House) -> Pipe | Missing:
    """Return a pipe that serves the room; what is missing of those that do not say what they serve."""
    pipes = [pipe for pipe in house.subjects(Pipe) if pipe.what == kind and not pipe.is_removed]
    serving: Pipe | None = next((pipe for pipe in pipes if room.id in pipe.serves), None)
    unsaid: Pipe | None = next((pipe for pipe in pipes if not pipe.serves), None)
    if serving is not None:
        return serving
    lacking = room.absent(f"{kind} pipe" if "water" in kind else kind) if unsaid is None else unsaid.absent("serves")
    return Missing(*lacking.needs)
