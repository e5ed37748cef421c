"""A broken plugin spoils its own findings only, and is named."""

from __future__ import annotations

import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from click.testing import CliRunner

from precheck import Check, Fact, House, Rule, Section, Stair, hookimpl, met, rule
from precheck.checks import Outcome
from precheck.cli import cli
from precheck.files.source import Place, Unusable, read_text
from precheck.project import project_from
from precheck.project.added_field import AddedField
from precheck.reports import renderer
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.rules.plugins import Failure, Plugins, collect, load_plugins
from precheck.rulesets import AdoptedCode, ChainLink, Library
from precheck.runs.desk import Desk, Run

STAIR = "project: P\nspaces: [{id: a}, {id: b}]\nstairs: [{id: S1, phase: new, between: [a, b], total rise: 9 ft, risers: 15}]\n"


def plugin(**hooks: Callable[[], Any]) -> Any:
    """Return a plugin with these hooks."""
    return SimpleNamespace(**{f"precheck_{name}": hookimpl(function) for name, function in hooks.items()})


def offering(*rules: Rule) -> Any:
    """Return a plugin that offers rules."""
    return plugin(rules=lambda: list(rules))


def loaded(*strangers: tuple[str, Any]) -> Plugins:
    """Return what comes of strangers' plugins, given as a name and a plugin or a function that imports it."""
    return collect(
        [
            (name, "stranger 1.0", (lambda it=it: it() if callable(it) else it))
            for name, it in (("good", GOOD), *strangers)
        ]
    )


@rule("good.always")
def always(stair: Stair) -> Check:
    """All is well."""
    return met("all is well")


GOOD = offering(always)


def reviewed(plugins: Plugins) -> Review:
    """Return the review of a project with one stair under `plugins`."""
    code = AdoptedCode("test", None, (ChainLink("test", "", None, False, Place("test", 1, 1)),), {})
    return review(project_from(read_text(STAIR, "p.yaml"), plugins.added), code, plugins)


def breaks_at_import() -> Any:
    """Break off as an import may."""
    raise ImportError("no module named left_pad")


def leaves_at_import() -> Any:
    """Try to end the program."""
    sys.exit(7)


def nothing() -> Any:
    """Offer nothing."""
    return []


def breaks() -> Any:
    """Break off in a hook."""
    raise ZeroDivisionError("in the hook")


@rule("good.always")
def taken(stair: Stair) -> Check:
    """Claim a name that is taken."""
    return met("fine")


@rule("bad.signature")
def no_annotation(stair) -> Check:  # type: ignore[no-untyped-def]
    """Say nothing of the subject."""
    return met("fine")


@pytest.mark.parametrize(
    ("stranger", "why"),
    [
        (breaks_at_import, "ImportError: no module named left_pad"),
        (leaves_at_import, "SystemExit: 7"),
        (plugin(rules=breaks), "ZeroDivisionError: in the hook"),
        (plugin(rules=lambda: 5), "TypeError: 'int' object is not iterable"),
        (plugin(rules=lambda: ["stairs"]), "TypeError: precheck_rules returned 'stairs', which is no Rule"),
        (plugin(rulesets=lambda: ["folder"]), "precheck_rulesets returned 'folder', which is no Path"),
        (plugin(sections=lambda: [{"key": "x"}]), "which is no Section"),
        (plugin(reules=nothing), "reules"),
        (plugin(rules=lambda extra: []), "PluginValidationError"),
        (offering(taken), "the rule name `good.always` is taken by good; choose another"),
        (offering(no_annotation), "bad.signature"),
        (plugin(sections=lambda: [Section("stairs", {})]), "the section `stairs` is taken by the project file itself"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_a_plugin_that_cannot_be_used_is_named_with_the_reason_and_the_rest_goes_on(stranger: Any, why: str) -> None:
    plugins = loaded(("bad", stranger))
    assert [offer.plugin for offer in plugins.offers] == ["good"]
    (failure,) = plugins.failures
    assert (failure.plugin, failure.distribution) == ("bad", "stranger 1.0")
    assert why in failure.why
    found = reviewed(plugins)
    outcomes = {f.rule.name: f.outcome for f in found.findings}
    assert outcomes == {"good.always": Outcome.PASS, "plugins.loaded": Outcome.ERROR}


class NoWords(Exception):
    """An error that cannot say what it is."""

    def __str__(self) -> str:
        raise ValueError("no words")


class LeavesEverything(BaseException):
    """An error that what catches exceptions does not catch."""


def raising(error: BaseException) -> Any:
    """Return a plugin whose import raises `error`."""

    def load() -> Any:
        raise error

    return load


@pytest.mark.parametrize(
    ("stranger", "why"),
    [
        (raising(NoWords()), "NoWords, whose message failed (ValueError)"),
        (raising(LeavesEverything("bye")), "LeavesEverything: bye"),
        (raising(GeneratorExit()), "GeneratorExit"),
        (plugin(rules=lambda: None), "precheck_rules returned None; return a list, which may be empty"),
        (plugin(rulesets=lambda: [Path("no/such/folder")]), "precheck_rulesets returned no/such/folder, which is no folder"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_whatever_keeps_a_plugin_from_loading_the_run_goes_on_and_is_not_ready(stranger: Any, why: str) -> None:
    found = reviewed(plugins := loaded(("bad", stranger)))
    assert why in plugins.failures[0].why
    assert found.verdict == "corrections"
    (error,) = [f.error for f in found.findings if f.outcome is Outcome.ERROR]
    assert error.startswith("not loaded, so none of its checks ran: stranger 1.0: ")
    assert error.endswith("mend it, or leave it out with --without bad")


@rule("bad.no-words")
def raises_no_words(stair: Stair) -> Check:
    """Break off without words."""
    raise NoWords


@rule("bad.beyond")
def raises_beyond(stair: Stair) -> Check:
    """Break off with what few catch."""
    raise LeavesEverything("bye")


@pytest.mark.parametrize("bad", [raises_no_words, raises_beyond], ids=lambda r: r.name)
def test_a_rule_that_raises_what_few_catch_is_an_error_of_its_own(bad: Rule) -> None:
    outcomes = {f.rule.name: f.outcome for f in reviewed(loaded(("bad", offering(bad)))).findings}
    assert outcomes == {"good.always": Outcome.PASS, bad.name: Outcome.ERROR}


@rule("chatty.rule")
def chatty_rule(stair: Stair) -> Check:
    """Print."""
    print("hello from a rule")
    return met("fine")


def chatty() -> Any:
    """Print while loading."""
    print("hello from a plugin")
    return offering(chatty_rule)


def test_what_a_plugin_prints_goes_to_standard_error(capsys: pytest.CaptureFixture[str]) -> None:
    reviewed(loaded(("chatty", chatty)))
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.split("\n") == ["hello from a plugin", "hello from a rule", ""]


@rule("better.always", replaces="good.always")
def better(stair: Stair) -> Check:
    """Say more than the rule in whose place it runs."""
    return met("better")


@rule("worse.always", replaces="good.nothing")
def worse(stair: Stair) -> Check:
    """Claim the place of a rule that is not there."""
    return met("worse")


def test_a_rule_that_says_what_it_replaces_runs_in_its_place_and_the_report_says_so() -> None:
    found = reviewed(loaded(("better", offering(better))))
    assert [f.rule.name for f in found.findings] == ["better.always"]
    assert "rule good.always: better.always runs in its place" in found.not_checked


def test_a_rule_is_replaced_once_and_only_where_it_is() -> None:
    nothing_there = loaded(("worse", offering(worse)))
    assert "`worse.always` replaces `good.nothing`, and there is no such rule" in nothing_there.failures[0].why
    other = rule("other.always", replaces="good.always")(better.function)
    twice = loaded(("better", offering(better)), ("other", offering(other)))
    assert "`good.always` is replaced by better.always already" in twice.failures[0].why


def test_a_built_in_plugin_is_asked_before_any_other_so_that_its_names_cannot_be_taken() -> None:
    from precheck.rules.plugins import registered

    ours = [entry.distribution == "precheck" for entry in registered()]
    assert ours == sorted(ours, reverse=True)


def test_a_section_that_two_plugins_claim_goes_to_the_first() -> None:
    shed = plugin(sections=lambda: [Section("shed", {"type": "object"})])
    plugins = loaded(("one", shed), ("two", plugin(sections=lambda: [Section("shed", {})])))
    assert [s.key for s in plugins.added] == ["shed"]
    assert "the section `shed` is taken by one" in plugins.failures[0].why


@dataclass(frozen=True)
class Nameless(Fact):
    """A fact that cannot say what it is about."""

    @classmethod
    def found_in(cls, house: House) -> Iterator[Nameless]:
        """Yield one."""
        yield cls(house.project)

    @property
    def label(self) -> str:
        """Break off."""
        raise KeyError("label")


@dataclass(frozen=True)
class Nowhere(Fact):
    """A fact that breaks off while it is being found."""

    @classmethod
    def found_in(cls, house: House) -> Iterator[Nowhere]:
        """Break off."""
        raise RuntimeError("no facts")


@rule("bad.raises")
def raises(stair: Stair) -> Check:
    """Break off."""
    raise IndexError("out of stairs")


@rule("bad.leaves")
def leaves(stair: Stair) -> Check:
    """Try to end the program."""
    sys.exit(9)


@rule("bad.nonsense")
def nonsense(stair: Stair) -> Check:
    """Return no check."""
    return "fine"  # type: ignore[return-value]


@rule("bad.nameless")
def nameless(fact: Nameless) -> Check:
    """Be about something without a name."""
    return met("fine")


@rule("bad.nowhere")
def nowhere(fact: Nowhere) -> Check:
    """Be about something that cannot be found."""
    return met("fine")


@pytest.mark.parametrize("bad", [raises, leaves, nonsense, nameless, nowhere], ids=lambda r: r.name)
def test_a_rule_that_breaks_off_is_an_error_of_its_own_and_never_a_pass(bad: Rule) -> None:
    found = reviewed(loaded(("bad", offering(bad))))
    outcomes = {f.rule.name: f.outcome for f in found.findings}
    assert outcomes == {"good.always": Outcome.PASS, bad.name: Outcome.ERROR}
    assert found.verdict == "corrections"


@rule("bad.words")
def bad_words(stair: Stair) -> Check:
    """Fail, with a remedy that cannot be worked out."""
    from precheck import broken

    return broken("too steep").or_fix(lambda: str(1 // 0))


@pytest.mark.parametrize("name", ["text", "json", "sarif", "junit", "github", "markdown"])
def test_words_that_cannot_be_worked_out_do_not_take_the_report_along(name: str) -> None:
    found = reviewed(loaded(("bad", offering(bad_words))))
    said = renderer(name)(found if name == "text" else [found])
    assert "could not be worked out" in " ".join(said.split())


@rule("hanging.rule")
def hanging_rule(stair: Stair) -> Check:
    """It waits for what never comes, and lets nothing that it catches end it."""
    while True:
        with suppress(Exception):
            time.sleep(0.01)


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="there is no interval timer here")
def test_a_rule_that_hangs_is_broken_off_and_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """The other rules say what they always say, and no alarm stays behind."""
    monkeypatch.setattr("precheck.rules.time_limit.LONGEST", 0.1)
    found = {f.rule.name: f for f in reviewed(loaded(("stuck", offering(hanging_rule)))).findings}
    assert found["good.always"].outcome is Outcome.PASS
    assert found["hanging.rule"].outcome is Outcome.ERROR
    assert "stopped after 0.1 s" in found["hanging.rule"].error
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="there is no interval timer here")
def test_a_plugin_that_hangs_while_it_loads_is_broken_off_and_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its import is its own failure."""
    monkeypatch.setattr("precheck.rules.time_limit.LONGEST", 0.1)
    plugins = loaded(("stuck", lambda: time.sleep(60)))
    assert [(f.plugin, f.why) for f in plugins.failures] == [("stuck", "TooLongError: stopped after 0.1 s")]
    assert [offer.plugin for offer in plugins.offers] == ["good"]


@rule("slow.rule")
def slow_rule(stair: Stair) -> Check:
    """Take a while."""
    time.sleep(0.06)
    return met("fine")


def test_a_plugin_whose_rules_take_most_of_a_long_time_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    plugins = loaded(("sluggish", offering(slow_rule)))
    assert reviewed(plugins).notices == ()
    monkeypatch.setattr("precheck.review.run.PATIENCE", 0.05)
    (told,) = reviewed(plugins).notices
    assert told.startswith("plugin sluggish (stranger 1.0): its rules took 0.1 s of 0.1 s, most of it slow.rule")
    assert "--without sluggish leaves it out" in told


def test_on_a_busy_machine_no_topic_of_ours_is_blamed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("precheck.review.run.PATIENCE", 0.0)
    assert Desk(Run()).review(str(Path(__file__).parents[1] / "examples" / "sketch" / "sketch.yaml")).notices == ()


def test_a_wrong_schema_of_a_plugin_is_told_and_blamed_on_the_plugin() -> None:
    shed = Section("shed", {"type": "objekt"})
    with pytest.raises(Unusable, match=r"p.yaml:2:1: the plugin's schema of `shed` is wrong"):
        project_from(read_text("project: P\nshed: {}\n", "p.yaml"), [shed])


SHED = Section(
    "sheds",
    {
        "type": "array",
        "items": {"$ref": "#/$defs/shed"},
        "$defs": {
            "shed": {
                "type": "object",
                "properties": {
                    "id": {"type": "string"},
                    "side": {"type": "string", "format": "length"},
                    "doors": {"type": "integer", "minimum": 1},
                    "heated": {"type": "boolean"},
                    "shelves": {
                        "type": "array",
                        "items": {"type": "object", "properties": {"depth": {"type": "string"}}},
                    },
                },
            }
        },
    },
    called="shed",
)


def test_an_entry_gives_measures_numbers_answers_and_what_is_missing() -> None:
    from precheck import Length, is_missing

    text = "project: P\nsheds:\n  - {id: A, side: 8'-6\", doors: 2, heated: yes, shelves: [{depth: 1 ft}]}\n  - {side: 3 m}\n"
    one, two = project_from(read_text(text, "p.yaml"), [SHED]).entries("sheds")
    assert (one.label, two.label) == ("shed A", "shed 2")
    assert (one.measure("side", Length), one.number("doors"), one.answer("heated")) == (Length.parse("102 in"), 2, True)
    assert two.place.line == 4
    assert [shelf.text("depth") for shelf in one.entries("shelves")] == ["1 ft"]
    lacking = two.number("doors")
    assert is_missing(lacking)
    assert [str(need) for need in lacking.needs] == ["doors of shed 2"]


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ("{doors: two}", "doors: `two` does not belong here; write a whole number"),
        ("{doors: 0}", "doors: 0 is less than the minimum of 1"),
        ("{heated: maybe}", "heated: `maybe` does not belong here; write yes or no"),
        ("{side: 8 psf}", "side: `psf` in `8 psf` is not a unit of length"),
        ("{side: 8}", "side: `8` has no unit"),
        ("tall", "sheds: `tall` does not belong here; write a mapping of keys to values"),
    ],
)
def test_an_entry_that_does_not_meet_its_schema_is_refused_at_its_line(entry: str, says: str) -> None:
    with pytest.raises(Unusable) as caught:
        project_from(read_text(f"project: P\nsheds:\n  - {entry}\n", "p.yaml"), [SHED])
    (problem,) = caught.value.problems
    assert says in problem.what
    assert problem.place.line == 3


DISTANCES = Section(
    "window distances",
    {"type": "array", "items": {"properties": {
        "of": {"type": "string", "format": "id of window"},
        "to": {"type": "array", "items": {"type": "string", "format": "id of window or door"}},
    }}},
)  # fmt: skip
CRACK = AddedField("window", "mulled to", {"type": "string", "format": "id of window"})
OPENINGS = "spaces: [{id: a}, {id: b}]\nwindows: [{id: W1, space: a%s}]\ndoors: [{id: D1, between: [a, b]}]\n"


@pytest.mark.parametrize(
    ("distances", "more", "says"),
    [
        ("{of: W1, to: [D1, W1]}", "", ""),
        ("{of: W9}", "", "p.yaml:5:21: there is no window `W9`; known: W1"),
        ("{of: D1}", "", "p.yaml:5:21: `D1` is a door; name a window here"),
        ("{of: W1, to: [D1, a]}", "", "p.yaml:5:38: `a` is a space; name a window or door here"),
        ("{of: W1}", ", mulled to: W1", ""),
        ("{of: W1}", ", mulled to: W2", "p.yaml:3:30: there is no window `W2`; known: W1"),
    ],
)
def test_ids_that_an_added_section_or_field_names_are_those_of_parts_there_are(
    distances: str, more: str, says: str
) -> None:
    text = f"project: P\n{OPENINGS % more}window distances: [{distances}]\n"
    if not says:
        assert len(project_from(read_text(text, "p.yaml"), [DISTANCES, CRACK]).entries("window distances")) == 1
        return
    with pytest.raises(Unusable) as caught:
        project_from(read_text(text, "p.yaml"), [DISTANCES, CRACK])
    assert str(caught.value) == says


def test_problems_of_a_section_and_of_the_rest_are_told_together() -> None:
    text = "project: P\nsheds: [{doors: two}]\nstairs: [{id: S1, betwen: [a, b]}]\n"
    with pytest.raises(Unusable) as caught:
        project_from(read_text(text, "p.yaml"), [SHED])
    assert {problem.place.line for problem in caught.value.problems} == {2, 3}


def test_plugins_lists_failures_with_their_reasons(monkeypatch: pytest.MonkeyPatch) -> None:
    import precheck.cli.plugins as command

    broken = Plugins((), (Failure("firm", "firm-rules 2.0", "ImportError: no module named left_pad"),))
    monkeypatch.setattr(command, "load_plugins", lambda without: broken)
    found = CliRunner().invoke(cli, ["plugins"])
    assert "firm (firm-rules 2.0): not loaded: ImportError: no module named left_pad" in found.stdout
    assert found.exit_code == 3


def test_a_plugin_that_is_left_out_offers_nothing_and_a_wrong_name_is_refused() -> None:
    names = {offer.plugin for offer in load_plugins().offers}
    without = {offer.plugin for offer in load_plugins(["stairs"]).offers}
    assert names - without == {"stairs"}
    found = CliRunner().invoke(cli, ["plugins", "--without", "stiars"])
    assert found.exit_code == 2
    assert "did you mean `stairs`?" in found.output


def test_the_folder_of_rulesets_that_a_plugin_offers_may_be_missing(tmp_path: Path) -> None:
    plugins = loaded(("empty", plugin(rulesets=lambda: [tmp_path / "none"])))
    assert Library((*plugins.rulesets, *load_plugins().rulesets)).editions
