"""How long it takes to size one member with every remedy tried; the aim is at most 1 ms. Run it by hand.

Prints the median of several runs, the best, and the ratio to the aim and to a single check.
"""

from __future__ import annotations

from functools import partial
from statistics import median
from timeit import repeat
from typing import TYPE_CHECKING

from precheck_plugins.framing.adjusted import Conditions
from precheck_plugins.framing.demands import UniformSpan, loaded_beam
from precheck_plugins.framing.lumber import published_values
from precheck_plugins.framing.members import Member, check_uniform
from precheck_plugins.framing.sections import dressed_section
from precheck_plugins.framing.sizing import lightest_member, passing_spacing, plies_needed
from precheck_plugins.framing.statics import Beam, PointLoad, UniformLoad, overhanging_beam

if TYPE_CHECKING:
    from collections.abc import Callable

AIM_MS = 1.0
ROUNDS, CALLS = 15, 200
VALUES_OF = partial(published_values, "Douglas fir-larch", "No.2")
DRAWN = Member(dressed_section("2x4"), VALUES_OF(dressed_section("2x4")), Conditions(repetitive=True))
JOIST = UniformSpan(200, 10 * 16 / 12, 40 * 16 / 12)


def beam(spread: float, force: float) -> Beam:
    return overhanging_beam(144, 0, 36, [PointLoad(60, force)], [UniformLoad(0, 180, spread)])


def one_check() -> None:
    check_uniform(DRAWN, JOIST)


def joist_remedies() -> None:
    demand = JOIST.demand()
    lightest_member(DRAWN, demand, VALUES_OF)
    plies_needed(DRAWN, demand)
    passing_spacing(DRAWN, JOIST, 16)


def beam_remedies() -> None:
    demand = loaded_beam(beam(2, 200), beam(6, 600)).demand()
    lightest_member(DRAWN, demand, VALUES_OF)
    plies_needed(DRAWN, demand)


def milliseconds(call: Callable[[], None]) -> tuple[float, float]:
    """Median and best of several rounds."""
    call()
    times = [seconds / CALLS * 1000 for seconds in repeat(call, number=CALLS, repeat=ROUNDS)]
    return median(times), min(times)


def main() -> None:
    single, _ = milliseconds(one_check)
    for name, call in (("one check", one_check), ("joist, all remedies", joist_remedies),
                       ("beam with overhang and point load, all remedies", beam_remedies)):  # fmt: skip
        middle, best = milliseconds(call)
        print(f"{name:48} median {middle:6.3f} ms  best {best:6.3f} ms  "
              f"{middle / AIM_MS:5.2f} of the aim  {middle / single:5.1f} x one check")  # fmt: skip


if __name__ == "__main__":
    main()
