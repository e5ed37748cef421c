"""What a person leaves for later, to find out on site or for the drafter to show: beside the project file, as no answer."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Literal

from pydantic import TypeAdapter

from precheck.files.atomic import put
from precheck.files.source import Place, Problem, Unusable

Whose = Literal["find out", "drafter"]
TO_FIND_OUT: Whose = "find out"
DRAFTERS: Whose = "drafter"
_LIST = TypeAdapter(dict[str, Any])


class LeftForLater:
    """The values of one project that are left for later, by what a check calls them, each with who is to say it."""

    def __init__(self, project: Path) -> None:
        self.path = project.with_name(f"{project.stem}.to-find-out.json")

    @property
    def left(self) -> dict[str, Whose]:
        """What is left for later, and for whom; nothing where the list is not there or is no list."""
        try:
            known = _LIST.validate_json(self.path.read_bytes())
        except (OSError, ValueError):
            return {}
        return {need: DRAFTERS if whose == DRAFTERS else TO_FIND_OUT for need, whose in known.items()}

    @property
    def to_find_out(self) -> tuple[str, ...]:
        """What somebody is going to find out on site, in the order in which it was left."""
        return tuple(need for need, whose in self.left.items() if whose == TO_FIND_OUT)

    def marked(self, asks: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
        """Return what is asked, each with who is to say it, empty for what is open; what is left for later last."""
        left = self.left
        return sorted(
            ({**ask, "later": left.get(ask["known"], "")} for ask in asks), key=lambda ask: bool(ask["later"])
        )

    def leave(self, needs: Iterable[str], to: Whose) -> None:
        """Leave values for later."""
        self._keep({**self.left, **dict.fromkeys(needs, to)})

    def take_up(self, needs: Iterable[str]) -> None:
        """Take values up again."""
        again = frozenset(needs)
        self._keep({need: whose for need, whose in self.left.items() if need not in again})

    def _keep(self, left: Mapping[str, Whose]) -> None:
        try:
            put(self.path, [f"{json.dumps(left, ensure_ascii=False, indent=1)}\n".encode()])
        except OSError as error:
            raise Unusable([Problem(Place(str(self.path), 1, 1), f"cannot be written ({error.strerror})")]) from None
