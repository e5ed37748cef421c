"""What is said of a topic, as version 2.1 or 3.0 writes it."""

from __future__ import annotations

from xml.etree import ElementTree as ET

from precheck.reports.bcf.topics import AUTHOR, Topic, View
from precheck.reports.xml_text import below, document, element


def markup(topic: Topic) -> bytes:
    """Return the topic in version 2.1."""
    root = element("Markup")
    _file(below(root, "Header"), topic, "isExternal")
    said = below(root, "Topic", Guid=topic.guid, TopicType=topic.kind, TopicStatus=topic.status)
    below(said, "Title", topic.title)
    below(said, "Index", str(topic.number))
    for label in topic.labels:
        below(said, "Labels", label)
    _rest(said, topic)
    if topic.view is not None:
        _viewpoint(below(root, "Viewpoints", Guid=topic.view.guid))
    return document(root)


def markup3(topic: Topic) -> bytes:
    """Return the topic in version 3.0."""
    root = element("Markup")
    _file(below(below(root, "Header"), "Files"), topic, "IsExternal")
    said = below(root, "Topic", Guid=topic.guid, TopicType=topic.kind, TopicStatus=topic.status)
    below(said, "Title", topic.title)
    below(said, "Index", str(topic.number))
    if topic.labels:
        labels = below(said, "Labels")
        for label in topic.labels:
            below(labels, "Label", label)
    _rest(said, topic)
    if topic.view is not None:
        _of_view(below(said, "Viewpoints"), topic.view)
    return document(root)


def _file(parent: ET.Element, topic: Topic, external: str) -> None:
    """Name the file that the topic is about, which lies outside of this one."""
    ids = {"IfcProject": topic.project_id} if topic.project_id else {}
    made = below(parent, "File", **ids, **{external: "true"})
    below(made, "Filename", topic.model)


def _rest(said: ET.Element, topic: Topic) -> None:
    below(said, "CreationDate", topic.created)
    below(said, "CreationAuthor", AUTHOR)
    if topic.stage:
        below(said, "Stage", topic.stage)
    below(said, "Description", topic.description)


def _of_view(parent: ET.Element, view: View) -> None:
    _viewpoint(below(parent, "ViewPoint", Guid=view.guid))


def _viewpoint(made: ET.Element) -> None:
    below(made, "Viewpoint", "viewpoint.bcfv")


__all__ = ["markup", "markup3"]
