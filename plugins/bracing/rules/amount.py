"""How much bracing a line needs against wind: the table, by spacing of lines, and its factors, one by one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import pairwise
from typing import Any

from precheck_plugins.bracing.loaded import LoadedLine
from precheck_plugins.bracing.rules.panels import Credits, counted, lengthened
from precheck_plugins.bracing.sum import BracingFactor, BracingSum, steps_of

from precheck import (
    BracedLine,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Ratio,
    Settled,
    at_least,
    broken,
    does_not_apply,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    reads,
    rule,
    when_given,
)

GROUPS = {"LIB": "LIB or GB", "GB": "LIB or GB", "CS-WSP": "continuous", "CS-SFB": "continuous"}
CALM = ("A", "B", "C")
ABOVE_GROUND = ("ground", "upper")
MOST_LINES = 5


class AmountLimits(Limits):
    lengths: Settled[Mapping[str, Any]]
    lengths_one_story: Settled[Mapping[str, Any]]
    lengths_two_stories: Settled[Mapping[str, Any]]
    exposure: Settled[Mapping[str, Any]]
    eave_to_ridge: Settled[Mapping[str, Any]]
    eave_to_ridge_one_story: Settled[Mapping[str, Any]]
    eave_to_ridge_two_stories: Settled[Mapping[str, Any]]
    wall_height: Settled[Mapping[str, Any]]
    lines: Settled[Mapping[str, Any]]
    no_gypsum: Settled[Any]
    unblocked: Settled[Any]
    tallest_sheet: Settled[Length]
    partial: Settled[Mapping[str, Any]]
    portals: Settled[Mapping[str, Any]]
    gypsum_one_face: Settled[Ratio]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    wind_exposure: Limit[Any] = reads("criteria.wind-exposure")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.amount", stage="framing", engineered="stands aside")
def amount(loaded: LoadedLine, limit: AmountLimits, house: House) -> Check:
    """The panels of a line are together long enough against wind.

    The length of the table for the stories above the line, between its spacings by straight lines, times the factors for
    exposure, which goes by the stories of the whole house, roof height, wall height, number of lines, missing gypsum and
    joints without blocking. Joints are asked about where the wall is higher than a sheet and they decide. A gypsum panel on
    one face counts half. More wind or stories, and places where earthquake governs, go by tables that are not held here.
    """
    line = loaded.line
    wind = house.criterion(limit.wind.value, "ultimate_wind_speed")
    exposure = house.criterion(limit.wind_exposure.value, "wind_exposure")
    shaking = house.criterion(limit.seismic.value, "seismic_design_category")
    if wind is None:
        return does_not_apply("no wind speed is set")
    stories = 1 if exposure == "B" else stories_of(line, house)
    absent = missing_of(
        wind, exposure, shaking, line.stories_above, line.method, line.to_next_line, line.eave_to_ridge,
        line.wall_height, line.lines, line.gypsum_inside, stories,
    )  # fmt: skip
    if absent is not None:
        return not_shown(absent)
    lengths = (limit.lengths, limit.lengths_one_story, limit.lengths_two_stories)
    bound = dict(enumerate(lengths)).get(line.stories_above)  # type: ignore[arg-type]  # it is given
    table = None if bound is None else _table(bound.value, wind)
    if bound is None or table is None or str(shaking) not in CALM:
        return look_at(Look.ENGINEER, "its table of bracing lengths is not held here: more stories, wind or shaking")
    row = _row(table, str(line.method))
    if row is None:
        return broken(f"{line.method} braces no line under two stories", bound).or_fix("panels of another method")
    base = _along(row, line.to_next_line)
    factors = _factors(line, str(exposure), stories, limit)
    if base is None or factors is None:
        return look_at(Look.ENGINEER, "the line is outside the spacing or the factors of the table")
    return _by_joints(line, base, factors, bound, limit)


def _by_joints(
    line: BracedLine, base: Length, factors: list[BracingFactor], bound: Limit[Any], limit: AmountLimits
) -> Check:
    """Return the check with the factor for joints of wood panels without blocking, where there are any."""
    found, joints = _against(line, base, factors, bound, limit), line.horizontal_joints
    if "WSP" not in str(line.method) or joints in ("none", "blocked"):
        return found
    open_joints = BracingFactor(
        "horizontal joints not blocked", Fraction(limit.unblocked.value.n), _source(limit.unblocked)
    )
    doubled = _against(line, base, [*factors, open_joints], bound, limit)
    if not is_missing(joints):
        return doubled.or_fix("block the horizontal joints", lambda: [NewValue(line, "horizontal_joints", "blocked")])
    low = not is_missing(line.wall_height) and line.wall_height <= limit.tallest_sheet.value
    return found if low or doubled.outcome is found.outcome else not_shown(joints)


def _source(bound: Limit[Any]) -> str:
    return f"{bound.name}, {bound.citation}"


def stories_of(line: BracedLine, house: House) -> Any:
    """Return how many stories the house of a line has above ground: as the line says, else as its stories are drawn."""
    if not is_missing(line.stories) or not house.project.stories:
        return line.stories
    return when_given(
        lambda *levels: sum(level in ABOVE_GROUND for level in levels), *(s.level for s in house.project.stories)
    )


def _against(
    line: BracedLine, base: Length, factors: list[BracingFactor], bound: Limit[Any], limit: AmountLimits
) -> Check:
    needed = base
    for factor in factors:
        needed = needed * factor.value
    parts = Credits(limit.partial.value, limit.portals.value, limit.gypsum_one_face.value)
    given = [counted(panel, line, parts) for panel in line.panels]
    total: Any = sum(given[1:], given[0]) if given else line.absent("panels")
    shown = " x ".join(str(float(f.value)) for f in factors if f.value != 1)
    how = f"{base} of the table{f' x {shown}' if shown else ''}"
    check = at_least(total, replace(bound, value=needed), how).or_fix(
        lambda: f"{(needed - total).rounded_up()} more of braced panel in this line",
        lambda: _one_longer(line, given, (needed - total).rounded_up()),
        decide="where it goes",
    )
    return check.with_work(partial(steps_of, BracingSum(line, base, bound, tuple(factors), needed, tuple(given))))


def _one_longer(line: BracedLine, counts: list[Any], more: Length) -> list[NewValue]:
    """Return the first panel that counts in full and has room to be longer by what is lacking."""
    for panel, count in zip(line.panels, counts, strict=True):
        long = panel.length
        if is_missing(long) or count != long or not is_missing(panel.portal):
            continue
        if found := lengthened(panel, long + more):
            return found
    return []


def _table(tables: Mapping[str, Any], wind: Any) -> Any:
    speeds = sorted((int(name.split()[0]), name) for name in tables)
    return next((tables[name] for speed, name in speeds if speed >= wind.n), None)


def _row(table: Mapping[str, Any], method: str) -> Any:
    """Return the row of a method; None where the table holds none, as for let-in bracing under two stories."""
    group = GROUPS.get(method, "WSP and like")
    return table.get(group, table.get(method))


def _along(row: Mapping[str, Any], where: Any) -> Length | None:
    """Return the value of a row at `where`, on a straight line between its columns; None beyond the last."""
    points = sorted((Length.parse(name), value) for name, value in row.items())
    if where <= points[0][0]:
        return points[0][1]  # type: ignore[no-any-return]
    for (low, below), (high, above) in pairwise(points):
        if where <= high:
            return below + (above - below) * ((where - low) / (high - low))  # type: ignore[no-any-return]
    return None


def _factors(line: BracedLine, exposure: str, stories: int, limit: AmountLimits) -> list[BracingFactor] | None:
    """Return the factors; None where one is off its table."""
    roofs = (limit.eave_to_ridge, limit.eave_to_ridge_one_story, limit.eave_to_ridge_two_stories)
    roof = dict(enumerate(roofs))[line.stories_above]  # type: ignore[index]  # it is given, and its lengths were found
    bare = not line.gypsum_inside and line.method != "GB"
    high = f"{stories} stor{'y' if stories == 1 else 'ies'}"
    of_stories = limit.exposure.value.get(high, {})
    around = "exposure B" if exposure == "B" else f"exposure {exposure}, a house of {high}"
    lines = min(line.lines, MOST_LINES)
    found = (
        (around, of_stories.get(exposure), limit.exposure),
        (f"{line.eave_to_ridge} from eave to ridge", _step(roof.value, line.eave_to_ridge), roof),
        (f"wall {line.wall_height} high", _step(limit.wall_height.value, line.wall_height), limit.wall_height),
        (f"{line.lines} braced wall lines", limit.lines.value.get(str(lines)), limit.lines),
        ("no gypsum inside" if bare else "gypsum inside", limit.no_gypsum.value if bare else Ratio(1), limit.no_gypsum),
    )
    if any(value is None for _, value, _ in found):
        return None
    return [BracingFactor(what, Fraction(value.n), _source(bound)) for what, value, bound in found]


def _step(row: Mapping[str, Any], where: Any) -> Any:
    """Return the factor of the first row that is no lower than `where`, which is on the safe side."""
    heights = sorted((Length.parse(name), value) for name, value in row.items())
    return next((value for height, value in heights if height >= where), None)
