"""What a member weighs itself: by the specific gravity of its species and its moisture; lb per cubic foot, plf.

The gravities stand in specific_gravity.csv, from memory.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.lumber import is_same, read_table
from precheck_plugins.framing.timber.steps import Step, number

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection

WATER_PCF = 62.4
DRY_PERCENT = 19.0
WET_PERCENT = 30.0
MADE_PCF = 50.0
"""No made product of wood that frames houses weighs more (practice); its maker's figure is less."""
FORMULA = "NDS Supplement 2018 3.1.3 (from memory)"


def density_pcf(species: str, wet: bool = False) -> float:
    """Density of lumber, lb per cubic foot: 62.4 G / (1 + 0.009 G mc) (1 + mc / 100); of an unlisted species the heaviest.

    Source: NDS Supplement 3.1.3.
    """
    moisture, gravity = WET_PERCENT if wet else DRY_PERCENT, _gravity(species)
    return WATER_PCF * gravity / (1 + 0.009 * gravity * moisture) * (1 + moisture / 100)


def own_weight(section: CrossSection, pcf: float, source: str) -> Step:
    """The weight of a member, plf, as a line of the calculation."""
    text = f"{number(pcf)} * {number(section.area_in2)} / 144"
    return Step("w", f"own weight of {section.label}", text, pcf * section.area_in2 / 144, "plf", source)


@cache
def _gravity(species: str) -> float:
    rows = read_table("specific_gravity.csv")
    listed = {row["species"]: float(row["specific_gravity"]) for row in rows}
    return next((g for name, g in listed.items() if is_same(name, species)), max(listed.values()))
