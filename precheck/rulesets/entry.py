"""One limit of a topic file, folded over the editions of its model code.

A line of an edition says what that edition changed; what it does not say stands as in the edition before. Only a source
does not carry over as it is: what was read in one edition is `read elsewhere` for the next, until its own line says
where it was read.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple, get_args

from precheck.files.mistakes import nearest
from precheck.files.source import Block, Place, Problem, Unusable
from precheck.rulesets.common import written_as
from precheck.rulesets.files import ModelCode, TopicFile
from precheck.rulesets.limit import ABSENT, Act, Basis, Event, Kind, Limit, Sense, Takes, kind_of, value_of
from precheck.units import Measure, NotationError

BASES: dict[str, Basis] = {"read": "read", "elsewhere": "read elsewhere", "memory": "memory", "practice": "practice"}
NO_SOURCE = "no source"
_MAY_LACK_SOURCE = frozenset(("memory", "practice"))
_CHANGES = ("value", "rows", "plus", "less")
_LINE = frozenset((*_CHANGES, "metric", "section", "note", *BASES))
_SAYS = _LINE - {"note"}
_ONCE = frozenset(("measures", "sense", "kind", "force", "tolerance"))
KEYS = _ONCE | _LINE
_CHOICES = {"sense": get_args(Sense), "kind": get_args(Kind), "force": ("shall", "advise")}


class Edition(NamedTuple):
    """One edition of a model code: ``irc-2021`` is the edition `label` 2021 of the `code` irc."""

    code: ModelCode
    label: str

    @property
    def name(self) -> str:
        """The name under which it is adopted."""
        return f"{self.code.code}-{self.label}" if self.label else self.code.code

    @property
    def labels(self) -> tuple[str, ...]:
        """The labels of the editions up to this one."""
        known = self.code.editions
        return known[: known.index(self.label) + 1]


@dataclass(slots=True)
class _State:
    """What a limit is in the edition that has been reached."""

    written: Any = None
    value: Any = None
    section: str = ""
    basis: Basis = "memory"
    basis_of: str = ""  # the edition whose line names the source
    source: str = ""
    note: str = ""
    metric: Any = None


class LimitEntry:
    """One limit of a topic file, folded over the editions up to the one that is asked for."""

    def __init__(
        self, name: str, block: Block, place: Place, file: TopicFile, edition: Edition, known: frozenset[str]
    ) -> None:
        self.name, self.block, self.place, self.file = name, block, place, file
        self.edition, self.known = edition, known
        self.problems: list[Problem] = []
        self.history: list[Event] = []
        self.measures = str(block.get("measures") or "")

    def limit(self, takes: Takes | None = None) -> Limit[Any]:
        """Return the limit; `takes` is what it says besides where it is that of a line of what works take.

        Raises `Unusable` with all that is wrong with its lines, of whatever edition.
        """
        self._check_keys()
        reached = self._folded()
        if reached is not None:
            self._check_whole(reached)
        if self.problems or reached is None:
            raise Unusable(self.problems)
        block, value = self.block, reached.value
        return Limit(self.name, value, reached.section, self.measures, block.get("force") == "advise",
                     self._tolerance(), reached.basis, reached.source, self._why_void(reached), tuple(self.history),
                     block.get("sense") or _implied(self.name), block.get("kind") or kind_of(value), reached.note,
                     reached.metric, takes)  # fmt: skip

    def _refuse(self, key: str, what: str, block: Block | None = None) -> None:
        self.problems.append(Problem((block if block is not None else self.block).place_of(key), what))

    def _check_keys(self) -> None:
        if not self.known.issuperset(self.block):
            labels = self.edition.code.editions
            for key in self.block.keys() - self.known:
                if key.isdigit():
                    told = f"is no edition of {self.edition.code.code}; its editions are {', '.join(labels)}"
                else:
                    told = f"is not a key of a limit{nearest(key, self.known) or '; write one of: ' + ', '.join(sorted(KEYS))}"
                self._refuse(key, f"`{key}` {told}")
        if not self.measures:
            self._refuse(
                "measures", f"`{self.name}` does not say what it `measures`; name it, as `measures: sill height`"
            )
        for key in _CHOICES.keys() & self.block.keys():
            if (written := self.block[key]) not in _CHOICES[key]:
                choices = ", ".join(filter(None, _CHOICES[key]))
                self._refuse(key, f"`{written}` is not known as {key}; write one of: {choices}")

    def _folded(self) -> _State | None:
        """Go through the lines of all editions and return what stands in the one asked for."""
        wanted, labels = self.edition.label, self.edition.code.editions
        own, first = self._own_line(labels[0]), True
        state = _State(note=str(self.block.get("note") or ""))
        reached: _State | None = None
        for label in labels:
            line = own if first and own is not None else self.block.get(label)
            if line is not None or first:
                self._take(state, label, line, first, reached is None)
            if label == wanted:
                if self.history and not self.history[-1].source.startswith(self.edition.name):
                    self._record("unchanged", state, label, self.history[-1].place)
                basis: Basis = "read elsewhere" if state.basis == "read" and state.basis_of != label else state.basis
                reached = _State(
                    state.written,
                    state.value,
                    state.section,
                    basis,
                    state.basis_of,
                    state.source,
                    state.note,
                    state.metric,
                )
            first = False
        return reached

    def _own_line(self, label: str) -> Block | None:
        """Return what the limit itself says of the first edition, called `label`, with what that edition's line adds."""
        if _SAYS.isdisjoint(self.block):
            return None
        line = self.block.get(label)
        if not isinstance(line, Block):
            return self.block
        twice = [key for key in line if key in self.block]
        if twice or not (frozenset(_CHANGES).isdisjoint(line) or frozenset(_CHANGES).isdisjoint(self.block)):
            self._refuse(label, f"what stands in {label} is given twice: beside `measures` and under `{label}`")
        both = Block(self.block.at, self.block.file)
        for block in (self.block, line):
            both.update((key, value) for key, value in block.items() if key in _LINE)
            both.keys_at.update(block.keys_at)
        return both

    def _take(self, state: _State, label: str, line: Any, first: bool, due: bool) -> None:
        """Let `state` take what the `line` of one edition says; what is `due` goes into the history."""
        if not isinstance(line, Block):
            self._refuse(label, f"`{self.name}`, {label}: say what stands there, such as {{value: 36 in, section: R1}}, "
                                f"or {{value: {ABSENT}}} where that edition has no such requirement")  # fmt: skip
            return
        if line is not self.block and not line.keys() <= _LINE:
            for key in line.keys() - _LINE:
                self._refuse(key, f"`{key}` says nothing of an edition{nearest(key, _LINE)}", line)
        before = state.written, state.section
        self._set_value(state, line, first)
        self._set_metric(state, line)
        if "section" in line:
            state.section = str(line["section"] or "")
        if "note" in line:
            state.note = str(line["note"] or "")
        self._set_basis(state, line, label)
        if due and (first or before != (state.written, state.section)):
            act: Act = "set" if first else "renumbered" if before[0] == state.written else "changed"
            self._record(act, state, label, self.block.place_of(label) if label in self.block else self.place)

    def _set_value(self, state: _State, line: Block, first: bool) -> None:
        given = [key for key in _CHANGES if key in line]
        if "value" in given and len(given) > 1:
            self._refuse(given[1], f"`{self.name}` gives its value twice; keep one of {' and '.join(given)}", line)
            return
        if not given:
            if first:
                self._refuse("value", f"`{self.name}` gives no value; write `value: ...` or `value: {ABSENT}`", line)
            return
        key = given[0]
        try:
            written = line["value"] if key == "value" else _changed(state.written, line)
            value = value_of(written, self.measures)
        except NotationError as error:
            self._refuse(key, str(error), line)
            return
        if not first and not _same_kind(value, state.value):
            self._refuse(key, f"`{written_as(line[key])}` is not of the kind of `{written_as(state.written)}`, "
                              "which stands in the edition before; write a value of the same kind", line)  # fmt: skip
        state.written, state.value = written, value

    def _set_metric(self, state: _State, line: Block) -> None:
        """Take the metric figure beside the value; one that stood beside another value goes with it."""
        if "metric" not in line:
            state.metric = state.metric if "value" not in line else None
            return
        try:
            found = value_of(line["metric"], self.measures)
        except NotationError as error:
            self._refuse("metric", str(error), line)
            return
        if type(found) is not type(state.value) or not isinstance(found, Measure) or not found.is_metric:
            self._refuse("metric", f"`{line['metric']}` is no metric figure of the kind of `{state.written}`", line)
            return
        state.metric = found

    def _set_basis(self, state: _State, line: Block, label: str) -> None:
        given = [key for key in BASES if key in line]
        if len(given) > 1:
            self._refuse(given[1], f"`{self.name}` names two bases; keep one of {' and '.join(given)}", line)
        if not given:
            return
        key = given[0]
        source = self._source(str(line[key] or ""), key, label, line)
        state.basis, state.basis_of, state.source = BASES[key], label, source

    def _source(self, written: str, key: str, label: str, line: Block) -> str:
        """Return in full the sources that a line names, separated by spaces where there are several."""
        if written == NO_SOURCE and key in _MAY_LACK_SOURCE:
            return ""
        return "; ".join(filter(None, (self._one_source(name, key, label, line) for name in written.split())))

    def _one_source(self, name: str, key: str, label: str, line: Block) -> str:
        texts = self.edition.code.texts
        if name in texts:
            text = texts[name]
            if key == "read" and text.edition != label:
                self._refuse(
                    key, f"`{name}` is a text of {text.edition}; write `elsewhere: {name}` under {label}", line
                )
            return f"{text.name}, {text.page}" if text.page else text.name
        if name in self.file.sources:
            return str(self.file.sources[name])
        known = [*texts, *self.file.sources]
        self._refuse(key, f"`{name}` is none of the sources{nearest(name, known) or '; add it to `sources`'}", line)
        return ""

    def _record(self, act: Act, state: _State, label: str, place: Place) -> None:
        source = f"{Edition(self.edition.code, label).name} {state.section}".strip()
        self.history.append(Event(act, written_as(state.written), source, place))

    def _check_whole(self, reached: _State) -> None:
        due = reached.value is not None and reached.basis != "practice" and self.block.get("force") != "advise"
        if due and not reached.section:
            self._refuse("section", f"`{self.name}` cites no section; give the `section` that asks it, "
                                    f"or write `practice: {NO_SOURCE}`")  # fmt: skip

    def _tolerance(self) -> Measure | None:
        written = self.block.get("tolerance")
        if written is None:
            return None
        try:
            value = value_of(written, "field tolerance")
        except NotationError:
            value = None
        if isinstance(value, Measure):
            return value
        raise Unusable([Problem(self.block.place_of("tolerance"), f"`{written}` is no measure; write it like 1/8 in")])

    def _why_void(self, reached: _State) -> str | None:
        if reached.value is not None:
            return None
        name = self.edition.name.upper()
        return f"the {name} has no such requirement" if reached.written == ABSENT else f"the {name} does not require it"


def _changed(written: Any, line: Block) -> Any:
    """Return the table or list that stood before with the rows, or the choices, that a line changes."""
    if "rows" in line:
        if not isinstance(written, dict) or not isinstance(line["rows"], dict):
            raise NotationError("`rows` changes rows of a table; give the whole `value` instead")
        return {**written, **line["rows"]}
    if not isinstance(written, list):
        raise NotationError("`plus` and `less` change a list of choices; give the whole `value` instead")
    less, plus = (line.get(key) or [] for key in ("less", "plus"))
    if unknown := [one for one in less if one not in written]:
        raise NotationError(f"`{unknown[0]}` is not among what stood before: {written_as(written)}")
    return [*(one for one in written if one not in less), *plus]


def _same_kind(value: Any, before: Any) -> bool:
    return (
        value is None
        or before is None
        or "missing" in (kinds := (kind_of(value), kind_of(before)))
        or len({*kinds}) == 1
    )


def _implied(name: str) -> Sense:
    """Return the sense that a limit's own name gives: a limit called `minimum` is one."""
    last = name.rpartition(".")[2]
    return last if last in ("minimum", "maximum") else ""  # type: ignore[return-value]  # a literal, tested
