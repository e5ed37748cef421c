"""What a plugin may offer, and the loading of plugins so that a broken one spoils its own findings only.

Each hook is called once and returns plain records. The only importer of pluggy.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from types import ModuleType
from typing import Any

import pluggy

from precheck.checks.outcome import said_of
from precheck.files import installed
from precheck.files.installed import Registered
from precheck.immutable import fixed
from precheck.project.added_field import AddedField
from precheck.project.section import Section
from precheck.rules.names import not_taken
from precheck.rules.offered import Importer, Offer, ReportFormat
from precheck.rules.rule import Rule
from precheck.rules.seal import Seal
from precheck.rules.strangers import prints_aside
from precheck.rules.time_limit import Watch

__all__ = ["hookimpl"]


PROJECT_NAME = "precheck"
ENTRY_POINTS = "precheck.plugins"

hookspec = pluggy.HookspecMarker(PROJECT_NAME)
hookimpl = pluggy.HookimplMarker(PROJECT_NAME)


class Specifications:
    """The hooks. A plugin implements any of them with `precheck.hookimpl`."""

    @hookspec
    def precheck_rules(self) -> Iterable[Rule]:  # type: ignore[empty-body]  # a specification has no body
        """Return the rules that the plugin offers."""

    @hookspec
    def precheck_rulesets(self) -> Iterable[Path]:  # type: ignore[empty-body]
        """Return folders that hold ``codes/`` or ``jurisdictions/``."""

    @hookspec
    def precheck_sections(self) -> Iterable[Section]:  # type: ignore[empty-body]
        """Return the sections that the plugin adds to the project file."""

    @hookspec
    def precheck_fields(self) -> Iterable[AddedField]:  # type: ignore[empty-body]
        """Return the fields that the plugin adds to parts of the project file."""

    @hookspec
    def precheck_reports(self) -> Iterable[ReportFormat]:  # type: ignore[empty-body]
        """Return the formats that the plugin adds to ``precheck check --report``."""

    @hookspec
    def precheck_importers(self) -> Iterable[Importer]:  # type: ignore[empty-body]
        """Return the readers of design files that the plugin adds."""


@fixed
class Failure:
    """A plugin, or one hook of it, that could not be used, and why."""

    plugin: str
    distribution: str
    why: str


@dataclass(frozen=True, eq=False)
class Plugins:
    """Every plugin that loaded with what it offers, and every failure by name. Equal to itself alone."""

    offers: tuple[Offer, ...] = ()
    failures: tuple[Failure, ...] = field(default=())
    left_out: tuple[str, ...] = ()  # by the person who runs the check

    @cached_property
    def rules(self) -> tuple[Rule, ...]:
        """All rules that run, in the order of the plugins' names; those that another replaces do not."""
        return tuple(rule for offer in self.offers for rule in offer.rules if rule.name not in self.replaced)

    @cached_property
    def replaced(self) -> dict[str, str]:
        """The rules that do not run, each with the name of the rule that runs in its place."""
        return {rule.replaces: rule.name for offer in self.offers for rule in offer.rules if rule.replaces}

    @cached_property
    def strange_rules(self) -> dict[str, str]:
        """The rules of plugins that are not ours, each with what to call its plugin."""
        strange = (offer for offer in self.offers if not _is_of_ours(offer.distribution))
        return {rule.name: f"plugin {one.plugin} ({one.distribution})" for one in strange for rule in one.rules}

    @property
    def rulesets(self) -> tuple[Path, ...]:
        """All folders of rulesets."""
        return tuple(path for offer in self.offers for path in offer.rulesets)

    @property
    def added(self) -> tuple[Section | AddedField, ...]:
        """All that is added to the project file: sections, and fields of parts."""
        sections = tuple(section for offer in self.offers for section in offer.sections)
        return (*sections, *(field for offer in self.offers for field in offer.fields))

    @property
    def reports(self) -> tuple[ReportFormat, ...]:
        """All added formats of the report."""
        return tuple(one for offer in self.offers for one in offer.reports)

    @property
    def importers(self) -> tuple[Importer, ...]:
        """All added readers of design files."""
        return tuple(one for offer in self.offers for one in offer.importers)


def load_plugins(off: Iterable[str] = ()) -> Plugins:
    """Load every plugin that an installed distribution registers, save those whose names are in `off`."""
    skipped = frozenset(off)
    found = collect([(e.name, f"{e.distribution} {e.version}", e.load) for e in registered() if e.name not in skipped])
    return replace(found, left_out=tuple(sorted(skipped)))


def registered() -> list[Registered]:
    """Return what installed distributions register as plugins, our own first, then by name; none is imported.

    Names are given in this order, so that no other plugin can take the name of a plugin, rule or section of ours.
    """
    return sorted(
        installed.registered(ENTRY_POINTS), key=lambda entry: (entry.distribution != PROJECT_NAME, entry.name)
    )


def _is_of_ours(distribution: str) -> bool:
    return distribution.partition(" ")[0] == PROJECT_NAME


def collect(plugins: Iterable[tuple[str, str, Any]]) -> Plugins:
    """Ask plugins, given as name, distribution and a function that imports them, for what they offer."""
    offers: list[Offer] = []
    failures: list[Failure] = []
    seal: Seal | None = None
    shared = _Manager()
    with Watch() as watch, prints_aside():
        for name, distribution, load in plugins:
            strange = not _is_of_ours(distribution)
            seal = seal or (Seal() if strange else None)
            watch.start(f"plugin {name} ({distribution}), while it loads," if strange else "")
            try:
                offer = _ask(load(), name, distribution, _Manager() if strange else shared)
                _left_alone(seal)
                not_taken(offer, offers)
                offers.append(offer)
            except KeyboardInterrupt:
                raise
            except BaseException as error:  # whatever a stranger's plugin raises is its own failure, not ours
                failures.append(Failure(name, distribution, said_of(error)))
            finally:
                _ = seal and seal.broken()  # what it changed is put back, also where it did not load
    return Plugins(tuple(offers), tuple(failures))


def _left_alone(seal: Seal | None) -> None:
    if changed := seal.broken() if seal is not None else "":
        raise ValueError(f"it changes {changed}, which is not its own and is put back")


class _Manager(pluggy.PluginManager):
    """Asks one plugin at a time. Those of strangers get one each, so that none can spoil the registration of another."""

    def __init__(self) -> None:
        super().__init__(PROJECT_NAME)
        self.add_hookspecs(Specifications)

    def parse_hookimpl_opts(self, plugin: Any, name: str) -> Any:
        """Look closer at what is marked as a hook alone: a module has some fifty names, and each look takes its time."""
        if isinstance(plugin, ModuleType) and not hasattr(vars(plugin).get(name), f"{PROJECT_NAME}_impl"):
            return None
        return super().parse_hookimpl_opts(plugin, name)

    def answers(self, plugin: Any, name: str) -> dict[str, list[Any]]:
        """Return what `plugin` answers, by hook."""
        self.register(plugin, name)
        try:
            self.check_pending()
            return {hook: _answers(self, hook) for hook in _RETURNS}
        finally:
            self.unregister(plugin)


def _ask(plugin: Any, name: str, distribution: str, manager: _Manager) -> Offer:
    """Ask one plugin for what it offers. Raises whatever it raises, and where it offers what is none."""
    answers: dict[str, tuple[Any, ...]] = {}
    given = manager.answers(plugin, name)
    for hook, kind in _RETURNS.items():
        items = tuple(item for answer in given[hook] for item in answer)
        strange = [item for item in items if not isinstance(item, kind)]
        if strange:
            raise TypeError(f"{hook} returned {strange[0]!r}, which is no {kind.__name__}")
        answers[hook.removeprefix("precheck_")] = items
    for rule in answers["rules"]:
        rule.signature  # noqa: B018  # a rule that is not written as rules are is refused here, by name
    for folder in answers["rulesets"]:
        if not folder.is_dir():
            raise NotADirectoryError(f"precheck_rulesets returned {folder}, which is no folder")
    return Offer(name, distribution, **answers)


def _answers(manager: pluggy.PluginManager, hook: str) -> list[Any]:
    """Return what a plugin answers; None is no answer, which pluggy would leave out without a word."""
    caller = getattr(manager.hook, hook)
    found = caller()
    if len(found) != len(caller.get_hookimpls()):
        raise TypeError(f"{hook} returned None; return a list, which may be empty")
    return list(found)


_RETURNS: dict[str, type] = {
    "precheck_rules": Rule, "precheck_rulesets": Path, "precheck_sections": Section, "precheck_fields": AddedField,
    "precheck_reports": ReportFormat, "precheck_importers": Importer,
}  # fmt: skip
