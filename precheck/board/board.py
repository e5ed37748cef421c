"""One house on the page: its file, its last review, and the answers to what the page asks."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from precheck.board import begin, sections
from precheck.board.alike import asked_alike, with_those_alike
from precheck.board.asked import AnswerLetter, Begin, LeaveForLater, LeaveTheRest, TakeLetter, UndoOrRedo
from precheck.board.asking import AskedByPage
from precheck.board.changes_asked import changes_asked
from precheck.board.changing import Change
from precheck.board.forms import ask_of, fields_of_remedy, form_of_job, form_of_part, key_of, needs_of
from precheck.board.guide import next_step, open_needs
from precheck.board.house_file import ON_PAGE, HouseFile
from precheck.board.later import DRAFTERS, LeftForLater
from precheck.board.letter import TownLetter
from precheck.board.picture import picture_of
from precheck.board.todo import changed, parts_of, remedy_told, todo_of
from precheck.board.twice import told_twice
from precheck.board.typed import MeantError
from precheck.board.underlay import Underlays
from precheck.board.values import SETTLED
from precheck.files.edit import changed_file
from precheck.files.source import Unusable, read_text
from precheck.project import Project, project_from
from precheck.questions.question import Questions
from precheck.reports import words
from precheck.reports.worklist import Item, items_of
from precheck.review.finding import Review
from precheck.runs.desk import Desk
from precheck.survey import House

Data = dict[str, Any]
HANDOUTS = {
    "report": "Report with drawings",
    "corrections": "Correction list, by sheet",
    "notes": "Notes to copy onto the sheets",
    "field": "Field-verify sheet",
    "inspections": "Inspection list",
    "owner": "Summary for the owner",
    "letter": "Response to the town's letter",
}
CHANGED_ELSEWHERE = "The file was changed elsewhere"
ELSEWHERE = "The file was changed elsewhere in the meantime, so this is not in it. It has been read again."


class HouseBoard:
    """A project file, what a check says of it now, and what may be changed in it. It is used by one thread at a time."""

    def __init__(self, path: Path, desk: Desk) -> None:
        self.file = HouseFile(path)
        self.desk = desk
        self.desk.load()
        self.revision = 0
        self.review: Review | None = None
        self.items: tuple[Item, ...] = ()
        self.problems: tuple[str, ...] = ()
        self.gone = False  # whether the file was taken away while the page shows it
        self.told: list[str] = []
        self.letter = TownLetter(path)
        self.later = LeftForLater(path)
        self.underlays = Underlays(path)
        self.share: Data = {}  # where it can be read on a phone, if anywhere
        self.code: bytes | None = None
        self._questions: Questions | None = None
        if self.file.exists and self._looked():
            self._check()

    def state(self, known: int | None = None, pictures: int | None = None) -> Data:
        """Return all that the page shows; only the revision where the page has it and the file is as it was.

        `pictures` is the revision of what lies behind the sketch that the page has.
        """
        if not self.file.exists and self.review is not None and not self.problems:
            self.revision += 1
            self.gone = True
            self.problems = (f"{self.file.path}: the file is gone; put it back, or end the board and begin anew",)
        elif self.file.exists:
            self._look_around()
        if known is not None and known == self.revision:
            self.underlays.look()
            newer = pictures is not None and pictures != self.underlays.revision
            return {"revision": self.revision, **({"underlay": self.underlays.shown()} if newer else {})}
        return self._shown()

    def _look_around(self) -> None:
        """Check the file anew where someone else changed it, and tell."""
        written = bool(self.file.done)  # from the page, in what they wrote over
        if self._looked() or self.gone:
            self._check()
            at = self.file.kept_at(ON_PAGE)
            kept = [f"How it was on this page is kept as {at.parent.name}/{at.name}"] if written else []
            self.told = [CHANGED_ELSEWHERE, *kept, *self.told]

    def form(self, part: str) -> Data:
        """Return the values of a part, or of the job where it is empty, and what is asked of it."""
        if self.review is None:
            return {"part": part, "label": "", "line": 1, "values": [], "more": [], "asks": []}
        found = self.review.project.by_id.get(part)
        questions = self.questions
        form = form_of_job(questions, self.items) if found is None else form_of_part(questions, found, self.items)
        return {
            **form,
            "asks": self.later.marked(form["asks"]),
            "twice": told_twice(self.review.project, [found] if found is not None else []),
        }

    def asks(self, key: str) -> Data:
        """Return the fields that answer an item, by its key."""
        item = self._item(key)
        if item is None or self.review is None:
            return {"asks": []}
        asks = [
            ask_of(self.questions, item, number, need) | asked_alike(self.questions, self.items, need)
            for number, need in enumerate(needs_of(item))
        ]
        return {
            "asks": self.later.marked(asks),
            "apply": remedy_told(item),
            "values": fields_of_remedy(self.questions, item),
            "twice": told_twice(self.review.project, item.parts),
        }

    @property
    def questions(self) -> Questions:
        """What can be asked of the project as it was last read; its parts are looked up once."""
        assert self.review is not None
        if self._questions is None or self._questions.project is not self.review.project:
            self._questions = Questions(self.review.project)
        return self._questions

    def section(self, part: str) -> Data:
        """Return the section through a stair or a room as the page draws it."""
        if self.review is None:
            return {"part": part, "title": "", "strokes": [], "heights": [], "notes": []}
        return sections.shown(House(self.review.project), part, self.items)

    def handout(self, name: str) -> str | None:
        """Return a handout of the job as it stands, as a page; None where there is none."""
        from precheck.board.handouts import handout

        if self.review is None:
            return None
        return handout(name, self.review, self.letter.response, self.later.to_find_out)

    def town_letter(self) -> Data:
        """Return the town's letter, its items, and what each is about."""
        return self.letter.shown(self.review) if self.review is not None else {"text": "", "items": []}

    def do(self, asked: AskedByPage) -> Data:
        """Do what the page asks for; return the new state, or `refused` with why, and then nothing is written."""
        try:
            refused = self._begun(asked) if isinstance(asked, Begin) else self._done(asked)
        except MeantError as error:
            return {**self._shown(), "refused": str(error), "typed": error.typed, "meant": list(error.meant)}
        except Unusable as error:
            refused = "; ".join(problem.what for problem in error.problems)
        except ValueError as error:
            refused = str(error)
        return {**self._shown(), "refused": refused} if refused else self._shown()

    def _begun(self, asked: Begin) -> str:
        if self.file.exists:
            return "There is a file of that name already; the page shows it."
        begin.write(asked, self.file.path, self.desk)
        self.file.look()
        self._check()
        return ""

    def _done(self, asked: AskedByPage) -> str:
        if self.file.look():
            self._check()
            return ELSEWHERE
        if isinstance(asked, UndoOrRedo):
            return self._stepped(asked)
        if self.review is None or self.problems:
            return "The file cannot be read as it is, so nothing can be put into it. Mend what is listed first."
        if isinstance(asked, TakeLetter):
            self.letter.take(asked.text)
            return ""
        if isinstance(asked, AnswerLetter):
            self.letter.answer(asked.item, asked.answer)
            return ""
        if isinstance(asked, LeaveForLater):
            return self._left(asked)
        if isinstance(asked, LeaveTheRest):
            return self._left_the_rest(asked.left)
        changes = changes_asked(self.questions, asked, self._item(getattr(asked, "item", "")), self.items)
        if not changes.changes:
            return ""
        return self._write(changes.changes, changes.what)

    def _left(self, asked: LeaveForLater) -> str:
        item = self._item(asked.item)
        needs = needs_of(item) if item is not None else []
        meant = needs if asked.need is None else needs[asked.need : asked.need + 1]
        if not meant:
            return SETTLED
        told = list(dict.fromkeys(map(str, with_those_alike(self.questions, self.items, meant, asked.also))))
        if asked.left:
            left = self.later.left  # once, for it is read from its file
            self.later.leave([need for need in told if need not in left], asked.to)
        else:
            self.later.take_up(told)
        self.revision += 1
        return ""

    def _left_the_rest(self, left: bool) -> str:
        if left:
            self.later.leave(open_needs(self.items, self.later.left), DRAFTERS)
        else:
            self.later.take_up(need for need, whose in self.later.left.items() if whose == DRAFTERS)
        self.revision += 1
        return ""

    def _stepped(self, asked: UndoOrRedo) -> str:
        step = self.file.back() if asked.do == "undo" else self.file.forth()
        if step is None:
            return ELSEWHERE if self.file.look() else f"There is nothing to {asked.do}."
        self._check()
        return ""

    def _write(self, changes: Sequence[Change], what: str) -> str:
        """Write changes if the file reads well with them; return why not where they are refused."""
        text, tree = changed_file(self.file.text, changes, self.file.path.name)
        project = project_from(tree, self.desk.plugins.added)
        self.desk.code_for(project)
        if not self.file.put(text, what):
            self.file.look()
            self._check()
            return ELSEWHERE
        self._check(project)
        return ""

    def _project(self, text: str) -> Project:
        name = self.file.path.name  # without its folder, which is nobody's business to whom a paper is handed
        return project_from(read_text(text, name), self.desk.plugins.added)

    def _looked(self) -> bool:
        try:
            return self.file.look()
        except Unusable as error:
            self.problems = tuple(map(str, error.problems))
            return False

    def _check(self, project: Project | None = None) -> None:
        """Check the file; where it cannot be read, keep the last picture and tell what is wrong."""
        before = self.review
        self.gone = False
        self.revision += 1
        try:
            review = self.desk.review_of(project or self._project(self.file.text), str(self.file.path))
        except Unusable as error:
            self.problems = tuple(map(str, error.problems))
            return
        self.problems = ()
        self.review, self.items = review, items_of(review)
        self.told = changed(before, review) if before is not None else []

    def _item(self, key: str) -> Item | None:
        return next((item for item in self.items if key_of(item) == key), None)

    def _shown(self) -> Data:
        data: Data = {
            "revision": self.revision,
            "file": self.file.path.name,
            "there": self.file.exists or self.review is not None,
            "undo": self.file.done[-1].what if self.file.done else "",
            "redo": self.file.undone[-1].what if self.file.undone else "",
            "problems": list(self.problems),
            "changed": self.told,
            "reminder": words.REMINDER,
            "underlay": self.underlays.shown(),
            "share": self.share,
        }
        if self.review is None:
            return {**data, "begin": begin.choices(self.desk)} if not self.file.exists else data
        review = self.review
        plan, left = picture_of(House(review.project)), self.later.left
        return {
            **data,
            "name": review.project.project,
            "handouts": HANDOUTS,
            "plan": plan,
            "next": next_step(plan, self.items, left),
            "parts": parts_of(review, self.items),
            **todo_of(review, self.items, left),
        }
