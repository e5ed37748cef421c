"""``precheck ruleset new``: begin the ruleset of a jurisdiction, as a commented file that loads as it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from pathlib import Path

import click

from precheck.cli.setup import DAY, folders_option, library, load_plugins, say, write
from precheck.files.mistakes import nearest
from precheck.files.source import Place, Problem, Unusable
from precheck.rulesets import CRITERIA, AdoptedCode, slug
from precheck.rulesets.limit import Limit

RULESETS = "rulesets"


class Adopted(click.ParamType[str]):
    """The name of an edition or a jurisdiction that is there to adopt, so that a slip is asked again at once."""

    name = "name"

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return `value` as it was written."""
        given = ctx.params if ctx is not None else {}
        known = known_rulesets(Path(given.get("folder") or RULESETS), given.get("folders") or ())
        if slug(value) not in known and Path(value).suffix not in (".yaml", ".yml"):
            listed = nearest(slug(value), known) or f"; known: {', '.join(known)}"
            self.fail(f"no ruleset is called `{value}`{listed}", param, ctx)
        return value


def known_rulesets(folder: Path, folders: Iterable[Path]) -> list[str]:
    """Return the names of what can be adopted: jurisdictions of one's own folders and of plugins, and editions."""
    own = (folder,) if folder.is_dir() else ()
    rulesets = library(load_plugins(), (*own, *folders))
    return [*rulesets.jurisdictions, *rulesets.editions]


@click.command("new", epilog="Example: precheck ruleset new --jurisdiction 'Alder Township' --adopts irc-2021")
@click.option("--jurisdiction", prompt="Jurisdiction", help="Name of the jurisdiction.")
@click.option(
    "--adopts",
    type=Adopted(),
    prompt="It adopts (an edition, or a jurisdiction such as its county)",
    help="What it adopts.",
)
@click.option("--in-force", type=DAY, prompt="In force from (year-month-day)", help="First day in force.")
@click.option("--by", prompt="By which ordinance or act", help="The ordinance or act that adopts it.")
@click.option(
    "--partial/--whole",
    prompt="Will it hold only some of the local amendments?",
    default=True,
    help="Whether it holds only some of the local amendments; reports then say so.",
)
@click.option(
    "--folder",
    type=click.Path(file_okay=False, path_type=Path),
    default=RULESETS,
    show_default=True,
    is_eager=True,  # what can be adopted is looked for in it
    help="Folder of your rulesets, the one to name with --rulesets.",
)
@folders_option  # fmt: skip
def command(
    jurisdiction: str, adopts: str, in_force: datetime, by: str, partial: bool, folder: Path, folders: tuple[Path, ...]
) -> None:
    """Begin the ruleset of a jurisdiction: ask what it adopts, and write a commented file to fill in."""
    own = (folder,) if folder.is_dir() else ()
    rulesets = library(load_plugins(), (*own, *folders))
    parent = rulesets.adopt(adopts, in_force.date())  # raises where it cannot be adopted, with the nearest name
    path = folder / "jurisdictions" / slug(jurisdiction) / f"{in_force.date()}.yaml"
    if not slug(jurisdiction):
        raise click.BadParameter("the name needs a letter or a digit")
    if path.exists():
        raise Unusable([Problem(Place(str(path), 1, 1), "exists already; edit it, or choose another date")])
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Unusable([Problem(Place(str(path.parent), 1, 1), f"cannot be made ({error.strerror})")]) from None
    write((f"{line}\n" for line in _lines(jurisdiction, adopts, in_force.date(), by, partial, parent)), path)
    say(f"Wrote {path}.")
    say(f"Next: fill it in, then precheck ruleset verify {path} --rulesets {folder}")


def _lines(name: str, adopts: str, day: date, by: str, partial: bool, parent: AdoptedCode) -> Iterator[str]:
    yield f"# The code of {_plain(name)}, as adopted on {day}. Lines that begin with # are notes or examples."
    yield "# Verify the file whenever it changes: precheck ruleset verify FILE"
    yield f"jurisdiction: {_quoted(name)}"
    yield f"adopts: {_quoted(adopts)}"
    yield f"in force: {day}"
    yield f"by: {_quoted(by)}"
    if partial:
        yield "partial: yes          # reports repeat it; remove the line once every local amendment is in the file"
    yield "# until: 2029-12-31    # only where it may be used no longer than that, beside a later adoption or without one"
    yield "# held to: [Ash State]    # laws that lock and adopt no code of their own, such as a state's"
    yield "# source: where the ordinance can be read"
    yield "# note: what a reader should know"
    yield ""
    yield from _criteria(parent)
    yield ""
    yield from _amendments(parent)
    yield ""
    yield from _cases()


def _criteria(parent: AdoptedCode) -> Iterator[str]:
    yield "# What the jurisdiction sets for its climate and ground. Remove the # of those that you fill in."
    yield "# design criteria:"
    for limit in _of_criteria(parent):
        key = limit.name.removeprefix(f"{CRITERIA}.").replace("-", " ")
        yield f"#   {key}: ...          # {limit.measures}; now: {limit.text}"


def _of_criteria(parent: AdoptedCode) -> list[Limit[object]]:
    return [limit for name, limit in sorted(parent.limits.items()) if name.startswith(f"{CRITERIA}.")]


def _amendments(parent: AdoptedCode) -> Iterator[str]:
    example = parent.limits.get("stairs.riser-height.maximum") or next(iter(parent.limits.values()))
    yield from (f"# {lock}" for lock in parent.locks)
    yield "# Each amendment does one thing. `precheck limits --ruleset ...` lists the names that can be amended."
    yield "amendments: []"
    yield "# amendments:"
    yield f"#   - amend: {example.name}     # a changed value"
    yield f"#     was: {example.text}     # what it replaces; must be what is in effect then"
    yield "#     to: ..."
    yield "#     by: Ordinance ..., section ..."
    yield "#     # part: window         # only where it is for some parts alone, with what these have in common:"
    yield "#     # where: {use of space: bedroom}"
    yield "#     from: 2027-01-01       # only where it took effect later than the adoption"
    yield "#   - delete: ...            # a requirement that is not adopted"
    yield "#     by: ..."
    yield "#   - add: storage-stair.width.minimum   # a requirement of your own, checked as it says"
    yield "#     measures: clear width of a stair flight with a handrail"
    yield "#     value: 32 in"
    yield "#     by: ..."
    yield "#     check:"
    yield "#       part: flight         # the kind of part that it is about"
    yield "#       when:                # all of these; leave it out where it is always due"
    yield "#         rails: {minimum: 1}"
    yield "#         phase: [new, altered]"
    yield "#       measure: width       # what is compared with the value"
    yield "#       comparison: minimum  # or maximum, under, one of, required"
    yield "#       stage: framing"
    yield "#       fix: widen the stair to 32 in"


def _cases() -> Iterator[str]:
    yield "# Examples that hold the ruleset to what it should say; `precheck ruleset verify` runs them."
    yield "# cases:"
    yield "#   - case: a stair that is too narrow"
    yield "#     rule: storage-stair.width.minimum"
    yield "#     given:"
    yield "#       spaces: [{id: hall}, {id: loft}]"
    yield "#       stairs: [{id: S1, phase: new, between: [hall, loft], flights: [{rails: 1, width: 30 in}]}]"
    yield "#     expect: fail"
    yield "#     says: 30 in"


def _plain(text: str) -> str:
    return " ".join(text.split())


def _quoted(text: str) -> str:
    plain = _plain(text)
    return "'" + plain.replace("'", "''") + "'"
