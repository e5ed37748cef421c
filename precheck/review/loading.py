"""What did not load counts: a run that lacks rules which it should have had is never ready, and says so first.

Nor is one in which a plugin changed what is not its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from precheck.checks import Check, Outcome, does_not_apply
from precheck.files.source import Place
from precheck.immutable import fixed
from precheck.project import Project
from precheck.review.finding import Finding
from precheck.rules.plugins import Failure, Plugins
from precheck.rules.rule import rule


@fixed
class UnloadedPlugin:
    """A plugin that is installed and could not be used."""

    failure: Failure
    place: Place

    @property
    def label(self) -> str:
        """What a report calls it."""
        return f"plugin {self.failure.plugin}"


@rule("plugins.loaded", stage="intake", existing="must comply")
def loaded(plugin: UnloadedPlugin) -> Check:
    """Every plugin that is installed loads, so that none of its checks is missing without a word."""
    return does_not_apply(f"{plugin.label} did not load")


def missing_plugins(project: Project, plugins: Plugins) -> Iterator[Finding]:
    """Yield an error for each plugin that did not load: none of its checks ran."""
    for failure in plugins.failures:
        subject = UnloadedPlugin(failure, project.place)
        told = f"not loaded, so none of its checks ran: {failure.distribution}: {failure.why}"
        mend = f"mend it, or leave it out with --without {failure.plugin}"
        yield Finding(loaded, subject, loaded.function(subject), Outcome.ERROR, (), f"{told}; {mend}")


@fixed
class MeddlingPlugin:
    """A plugin whose checks changed what is not theirs."""

    label: str
    place: Place


@rule("plugins.left-alone", stage="intake", existing="must comply")
def left_alone(plugin: MeddlingPlugin) -> Check:
    """A plugin leaves the project and the code of others as they are, so that no other check is judged by what it made of them."""
    return does_not_apply(f"{plugin.label} changed them")


def meddled(plugin: str, changed: str, project: Project) -> Finding:
    """Return the error of a plugin whose checks `changed` what is not theirs, which was noticed and put back."""
    subject = MeddlingPlugin(plugin, project.place)
    told = f"its checks changed {changed}; that is put back, and other plugins' checks ran without it; mend the plugin"
    return Finding(left_alone, subject, left_alone.function(subject), Outcome.ERROR, (), told)
