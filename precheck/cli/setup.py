"""What commands share: plugins, the library of rulesets, options, and writing output so that nothing is lost."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from precheck.files.atomic import put
from precheck.files.inert import inert, shown
from precheck.files.source import Place, Problem, Unusable
from precheck.rules.offered import DESIGN_FILES
from precheck.rules.plugins import Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library

F = TypeVar("F", bound=Callable[..., Any])


_READ = frozenset((".yaml", ".yml", *DESIGN_FILES))  # how the files end that are read and not written by a report


class _Day(click.ParamType[datetime]):
    """A day as people write it in a file, in words that do not speak of formats."""

    name = "year-month-day"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> datetime:
        """Return the day at midnight, or refuse what is none."""
        try:
            return value if isinstance(value, datetime) else datetime.strptime(value.strip(), "%Y-%m-%d")  # noqa: DTZ007
        except ValueError:
            self.fail(f"`{value}` is no day; write year-month-day, such as 2026-03-02", param, ctx)


DAY = _Day()
WHOLE_IN_A_PIPE = 1024  # characters, of up to four bytes each; POSIX lets no signal part 4,096 bytes on Linux


def _of_rulesets(_: click.Context, __: click.Parameter, folders: tuple[Path, ...]) -> tuple[Path, ...]:
    for folder in folders:
        if not any((folder / part).is_dir() for part in ("codes", "jurisdictions", "editions")):
            raise click.BadParameter(f"{folder} holds neither codes/ nor jurisdictions/; name the folder that does")
    return folders


folders_option = click.option(
    "--rulesets",
    "folders",
    multiple=True,
    is_eager=True,  # other options name what stands in them
    callback=_of_rulesets,
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="A folder of your own with codes/ or jurisdictions/. May be given again.",
)


def code_options(function: F) -> F:
    """Add the options that choose the code: which ruleset, as of which date, from which further folders."""
    for option in (
        folders_option,
        click.option("--date", "on", type=DAY, help="Apply the code as of this date."),
        click.option("--ruleset", help="A jurisdiction (PLACE@EDITION where it leaves the choice), an edition, or an adoption file."),
    ):  # fmt: skip
        function = option(function)
    return function


def project_options(function: F) -> F:
    """Add the options that choose the code, and the one that says what the names in a design file mean."""
    return code_options(mapping_option(function))


mapping_option = click.option(
    "--mapping",
    type=click.Path(dir_okay=False, path_type=Path),
    help="What the names in a design file mean: uses, units, phases, materials, properties, layers.",
)


def heeded(mapping: Path | None, *files: str) -> Path | None:
    """Return `mapping`, refused where none of `files` is a design file whose names it could say."""
    from precheck.runs.desk import is_design_file

    if mapping is not None and not any(map(is_design_file, files)):
        raise click.BadParameter("it is for design files (.ifc, .dxf), and none is named", param_hint="--mapping")
    return mapping


def known_plugins(names: Iterable[str]) -> None:
    """Refuse a name that no installed plugin has, with the nearest one."""
    from precheck.files.mistakes import nearest
    from precheck.rules.plugins import registered

    known = [entry.name for entry in registered()] if names else []
    for name in names:
        if name not in known:
            meant = nearest(name, known) or f"; installed: {', '.join(known)}"
            raise click.BadParameter(f"no plugin is called `{name}`{meant}")


def known_topics(topics: Iterable[str], known: Iterable[str]) -> None:
    """Refuse a topic that is none of `known`, with the nearest one."""
    from precheck.files.mistakes import nearest

    names = sorted(set(known))
    for topic in topics:
        if topic not in names:
            meant = nearest(topic, names) or "."
            raise click.BadParameter(f"there is no topic `{topic}`{meant} Topics: {', '.join(names)}.")


def library(plugins: Plugins, folders: Iterable[Path]) -> Library:
    """Return the library of rulesets: the person's own folders first, then those of plugins."""
    return Library(plugins.rulesets, own=folders, added=plugins.added)


def adopt(rulesets: Library, ruleset: str | None, on: datetime | None) -> AdoptedCode:
    """Return the code that the options choose; the newest edition where they choose none."""
    return rulesets.adopt(ruleset or list(rulesets.editions)[-1], on.date() if on else None)


def say(text: str, err: bool = False) -> None:
    """Print a line, on which nothing acts whatever a file holds."""
    click.echo(inert(text), err=err)


def apart(output: Path | None, read: Iterable[str | Path]) -> None:
    """Refuse to write a report over a file that it is made from, or that could be one. Raises `Unusable`.

    `read` are the files that the command line names. What else a run comes to read (rulesets, what they adopt, acceptances)
    is told by its kind: no report ends like those.
    """
    if output is None or not output.exists():
        return
    kind = output.resolve().suffix.lower()
    if kind in _READ or any(Path(file).exists() and output.samefile(file) for file in read):
        of_kind = f", or another of those that end in {kind}" if kind in _READ else ""
        what = f"is a file that the report is made from{of_kind}, and would be lost; name another file with --output"
        raise Unusable([Problem(Place(str(output), 1, 1), what)])


def _in_pieces(bit: str | bytes) -> Iterator[str | bytes]:
    """Yield what goes to standard output in pieces that a pipe takes whole: of a longer one a signal may cost the rest."""
    if sys.stdout.isatty():
        yield bit
        return
    plain = bit if isinstance(bit, bytes) else click.unstyle(bit)
    for start in range(0, len(plain), WHOLE_IN_A_PIPE):
        yield plain[start : start + WHOLE_IN_A_PIPE]


def write(bits: Iterable[str | bytes], output: Path | None) -> None:
    """Print a report bit by bit, or put it in place of file `output` in one step. Raises `Unusable`."""
    if output is None:
        for bit in bits:
            if isinstance(bit, bytes) and sys.stdout.isatty():
                raise click.UsageError("this report is not text; name a file for it with --output")
            for piece in _in_pieces(bit if isinstance(bit, bytes) else shown(bit)):
                click.echo(piece, nl=False)
        return
    try:
        put(output, (bit.encode() if isinstance(bit, str) else bit for bit in bits))
    except OSError as error:
        raise Unusable(
            [Problem(Place(str(output), 1, 1), f"cannot be written ({error.strerror}); name another file")]
        ) from None


__all__ = ["DAY", "adopt", "apart", "code_options", "folders_option", "heeded", "known_plugins", "known_topics",
           "library", "load_plugins", "mapping_option", "project_options", "say", "write"]  # fmt: skip
