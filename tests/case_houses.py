"""The houses of all cases of rules, and what can be done to them that should change nothing, or only for the worse."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple, get_args

from precheck import House, Length, NotationError, Rule, testing
from precheck.files.mistakes import record_in
from precheck.files.record import read_record
from precheck.files.source import Block, Items, read_file
from precheck.project import Project, project_from
from precheck.project.part import Point
from precheck.review.finding import Finding
from precheck.review.run import run

PLUGINS = Path(__file__).parents[1] / "plugins"
TOPICS = sorted(folder.parent.name for folder in PLUGINS.glob("*/cases"))
EDITION = "irc-2021"
SIXTEENTH, MILLIMETER = int(Length.parse("1/16 in").n), int(Length.parse("1 mm").n)
Change = Callable[[Block, Any], Any]


class CaseHouse(NamedTuple):
    """The rule of a case, the name of the case, and the fragment of a project that it gives."""

    rule: Rule
    case: str
    fragment: Block

    def findings(self, change: Change | None = None) -> list[Finding]:
        """Return what the rule says of the house, with a `change` made to each of its mappings."""
        block = self.fragment if change is None else changed(self.fragment, Project, change)
        return list(run(self.rule, House(project_from(block, testing.plugins().added)), testing.code(EDITION)))

    def outcomes(self, change: Change | None = None) -> Counter[str]:
        """Return how often each outcome came of it."""
        return Counter(finding.outcome.word for finding in self.findings(change))


def houses(topic: str) -> Iterator[CaseHouse]:
    """Yield the houses of a topic's cases."""
    rules = {rule.name: rule for rule in testing.plugins().rules}
    for path in sorted((PLUGINS / topic / "cases").glob("*.yaml")):
        file = read_record(testing.CaseFile, read_file(path))
        for case in file.cases:
            block = testing.overlay(file.base, case.given or Block((0, 0), "case"))
            block.setdefault("project", "case")
            yield CaseHouse(rules[file.rule], case.case, block)


def changed(node: Any, model: Any, change: Change) -> Any:
    """Return a copy of the tree below `node`, a record of `model`, in which `change` was made to each mapping."""
    if isinstance(node, dict):
        copy = Block(getattr(node, "at", (0, 0)), getattr(node, "file", ""))
        copy.keys_at.update(getattr(node, "keys_at", {}))
        fields = {field.alias: field for field in model.model_fields.values()} if model else {}
        for key, value in node.items():
            copy[key] = changed(value, record_in(fields[key].annotation) if key in fields else None, change)
        return change(copy, model) or copy
    return listed([changed(item, model, change) for item in node]) if isinstance(node, list) else node


def listed(items: list[Any]) -> Items:
    """Return a list as one of a file."""
    found = Items((0, 0), "case")
    found.extend(items)
    found.items_at = [(0, 0)] * len(items)
    return found


def written(n: int) -> str:
    """Return a length as a plan writes it: in inches and sixteenths where it is of them, else in millimeters."""
    whole, part = divmod(abs(n), SIXTEENTH * 16)
    if part % SIXTEENTH:
        return f"{float(n / MILLIMETER):.4f} mm"
    inches = (
        f"{whole} {part // SIXTEENTH}/16 in"
        if whole and part
        else f"{part // SIXTEENTH}/16 in"
        if part
        else f"{whole} in"
    )
    return f"-{inches}" if n < 0 else inches


def moved(place: Callable[[int, int], tuple[int, int]]) -> Change:
    """Return the change that puts every point of the plan at its `place`."""

    def point(at: Any) -> Items:
        x, y = place(*(int(Length.parse(one).n) for one in at))
        return listed([written(int(x)), written(int(y))])

    def change(block: Block, model: Any) -> None:
        for field in model.model_fields.values() if model else ():
            value = block.get(field.alias)
            if isinstance(value, list) and value and _holds_points(field.annotation):
                many = isinstance(value[0], list)
                block[field.alias] = listed([point(one) for one in value]) if many else point(value)

    return change


def _holds_points(annotation: Any) -> bool:
    return annotation == Point or any(_holds_points(inner) for inner in get_args(annotation))


def turned(block: Block, model: Any) -> Any:
    """Turn the plan by a quarter: x becomes y, and rectangles lie on their side."""
    if getattr(model, "kind", "") == "rectangle" and block.keys() >= {"at", "width", "depth"}:
        x, y, depth = (Length.parse(one).n for one in (*block["at"], block["depth"]))
        block["at"] = listed([written(-int(y + depth)), written(int(x))])
        block["width"], block["depth"] = block["depth"], block["width"]
        return None
    return moved(lambda x, y: (-y, x))(block, model)


def in_another_order(block: Block, _: Any) -> Block:
    """Turn the order of keys and of lists of parts around; stories stay, for their order tells which lies higher."""
    other = Block(block.at, block.file)
    other.keys_at.update(block.keys_at)
    for key in reversed(block):
        value = block[key]
        parts = isinstance(value, list) and all(isinstance(one, dict) and "id" in one for one in value)
        other[key] = listed(value[::-1]) if parts and key != "stories" else value
    return other


def in_millimeters(block: Block, model: Any) -> None:
    """Write every length in millimeters, exactly."""
    for field in model.model_fields.values() if model else ():
        value = block.get(field.alias)
        if not isinstance(value, str) or not value.rstrip().endswith(("in", "ft", "'", '"')) or " sq " in value:
            continue
        try:
            block[field.alias] = f"{float(Length.parse(value).n / MILLIMETER):.6f} mm"
        except NotationError:
            continue
