"""A pre-check of residential remodeling drawings against amendable rulesets: the one door for plugins.

Everything in the `__all__` of the modules below can be imported from here. A module is loaded when one of its names is
first used, so that ``precheck --help`` stays quick.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from precheck.checks import *
    from precheck.hooks import *
    from precheck.limits import *
    from precheck.missing import *
    from precheck.project import *
    from precheck.rules import *
    from precheck.survey import *
    from precheck.units import *

__version__ = "0.1.0"

_HOMES = ("checks", "missing", "units", "rules", "limits", "project", "survey", "hooks")


def __getattr__(name: str) -> Any:
    for home in _HOMES if not name.startswith("_") else ():
        module = import_module(f"precheck.{home}")
        if name in module.__all__:
            globals()[name] = value = getattr(module, name)
            return value
    raise AttributeError(f"precheck offers no {name}")
