"""``precheck rules``: list the rules by topic."""

from __future__ import annotations

import click

from precheck.cli.setup import known_topics, load_plugins, say
from precheck.reports.width import WIDTH, wrapped


@click.command(epilog="Example: precheck rules --topic stairs")
@click.option("--topic", "topics", multiple=True, help="List only this topic. May be given again.")
def command(topics: tuple[str, ...]) -> None:
    """List the rules by topic, each with its plain meaning in one sentence."""
    plugins = load_plugins()
    known_topics(topics, (rule.topic for rule in plugins.rules))
    chosen = sorted((r for r in plugins.rules if not topics or r.topic in topics), key=lambda r: r.name)
    for rule in chosen:
        say(f"{rule.name:<{WIDTH - 12}}{rule.stage:>12}".rstrip())
        say("\n".join(wrapped(rule.summary, indent=4)))
    say(f"{len(chosen)} rules in {len({r.topic for r in chosen})} topics.")
