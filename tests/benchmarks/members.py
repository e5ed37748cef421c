"""A member checked with all its remedies, beside its formulas alone. Run it by hand: ``python tests/benchmarks/members.py``.

Each member fails, so that every larger size, closer spacing and number of plies is tried. The aim is 1 ms for each, on a machine
of today.
"""

from __future__ import annotations

from math import sqrt

from precheck_plugins.framing.drawn.bending_member import BendingMember
from precheck_plugins.framing.drawn.design import Design, design_of
from precheck_plugins.framing.drawn.remedies import remedy
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting
from timing import interleaved

from precheck import testing
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.survey import House

MEMBERS = {
    "a joist under even load": "role: floor joist, size: 2x8, species: Hem-fir, grade: No.2, spacing: 16 in, span: 16 ft, wet: no, "
    "carries: [{use: other room, live: 40 psf, dead: 10 psf}]",
    "a rafter under dead, live and snow load": "role: rafter, size: 2x6, species: Hem-fir, grade: No.2, spacing: 24 in, span: 18 ft, "
    "slope: '6:12', wet: no, carries: [{use: roof, dead: 15 psf}]",
    "a beam with a point load": "role: beam, size: 2x8, species: Hem-fir, grade: No.2, span: 12 ft, unbraced: 24 in, wet: no, "
    "carries: [{use: other room, dead per foot: 100 lb, live per foot: 200 lb}, "
    "{use: other room, point dead: 0 lb, point live: 900 lb, at: 5 ft}]",
    "a beam over three spans": "role: beam, size: 2x8, species: Hem-fir, grade: No.2, spans: [12 ft, 10 ft, 12 ft], unbraced: 24 in, "
    "wet: no, carries: [{use: other room, dead per foot: 300 lb, live per foot: 900 lb}]",
}


def main(runs: int = 200) -> None:
    """Print the time of each member with its remedies, and how many times its formulas alone that is."""
    for name, keys in MEMBERS.items():
        member, setting = drawn(keys)
        with_remedies, formulas = interleaved([lambda m=member, s=setting: checked(m, s), plain], runs)
        print(f"{name}: {1000 * with_remedies:.2f} ms with its remedies; one set of formulas {1e6 * formulas:.1f} us; "
              f"ratio {with_remedies / formulas:.0f}")  # fmt: skip


def drawn(keys: str) -> tuple[BendingMember, Setting]:
    """Return one member of a project, and where its loads are looked up."""
    text = f"project: one member\ndesign criteria: {{ground snow load: 40 psf}}\nmembers: [{{id: J1, phase: new, {keys}}}]\n"
    house = House(project_from(read_text(text, "member.yaml")))
    signature = next(r.signature for r in testing.plugins().rules if r.name == "framing.strength")
    code = testing.code("irc-2021").limits
    limits = DesignLimits(*(code[name] for name in signature.names))
    return next(iter(BendingMember.found_in(house))), Setting(house.project, limits)


def checked(bending: BendingMember, setting: Setting) -> str:
    """Check a member in strength and stiffness, and name what would pass."""
    design = design_of(bending.member, setting)
    assert isinstance(design, Design)
    assert not design.passes()
    return remedy(design, setting.limits)


def plain(load: float = 5.0, span: float = 192.0, b: float = 1.5, d: float = 7.25) -> tuple[float, ...]:
    """Bending with its stability, shear, deflection and bearing of one member under one load, in plain arithmetic."""
    star, slender = 850 * 1.2 * 1.15, sqrt(2.06 * 24 * d / b**2)
    f = 1.2 * 470_000 / slender**2 / star
    allowed = star * ((1 + f) / 1.9 - sqrt(((1 + f) / 1.9) ** 2 - f / 0.95))
    return (load * span**2 / 8 * 6 / (b * d**2) / allowed, 1.5 * load * (span / 2 - d) / (b * d) / 150,
            5 * load * span**4 / (32 * 1.3e6 * b * d**3) / (span / 360), load * span / 2 / (b * 1.5) / 405)  # fmt: skip


if __name__ == "__main__":
    main()
