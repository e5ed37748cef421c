"""Text as XML may hold it, whatever a file holds."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

from precheck.files.inert import inert

_NOT_IN_XML = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def element(tag: str, **attributes: str) -> ET.Element:
    """Return an element with those attributes."""
    return ET.Element(tag, {name: plain(value) for name, value in attributes.items()})


def below(parent: ET.Element, tag: str, text: str = "", **attributes: str) -> ET.Element:
    """Return an element with that text and those attributes, put last into `parent`."""
    made = element(tag, **attributes)
    made.text = plain(text) or None
    parent.append(made)
    return made


def document(root: ET.Element) -> bytes:
    """Return the document whose one element is `root`, indented."""
    ET.indent(root)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True)) + b"\n"


def plain(text: str) -> str:
    """Return `text` without the characters that no XML may hold, nor lines that would act on a log in which it is shown."""
    return _NOT_IN_XML.sub("?", inert(text))


__all__ = ["below", "document", "element", "plain"]
