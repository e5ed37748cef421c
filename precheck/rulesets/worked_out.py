"""Quantities with a number or a word in their names: the floor with so much height, the layers of one material.

``area at 7 ft of height`` and ``width at 5 ft of height`` are those of a space over whose floor the ceiling is so high or
higher; ``thickness of gypsum in layers`` is that of all layers of it together, and ``type x of gypsum in cover`` whether all
of it is Type X.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, NamedTuple

from precheck.files.missing import Missing, is_missing, missing_of
from precheck.files.record import Record
from precheck.project import Space
from precheck.project.part import Layer, thickness_of
from precheck.rulesets.shape import attribute_of, fields_by_key, held_in
from precheck.survey import House
from precheck.survey.under_ceiling import area_at, width_at, width_of
from precheck.units import Area, Length, NotationError

MATERIALS = (
    "gypsum", "plywood", "osb", "cement board", "plaster", "concrete", "mortar", "tile", "stone", "brick", "hardwood",
    "insulation",
)  # fmt: skip
_AT_HEIGHT = re.compile(r"(area|width) at (.+) of height")
_OF_LAYERS = re.compile(r"(thickness|type x) of (.+) in ([a-z ]+)")


class WorkedOut(NamedTuple):
    """One such quantity: the kind of value it has, and how it is read of a record in its house."""

    kind: type
    read: Callable[[House, Any], Any]


def patterns(model: type[Record]) -> list[str]:
    """Return patterns for what can be looked at in a `model` by names of this form."""
    lists = [key for key in fields_by_key(model) if _holds_layers(model, key)]
    at_height = [rf"^{_AT_HEIGHT.pattern}$"] if model is Space else []
    return at_height + [rf"^(thickness|type x) of ({'|'.join(MATERIALS)}) in ({'|'.join(lists)})$"] * bool(lists)


def worked_out(model: type[Record], name: str) -> WorkedOut | None:
    """Return what `name` stands for in a record of type `model`; None where it is no name of this form."""
    if model is Space and (found := _AT_HEIGHT.fullmatch(name)) is not None:
        return _at_height(found[1], found[2])
    found = _OF_LAYERS.fullmatch(name)
    if found is None or found[2] not in MATERIALS or not _holds_layers(model, found[3]):
        return None
    return _of_layers(found[1], found[2], found[3], attribute_of(model, found[3]))


def _at_height(what: str, written: str) -> WorkedOut | None:
    try:
        height = Length.parse(written)
    except NotationError:
        return None

    def area(house: House, space: Space) -> Area | Missing:
        return area_at(space, house.area(space), house.open_below(space), house.ceiling_height(space), height)

    def width(house: House, space: Space) -> Length | Missing:
        whole = width_of(space, house.outline(space))
        gone = house.open_below(space)
        of_all = house.area(space) if is_missing(gone) else house.area(space) + gone
        return width_at(space, whole, of_all, house.ceiling_height(space), height)

    return WorkedOut(Area, area) if what == "area" else WorkedOut(Length, width)


def _holds_layers(model: type[Record], key: str) -> bool:
    field = fields_by_key(model).get(key)
    return field is not None and held_in(field.annotation)[1:] == (Layer, True)


def _of_layers(what: str, material: str, key: str, attribute: str) -> WorkedOut:
    def these(record: Any) -> tuple[Layer, ...] | Missing:
        if attribute not in record.model_fields_set:
            absent: Missing = record.absent(key)
            return absent
        layers: tuple[Layer, ...] = getattr(record, attribute)
        return tuple(layer for layer in layers if _is_of(layer, material))

    def thickness(_: House, record: Any) -> Length | Missing:
        found = these(record)
        return found if is_missing(found) else thickness_of(found)

    def type_x(_: House, record: Any) -> bool | Missing:
        found = these(record)
        if is_missing(found):
            return found
        said = [layer.type_x for layer in found]
        unsaid = missing_of(*said)
        return False if False in said or not said else True if unsaid is None else unsaid

    return WorkedOut(Length, thickness) if what == "thickness" else WorkedOut(bool, type_x)


def _is_of(layer: Layer, material: str) -> bool:
    return layer.is_gypsum_board if material == "gypsum" else layer.is_any_of((material,))
