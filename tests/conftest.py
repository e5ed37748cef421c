"""What all tests share: editions that one of them has read are kept for the others, in a folder of this run alone."""

from __future__ import annotations

import os

import pytest

from precheck.rulesets import prepared


@pytest.fixture(scope="session", autouse=True)
def _editions_kept(tmp_path_factory):
    os.environ[prepared.VARIABLE] = str(tmp_path_factory.getbasetemp() / "prepared")
