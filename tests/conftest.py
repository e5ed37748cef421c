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
