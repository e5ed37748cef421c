"""Design values of made products, as the maker's document gives them, and how they go with depth."""

from __future__ import annotations

from precheck_plugins.framing.drawn.setting import inches
from precheck_plugins.framing.timber.lumber import AT_THIS_DEPTH, OTHER_SIDE, Depth, DesignValues, is_same, maker_values
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import MakerData, Member, Missing, Pressure, is_missing, missing_of

NOT_A_RECTANGLE = ("I-joist", "steel")
GLUED_EXPONENT = 1 / 10
GLUED_EXPONENT_OF_SOUTHERN_PINE = 1 / 20


def made_values(member: Member, maker: MakerData) -> DesignValues | Missing:
    """Return the values of a made product, psi, or what its document should say. Raises OutsideMethodError, LumberError."""
    if maker.product in NOT_A_RECTANGLE:
        raise OutsideMethodError(
            f"{maker.product}: its strength is not that of a rectangle of wood; the maker's tables decide"
        )
    wanted = {"Fb": maker.bending, "Fv": maker.shear, "Fc_perp": maker.bearing, "E": maker.modulus}
    depth, other = depth_rule(member, maker), _other_side(member, maker)
    absent = missing_of(maker.document, *wanted.values(), depth, other)
    if absent is not None or is_missing(depth):
        return absent if absent is not None else depth  # type: ignore[return-value]  # one of them is the absence
    further = {"Emin": maker.modulus_for_stability, "Fc": maker.compression, OTHER_SIDE: other}
    given = {symbol: value for symbol, value in (wanted | further).items() if isinstance(value, Pressure)}
    numbers = {symbol: float(value.n) / 144 for symbol, value in given.items()}
    return maker_values(maker.product, maker.grade, str(maker.document), numbers, depth)


def depth_rule(member: Member, maker: MakerData) -> Depth | Missing:
    """Return how the bending value goes with depth: as the maker says, of glulam by its volume."""
    if maker.at_this_depth is True:
        return AT_THIS_DEPTH
    if maker.product == "glulam":
        pine = not is_missing(member.species) and is_same("Southern pine", member.species)
        kind = "Southern pine" if pine else "species other than Southern pine, or not said"
        return Depth(f"volume factor, {kind}", GLUED_EXPONENT_OF_SOUTHERN_PINE if pine else GLUED_EXPONENT)
    if is_missing(maker.depth_exponent):
        return maker.absent("depth exponent with its reference depth, or `at this depth` of its bending value")
    if is_missing(maker.reference_depth):
        return maker.reference_depth
    return Depth("maker's depth exponent", maker.depth_exponent, inches(maker.reference_depth))


def _other_side(member: Member, maker: MakerData) -> Pressure | Missing | None:
    """Return the bending value of glulam with its other side in tension, where it may hog and is not balanced."""
    runs_on = bool(member.spans) or not (is_missing(member.overhang) and is_missing(member.first_overhang))
    if maker.product != "glulam" or not runs_on:
        return None
    if not is_missing(maker.bending_other_side):
        return maker.bending_other_side
    if is_missing(maker.balanced):
        return maker.balanced
    return maker.bending if maker.balanced else maker.bending_other_side
