"""The address: numbers that can be read from the street."""

from __future__ import annotations

from precheck import AddressSign, Check, Length, Limit, Limits, all_of, at_least, required, rule


class NumberLimits(Limits):
    height: Limit[Length]
    stroke: Limit[Length]


@rule("address.numbers", stage="final")
def numbers(sign: AddressSign, limit: NumberLimits) -> Check:
    """The characters of the address are tall enough, with a stroke wide enough.

    Asked only of an address that the drawings show: work on a house that has one need not draw it again.
    """
    return all_of(at_least(sign.character_height, limit.height), at_least(sign.stroke, limit.stroke))


class LegibleLimits(Limits):
    contrast: Limit[bool]
    from_street: Limit[bool]


@rule("address.legible", stage="final")
def legible(sign: AddressSign, limit: LegibleLimits) -> Check:
    """The address contrasts with its background and can be read from the street, or a sign at the drive repeats it."""
    return all_of(required(sign.contrasting, limit.contrast), required(sign.legible_from_street, limit.from_street))
