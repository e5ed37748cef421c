"""The findings as BCF in version 3.0, which lists the words that its topics use."""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree import ElementTree as ET

from precheck.reports.bcf.archive import archive
from precheck.reports.bcf.markup import markup3
from precheck.reports.bcf.topics import AUTHOR, Topic, topics_of
from precheck.reports.bcf.viewpoint import viewpoint
from precheck.reports.xml_text import below, document, element
from precheck.review.finding import Review


def render(reviews: list[Review]) -> bytes:
    """Return the file for all `reviews`."""
    topics = topics_of(reviews)
    files = {"bcf.version": document(element("Version", VersionId="3.0")), "extensions.xml": _extensions(topics)}
    for topic in topics:
        files[f"{topic.guid}/markup.bcf"] = markup3(topic)
        if topic.view is not None:
            files[f"{topic.guid}/viewpoint.bcfv"] = viewpoint(topic.view, aspect=True)
    return archive(files)


def _extensions(topics: Iterable[Topic]) -> bytes:
    """Return the words that the topics use."""
    root = element("Extensions")
    _list(root, "TopicType", (topic.kind for topic in topics))
    _list(root, "TopicStatus", (topic.status for topic in topics), "TopicStatuses")
    _list(root, "TopicLabel", (label for topic in topics for label in topic.labels))
    _list(root, "User", [AUTHOR])
    _list(root, "Stage", (topic.stage for topic in topics if topic.stage))
    return document(root)


def _list(root: ET.Element, tag: str, said: Iterable[str], many: str = "") -> None:
    made = below(root, many or f"{tag}s")
    for one in dict.fromkeys(said):
        below(made, tag, one)
