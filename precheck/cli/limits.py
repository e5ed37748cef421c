"""``precheck limits``: list the limits in effect."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from precheck.cli.setup import adopt, code_options, known_topics, library, load_plugins, say
from precheck.reports.width import wrapped
from precheck.rulesets.limit import Limit
from precheck.rulesets.part_of_code import PartOfCode


@click.command(epilog="Example: precheck limits --ruleset 'Tamarack County' --topic escape")
@code_options
@click.option("--topic", "topics", multiple=True, help="List only this topic. May be given again.")
@click.option("--section", help="List only what this section asks, with those below it: R310, R302.6.")
@click.option("--report", type=click.Choice(("text", "json")), default="text", show_default=True, help="Format.")
def command(
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    topics: tuple[str, ...],
    section: str | None,
    report: str,
) -> None:
    """List the limits in effect: value, section, and the act that last changed it."""
    code = adopt(library(load_plugins(), folders), ruleset, on)
    known_topics(topics, (name.partition(".")[0] for name in code.limits))
    chosen = [limit for name, limit in code.limits.items() if not topics or name.partition(".")[0] in topics]
    if section is not None:
        chosen = _under(section, chosen)
    if report == "json":
        from precheck.reports.limits import as_data

        say(json.dumps(as_data(code, chosen), indent=2, ensure_ascii=False))
        return
    say(f"{' < '.join(step.name for step in reversed(code.chain))}, as of {on.date() if on else 'the newest adoption'}")
    for limit in sorted(chosen, key=lambda limit: limit.name):
        say("\n".join(wrapped(f"{limit.name}: {limit.text}", hang=4)))
        force = "; good practice" if limit.advised else ""
        basis = f"; basis: {limit.basis}"
        say("\n".join(wrapped(f"{limit.measures} ({limit.citation or 'no section'}{force}{basis})", indent=4)))
        for one in limit.for_some:
            say("\n".join(wrapped(f"{one.limit.text} for {one} ({one.limit.history[-1].source})", indent=4)))
    say(f"{len(chosen)} limits.")


def _under(section: str, limits: list[Limit[Any]]) -> list[Limit[Any]]:
    """Return those of `limits` that cite `section` or one below it. Raises `BadParameter` where there is none."""
    found = [limit for limit in limits if PartOfCode("section", section).cites(limit)]
    if not found:
        raise click.BadParameter(f"no limit cites {section}; write it as the code does, such as R310 or N1102.1")
    return found
