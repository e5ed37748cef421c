"""What the model does not show as IDS 1.0, the open standard for what a model must hold: which property on which element.

What the standard has a property for is asked under its name; anything else as a property of the set `Precheck`, named after
the value of the project file. Both are read when the model is imported again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple
from xml.etree import ElementTree as ET

from precheck.checks import Outcome
from precheck.files.missing import Need
from precheck.files.source import Place, Problem, Unusable
from precheck.importers.ifc.answers import SET, named
from precheck.project import Part
from precheck.questions.question import Question, Questions
from precheck.reports import words
from precheck.reports.in_model import class_of, design_file, global_id
from precheck.reports.xml_text import below, document, element, plain
from precheck.review.finding import Review
from precheck.survey import part_of

IDS = "http://standards.buildingsmart.org/IDS"
XS = "http://www.w3.org/2001/XMLSchema"
VERSIONS = ("IFC2X3", "IFC4", "IFC4X3_ADD2")


class Asked(NamedTuple):
    """A value that the standard has its own place for: the set and the property, and the type of its value."""

    set_name: str
    name: str
    kind: str = ""


STANDARD: dict[str, Asked] = {
    "phase": Asked("Pset_{}Common", "Status"),
    "fire rating": Asked("Pset_{}Common", "FireRating", "IFCLABEL"),
    "self closing": Asked("Pset_DoorCommon", "SelfClosing", "IFCBOOLEAN"),
    "u factor": Asked("Pset_{}Common", "ThermalTransmittance", "IFCTHERMALTRANSMITTANCEMEASURE"),
    "shgc": Asked("Pset_DoorWindowGlazingType", "SolarHeatGainTransmittance"),
}
_ATTRIBUTES = {"unit size": ("OverallWidth", "OverallHeight")}


class PropertyWanted(NamedTuple):
    """One value that is wanted of elements of one class: what it is called, the choices there are, an example, why, of which."""

    entity: str
    key: str
    choices: tuple[str, ...]
    example: str
    why: str
    ids: list[str]


def render(reviews: list[Review]) -> bytes:
    """Return one file for all `reviews`. Raises `Unusable` where no part that lacks a value is drawn from a model."""
    wanted: dict[tuple[str, str], PropertyWanted] = {}
    for review in reviews:
        for one, part in _wanted(review):
            known = wanted.setdefault((one.entity, one.key), one)
            if global_id(part) not in known.ids:
                known.ids.append(global_id(part))
    if not wanted:
        what = "no part that lacks a value is drawn from an IFC model; import a model first, or use another --report"
        raise Unusable([Problem(Place(reviews[0].project.place.file if reviews else "--report ids", 1, 1), what)])
    return _document(reviews, wanted.values())


def _wanted(review: Review) -> Iterator[tuple[PropertyWanted, Part]]:
    questions = Questions(review.project)
    for finding in review.findings:
        if finding.outcome is Outcome.NOT_SHOWN and finding.accepted is None:
            for need in finding.check.needs:
                if (found := _asked(questions, need)) is not None:
                    question, key, part = found
                    choices = () if question.several else question.choices
                    yield PropertyWanted(class_of(part), key, choices, question.example, finding.rule.summary, []), part


def _asked(questions: Questions, need: Need) -> tuple[Question, str, Part] | None:
    """Return the question for a value that can stand in a model, under which name, and on which part."""
    question, owner = questions.question(need), questions.owner(need)
    part = part_of(owner) if owner is not None else None
    if question is None or part is None or not global_id(part) or question.fields or question.parts:
        return None
    return question, named(question.path[2:]), part


def _document(reviews: list[Review], wanted: Iterable[PropertyWanted]) -> bytes:
    root = element("ids", xmlns=IDS)
    root.set("xmlns:xs", XS)
    info = below(root, "info")
    below(info, "title", f"What is not shown: {', '.join(one.project.project for one in reviews)}")
    below(info, "description", " ".join([words.code_line(reviews[0]) + ".", words.REMINDER]))
    if applied := reviews[0].code.applied_on:
        below(info, "date", str(applied))
    specifications = below(root, "specifications")
    for one in wanted:
        _specification(specifications, one, _version(reviews))
    return document(root)


def _version(reviews: Iterable[Review]) -> str:
    forms = {drawn.form.upper() for review in reviews if (drawn := design_file(review.project)) is not None}
    known = [version for version in VERSIONS if version in forms or (version[:6] == "IFC4X3" and "IFC4X3" in forms)]
    return " ".join(known or VERSIONS)


def _in_words(key: str) -> str:
    """Return what the value under `key` is called by people: `headroom of flight 1` for `flights.1.headroom`."""
    told: list[str] = []
    for step in key.split("."):
        if step.isdigit() and told:
            told[-1] = f"{told[-1].removesuffix('s')} {step}"
        else:
            told.append(step)
    return " of ".join(reversed(told))


def _specification(parent: ET.Element, one: PropertyWanted, versions: str) -> None:
    made = below(
        parent, "specification", name=f"{one.entity}: {_in_words(one.key)}", ifcVersion=versions, description=one.why
    )
    applies = below(made, "applicability", minOccurs="1", maxOccurs="unbounded")
    _values(below(below(applies, "entity"), "name"), [one.entity.upper()])
    attribute = below(applies, "attribute")
    _values(below(attribute, "name"), ["GlobalId"])
    _values(below(attribute, "value"), one.ids)
    requires = below(made, "requirements")
    if names := _ATTRIBUTES.get(one.key):
        for name in names:
            _values(below(below(requires, "attribute", cardinality="required"), "name"), [name])
        return
    asked = STANDARD.get(one.key, Asked(SET, one.key))
    kind = {"dataType": asked.kind} if asked.kind else {}
    told = f"for example {one.example}" if one.example else ""
    wanted = below(requires, "property", cardinality="required", **kind, **({"instructions": told} if told else {}))
    _values(below(wanted, "propertySet"), [asked.set_name.format(_family(one.entity))])
    _values(below(wanted, "baseName"), [asked.name])
    if one.choices and asked.set_name == SET:
        _values(below(wanted, "value"), one.choices)


def _family(entity: str) -> str:
    """Return what the standard's sets of a class are named after: Wall of IfcWallStandardCase."""
    return entity.removeprefix("Ifc").removesuffix("StandardCase").removesuffix("ElementedCase")


def _values(parent: ET.Element, values: Iterable[str]) -> None:
    """Give an element its one value, or several of which one is wanted."""
    given = list(values)
    if len(given) == 1:
        below(parent, "simpleValue", given[0])
        return
    restriction = below(parent, "xs:restriction", base="xs:string")
    for value in given:
        restriction.append(element("xs:enumeration", value=plain(value)))
