"""Single values, as changes of the project file: set, answered, taken out, ruled out, said to be drawn."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from precheck.board.alike import OF_A_WALL, is_one_answer, needs_alike
from precheck.board.asked import GiveAnswer, MakeAgree, RuleOut, SayDrawn, SetValue, TakeOut
from precheck.board.changing import GONE, Change, Changes, path_of
from precheck.board.forms import needs_of
from precheck.board.twice import given_twice
from precheck.board.typed import in_full
from precheck.files.missing import Need, is_missing
from precheck.project import Project
from precheck.questions.addition import free_id
from precheck.questions.answer import flow
from precheck.questions.by_example import changes_by_example, form_by_example
from precheck.questions.question import Question, Questions
from precheck.reports.json import change_data
from precheck.reports.order import told
from precheck.reports.worklist import Item
from precheck.survey import House

PHASE_NEEDED = "say first whether it is there today (existing) or new"
SETTLED = "This was settled or changed in the meantime."


def set_value(questions: Questions, asked: SetValue) -> Changes:
    """Return the change that gives (or, where it is empty, takes out) one value. Raises ValueError for what is no value."""
    project = questions.project
    part = project.by_id.get(asked.part)
    if asked.part and part is None:  # else it would be set of the job
        raise ValueError(SETTLED)
    record = project if part is None else part
    owner = "the project" if part is None else part.label
    question = questions.question(Need(owner, asked.key, (*record.place,)))
    if question is None:
        raise ValueError(f"{owner} has no value `{asked.key}`")
    what = f"{asked.key} of {owner}"
    value = asked.value.strip()
    if not value:
        return Changes([Change(question.path, GONE)], what)
    return Changes([_answer(question, value)], what)


def answered(questions: Questions, item: Item, asked: GiveAnswer, items: Collection[Item] = ()) -> Changes:
    """Return the change that answers what an item waits for. Raises ValueError for what is no answer to it."""
    needs = needs_of(item)
    if asked.need >= len(needs):
        raise ValueError(SETTLED)
    need = needs[asked.need]
    question = questions.question(need)
    if question is None:
        return _by_example(questions, need, asked.values)
    same = [question, *_alike(questions, items, need, asked.also)]
    if not question.fields:
        return Changes([_answer(one, asked.value.strip()) for one in same], told(need))
    if asked.also and not is_one_answer(question):
        raise ValueError(f"{told(need)}: say it of each by itself, for it is not the same place")
    meant = [_of_one_wall(same)] if need.key == OF_A_WALL else same
    return Changes(list(_records(questions.project, meant, asked.values)), told(need))


def _of_one_wall(same: list[Question]) -> Question:
    """Return the question for the one record that is about all of them: a wall line with the openings in it."""
    first = same[0]
    known = [(key, [dict(one.known)[key] for one in same]) for key, _ in first.known]
    listed = [
        (key, f"[{', '.join(one.strip('[]') for one in values)}]") for key, values in known if values[0].startswith("[")
    ]
    return replace(first, known=tuple({**dict(first.known), **dict(listed)}.items()))


def _records(project: Project, same: Collection[Question], values: dict[str, str]) -> Iterator[Change]:
    """Yield the new records that the values make, one for each question, each at a place and under an id of its own."""
    last: dict[tuple[str | int, ...], int] = {}
    taken: set[str] = set()
    for question in same:
        *where, number = question.path
        at = (*where,)
        last[at] = last[at] + 1 if at in last else int(number)
        yield Change((*at, last[at]), _record(project, question, values, taken))


def _alike(questions: Questions, items: Collection[Item], need: Need, also: Collection[str]) -> Iterator[Question]:
    """Yield what is asked in the same words of what `also` names. Raises ValueError where it is not asked of one."""
    waiting = {one.id: one.need for one in needs_alike(questions, items, need)}
    for ident in also:
        question = questions.question(waiting[ident]) if ident in waiting else None
        if question is None:
            raise ValueError(SETTLED)
        yield question


def remedied(item: Item) -> Changes:
    """Return the changes that an item's remedy makes, as it says itself. Raises ValueError where it says none."""
    changes = remedy_of(item)
    if not changes:
        raise ValueError("this remedy is no single value; change the plan")
    return Changes(changes, f"remedy for {item.label}")


def remedy_of(item: Item) -> list[Change]:
    """Return the values that an item's remedy changes, where each of its findings says so and they agree; else none."""
    found: dict[tuple[str | int, ...], str] = {}
    for finding in item.findings:
        if not finding.changes:
            return []
        for data in map(change_data, finding.changes):
            value = data["value"]
            text = f"[{', '.join(map(flow, value))}]" if isinstance(value, list) else str(value)
            if found.setdefault(tuple(data["path"]), text) != text:
                return []
    return [Change(path, value) for path, value in found.items()]


def agreed(house: House, asked: MakeAgree) -> Changes:
    """Return the changes that make what a part says twice agree. Raises ValueError where it agrees by now."""
    part = house.project.by_id.get(asked.part)
    found = (
        next((one for one in given_twice(house, part) if one.said == asked.fact), None) if part is not None else None
    )
    if found is None or asked.way >= len(found.ways):
        raise ValueError(SETTLED)
    return Changes(found.ways[asked.way].changes, found.ways[asked.way].said)


def _answer(question: Question, value: str) -> Change:
    if not value:
        raise ValueError(f"{question.label}: give a value, such as {question.example or question.form}")
    if refused := question.refused(value):
        raise ValueError(refused)
    return question.answered(in_full(question, value))


def _record(project: Project, question: Question, values: dict[str, str], taken: set[str]) -> str:
    """Return the new record that the values make; it gets its id here, none of those `taken`, which it joins."""
    given = [f"{key}: {value}" for key, value in question.known if key != "id"]
    named = dict(question.known).get("id", "")
    if named or any(field.label == "id" for field in question.fields):
        ident = free_id(project, named.rstrip("0123456789") or _letters(question), taken)
        taken.add(ident)
        given.insert(0, f"id: {ident}")
    for field in question.fields:
        if field.label == "id":
            continue
        value = values.get(field.label, "").strip()
        if not value and field.required:
            raise ValueError(PHASE_NEEDED if field.label == "phase" else f"{field.label} is needed")
        if value:
            given.append(f"{field.label}: {flow(field.spelled(_checked(field, value)))}")
    return "{" + ", ".join(given) + "}"


def _by_example(questions: Questions, need: Need, values: dict[str, str]) -> Changes:
    """Return the changes that answer a need which takes more than one value, by the lines that show its form."""
    parts = form_by_example(questions, need)
    if not parts:
        raise ValueError(f"{need} takes more than one answer; add it to the file by hand")
    return Changes(changes_by_example(parts, values, _checked), told(need))


def _checked(field: Question, value: str) -> str:
    if refused := field.refused(value):
        raise ValueError(f"{field.label}: {refused}")
    return in_full(field, value)


def _letters(question: Question) -> str:
    """Return with which letters the ids of such parts begin: ``SA`` for smoke alarms."""
    words = question.label.split()
    return "".join(word[0] for word in words).upper() if len(words) > 1 else words[0][:2].upper()


def taken_out(project: Project, asked: TakeOut) -> Changes:
    """Return the change that takes a part out: out of the file where it was only drawn, else marked as removed."""
    part = project.by_id.get(asked.part)
    if part is None:
        raise ValueError(f"there is no part `{asked.part}`")
    path = path_of(project, part)
    if is_missing(part.phase) and not asked.from_file:
        raise ValueError(
            f"say first whether {part.label} stands today (existing) or is new: what stands is marked as removed"
        )
    if asked.from_file or part.phase == "new":
        return Changes([Change(path, GONE)], f"take {part.label} out")
    return Changes([Change((*path, "phase"), "removed")], f"remove {part.label}")


def ruled_out(project: Project, asked: RuleOut) -> Changes:
    """Return the change that says of something that it is not in this job."""
    what, why = asked.what.strip(), asked.why.strip()
    if not what or not why:
        raise ValueError("say what is not in this job, and why")
    value = f"{{what: {flow(what)}, why: {flow(why)}}}"
    return Changes([Change(("not in this job", len(project.not_in_this_job)), value)], f"{what} is not in this job")


def story_drawn(project: Project, asked: SayDrawn) -> Changes:
    """Return the change that says what of a story is drawn completely."""
    story = project.by_id.get(asked.story)
    if story is None:
        raise ValueError(f"there is no story `{asked.story}`")
    path = path_of(project, story)
    if asked.to_draw is not None:
        there = story.block is not None and "to draw" in story.block
        listed = f"[{', '.join(asked.to_draw)}]" if asked.to_draw else GONE
        told = f"{' and '.join(asked.to_draw) or 'nothing more'} to draw on {story.label}"
        return Changes([Change((*path, "to draw"), listed)] if there or asked.to_draw else [], told)
    what = asked.what or ()
    told = f"all {' and '.join(what)} of {story.label} are drawn" if what else f"{story.label} is not all drawn"
    return Changes([Change((*path, "drawn"), f"[{', '.join(what)}]")], told)
