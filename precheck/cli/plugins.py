"""``precheck plugins``: what is loaded, from which distribution, what it offers, and what failed to load and why."""

from __future__ import annotations

import sys
from collections.abc import Iterator

import click

from precheck.cli import EXIT_READY, EXIT_RULE_ERRED
from precheck.cli.setup import known_plugins, say
from precheck.reports.width import wrapped
from precheck.rules.offered import Offer
from precheck.rules.plugins import load_plugins


@click.command(epilog="Example: precheck plugins --without framing")
@click.option("--without", multiple=True, metavar="PLUGIN", help="Leave this plugin out. May be given again.")
@click.option("--rules", "with_rules", is_flag=True, help="List also the rules of each.")
@click.option("--names", is_flag=True, help="For authors: list every name that a plugin may use.")
@click.option("--name", help="For authors: explain one of these names in full.")
def command(without: tuple[str, ...], with_rules: bool, names: bool, name: str | None) -> None:
    """List the plugins: name, distribution, what each offers, and what did not load and why.

    Exit status: 0, or 3 when a plugin did not load. Other commands go on without it and say so.
    """
    if names or name:
        from precheck.cli.names import told

        for line in told(name):
            say(line)
        return
    known_plugins(without)
    plugins = load_plugins(without)
    for offer in plugins.offers:
        for line in _offer(offer, with_rules):
            say(line)
    for name in without:
        say(f"{name}: left out")
    for failure in plugins.failures:
        for line in wrapped(f"{failure.plugin} ({failure.distribution}): not loaded: {failure.why}", hang=4):
            say(line)
    say(f"{len(plugins.offers)} plugins with {len(plugins.rules)} rules; {len(plugins.failures)} not loaded.")
    sys.exit(EXIT_RULE_ERRED if plugins.failures else EXIT_READY)


def _offer(offer: Offer, with_rules: bool) -> Iterator[str]:
    yield f"{offer.plugin} ({offer.distribution}): {', '.join(_counted(offer)) or 'nothing'}"
    for section in offer.sections:
        yield from wrapped(f"section `{section.key}` of the project file", indent=4, hang=2)
    for field in offer.fields:
        yield from wrapped(f"field {field.called} in the project file", indent=4, hang=2)
    for report in offer.reports:
        yield from wrapped(f"report `{report.name}`, for check --report {report.name}", indent=4, hang=2)
    for importer in offer.importers:
        yield from wrapped(f"reads design files that end in {importer.suffix}", indent=4, hang=2)
    for folder in offer.rulesets:
        yield from wrapped(f"rulesets in {folder}{'' if folder.is_dir() else ', which is no folder'}", indent=4, hang=2)
    if with_rules:
        yield from (f"    {rule.name}" for rule in offer.rules)


def _counted(offer: Offer) -> Iterator[str]:
    counts = {"rule": offer.rules, "section": offer.sections, "field": offer.fields, "report": offer.reports,
              "importer": offer.importers}  # fmt: skip
    for word, count in ((word, len(offered)) for word, offered in counts.items()):
        if count:
            yield f"{count} {word}{'s' if count > 1 else ''}"
    if offer.rulesets:
        yield "rulesets"
