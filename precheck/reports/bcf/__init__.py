"""The findings as BCF, the open standard for issues on building models: a topic each, with a view of the part.

`render` makes version 2.1, which most programs read; `precheck.reports.bcf3` makes 3.0. The same review gives the same ids
and the same bytes, so that a program that has read an earlier report knows each topic again.
"""

from __future__ import annotations

from precheck.reports.bcf.archive import archive
from precheck.reports.bcf.markup import markup
from precheck.reports.bcf.topics import topics_of
from precheck.reports.bcf.viewpoint import viewpoint
from precheck.reports.xml_text import below, document, element
from precheck.review.finding import Review


def render(reviews: list[Review]) -> bytes:
    """Return the file of version 2.1 for all `reviews`."""
    version = element("Version", VersionId="2.1")
    below(version, "DetailedVersion", "2.1")
    files = {"bcf.version": document(version)}
    for topic in topics_of(reviews):
        files[f"{topic.guid}/markup.bcf"] = markup(topic)
        if topic.view is not None:
            files[f"{topic.guid}/viewpoint.bcfv"] = viewpoint(topic.view)
    return archive(files)
