"""Glass near stairs and ramps: as stated with the window, else measured in the plan from the outline of the stair."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal

from precheck_plugins.glazing.near import NearGlass
from precheck_plugins.glazing.panes import panes_of

from precheck import (
    House,
    Length,
    Missing,
    Ramp,
    Stair,
    Stretch,
    Window,
    apart,
    fact,
    first_given,
    is_missing,
    outline_of,
    stretch_of,
    to_outline,
)

Where = Literal["flight", "landing between", "bottom landing", "top landing"]

BEYOND = Length.parse("1000 ft")  # farther than any arc around a stair


@fact
class GlassByStair(NearGlass):
    """A pane of a window beside a flight, a landing or a ramp.

    `above` is its bottom edge above the walking surface there. Where only its height above a floor is known,
    `no_higher` says that the treads lie above that floor, so that the glass is lower still, and `no_lower` the reverse.
    """

    stair: Stair | Ramp
    where: Where | Missing
    distance: Length | Missing
    above: Length | Missing
    no_higher: bool
    no_lower: bool
    behind_guard: Length | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[GlassByStair]:
        """Yield every pane of every window with each stair or ramp that is stated beside it or touches its room."""
        for window in house.subjects(Window):
            for stair in (*house.subjects(Stair), *house.subjects(Ramp)):
                if stair.is_removed:
                    continue
                for place in (*_stated(window, stair), *_drawn(window, stair, house)):
                    for about, pane in panes_of(window):
                        yield cls(about, window, pane, house.sill_height(window), stair.phase, stair, *place)

    @property
    def label(self) -> str:
        """The pane, the stair and where beside it."""
        where = "" if is_missing(self.where) else f", {self.where}"
        return f"{self.about.label} beside {self.stair.label}{where}"

    @property
    def above_surface(self) -> Length | Missing:
        """Bottom edge of the glass above the walking surface: as stated, else above the floor that is that surface."""
        return first_given(self.above, self.bottom) if self.where == "bottom landing" else self.above


def _stated(window: Window, stair: Stair | Ramp) -> Iterator[tuple[Any, ...]]:
    for beside in window.beside_stairs:
        if beside.stair == stair.id:
            yield beside.where, beside.distance, beside.bottom_above, False, False, beside.guard_between


def _drawn(window: Window, stair: Stair | Ramp, house: House) -> Iterator[tuple[Any, ...]]:
    if str(window.space) not in stair.between or any(beside.stair == stair.id for beside in window.beside_stairs):
        return
    glass = stretch_of(window, house)
    rectangle = getattr(stair, "rectangle", stair.absent("rectangle"))
    above = window.absent(f"bottom above the walking surface of {stair.label}")
    at_foot = str(window.space) == (house.ends(stair) if isinstance(stair, Stair) else stair.between)[0]
    guard = window.absent("guard between")
    if is_missing(glass) or is_missing(rectangle):
        yield "flight", glass if is_missing(glass) else rectangle, above, at_foot, not at_foot, guard
        return
    yield "flight", to_outline(glass, outline_of(rectangle)), above, at_foot, not at_foot, guard
    if at_foot and isinstance(stair, Stair):
        yield "bottom landing", _from_bottom(glass, stair), above, False, False, guard


def _from_bottom(glass: Stretch, stair: Stair) -> Length | Missing:
    """Distance from the bottom nosing; glass that lies wholly on the stair's side of it is beyond the arc."""
    if is_missing(stair.climbs) or is_missing(stair.rectangle):
        return stair.absent("climbs")
    (x0, y0), _, (x1, y1), _ = outline_of(stair.rectangle)
    xs, ys = zip(*glass, strict=True)
    nosing, is_before = {
        "right": (Stretch((x0, y0), (x0, y1)), min(xs) < x0),
        "left": (Stretch((x1, y0), (x1, y1)), max(xs) > x1),
        "up the page": (Stretch((x0, y0), (x1, y0)), min(ys) < y0),
        "down the page": (Stretch((x0, y1), (x1, y1)), max(ys) > y1),
    }[stair.climbs]
    return apart(glass, nosing) if is_before else BEYOND
