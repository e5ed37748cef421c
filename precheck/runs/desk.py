"""What the projects of a run share: plugins and rulesets loaded once, each adopted code resolved once, the options.

A `Run` is small and the same in every process; each process sets up its own `Desk` for it and checks files there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from precheck.files.foreign import refuse_foreign
from precheck.files.missing import is_missing
from precheck.files.respelling import merged
from precheck.files.source import LARGEST_FILE, Place, Problem, Unusable
from precheck.immutable import fixed
from precheck.project import Project, read_project
from precheck.reports import Format, streamed
from precheck.reports.checked import UNUSABLE, Checked
from precheck.review.accepted import Acceptance, beside, read_accepted
from precheck.review.chosen import chosen_rules
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.rules.offered import DESIGN_FILES, Importer
from precheck.rules.plugins import Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library
from precheck.runs.baseline import open_in

if TYPE_CHECKING:
    from precheck.importers.mapping import Mapping

_CODES_KEPT = 512  # by jurisdiction and date of application; a code is a mapping of some thousand limits


@fixed
class Run:
    """The options of a run. `report` names the format to make a piece in; without it no piece is made.

    `begun` tells apart the runs whose processes go on after them, as on a cluster, so that none is served what is old.
    """

    ruleset: str | None = None
    on: date | None = None
    folders: tuple[Path, ...] = ()
    topics: tuple[str, ...] = ()
    strict: bool = False
    accepted: Path | None = None
    today: date | None = None
    report: str | None = None
    several: bool = False
    without: tuple[str, ...] = ()
    mapping: Path | None = None
    baseline: bool = False
    begun: str = ""


def is_design_file(file: str | Path, added: Iterable[Importer] = ()) -> bool:
    """Return whether the name of `file` says that it is a design file, of ours or of those that plugins read."""
    suffix = Path(file).suffix.lower()
    return suffix in DESIGN_FILES or any(suffix == one.suffix.lower() for one in added)


@lru_cache(maxsize=1)
def desk(run: Run) -> Desk:
    """Return the desk of this process for `run`."""
    return Desk(run)


class Desk:
    """Everything that checking a file takes, loaded once."""

    def __init__(self, run: Run) -> None:
        self.run = run
        self.tick: Callable[[int, int], None] = lambda done, total: None  # told how much of a design file is read
        self._codes: dict[tuple[str, date | None, str | None], AdoptedCode] = {}
        self._accepted: dict[Path, tuple[bytes | None, tuple[Acceptance, ...]]] = {}  # with what the file said
        self._told: set[int] = set()

    @cached_property
    def plugins(self) -> Plugins:
        """The plugins, save those that the run leaves out."""
        return load_plugins(self.run.without)

    @cached_property
    def rulesets(self) -> Library:
        """The rulesets: the person's own folders first, then those of plugins."""
        return Library(self.plugins.rulesets, own=self.run.folders, added=self.plugins.added)

    @cached_property
    def mapping(self) -> Mapping:
        """What the names in design files mean, as the run's mapping file says. Raises `Unusable`."""
        from precheck.importers.mapping import read_mapping

        return read_mapping(self.run.mapping)

    @cached_property
    def format(self) -> Format | None:
        """The format of the run, where pieces are wanted."""
        return streamed(self.run.report, self.plugins.reports) if self.run.report else None

    def load(self) -> None:
        """Load now what is otherwise loaded when the first file needs it."""
        _ = self.rulesets.editions, self.rulesets.jurisdictions, self.format

    def review(self, file: str) -> Review:
        """Return the review of a project file: what a run of its own would come to, whatever was reviewed here before.

        Raises `Unusable` with every problem found.
        """
        try:
            project, doubts, understood = self._read(file)
            found = self.review_of(project, file)
        except Unusable as error:
            raise Unusable(p if p.place.file else p._replace(place=Place(file, 1, 1)) for p in error.problems) from None
        return replace(found, not_checked=(*doubts, *found.not_checked), understood=understood)

    def review_of(self, project: Project, file: str) -> Review:
        """Return the review of a project that was read from `file`. Raises `Unusable` with every problem found."""
        code = self.code_for(project)
        self._known_topics(project, code)
        accepted = self._accepted_for(file)
        today = self.run.today or self.run.on  # a run for a day is the same run on every day
        found = review(project, code, self.plugins, self.run.topics, self.run.strict, accepted, today)
        if renamed := (*(project.block.renamed if project.block is not None else ()), *code.renamed):
            return replace(found, notices=(*found.notices, *map(str, merged(renamed))))
        return found

    def _known_topics(self, project: Project, code: AdoptedCode) -> None:
        """Refuse a project under whose code there is no rule of a topic that the run is about. Raises `Unusable`."""
        offered = {rule.topic for rule in chosen_rules(code, self.plugins).offered} if self.run.topics else set()
        for topic in self.run.topics:
            if topic not in offered:
                told = f"there is no topic `{topic}` under {code.name}; leave it out, or name the ruleset that adds it"
                raise Unusable([Problem(project.place, told)])

    def _read(self, file: str) -> tuple[Project, tuple[str, ...], str]:
        """Return the project of a project file or a design file, and of the latter what is in doubt and what was read."""
        if not is_design_file(file, self.plugins.importers):
            refuse_foreign(file)
            return read_project(Path(file), file, self.plugins.added), (), ""
        from precheck.importers import project_of, read_design  # here, for most projects are files of our own

        draft = read_design(Path(file), file, self.mapping, self.tick, self.plugins.importers)
        doubts = tuple(f"design file: {doubt}" for doubt in draft.doubts)
        return project_of(draft, Path(file), self.plugins.added), doubts, draft.told

    def check(self, file: str) -> Checked:
        """Return what comes of a project file; one that cannot be used is told, not raised."""
        try:
            found = self.review(file)
        except Unusable as error:
            return self._refused(file, error.problems)
        unused = [
            t for t in found.record_notices if self.run.several and is_missing(t.record.project) and not t.expired
        ]
        if unused:  # whether another project of the run uses the record is known at the end
            found = found.without_notices(unused)
        return Checked(
            file,
            found.verdict,
            {outcome.word: n for outcome, n in found.counts.items()},
            found.code.name,
            tuple(Counter((f.rule.name, f.outcome.word) for f in found.findings if f.accepted is None).items()),
            (),
            self.format.piece(found) if self.format else None,
            self._not_told(found.not_checked),
            len(found.accepted),
            tuple(f.accepted.place for f in found.accepted if f.accepted),
            tuple((told.record.place, str(told)) for told in unused),
            found.notices,
            open_in(found) if self.run.baseline else (),
            tuple(
                f"Plugin {one.plugin} did not load, so none of its checks ran: {one.distribution}: {one.why}"
                for one in self.plugins.failures
            ),
        )

    def code_for(self, project: Project) -> AdoptedCode:
        """Return the code for `project`: what the run chooses, else what the project names. Raises `Unusable`."""
        when: date | None = self.run.on or (None if is_missing(project.applied_on) else project.applied_on)
        if self.run.ruleset:
            return self.adopted(self.run.ruleset, when)
        if is_missing(project.jurisdiction):
            known = ", ".join([*self.rulesets.jurisdictions, *self.rulesets.editions])
            what = "`jurisdiction` is not given; add a line such as `jurisdiction: irc-2021`, or use --ruleset"
            raise Unusable([Problem(project.place, f"{what} (known: {known})")])
        try:
            edition = None if is_missing(project.code_edition) else project.code_edition
            return self.adopted(project.jurisdiction, when, edition)
        except Unusable as error:
            here = project.place_of("jurisdiction" if is_missing(project.code_edition) else "code_edition")
            raise Unusable(p._replace(place=here) if not p.place.file else p for p in error.problems) from None

    def adopted(self, name: str, on: date | None, edition: str | None = None) -> AdoptedCode:
        """Return the code called `name` as in effect on a date, resolved once.

        `edition` is the one that is taken where the place leaves the choice. Raises `Unusable`.
        """
        if (name, on, edition) not in self._codes:
            if len(self._codes) >= _CODES_KEPT:
                del self._codes[next(iter(self._codes))]
            self._codes[name, on, edition] = self.rulesets.adopt(name, on, edition)
        return self._codes[name, on, edition]

    def _accepted_for(self, file: str) -> tuple[Acceptance, ...]:
        path = self.run.accepted or beside(Path(file))
        if path is None:
            return ()
        says = _contents(path)
        if path not in self._accepted or says is None or self._accepted[path][0] != says:
            self._accepted[path] = (
                says,
                read_accepted(path),
            )  # for a run may go on while the file changes, as of `watch`
        return self._accepted[path][1]

    def _refused(self, file: str, problems: Iterable[Problem]) -> Checked:
        told = tuple(problems)
        piece = self.format.refused(file, told) if self.format else None
        return Checked(file, UNUSABLE, {}, problems=told, piece=piece)

    def _not_told(self, lines: tuple[str, ...]) -> tuple[str, ...]:
        """Return `lines` the first time that this process meets them: they are the same for most projects of a run."""
        seen = hash(lines)
        if seen in self._told:
            return ()
        self._told.add(seen)
        return lines


def _contents(path: Path) -> bytes | None:
    """Return what a file holds, to see whether it changed; None for what reading it refuses."""
    try:
        return path.read_bytes() if path.is_file() and path.stat().st_size <= LARGEST_FILE else None
    except OSError:
        return None
