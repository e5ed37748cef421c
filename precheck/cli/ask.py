"""``precheck ask``: ask for exactly what is not shown, part by part, and write each answer into the file."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import NamedTuple

import click

from precheck.cli.asking import say_wrapped, settled_by, show, tell_by_hand, tell_settled, why_lines
from precheck.cli.setup import code_options, say
from precheck.files.atomic import put_in_place_of
from precheck.files.edit import Change, with_changes
from precheck.files.missing import Need
from precheck.files.source import Place, Problem, Unusable, read_text
from precheck.project import Project, project_from
from precheck.questions.answer import flow
from precheck.questions.by_example import NewPart, changes_by_example, form_by_example
from precheck.questions.question import Question, Questions
from precheck.reports.opening import verdict_line
from precheck.reports.order import WORK, in_turn, told
from precheck.reports.width import wrapped
from precheck.review.finding import Finding, Review
from precheck.runs.desk import Desk, Run

SKIP, STOP, BACK, WHY = "", "stop", "back", "?"
BEFORE_A_REPORT = 15  # questions
WHAT_WORK = "What is being done? As on the permit application, all of it"
CHANGED = "The file changed in the meantime, so this answer is not in it; reading it again."
PHASE = "phase"


@click.command(epilog="Example: precheck ask house.yaml")
@click.argument("project")
@code_options
def command(project: str, ruleset: str | None, on: datetime | None, folders: tuple[Path, ...]) -> None:
    """Ask for what PROJECT does not show, one question at a time: the work first, then part by part.

    Each answer is checked and written into the file at once; comments and order stay. Press Enter to skip a
    question, `back` to take the last answer back, `stop` or Ctrl-C to quit. After 15 questions it shows how the
    job stands and goes on.
    """
    session = Session(project, Desk(Run(ruleset, on.date() if on else None, folders)))
    session.run()


class PartsToAdd(NamedTuple):
    """What takes several parts to answer: the fields of each."""

    need: Need
    parts: tuple[NewPart, ...]

    @property
    def line(self) -> int:
        """The line of the part that lacks them; the first one where it is the project."""
        return self.need.place[1] if self.need.place else 1


class Session:
    """One sitting: what was answered and what was left, so that no question comes twice."""

    def __init__(self, file: str, desk: Desk) -> None:
        self.file = file
        self.desk = desk
        self.left: set[tuple[str, str]] = set()
        self.answered = 0
        self.asked = 0
        self.seen = b""
        self.history: list[tuple[tuple[str, str], bytes | None]] = []  # what was asked, and the file before the answer

    def run(self) -> None:
        """Ask until nothing is left to ask or the person stops."""
        review = self._review()
        say_wrapped(f"{review.project.project}: {verdict_line(review)}")
        say_wrapped(
            "Press Enter to skip, `?` to see why it is asked, `back` to answer the last one anew, `stop` to quit."
        )
        try:
            while (found := self._next(review)) is not None:
                review = self._turn(*found, review)
        except (click.Abort, KeyboardInterrupt, _Stopped):
            click.echo("")
        self._close(review)

    def _review(self) -> Review:
        self.seen = Path(self.file).read_bytes() if Path(self.file).is_file() else b""
        return self.desk.review(self.file)

    def _next(self, review: Review) -> tuple[Question | PartsToAdd, list[Finding]] | None:
        """Return what is asked next: all that one answer can say, then what takes several parts."""
        questions = Questions(review.project)
        open_ones = [(need, waiting) for need, waiting in in_turn(review) if (need.owner, need.key) not in self.left]
        for need, waiting in open_ones:
            if (question := questions.question(need)) is not None:
                return question, waiting
        for need, waiting in open_ones:
            if parts := form_by_example(questions, need):
                return PartsToAdd(need, parts), waiting
        return None

    def _turn(self, question: Question | PartsToAdd, waiting: list[Finding], review: Review) -> Review:
        """Ask one question; show how the job stands after so many of them."""
        try:
            review = self._ask(question, waiting, review)
        except _Back:
            return self._undone(review)
        self.asked += 1
        if self.asked % BEFORE_A_REPORT == 0:
            show(review)
        return review

    def _undone(self, review: Review) -> Review:
        """Take the last answer back, so that it is asked anew."""
        if not self.history:
            say("  There is no answer before this one.")
            return review
        key, before = self.history.pop()
        self.left.discard(key)
        if before is None:
            return review
        if self._put(before.decode(), 1):
            self.answered -= 1
        else:
            say("  The file changed in the meantime; change the answer in it.")
        return self._review()

    def _ask(self, question: Question | PartsToAdd, waiting: list[Finding], review: Review) -> Review:
        click.echo("")
        count = len(waiting)
        for line in wrapped(
            f"{_asked(question)} (line {question.line}{f'; for {count} check' if count else ''}{'s' if count > 1 else ''})"
        ):
            say(click.style(line, bold=True))
        changes = (
            self._parts(question, waiting) if isinstance(question, PartsToAdd) else self._change(question, waiting)
        )
        if not changes:
            self.left.add((question.need.owner, question.need.key))
            self.history.append(((question.need.owner, question.need.key), None))
            return review
        return self._write(question, changes, review)

    def _change(self, question: Question, waiting: list[Finding]) -> list[Change]:
        """Return what the answer to a question changes; nothing where it is skipped."""
        while True:
            answer = self._record(question, waiting) if question.fields else self._value(question, waiting)
            if answer == SKIP:
                return []
            try:
                return [question.answered(answer)]
            except ValueError as refused:
                say(f"  Not accepted: {refused}")

    def _parts(self, asked: PartsToAdd, waiting: list[Finding]) -> list[Change]:
        """Ask for each part in turn; return what is added, which is nothing where all of them are skipped."""
        values: dict[str, str] = {}
        for number, part in enumerate(asked.parts):
            known = ", ".join(f"{key}: {value}" for key, value in part.known)
            say_wrapped(
                f"{part.label or 'At the part itself'}{f': {known}' if known else ''}. Enter skips a value.", indent=2
            )
            for field in sorted(part.fields, key=lambda one: one.label != PHASE):
                answer = _one_of(field, waiting)
                if answer == SKIP and field.label == PHASE:
                    break
                values[f"{number}/{field.label}"] = answer
        return changes_by_example(asked.parts, values, lambda _, value: value) if any(values.values()) else []

    def _value(self, question: Question, waiting: list[Finding]) -> str:
        say_wrapped(_hint(question), indent=2, hang=2)
        return _prompt(question.label, waiting)

    def _record(self, question: Question, waiting: list[Finding]) -> str:
        """Ask for the values of a record one by one and return them as one mapping."""
        known = [f"{key}: {value}" for key, value in question.known]
        if known:
            say_wrapped(f"New entry under `{question.label}`: {', '.join(known)}.", indent=2)
        whole = "; at the first one, to skip them all" if question.fields[0].required else ""
        say_wrapped(f"Several values, one at a time. Enter skips one{whole}.", indent=2)
        given: list[str] = []
        for field in question.fields:
            answer = _one_of(field, waiting)
            if answer == SKIP and field.required:
                return SKIP
            if answer != SKIP:
                given.append(f"{field.label}: {flow(field.spelled(answer))}")
        return "{" + ", ".join([*known, *given]) + "}" if given else SKIP

    def _write(self, question: Question | PartsToAdd, changes: list[Change], before: Review) -> Review:
        """Write an answer if the file reads well with it, and tell what it settled; else tell why it is not taken."""
        if Path(self.file).read_bytes() != self.seen:
            say(f"  {CHANGED}")
            return self._review()
        try:
            text = with_changes(self.seen.decode(), changes)
            self.desk.code_for(self._project(text))
        except (Unusable, ValueError) as refused:
            for told in [p.what for p in refused.problems] if isinstance(refused, Unusable) else [str(refused)]:
                say(f"  Not accepted: {told}")
            return before
        if not self._put(text, question.line):
            say(f"  {CHANGED}")
            return self._review()
        self.history.append(((question.need.owner, question.need.key), self.seen))
        after = self._review()
        self.answered += 1
        settled = settled_by(before, after)
        more = (
            isinstance(changes[0].path[-1], int) and settled
        )  # of a list, such as the alarms, there may be more to add
        if not more and any(need == question.need for need, _ in in_turn(after)):
            self.left.add((question.need.owner, question.need.key))
        tell_settled(settled)
        return after

    def _project(self, text: str) -> Project:
        return project_from(read_text(text, self.file), self.desk.plugins.added)

    def _put(self, text: str, line: int) -> bool:
        """Write `text` in place of the file as it was read; return False where it has changed since, and leave it."""
        try:
            return put_in_place_of(Path(self.file), self.seen, text.encode())
        except OSError as error:
            what = f"cannot be written ({error.strerror}); make it writable and run this again"
            raise Unusable([Problem(Place(self.file, line, 1), what)]) from None

    def _close(self, review: Review) -> None:
        click.echo("")
        say(f"{self.answered} answer{'' if self.answered == 1 else 's'} saved to {self.file}.")
        questions = Questions(review.project)
        by_hand = [need for need, _ in in_turn(review) if questions.question(need) is None]
        if by_hand:
            say("To add by hand, because one answer cannot say it:")
            for need in by_hand:
                tell_by_hand(need, questions)
        show(review)


class _Stopped(Exception):
    """The person asked to stop."""


class _Back(Exception):
    """The person wants the last answer back."""


def _one_of(field: Question, waiting: list[Finding]) -> str:
    """Ask for one value of a record until it is one that can be, or is left out."""
    while True:
        say_wrapped(_hint(field), indent=2, hang=2)
        answer = _prompt(field.label, waiting)
        told = field.refused(answer) if answer != SKIP else ""
        if not told:
            return answer
        say(f"  Not accepted: {told}")


def _prompt(label: str, waiting: list[Finding]) -> str:
    while True:
        answer = str(click.prompt(f"  {label}", default="", show_default=False)).strip()
        if answer == STOP:
            raise _Stopped
        if answer == BACK:
            raise _Back
        if answer != WHY:
            return answer
        for line in why_lines(waiting):
            say(line)


def _asked(question: Question | PartsToAdd) -> str:
    """Return what is asked: of which part, and the value; of the project as a whole the value says so by itself."""
    if question.need == WORK:
        return WHAT_WORK
    return told(question.need)


def _hint(question: Question) -> str:
    if question.choices and question.form != "yes or no":
        listed = ", ".join(question.choices if question.need == WORK else question.choices[:12])
        return f"{question.form}: {listed}"
    example = "" if question.choices else question.example
    return f"{question.form}{f', e.g. {example}' if example else ''}"
