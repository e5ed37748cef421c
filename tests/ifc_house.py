"""Small houses in IFC, written entity by entity, for the tests of what reads them."""
# ruff: noqa: D102  # what these helpers draw is in their names

from math import cos, radians, sin

import pytest

from precheck.importers import Mapping, project_of, read_here
from precheck.units import Length

ifcopenshell = pytest.importorskip("ifcopenshell")
FOOT = 0.3048


class Model:
    """A small house, written entity by entity; lengths are given in meters and stored in the unit of the file."""

    def __init__(self, schema="IFC4", unit="METRE", size=1.0):
        self.ifc = ifcopenshell.file(schema=schema)
        self.size, self.made = size, 0
        self.zero = self.point(0, 0, 0)
        self.owner = self.owner_history() if schema == "IFC2X3" else None
        self.context = self.make("IfcGeometricRepresentationContext", ContextType="Model", CoordinateSpaceDimension=3,
                                 Precision=1e-5, WorldCoordinateSystem=self.axes(0, 0, 0))  # fmt: skip
        self.project = self.root("IfcProject", Name="Wren Lane 4", RepresentationContexts=[self.context],
                                 UnitsInContext=self.make("IfcUnitAssignment", Units=self.units(unit)))  # fmt: skip
        self.building = self.root("IfcBuilding", Name="House", CompositionType="ELEMENT")
        self.within(self.project, [self.building])
        self.ground = self.story("Ground floor", 0.0)

    def owner_history(self):
        person = self.make("IfcPerson", FamilyName="Drafter")
        firm = self.make("IfcOrganization", Name="Office")
        both = self.make("IfcPersonAndOrganization", ThePerson=person, TheOrganization=firm)
        program = self.make("IfcApplication", ApplicationDeveloper=firm, Version="1", ApplicationFullName="Test",
                            ApplicationIdentifier="test")  # fmt: skip
        return self.make("IfcOwnerHistory", OwningUser=both, OwningApplication=program, ChangeAction="NOCHANGE",
                         CreationDate=0)  # fmt: skip

    def units(self, unit):
        area = self.make("IfcSIUnit", UnitType="AREAUNIT", Name="SQUARE_METRE")
        if unit == "MILLI":
            return [self.make("IfcSIUnit", UnitType="LENGTHUNIT", Name="METRE", Prefix="MILLI"), area]
        meter = self.make("IfcSIUnit", UnitType="LENGTHUNIT", Name="METRE")
        if unit == "METRE":
            return [meter, area]
        factor = self.make("IfcMeasureWithUnit", ValueComponent=self.ifc.create_entity("IfcLengthMeasure", self.size),
                           UnitComponent=meter)  # fmt: skip
        one = self.make("IfcDimensionalExponents", 1, 0, 0, 0, 0, 0, 0)
        return [self.make("IfcConversionBasedUnit", one, "LENGTHUNIT", unit, factor), area]

    def make(self, kind, *values, **named):
        return self.ifc.create_entity(kind, *values, **named)

    def root(self, kind, **named):
        self.made += 1
        guid = f"{self.made:022d}"
        return self.make(kind, GlobalId=guid, OwnerHistory=self.owner, **named)

    def point(self, *at):
        return self.make("IfcCartesianPoint", [float(c) / self.size for c in at])

    def axes(self, x, y, z, turned=False):
        along = self.make("IfcDirection", (0.0, 1.0, 0.0)) if turned else None
        up = self.make("IfcDirection", (0.0, 0.0, 1.0)) if turned else None
        return self.make("IfcAxis2Placement3D", self.point(x, y, z), up, along)

    def placed(self, x, y, z, turned=False):
        return self.make("IfcLocalPlacement", None, self.axes(x, y, z, turned))

    def box(self, *boxes):
        solids = []
        for x, y, z, dx, dy, dz in boxes:
            middle = self.make("IfcAxis2Placement2D", self.point(x + dx / 2, y + dy / 2))
            profile = self.make("IfcRectangleProfileDef", "AREA", None, middle, dx / self.size, dy / self.size)
            up = self.make("IfcDirection", (0.0, 0.0, 1.0))
            solids.append(self.make("IfcExtrudedAreaSolid", profile, self.axes(0, 0, z), up, dz / self.size))
        shape = self.make("IfcShapeRepresentation", self.context, "Body", "SweptSolid", solids)
        return self.make("IfcProductDefinitionShape", Representations=[shape])

    def prisms(self, *outlines):
        """Bodies of one outline each, closed by themselves, from a level up by so much."""
        solids = []
        for points, z, high in outlines:
            made = [self.make("IfcCartesianPoint", (x / self.size, y / self.size)) for x, y in (*points, points[0])]
            profile = self.make("IfcArbitraryClosedProfileDef", "AREA", None, self.make("IfcPolyline", made))
            up = self.make("IfcDirection", (0.0, 0.0, 1.0))
            solids.append(self.make("IfcExtrudedAreaSolid", profile, self.axes(0, 0, z), up, high / self.size))
        shape = self.make("IfcShapeRepresentation", self.context, "Body", "SweptSolid", solids)
        return self.make("IfcProductDefinitionShape", Representations=[shape])

    def within(self, whole, parts):
        self.root("IfcRelAggregates", RelatingObject=whole, RelatedObjects=parts)

    def story(self, name, level):
        made = self.root("IfcBuildingStorey", Name=name, CompositionType="ELEMENT", Elevation=level / self.size,
                         ObjectPlacement=self.placed(0, 0, 0))  # fmt: skip
        self.within(self.building, [made])
        return made

    def space(self, number, name, x, y, dx, dy, z=0.0, high=2.6, story=None):
        made = self.root("IfcSpace", Name=number, LongName=name, CompositionType="ELEMENT",
                         ObjectPlacement=self.placed(0, 0, 0), Representation=self.box((x, y, z, dx, dy, high)))  # fmt: skip
        self.within(story or self.ground, [made])
        return made

    def attic(self, number, deep, section, z=0.0):
        """A room whose body has one section (points of x and z) from its front to its back."""
        points = [self.make("IfcCartesianPoint", (x / self.size, y / self.size)) for x, y in (*section, section[0])]
        profile = self.make("IfcArbitraryClosedProfileDef", "AREA", None, self.make("IfcPolyline", points))
        back, ahead = self.make("IfcDirection", (0.0, -1.0, 0.0)), self.make("IfcDirection", (1.0, 0.0, 0.0))
        axes = self.make("IfcAxis2Placement3D", self.point(0, deep, z), back, ahead)
        up = self.make("IfcDirection", (0.0, 0.0, 1.0))
        solid = self.make("IfcExtrudedAreaSolid", profile, axes, up, deep / self.size)
        shape = self.make("IfcShapeRepresentation", self.context, "Body", "SweptSolid", [solid])
        made = self.root("IfcSpace", Name=number, LongName="Bedroom", CompositionType="ELEMENT",
                         ObjectPlacement=self.placed(0, 0, 0),
                         Representation=self.make("IfcProductDefinitionShape", Representations=[shape]))  # fmt: skip
        self.within(self.ground, [made])
        return made

    def opening(self, kind, mark, x, y, z, wide, high, turned=False, stated=None, **named):
        deep = 0.12
        width, height = stated or (wide, high)
        made = self.root(kind, Name=f"{kind} {mark}", Tag=mark, ObjectPlacement=self.placed(x, y, z, turned),
                         Representation=self.box((-wide / 2, -deep / 2, 0, wide, deep, high)),
                         OverallWidth=width / self.size, OverallHeight=height / self.size, **named)  # fmt: skip
        self.root("IfcRelContainedInSpatialStructure", RelatedElements=[made], RelatingStructure=self.ground)
        return made

    def typed(self, element, kind, **named):
        made = self.root(kind, **named)
        self.root("IfcRelDefinesByType", RelatedObjects=[element], RelatingType=made)

    def properties(self, element, name, **values):
        kinds = {str: "IfcLabel", bool: "IfcBoolean", int: "IfcInteger", float: "IfcPositiveLengthMeasure"}
        singles = [
            self.make("IfcPropertySingleValue", key, None, self.make(kinds[type(value)], value))
            for key, value in values.items()
        ]
        group = self.root("IfcPropertySet", Name=name, HasProperties=singles)
        self.root("IfcRelDefinesByProperties", RelatedObjects=[element], RelatingPropertyDefinition=group)

    def quantities(self, element, name, **areas):
        singles = [self.make("IfcQuantityArea", Name=key, AreaValue=value) for key, value in areas.items()]
        group = self.root("IfcElementQuantity", Name=name, Quantities=singles)
        self.root("IfcRelDefinesByProperties", RelatedObjects=[element], RelatingPropertyDefinition=group)

    def fills(self, element, wall):
        """Put an opening of the wall around a door or window."""
        hole = self.root("IfcOpeningElement", Name="hole", ObjectPlacement=self.placed(0, 0, 0))
        self.root("IfcRelVoidsElement", RelatingBuildingElement=wall, RelatedOpeningElement=hole)
        self.root("IfcRelFillsElement", RelatingOpeningElement=hole, RelatedBuildingElement=element)

    def bounds(self, space, element, virtual=False):
        return self.root("IfcRelSpaceBoundary", RelatingSpace=space, RelatedBuildingElement=element,
                  PhysicalOrVirtualBoundary="VIRTUAL" if virtual else "PHYSICAL", InternalOrExternalBoundary="INTERNAL")  # fmt: skip

    def stair(self, steps=14, riser=0.19, going=0.26, said=(), x=0.5, y=0.5, body=True, **sets):
        names = ("NumberOfRisers", "NumberOfRiser")
        boxes = [(x + i * going, y, (i + 1) * riser - 0.04, going, 0.95, 0.04) for i in range(steps - 1)]
        flight = self.root("IfcStairFlight", Name="flight", ObjectPlacement=self.placed(0, 0, 0),
                           Representation=self.box(*boxes) if body else None)  # fmt: skip
        setattr(flight, next(n for n in names if hasattr(flight, n)), steps)
        for attribute, number in zip(("RiserHeight", "TreadLength"), said, strict=False):
            setattr(flight, attribute, float(number))
        stair = self.root("IfcStair", Name="stair", Tag="1", ObjectPlacement=self.placed(0, 0, 0))
        self.within(stair, [flight])
        self.root("IfcRelContainedInSpatialStructure", RelatedElements=[stair], RelatingStructure=self.ground)
        for name, values in sets.items():
            self.properties(flight, name, **values)
        return stair

    def along(self, start, end, z):
        (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
        up, ahead = self.make("IfcDirection", (0.0, 0.0, 1.0)), self.make("IfcDirection", (float(dx), float(dy), 0.0))
        return self.make("IfcLocalPlacement", None, self.make("IfcAxis2Placement3D", self.point(x, y, z), up, ahead))

    def layer_set(self, layers):
        made = [
            self.make("IfcMaterialLayer", self.make("IfcMaterial", Name=name), thick / self.size)
            for name, thick in layers
        ]
        return self.make("IfcMaterialLayerSet", MaterialLayers=made)

    def built_of(self, element, layers, sense="POSITIVE", offset=None, axis="AXIS2"):
        given = self.layer_set(layers)
        if sense:
            total = sum(thick for _, thick in layers)
            first = offset if offset is not None else (-total / 2 if sense == "POSITIVE" else total / 2)
            given = self.make("IfcMaterialLayerSetUsage", ForLayerSet=given, LayerSetDirection=axis, DirectionSense=sense,
                              OffsetFromReferenceLine=first / self.size)  # fmt: skip
        self.of(element, given)

    def of(self, element, material):
        self.root("IfcRelAssociatesMaterial", RelatedObjects=[element], RelatingMaterial=material)

    def held(self, element, story=None):
        self.root(
            "IfcRelContainedInSpatialStructure", RelatedElements=[element], RelatingStructure=story or self.ground
        )
        return element

    def line(self, kind, tag, start, end, wide, high, z=0.0, axis=((0, 0),), **named):
        """A wall or beam from one point of the plan to another, its body on both sides of its axis."""
        long = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
        body = self.box((0, -wide / 2, 0, long, wide, high))
        if axis:
            points = [self.make("IfcCartesianPoint", (x / self.size, y / self.size)) for x, y in (*axis, (long, 0.0))]
            curve = self.make("IfcPolyline", points)
            shape = self.make("IfcShapeRepresentation", self.context, "Axis", "Curve2D", [curve])
            body.Representations = [shape, *body.Representations]
        made = self.root(kind, Name=f"{kind} {tag}", Tag=tag, Representation=body,
                         ObjectPlacement=self.along(start, end, z), **named)  # fmt: skip
        return self.held(made)

    def wall(self, tag, start, end, thick=0.12, high=2.6, layers=None, sense="POSITIVE", external=None, **named):
        made = self.line("IfcWallStandardCase", tag, start, end, thick, high, **named)
        if layers:
            self.built_of(made, layers, sense)
        if external is not None:
            self.properties(made, "Pset_WallCommon", IsExternal=external)
        return made

    def slab(self, tag, x, y, dx, dy, top, layers, kind="FLOOR", sense="POSITIVE", **named):
        thick = sum(each for _, each in layers)
        made = self.root("IfcSlab", Tag=tag, PredefinedType=kind, ObjectPlacement=self.placed(0, 0, 0),
                         Representation=self.box((x, y, top - thick, dx, dy, thick)), **named)  # fmt: skip
        self.built_of(made, layers, sense, offset=0.0, axis="AXIS3")
        return self.held(made)

    def stand(self, x=0.0, y=0.0, z=0.0, degrees=0.0):
        """Put the whole house on a site at that place of the world, turned by so many degrees."""
        free = [placed for placed in self.ifc.by_type("IfcLocalPlacement") if placed.PlacementRelTo is None]
        up, turned = self.make("IfcDirection", (0.0, 0.0, 1.0)), radians(degrees)
        ahead = self.make("IfcDirection", (cos(turned), sin(turned), 0.0))
        axes = self.make("IfcAxis2Placement3D", self.point(x, y, z), up, ahead)
        site = self.root("IfcSite", Name="Lot", CompositionType="ELEMENT",
                         ObjectPlacement=self.make("IfcLocalPlacement", None, axes))  # fmt: skip
        self.building.ObjectPlacement = self.make("IfcLocalPlacement", site.ObjectPlacement, self.axes(0, 0, 0))
        for placed in free:
            placed.PlacementRelTo = self.building.ObjectPlacement

    def save(self, folder):
        path = folder / "house.ifc"
        self.ifc.write(str(path))
        return path


def read(model, folder, mapping=None):
    draft = read_here(model.save(folder), "house.ifc", mapping or Mapping(), lambda done, total: None)
    return draft, project_of(draft, folder / "house.ifc")


def millimeters(length):
    return float(length / Length.parse("1 mm"))
