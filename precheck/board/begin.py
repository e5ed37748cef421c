"""How a job begins on the page: what may be chosen, and the file that is made of it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

from precheck.board.asked import Begin
from precheck.board.places import called, ruleset_of
from precheck.files import spelling
from precheck.files.atomic import put
from precheck.files.mistakes import nearest
from precheck.files.source import Place, Problem, Unusable
from precheck.questions.starter import KINDS, MORE, ROOMS, WITH_A_ROOM, Job, project_text
from precheck.runs.desk import Desk

TRADES = {
    "structure": "Framing, beams, footings",
    "electrical": "Electrical",
    "plumbing": "Plumbing",
    "heating and cooling": "Heating, cooling, fans",
    "insulation": "Insulation",
}
"""The trades that a job may do without, by the names that rulesets know them by, with what the page calls them."""
WHY_NOT = "left unticked when the job was begun"


def choices(desk: Desk) -> dict[str, Any]:
    """Return what the first page offers to choose from."""
    return {
        "kinds": list(KINDS),
        "with_room": list(WITH_A_ROOM),
        "rooms": list(ROOMS),
        "more": list(MORE),
        "trades": [{"name": name, "label": label} for name, label in TRADES.items()],
        "places": list(map(called, desk.rulesets.jurisdictions)),
        "editions": list(desk.rulesets.editions),
        "today": str(date.today()),  # noqa: DTZ011  # the day on the wall where the page is open
    }


def write(asked: Begin, path: Path, desk: Desk) -> None:
    """Write the file of a new job. Raises ValueError with what is wrong, and `Unusable` where it cannot be written."""
    try:
        put(path, [project_text(_job(asked, desk)).encode()])
    except OSError as error:
        raise Unusable([Problem(Place(str(path), 1, 1), f"cannot be written ({error.strerror})")]) from None


def _job(asked: Begin, desk: Desk) -> Job:
    if not asked.name.strip():
        raise ValueError("give the job a name, such as 14 Mill Lane, garage to bedroom")
    kind = _one_of(KINDS, asked.kind, "kind of job")
    inside = tuple(dict.fromkeys(_one_of(MORE, one, "work") for one in asked.inside))
    return Job(
        name=" ".join(asked.name.split()),
        where=ruleset_of(asked.where, [*desk.rulesets.jurisdictions, *desk.rulesets.editions]),
        applied_on=_day(asked.applied_on),
        kind=kind,
        more=tuple(one for one in inside if one != kind),
        room=_one_of(ROOMS, asked.room, "room") if kind in WITH_A_ROOM else "",
        garage_remains=asked.garage_remains and kind == "garage to room",
        left_out=tuple((_one_of(tuple(TRADES), one, "trade"), WHY_NOT) for one in asked.outside_of_job),
        to_be_drawn=True,
    )


def _day(text: str) -> str:
    try:
        return str(spelling.day(text) or date.fromisoformat(text.strip()))
    except ValueError:
        raise ValueError(f"`{text}` is not a date; write it like 3/2/2026") from None


def _one_of(known: tuple[str, ...], text: str, what: str) -> str:
    meant = spelling.choice(text, known)
    if meant is None:
        raise ValueError(f"`{text}` is no {what} that is known here{nearest(text.strip().lower(), known)}")
    return meant
