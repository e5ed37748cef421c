"""What all tests share: what one of them has read or compiled is kept for the others, in a folder of this run alone."""

from __future__ import annotations

import os

import pytest

from precheck.rulesets import prepared


@pytest.fixture(scope="session", autouse=True)
def _kept(tmp_path_factory):
    """Let commands that tests start find editions as they were read, and byte code, as an installed package does."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    os.environ[prepared.VARIABLE] = str(shared / "prepared")
    os.environ["PYTHONPYCACHEPREFIX"] = str(shared / "byte-code")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """Leave the cases under the two older editions to the long run, which has all of them.

    Whoever runs the cases of a topic alone, as `pytest plugins/stairs`, has every edition at once.
    """
    for item in items:
        if item.name.endswith(("[irc-2015]", "[irc-2018]")) and "/cases/" in item.nodeid:
            item.add_marker(pytest.mark.long)
