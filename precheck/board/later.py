"""What a person does not know yet: kept beside the project file, so that nothing of it counts as an answer."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from precheck.files.atomic import put
from precheck.files.source import Place, Problem, Unusable


class LeftForLater:
    """The values of one project that someone is going to find out, by what a check calls them."""

    def __init__(self, project: Path) -> None:
        self.path = project.with_name(f"{project.stem}.to-find-out.json")

    @property
    def needs(self) -> tuple[str, ...]:
        """What is left for later; nothing where the list is not there or is no list."""
        try:
            found = json.loads(self.path.read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return ()
        return tuple(one for one in found if isinstance(one, str)) if isinstance(found, list) else ()

    def marked(self, asks: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
        """Return what is asked, what is left for later marked and last."""
        left = self.needs
        return sorted(({**ask, "later": ask["known"] in left} for ask in asks), key=lambda ask: bool(ask["later"]))

    def leave(self, need: str, left: bool) -> None:
        """Leave a value for later, or take it up again."""
        now = [*(one for one in self.needs if one != need), *([need] if left else [])]
        try:
            put(self.path, [f"{json.dumps(now, ensure_ascii=False, indent=1)}\n".encode()])
        except OSError as error:
            raise Unusable([Problem(Place(str(self.path), 1, 1), f"cannot be written ({error.strerror})")]) from None
