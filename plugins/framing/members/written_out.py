"""The hand calculation of a loaded beam: its loads, reactions, moment and shear, each with its arithmetic."""

from __future__ import annotations

from itertools import pairwise
from math import fsum
from typing import TYPE_CHECKING

from precheck_plugins.framing.members.statics import Beam, Peak, resultants
from precheck_plugins.framing.timber.steps import STATICS, Step, given, nds, number

if TYPE_CHECKING:
    from collections.abc import Iterable


def beam_steps(beam: Beam, shear: Peak, clear_in: float) -> tuple[Step, ...]:
    """Lines for a beam (lb, in); `shear` was found `clear_in` or more from the supports. Source: statics."""
    moment = beam.greatest_moment()
    return (
        *_given(beam),
        *reaction_steps(beam),
        Step("M", f"moment at {number(moment.at_in)} in", _moment(beam, moment.at_in), moment.value, "lb-in",
             STATICS),
        Step("V", f"shear at {number(shear.at_in)} in", _shear(beam, shear, clear_in), shear.value, "lb",
             nds("3.4.3.1")),
    )  # fmt: skip


def reaction_steps(beam: Beam) -> tuple[Step, ...]:
    """The reactions (lb): of supports in between such that the beam does not sink there, then of the last and first."""
    left, *inner, right = beam.reactions_lb
    last = len(beam.reactions_lb)
    pushed = list(zip(beam.supports_in[1:-1], inner, strict=True))
    total = " + ".join(number(force) for force, _ in resultants(beam)) or "0"
    about = _sum(
        (*((force, at - beam.left_in) for force, at in resultants(beam)),
         *((-force, at - beam.left_in) for at, force in pushed))
    )  # fmt: skip
    others = "".join(f" - {number(force)}" for force in (*inner, right))
    return (
        *(given(f"R{place}", f"reaction at {number(at)} in, where the beam does not sink", force, "lb", STATICS)
          for place, (at, force) in enumerate(pushed, 2)),
        Step(f"R{last}", "right reaction", f"({about}) / {number(beam.span_in)}", right, "lb", STATICS),
        Step("R1", "left reaction", f"{total}{others}", left, "lb", STATICS),
    )  # fmt: skip


def deflection_steps(beam: Beam, name: str, start_in: float, end_in: float) -> tuple[Step, ...]:
    """Greatest deflection times EI (lb-in3) between two positions (in), by twice integrated moments B(x).

    Source: statics of the Euler-Bernoulli beam.
    """
    peak = beam.greatest_deflection_ei(start_in, end_in)
    places = {"B(x)": peak.at_in, "B(s1)": beam.left_in, "B(s2)": beam.right_in}
    bent = {symbol: beam.bent_inlb3(at_in) for symbol, at_in in places.items()}
    lines = [
        Step(
            symbol,
            f"moment integrated twice to {number(places[symbol])} in, {name}",
            _bent(beam, places[symbol]),
            value,
            "lb-in3",
            STATICS,
        )
        for symbol, value in bent.items()
    ]
    at, left, right = (number(bent[symbol]) for symbol in places)
    text = f"{left} + ({right} - {left}) * {number(peak.at_in - beam.left_in)} / {number(beam.span_in)} - {at}"
    meaning = f"deflection times EI at {number(peak.at_in)} in, {name}"
    return (*lines, Step("delta EI", meaning, text, peak.value, "lb-in3", STATICS))


def _single(beam: Beam) -> list[tuple[float, float]]:
    """Every reaction and point load as its upward force (lb) and its place (in)."""
    reactions = zip(beam.reactions_lb, beam.supports_in, strict=True)
    return [*reactions, *((-p.force_lb, p.at_in) for p in beam.points)]


def _bent(beam: Beam, at_in: float) -> str:
    alone = _single(beam)
    terms = [f"{number(f)} * {number(at_in - x)}^3 / 6" for f, x in alone if x < at_in]
    for u in beam.uniforms:
        terms += [
            f"{number(w)} * {number(at_in - x)}^4 / 24"
            for w, x in ((-u.lb_per_in, u.start_in), (u.lb_per_in, u.end_in))
            if x < at_in
        ]
    return " + ".join(terms) or "0"


def _given(beam: Beam) -> Iterable[Step]:
    for start, end in pairwise(beam.supports_in):
        yield given("L", "clear span", end - start, "in")
    for p in beam.points:
        yield given("P", f"point load at {number(p.at_in)} in", p.force_lb, "lb")
    for u in beam.uniforms:
        yield given("w", f"load from {number(u.start_in)} to {number(u.end_in)} in", u.lb_per_in, "lb/in")


def _sum(terms: Iterable[tuple[float, float]]) -> str:
    return " + ".join(f"{number(force)} * {number(arm)}" for force, arm in terms) or "0"


def _moment(beam: Beam, at_in: float) -> str:
    forces = _left_of(beam, at_in, False)
    return _sum((force, at_in - at) for force, at in forces if at_in > at)


def _left_of(beam: Beam, at_in: float, inclusive: bool) -> list[tuple[float, float]]:
    """Forces left of a cut, upward positive, uniform loads by the part left of it."""
    alone = _single(beam)
    spread = [
        (-u.lb_per_in * (min(at_in, u.end_in) - u.start_in), (min(at_in, u.end_in) + u.start_in) / 2)
        for u in beam.uniforms
        if at_in > u.start_in
    ]
    return [f for f in alone if f[1] < at_in or (inclusive and f[1] == at_in)] + spread


def _shear(beam: Beam, shear: Peak, clear_in: float) -> str:
    """The cut just left or just right, whichever is greater, plus the reduced loads near the supports."""
    near = [(p.force_lb, beam.from_support_in(p.at_in)) for p in beam.points]
    reduced = [f"{number(force)} * {number(away)} / {number(clear_in)}" for force, away in near if away < clear_in]
    sides = [_left_of(beam, shear.at_in, inclusive) for inclusive in (False, True)]
    forces = max(sides, key=lambda side: abs(fsum(force for force, _ in side)))
    total = f"abs({' + '.join(number(force) for force, _ in forces) or '0'})"
    return " + ".join([total, *reduced])
