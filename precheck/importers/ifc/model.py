"""An opened IFC file: properties with their entities and units, what they are held to mean, placeholders told apart."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cached_property
from importlib import import_module
from math import prod
from pathlib import Path
from typing import Any, NamedTuple

from precheck.importers.draft import Draft, plain
from precheck.importers.files import refused, whole
from precheck.importers.ifc.frame import Frame, frame_of
from precheck.importers.ifc.shapes import BUILT, Body, Shape, bodies_of, body_of, shape_in
from precheck.importers.mapping import Mapping, matches

OLD = ("IFC2X_", "IFC2X2", "IFC20", "IFC15")  # how schemas of before IFC2X3 are called
_SCHEMA = re.compile(r"FILE_SCHEMA\s*\(\s*\(\s*'([^']+)'")
_SET = ("LENGTHUNIT", "AREAUNIT", "THERMALTRANSMITTANCEUNIT")


class Property(NamedTuple):
    """One property or quantity of an element: where it stands, its value, and the size of its unit in SI."""

    entity: int
    set_name: str
    name: str
    value: Any
    scale: float
    measure: str = ""

    @property
    def told(self) -> str:
        """Where the value stands, for people."""
        return f"#{self.entity} {self.set_name}.{self.name}"

    @property
    def si(self) -> float | None:
        """The value as a number of SI units; None where it is no number."""
        number = isinstance(self.value, int | float) and not isinstance(self.value, bool)
        return float(self.value) * self.scale if number else None


class Model:
    """An IFC file with the mapping that reads it and the draft that it fills."""

    def __init__(self, path: Path, name: str, mapping: Mapping) -> None:
        ifcopenshell: Any = import_module("ifcopenshell")
        self.ifc = _opened(ifcopenshell, path, name)
        self._scales = dict(_scales(self.ifc))
        self.meter = self._scales.get("LENGTHUNIT", 1.0)
        self.imperial = _is_imperial(self.meter)
        self.mapping = mapping
        projects = self.all("IfcProject")
        if not projects:
            raise refused(name, "there is no IfcProject in it; export the model again")
        named = [getattr(projects[0], key, None) for key in ("LongName", "Name")]
        self.draft = Draft(name, plain(self.ifc.schema), plain(next(filter(None, named), path.stem)))
        self._properties: dict[int, list[Property]] = {}
        self._bodies: dict[int, Body | None] = {}
        self._shapes: dict[int, Shape] = {}
        self.told: set[int] = set()  # the elements that are told to be left out
        self.frame = Frame()
        self.story_zero = 0.0  # what stories give as the level that the model calls zero, in meters
        self._find_frame()
        if "LENGTHUNIT" not in self._scales:
            self.draft.doubt("the file gives no unit of length; meters are taken")

    def _find_frame(self) -> None:
        frame = frame_of(self.ifc, self.meter)
        if frame is None:
            self.draft.doubt(
                "the building stands at a slant in the file, so its own level is not known; taken as it stands"
            )
        else:
            self.frame = frame

    def build(self, tick: Callable[[], None]) -> None:
        """Build the bodies of all elements that are looked at, as many at a time as share one."""
        for known, body in bodies_of(self.ifc, self.with_bodies):
            self._bodies[known] = body
            tick()

    @cached_property
    def with_bodies(self) -> list[Any]:
        """The elements whose bodies are built at once."""
        return [element for kind in BUILT for element in self.all(kind) if getattr(element, "Representation", None)]

    def turn(self, degrees: float) -> None:
        """Turn the axes in which shapes are given by some degrees."""
        self.frame = self.frame.further(degrees)
        self._shapes.clear()

    def shape(self, element: Any) -> Shape | None:
        """Return the shape of `element` in the building; None where it has none, or one that cannot be built."""
        known = element.id()
        if known not in self._bodies:
            self._bodies[known] = body_of(element)
        body = self._bodies[known]
        if body is None:
            return None
        if known not in self._shapes:
            self._shapes[known] = shape_in(self.frame.within(body.axes), body)
        return self._shapes[known]

    def all(self, kind: str) -> list[Any]:
        """Return the entities of `kind`; none where the schema does not have it."""
        try:
            return list(self.ifc.by_type(kind))
        except RuntimeError:
            return []

    def properties(self, element: Any) -> list[Property]:
        """Return the properties and quantities of `element`, its own before those of its type."""
        if element.id() not in self._properties:
            self._properties[element.id()] = list(self._read(element))
        return self._properties[element.id()]

    def given(self, element: Any, field: str, part: str) -> Iterator[Property]:
        """Yield the properties that give `field`, best first; a placeholder is no value, and is told."""
        for pattern in self.mapping.properties(field):
            for found in self.properties(element):
                if matches(pattern, found.set_name, found.name) and found.value not in (None, ""):
                    if is_placeholder(found):
                        self.draft.doubt(f"{found.name} holds its own name in place of a value; not taken", part)
                    else:
                        yield found

    def first(self, element: Any, field: str, part: str) -> Property | None:
        """Return the best property that gives `field`."""
        return next(self.given(element, field, part), None)

    def _read(self, element: Any) -> Iterator[Property]:
        for relation in getattr(element, "IsDefinedBy", ()) or ():
            if relation.is_a("IfcRelDefinesByProperties"):
                yield from self._of_set(relation.RelatingPropertyDefinition)
        kind = type_of(element)
        for definition in (kind.HasPropertySets or ()) if kind else ():
            yield from self._of_set(definition)

    def _of_set(self, definition: Any) -> Iterator[Property]:
        name = str(getattr(definition, "Name", "") or "")
        if definition.is_a("IfcPropertySet"):
            for one in definition.HasProperties or ():
                if one.is_a("IfcPropertySingleValue") and one.NominalValue is not None:
                    measure = one.NominalValue.is_a()
                    scale = self._scale(measure, one.Unit)
                    yield Property(one.id(), name, str(one.Name), one.NominalValue.wrappedValue, scale, measure)
        elif definition.is_a("IfcElementQuantity"):
            for one in definition.Quantities or ():
                if one.is_a("IfcPhysicalSimpleQuantity"):
                    scale = self._scale(one.is_a().replace("Quantity", "") + "Measure", one.Unit)
                    yield Property(one.id(), name, str(one.Name), one[3], scale, one.is_a())

    def _scale(self, measure: str, unit: Any) -> float:
        if unit is not None:
            return _size(unit)
        if measure in ("IfcLengthMeasure", "IfcPositiveLengthMeasure", "IfcNonNegativeLengthMeasure"):
            return self.meter
        kind = {"IfcAreaMeasure": "AREAUNIT", "IfcThermalTransmittanceMeasure": "THERMALTRANSMITTANCEUNIT"}.get(measure)
        return self._scales.get(kind, 1.0) if kind else 1.0


def is_placeholder(found: Property) -> bool:
    """Return whether a text only repeats the name of its property."""
    return isinstance(found.value, str) and _letters(found.value) == _letters(found.name)


def type_of(element: Any) -> Any:
    """Return the type (IFC4) or style (IFC2X3) of `element`, or None."""
    relations = [*(getattr(element, "IsTypedBy", ()) or ()), *(getattr(element, "IsDefinedBy", ()) or ())]
    return next((relation.RelatingType for relation in relations if relation.is_a("IfcRelDefinesByType")), None)


def _letters(text: str) -> str:
    return "".join(text.split()).lower()


def _opened(ifcopenshell: Any, path: Path, name: str) -> Any:
    _known_schema(_whole(path, name), name)
    try:
        opened = ifcopenshell.open(str(path))
    except Exception as error:  # whatever the reader makes of a broken file
        raise refused(name, f"not readable as IFC ({plain(error)[:80]}); export the model again") from None
    if opened is None:
        raise refused(name, "not readable as IFC; export the model again")
    return opened


def _known_schema(start: bytes, name: str) -> None:
    """Refuse a model of a schema that the reader does not know, from before 2006."""
    found = _SCHEMA.search(start.decode("latin-1"))
    if found and found[1].upper().startswith(OLD):
        what = f"the model is written as {plain(found[1])}, which is no longer read; export it as IFC4, or as IFC2X3"
        raise refused(name, what)


def _whole(path: Path, name: str) -> bytes:
    """Refuse what is no IFC file, or only part of one: the reader itself would take what is there for all."""
    start, end = whole(path, name)
    if b"ISO-10303-21" not in start:
        raise refused(name, "this is no IFC file, which begins with ISO-10303-21; export the model as IFC")
    if b"END-ISO-10303-21" not in end:
        raise refused(
            name, "the file is cut off: its last line, END-ISO-10303-21, is not there; export or copy it again"
        )
    return start


def _scales(ifc: Any) -> Iterator[tuple[str, float]]:
    for assignment in ifc.by_type("IfcUnitAssignment"):
        for unit in assignment.Units:
            if getattr(unit, "UnitType", None) in _SET:
                yield unit.UnitType, _size(unit)


def _size(unit: Any) -> float:
    """Return how many SI units one `unit` is."""
    if unit.is_a("IfcConversionBasedUnit"):
        factor = unit.ConversionFactor
        return float(factor.ValueComponent.wrappedValue) * _size(factor.UnitComponent)
    if unit.is_a("IfcSIUnit"):
        power = {"SQUARE_METRE": 2, "CUBIC_METRE": 3}.get(unit.Name, 1)
        gram = 0.001 if unit.Name == "GRAM" else 1.0  # of which the SI unit is the kilogram
        return gram * float({"MILLI": 0.001, "CENTI": 0.01, "DECI": 0.1, "KILO": 1000.0}.get(unit.Prefix, 1.0) ** power)
    if unit.is_a("IfcDerivedUnit"):
        return float(prod(_size(element.Unit) ** element.Exponent for element in unit.Elements))
    return 1.0


def _is_imperial(meter: float) -> bool:
    return any(abs(meter - size) < size * 1e-4 for size in (0.3048, 0.0254, 0.9144))


__all__ = ["Model", "Property", "type_of"]
