"""``precheck ask``: ask for exactly what is not shown, part by part, and write each answer into the file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import click

from precheck.checks import Outcome
from precheck.cli.setup import code_options, say
from precheck.files.atomic import put_in_place_of
from precheck.files.edit import with_changes
from precheck.files.missing import Need
from precheck.files.source import Place, Problem, Unusable, read_text
from precheck.project import Part, Project, project_from
from precheck.questions.answer import flow
from precheck.questions.by_hand import SPACE, lines_for
from precheck.questions.question import Question, Questions, plain_key
from precheck.reports import words
from precheck.reports.changes import key_of
from precheck.reports.first_screen import first_screen
from precheck.reports.opening import verdict_line
from precheck.reports.order import WORK, in_turn, told
from precheck.reports.width import wrapped
from precheck.reports.worklist import items_of
from precheck.review.finding import Finding, Review
from precheck.runs.desk import Desk, Run

SKIP, STOP, BACK, WHY = "", "stop", "back", "?"
BEFORE_A_REPORT = 15  # questions
WHAT_WORK = "What is being done? As on the permit application, all of it"
CHANGED = "The file changed in the meantime, so this answer is not in it; reading it again."
MOST_SETTLED = 6  # findings that one answer settles and that are told one by one


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
        _say(f"{review.project.project}: {verdict_line(review)}")
        _say("Press Enter to skip, `?` to see why it is asked, `back` to answer the last one anew, `stop` to quit.")
        try:
            while (found := self._next(review)) is not None:
                review = self._turn(*found, review)
        except (click.Abort, KeyboardInterrupt, _Stopped):
            click.echo("")
        self._close(review)

    def _review(self) -> Review:
        self.seen = Path(self.file).read_bytes() if Path(self.file).is_file() else b""
        return self.desk.review(self.file)

    def _next(self, review: Review) -> tuple[Question, list[Finding]] | None:
        questions = Questions(review.project)
        for need, waiting in in_turn(review):
            question = questions.question(need)
            if question is not None and (need.owner, need.key) not in self.left:
                return question, waiting
        return None

    def _turn(self, question: Question, waiting: list[Finding], review: Review) -> Review:
        """Ask one question; show how the job stands after so many of them."""
        try:
            review = self._ask(question, waiting, review)
        except _Back:
            return self._undone(review)
        self.asked += 1
        if self.asked % BEFORE_A_REPORT == 0:
            _show(review)
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

    def _ask(self, question: Question, waiting: list[Finding], review: Review) -> Review:
        click.echo("")
        count = len(waiting)
        for line in wrapped(
            f"{_asked(question)} (line {question.line}{f'; for {count} check' if count else ''}{'s' if count > 1 else ''})"
        ):
            say(click.style(line, bold=True))
        answer = self._record(question, waiting) if question.fields else self._value(question, waiting)
        if answer == SKIP:
            self.left.add((question.need.owner, question.need.key))
            self.history.append(((question.need.owner, question.need.key), None))
            return review
        return self._write(question, answer, review)

    def _value(self, question: Question, waiting: list[Finding]) -> str:
        _say(_hint(question), indent=2, hang=2)
        return _prompt(question.label, waiting)

    def _record(self, question: Question, waiting: list[Finding]) -> str:
        """Ask for the values of a record one by one and return them as one mapping."""
        known = [f"{key}: {value}" for key, value in question.known]
        if known:
            _say(f"New entry under `{question.label}`: {', '.join(known)}.", indent=2)
        whole = "; at the first one, to skip them all" if question.fields[0].required else ""
        _say(f"Several values, one at a time. Enter skips one{whole}.", indent=2)
        given: list[str] = []
        for field in question.fields:
            answer = _one_of(field, waiting)
            if answer == SKIP and field.required:
                return SKIP
            if answer != SKIP:
                given.append(f"{field.label}: {flow(field.spelled(answer))}")
        return "{" + ", ".join([*known, *given]) + "}" if given else SKIP

    def _write(self, question: Question, answer: str, before: Review) -> Review:
        """Write `answer` if the file reads well with it, and tell what it settled; else tell why it is not taken."""
        if Path(self.file).read_bytes() != self.seen:
            say(f"  {CHANGED}")
            return self._review()
        try:
            text = with_changes(self.seen.decode(), [question.answered(answer)])
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
        more = isinstance(question.path[-1], int) and settled  # of a list, such as the alarms, there may be more to add
        if not more and any(need == question.need for need, _ in in_turn(after)):
            self.left.add((question.need.owner, question.need.key))
        _tell(settled)
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
                _by_hand(need, questions)
        _show(review)


def _by_hand(need: Need, questions: Questions) -> None:
    """Tell a need that no answer meets, with lines that would, where their form is known."""
    owner = questions.owner(need)
    where, lines = lines_for(need, owner.id if isinstance(owner, Part) else SPACE, plain_key(need.key))
    line = f", line {need.place[1]}" if need.place else ""
    _say(f"- {need}{line}{f'; {where}, such as:' if lines else ''}", indent=2, hang=2)
    for one in lines:
        say(f"      {one}")


def _say(text: str, indent: int = 0, hang: int = 0) -> None:
    for line in wrapped(text, indent=indent, hang=hang):
        say(line)


def _show(review: Review) -> None:
    """Show how the job stands: the first screen of its report."""
    click.echo("")
    for line in first_screen(review, items_of(review)):
        say(line)


class _Stopped(Exception):
    """The person asked to stop."""


class _Back(Exception):
    """The person wants the last answer back."""


def _one_of(field: Question, waiting: list[Finding]) -> str:
    """Ask for one value of a record until it is one that can be, or is left out."""
    while True:
        _say(_hint(field), indent=2, hang=2)
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
        for line in _why(waiting):
            say(line)


def _why(waiting: list[Finding]) -> Iterator[str]:
    for finding in waiting:
        sections = f" ({'; '.join(finding.sections)})" if finding.sections else ""
        yield from wrapped(f"- {words.label(finding)}: {finding.rule.summary}{sections}", indent=4, hang=2)


def _asked(question: Question) -> str:
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


def settled_by(before: Review, after: Review) -> list[Finding]:
    """Return the findings that waited before and are decided after."""
    waited = {key_of(f) for f in before.findings if f.outcome is Outcome.NOT_SHOWN}
    return [f for f in after.findings if key_of(f) in waited and f.outcome is not Outcome.NOT_SHOWN]


def _tell(settled: list[Finding]) -> None:
    say(f"  Saved. {len(settled)} item{'' if len(settled) == 1 else 's'} resolved.")
    for finding in settled[:MOST_SETTLED]:
        for line in wrapped(f"- {finding.outcome.word}: {words.message(finding)}", indent=4, hang=2):
            say(line)
    if len(settled) > MOST_SETTLED:
        say(f"    and {len(settled) - MOST_SETTLED} more")
