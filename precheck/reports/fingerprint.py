"""The name of a finding by which a later run knows it again."""

from __future__ import annotations

from hashlib import sha256

from precheck.reports import words
from precheck.reports.uri import uri
from precheck.review.finding import Finding

KEY = "precheckFinding/v2"  # under which a SARIF result holds it


def fingerprint(finding: Finding) -> str:
    """Name the finding by its file, its rule and what it is about, and not by its line, so that it outlasts other changes."""
    named = (uri(finding.place.file), finding.rule.name, words.label(finding))
    return sha256("\n".join(named).encode()).hexdigest()[:32]
