"""The report as a page: one file that needs no network, opens on a phone and prints on letter and A4."""

from __future__ import annotations

from precheck.reports.html.page import render

__all__ = ["render"]
