"""Holding an XML document against a W3C XML Schema, as far as the schemas in tests/data go; what else one says is an error."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

XS = "{http://www.w3.org/2001/XMLSchema}"
BUILT_IN = {
    "xs:string": r"(?s:.*)",
    "xs:token": r"(?s:.*)",
    "xs:int": r"[+-]?\d{1,10}",
    "xs:decimal": r"[+-]?(\d+(\.\d*)?|\.\d+)",
    "xs:dateTime": r"-?\d{4,}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)?",
}
PASSED_OVER = {f"{XS}annotation", f"{XS}whiteSpace"}


class Schema:
    """One schema; `problems` yields what it holds against a document."""

    def __init__(self, path: Path) -> None:
        root = ET.parse(path).getroot()
        self.named = {(child.tag.removeprefix(XS), child.get("name")): child for child in root}

    def problems(self, document: str) -> list[str]:
        """Return what is wrong with a document, each with the element in which it is."""
        root = ET.fromstring(document)
        return list(self._of(root, self.named["element", root.tag], root.tag))

    def _of(self, element: ET.Element, declared: ET.Element, where: str) -> Iterator[str]:
        kind = self._type(declared)
        if kind is None:  # any content
            return
        if kind.tag == f"{XS}simpleType":
            yield from self._text(element, kind, where)
            return
        yield from self._attributes(element, kind, where)
        within = {one.get("ref") or one.get("name"): one for one in self._elements(kind)}
        found = "".join(f"<{child.tag}>" for child in element)
        if not re.fullmatch(self._content(kind), found):
            yield f"{where}: holds {', '.join(dict.fromkeys(child.tag for child in element)) or 'nothing'}"
        for child in element:
            if child.tag in within:
                yield from self._of(child, self._declared(within[child.tag]), f"{where}/{child.tag}")

    def _declared(self, one: ET.Element) -> ET.Element:
        return self.named["element", one.get("ref")] if one.get("ref") else one

    def _type(self, declared: ET.Element) -> ET.Element | None:
        name = declared.get("type")
        if name in BUILT_IN:
            return ET.Element(f"{XS}simpleType", {"name": str(name)})
        if name:
            of = "complexType" if ("complexType", name) in self.named else "simpleType"
            return self.named[of, name]
        return next((one for one in declared if one.tag.endswith("Type")), None)

    def _parts(self, kind: ET.Element) -> Iterator[ET.Element]:
        """Yield what a complex type says, after what the type says that it extends."""
        for one in kind:
            if one.tag in (f"{XS}complexContent", f"{XS}simpleContent"):
                (extension,) = one
                base = self.named.get(("complexType", extension.get("base")))
                yield from self._parts(base) if base is not None else ()
                yield from extension
            elif one.tag not in PASSED_OVER:
                yield one

    def _elements(self, kind: ET.Element) -> Iterator[ET.Element]:
        for part in self._parts(kind):
            yield from _leaves(part)

    def _content(self, kind: ET.Element) -> str:
        return "".join(_pattern(part) for part in self._parts(kind) if part.tag != f"{XS}attribute")

    def _attributes(self, element: ET.Element, kind: ET.Element, where: str) -> Iterator[str]:
        known = {part.get("name"): part for part in self._parts(kind) if part.tag == f"{XS}attribute"}
        yield from (f"{where}: `{name}` is not known" for name in element.attrib if name not in known)
        for name, one in known.items():
            if one.get("use") == "required" and name not in element.attrib:
                yield f"{where}: `{name}` is not given"
            elif name in element.attrib:
                yield from self._value(element.attrib[str(name)], self._type(one), f"{where}/@{name}")

    def _text(self, element: ET.Element, kind: ET.Element, where: str) -> Iterator[str]:
        yield from (f"{where}: holds {child.tag}" for child in element)
        yield from self._value(element.text or "", kind, where)

    def _value(self, text: str, kind: ET.Element | None, where: str) -> Iterator[str]:
        for pattern in self._patterns(kind) if kind is not None else ():
            if not re.fullmatch(pattern, text):
                yield f"{where}: `{text}` is not {pattern}"

    def _patterns(self, kind: ET.Element) -> Iterator[str]:
        if kind.get("name") in BUILT_IN:
            yield BUILT_IN[str(kind.get("name"))]
            return
        (restriction,) = (one for one in kind if one.tag not in PASSED_OVER)
        base = self._type(ET.Element("of", {"type": str(restriction.get("base"))}))
        yield from self._patterns(base) if base is not None else ()
        for facet in restriction:
            if facet.tag not in PASSED_OVER:
                yield {"pattern": "{}", "minLength": "(?s:.{{{},}})"}[facet.tag.removeprefix(XS)].format(
                    facet.get("value")
                )


def _leaves(part: ET.Element) -> Iterator[ET.Element]:
    if part.tag == f"{XS}element":
        yield part
    else:
        for one in part:
            yield from _leaves(one) if part.tag != f"{XS}attribute" else ()


def _pattern(part: ET.Element) -> str:
    """Return a regular expression for what may stand there, in which each element is its name in brackets."""
    low, high = part.get("minOccurs", "1"), part.get("maxOccurs", "1")
    times = f"{{{low},{'' if high == 'unbounded' else high}}}"
    if part.tag == f"{XS}element":
        return f"(<{re.escape(part.get('ref') or str(part.get('name')))}>){times}"
    inner = [_pattern(one) for one in part if one.tag not in PASSED_OVER]
    joint = {"sequence": "", "choice": "|"}[part.tag.removeprefix(XS)]
    return f"({joint.join(inner)}){times}"
