"""What the page asks of one part, or of the job as a whole: its values as the file writes them, and what checks wait for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from hashlib import blake2b
from typing import Any, get_args

from precheck.board.measured import CHOICES, measured
from precheck.checks.outcome import capital
from precheck.files.missing import Need
from precheck.files.record import Record, fields_of
from precheck.files.record import key_of as record_key
from precheck.files.source import Block
from precheck.project import Part, Project, Story
from precheck.project.space import Drawn
from precheck.questions.answer import is_list, record_type
from precheck.questions.by_example import parts_by_example
from precheck.questions.by_hand import SPACE, lines_for
from precheck.questions.question import Question, Questions, Steps, plain_key
from precheck.reports import words
from precheck.reports.groups import Group
from precheck.reports.order import WORK, told
from precheck.reports.worklist import Item
from precheck.review.finding import Finding
from precheck.rules.line import Line
from precheck.survey import part_of

Data = dict[str, Any]
FIRST = ("name", "use", "was", "phase", "story", "operation", "unit size", "sill height", "between", "space", "what")
"""The values of a part that are shown whether they are given or not, in this order, where it has them."""
HIDDEN = ("id", "drawn from")
TOOLS = (
    (r"\bframed opening\b|^framing of the opening\b", "hole"),
    (r"\bexhaust fan\b", "exhaust"),
    (r"\bwindows?\b", "window"),
    (r"\bdoor or stair\b|\bdoor\b", "door"),
    (r"\bstair\b", "stair"),
    (r"\bsmoke alarms?\b|\bcarbon monoxide alarms?\b", "alarm"),
    (r"\breceptacles? (along|that)\b", "receptacle"),
    (r"^light\b|\ba light\b", "light"),
    (r"^posts\b", "post"),
    (r"^beams\b|^header\b", "beam"),
)
"""The tools of the page that draw what a need names."""
NOT_DRAWN_SO = (
    "overhead door",
    "at doors",
    "flashing",
    "u-factor",
)  # in a need that names a part and asks for something else of it
SHEETS = ("site plan", "floor plan", "existing floor plan", "foundation plan", "framing plan", "elevations", "section",
          "cover sheet")  # fmt: skip
"""What sheets show, as an office calls them: who draws names them, after everything else."""
_OF_JOB = ("address", "scope", "work", "applied on", "jurisdiction", "code edition")


def form_of_part(questions: Questions, part: Part, items: Iterable[Item]) -> Data:
    """Return the values of `part`: those that are given and those that matter first, then the names of the others."""
    keys = list(_keys(type(part), part))
    given = [key for key in keys if _written(part.block, key)]
    shown = dict.fromkeys([*(key for key in FIRST if key in keys), *given])
    asks = list(asks_of(questions, items, part))
    asked = {ask["field"]["path"] for ask in asks if ask["field"] is not None}
    values = [one for key in shown if (one := _value(questions, part, key)) is not None]
    return {
        "part": part.id,
        "label": called(part),
        "line": part.place.line,
        "values": [one for one in values if one["value"] or one["path"] not in asked],  # asked once
        "more": sorted(key for key in keys if key not in shown),
        "asks": asks,
    }


def called(part: Part) -> str:
    """Return what the page calls a part: its name where it has one, and its id."""
    name = getattr(part, "name", "")
    return f"{name} ({part.id})" if name else part.label


def form_of_job(questions: Questions, items: Iterable[Item]) -> Data:
    """Return the values of the job as a whole, and what is asked of no single part."""
    project = questions.project
    values = [one for key in ("project", *_OF_JOB) if (one := _value(questions, project, key)) is not None]
    return {"part": "", "label": project.project, "line": 1, "values": values, "more": [],
            "asks": list(asks_of(questions, items, None))}  # fmt: skip


def asks_of(questions: Questions, items: Iterable[Item], part: Part | None) -> Iterator[Data]:
    """Yield what checks wait for of `part`, or of no part where it is None, as fields or as lines to add by hand."""
    for item in items:
        for number, need in enumerate(needs_of(item)):
            owner = questions.owner(need)
            of_part = owner is part or (part is not None and need.owner == part.label)
            if of_part if part is not None else not isinstance(owner, Part) and not item.parts:
                yield ask_of(questions, item, number, need)


def fields_of_remedy(questions: Questions, item: Item) -> list[Data]:
    """Return the fields that the remedy of an item changes, with their values as they stand, each with its part."""
    found: dict[str, Data] = {}
    for change in (change for finding in item.findings for change in finding.changes):
        part, key = part_of(change.record), record_key(type(change.record), change.field)
        if part is None:
            continue
        value = _value(questions, part, key if change.record is part else f"{change.record.kind} {key}")
        if value is not None:
            found.setdefault(value["path"], {**value, "part": part.id, "of": part.label})
    return list(found.values())


def key_of(item: Item) -> str:
    """Return what an item is called between page and server: the same after a change, as long as the same is said of the same."""
    rules = sorted({finding.rule.name for finding in item.findings})
    told_of = "\n".join((item.group.key, item.label, *rules, *(str(one.need) for one in item.wanted)))
    return blake2b(told_of.encode(), digest_size=8).hexdigest()


def needs_of(item: Item) -> list[Need]:
    """Return every value that an item waits for, for each of its parts; their order is that of the item."""
    return list(dict.fromkeys(need for wanted in item.wanted for need in wanted.needs))


def ask_of(questions: Questions, item: Item, number: int, need: Need) -> Data:
    """Return one thing that is asked: of what, as a field to fill where one value answers it, and why it is asked."""
    question = questions.question(need)
    owner = questions.owner(need)
    where, lines = lines_for(need, owner.id if isinstance(owner, Part) else SPACE, plain_key(need.key))
    parts = parts_by_example(questions, need, lines) if question is None and lines else ()
    findings = [f for wanted in item.wanted if need in wanted.needs for f in wanted.findings]
    tick, tool = _tick(owner, need), tool_for(need) if question is None or question.fields else ""
    return {
        "item": key_of(item),
        "need": number,
        "asked": "What work is being done?" if need == WORK else told(need),
        "of": owner.id if isinstance(owner, Part) else "",
        "said": _said(need),
        "known": str(need),
        "tick": tick,
        "tool": tool,
        "settled": "" if question or parts or lines or tick or tool else _settled_by(item, owner),
        "field": _field(question) if question is not None else None,
        "parts": [
            {
                "label": part.label,
                "known": [f"{k}: {v}" for k, v in part.known if k != "id"],
                "fields": [_field(one, part.label) for one in part.fields],
            }
            for part in parts
        ],
        "by_hand": {"where": where, "lines": lines} if question is None and lines and not parts else None,
        "rule_out": next((line for finding in findings if (line := _line_of(finding))), ""),
        "why": list(dict.fromkeys(_why(finding) for finding in findings)),
    }


def _settled_by(item: Item, owner: Record | None) -> str:
    """Return who settles what no field of the page answers."""
    if item.group is Group.ASK:
        return "The building department says it: ask there."
    where = f"; what the file says of it stands with {called(owner)}" if isinstance(owner, Part) else ""
    return f"This is no single value. The drafter shows it on the plans{where}."


def _said(need: Need) -> str:
    """Return what is asked, without the part that it is asked of."""
    if need == WORK:
        return "What work is being done?"
    return capital(told(need).removeprefix(f"{need.owner}: "))


def _tick(owner: Record | None, need: Need) -> Data | None:
    """Return which box says that all of a kind is drawn of a story; None where the need is another."""
    what = need.key.removeprefix("the ")
    if not isinstance(owner, Story):
        return None
    if what in owner.to_draw:
        return {"story": owner.id, "what": what, "to_draw": [kind for kind in owner.to_draw if kind != what]}
    return {"story": owner.id, "what": what} if what in get_args(Drawn) else None


def tool_for(need: Need) -> str:
    """Return the tool that draws what a need asks for, where it is something to draw; else nothing."""
    key = need.key.lower()
    if any(words in key for words in NOT_DRAWN_SO):
        return ""
    return next((tool for words, tool in TOOLS if re.search(words, key)), "")


def _kind_at(path: Steps) -> str:
    """Return the kind of record that holds the value at a path of the file, or that is added there."""
    model: type[Record] = Project
    steps = iter(path)
    for step in steps:
        field = next((one for one in fields_of(model).values() if one.key == step), None)
        below = None if field is None else record_type(field.annotation)
        if field is not None and below is not None:
            model = below
            if is_list(field.annotation):
                next(steps, None)  # which of them
    return model.kind


def _line_of(finding: Finding) -> str:
    """Return the line of a work that a finding is about, where a person may say that this job has no such thing; else nothing."""
    takes = finding.limits[0].takes if isinstance(finding.rule, Line) and finding.limits else None
    return finding.limits[0].measures if takes is not None and not takes.firm else ""


def _why(finding: Finding) -> str:
    sections = f" ({'; '.join(finding.sections)})" if finding.sections else ""
    return f"{words.label(finding)}: {finding.rule.summary}{sections}"


def _field(question: Question, kind: str = "") -> Data:
    """Return what a field looks like, of a `kind` of record: in words, an example, the choices, the fields of a part to add."""
    kind = kind or _kind_at(question.path)
    found = measured(kind, question.label)
    return {
        "path": "/".join(map(str, question.path)),
        "label": question.label,
        "called": found.label,
        "how": found.how,
        "usual": found.usual,
        "picture": found.picture,
        "form": question.form,
        "example": "" if question.choices else found.example or question.example,
        "choices": list(question.choices),
        "choices_called": {one: CHOICES[one] for one in question.choices if one in CHOICES},
        "several": question.several,
        "required": question.required,
        "known": [f"{key}: {value}" for key, value in question.known],
        "fields": [_field(one, kind) for one in question.fields if one.label != "id"],
    }


def _value(questions: Questions, record: Record, key: str) -> Data | None:
    need = Need(record.label if isinstance(record, Part) else "the project", key, (*record.place,))
    question = questions.question(need)
    if question is None:
        return None
    return {"key": key, "value": _written(record.block, key), **_field(question)}


def _keys(model: type[Record], record: Record) -> Iterator[str]:
    """Yield the keys of the plain values of a record, and of the single records below it."""
    for name, field in fields_of(model).items():
        key, below = field.key, record_type(field.annotation)
        if key in HIDDEN:
            continue
        if below is None:
            yield key
        elif isinstance(getattr(record, name), Record):
            yield from (f"{key} {inner}" for inner in _keys(below, getattr(record, name)))


def _written(block: Block | None, key: str) -> str:
    """Return a value as the file writes it; a list of values with commas between; nothing where it is not given."""
    node = _below(block, key)
    if isinstance(node, list) and not any(isinstance(one, dict | list) for one in node):
        return ", ".join(map(str, node))
    return "" if node is None or isinstance(node, dict | list) else str(node)


def _below(node: Any, key: str) -> Any:
    """Return what stands under `key`, which may name a value of a mapping below: ``ceiling height``."""
    if not isinstance(node, dict):
        return None
    if key in node:
        return node[key]
    inner = next((name for name in node if key.startswith(f"{name} ")), None)
    return None if inner is None else _below(node[inner], key.removeprefix(f"{inner} "))
