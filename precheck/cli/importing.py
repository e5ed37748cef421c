"""``precheck import``: a design file becomes a project file, with every doubt said; again, and what was added stays."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from precheck.cli.setup import load_plugins, mapping_option, say
from precheck.files.foreign import refuse_foreign
from precheck.files.source import Place, Problem, Unusable
from precheck.reports.width import wrapped

if TYPE_CHECKING:
    from precheck.importers import Draft
    from precheck.rules.offered import Importer

_A_FILE = click.Path(dir_okay=False, path_type=Path)
_WIDTH = 30


@click.command("import", epilog="Example: precheck import house.ifc --output house.yaml")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--output", type=_A_FILE, help="The project file.  [default: FILE with .yaml]")
@mapping_option
@click.option(
    "--begin-mapping", "begin", type=_A_FILE, help="Begin a mapping file with the names that are not understood."
)
@click.option("--picture", type=_A_FILE, help="Draw (as SVG) what is recognized on a drawn plan, to compare with it.")
def command(file: Path, output: Path | None, mapping: Path | None, begin: Path | None, picture: Path | None) -> None:
    """Write the project file that a design file (IFC, DXF, or a plan plotted as PDF) comes to.

    Where the project file is there already, what the design file gives is brought up to date, and what a person added
    stays. `--begin-mapping` writes a mapping file to fill in instead: what names of rooms and materials mean, the layers
    that a drawn plan was read by, and what was recognized on it, for a person to confirm.
    """
    from precheck.importers import project_text, read_design, read_mapping

    added = _readers_of_plugins(file)
    target = output or file.with_suffix(".yaml")
    draft = read_design(file, str(file), read_mapping(mapping), drawn if sys.stderr.isatty() else _quietly, added)
    if picture is not None:
        _draw(picture, draft)
    if begin is not None:
        _begin(begin, draft)
        return
    changes: list[str] = []
    text = project_text(draft)
    seen = target.read_bytes() if target.is_file() else None
    if seen is not None:
        from precheck.importers.again import brought_up_to_date

        text, changes = brought_up_to_date(target, draft)
    _put(target, text, seen)
    rooms = ", ".join(_rooms(draft))
    _tell([line for line in (draft.warning, draft.read, rooms and f"Rooms: {rooms}.") if line])
    _list("Not read, or not understood", draft.missing)
    _list("Read, and to be looked over", draft.to_look_over)
    _list("Changed in the project file", changes)
    _tell(_way_on(file, draft))
    parts = sum(len(entries) for entries in draft.parts.values())
    doubts = len(draft.doubts)
    told = f"{doubts} doubt{', which stands' if doubts == 1 else 's, which stand'} at the top of the file"
    say(f"{target}: {parts} part{'' if parts == 1 else 's'}; {told if doubts else 'no doubt'}.")


def _draw(target: Path, draft: Draft) -> None:
    """Draw what was recognized on a drawn plan. Raises `Unusable`."""
    if draft.recognized is None:
        what = "has its rooms as objects or closed lines, of which nothing needs comparing; leave --picture out"
        raise Unusable([Problem(Place(draft.file, 1, 1), what)])
    from precheck.reports.recognized import render

    _put(target, render(draft.recognized), target.read_bytes() if target.is_file() else None)
    say(f"{target}: {len(draft.recognized.things)} rooms, doors and windows to compare with the drawing.")


def _begin(target: Path, draft: Draft) -> None:
    """Write a new mapping file; one that is there already is a person's, and stays. Raises `Unusable`."""
    from precheck.importers.begun_mapping import begun_mapping

    if target.exists():
        raise Unusable([Problem(Place(str(target), 1, 1), "is there already and is left as it is; name another file")])
    _put(target, begun_mapping(draft), None)
    names = sum(len(draft.unsaid[key]) for key in ("uses", "materials"))
    things = len(draft.recognized.things) if draft.recognized else 0
    waits = f", {things} thing{'' if things == 1 else 's'} to confirm" if things else ""
    say(f"{target}: {names} name{'' if names == 1 else 's'} to say the meaning of{waits}; no project file is written.")


def _rooms(draft: Draft) -> list[str]:
    """Return what the rooms that were read are called; none where a story only stands for its rooms."""
    named = [] if draft.warning else draft.parts.get("spaces", [])
    return [str((room.get("name") or room["id"]).text).strip('"') for room in named]


def _way_on(file: Path, draft: Draft) -> list[str]:
    """Return how to say what names mean that were not understood."""
    names = len(draft.unsaid["uses"]) + len(draft.unsaid["materials"])
    if not names:
        return []
    told = "1 name is" if names == 1 else f"{names} names are"
    return [f"{told} not understood. Say what they mean: precheck import {file} --begin-mapping names.yaml"]


def _list(heading: str, lines: list[str]) -> None:
    """Say on standard error each of `lines` under a heading; nothing where there are none."""
    if lines:
        _tell([f"{heading}:"])
        _tell([f"- {line}" for line in lines], hang=2)


def _tell(lines: list[str], hang: int = 0) -> None:
    """Say on standard error each of `lines` in 80 columns, what is carried over by `hang` in."""
    for line in lines:
        for short in wrapped(line, hang):
            say(short, err=True)


def _readers_of_plugins(file: Path) -> tuple[Importer, ...]:
    """Return the readers that plugins offer, loaded only for a file that is none of ours. Raises `Unusable`."""
    from precheck.rules.offered import DESIGN_FILES, PLOTTED_FILES
    from precheck.runs.desk import is_design_file

    if file.is_dir():
        raise Unusable([Problem(Place(str(file), 1, 1), "this is a folder; name the model or drawing in it")])
    if is_design_file(file) or file.suffix.lower() in PLOTTED_FILES:
        return ()
    refuse_foreign(file)
    if not file.exists():
        raise Unusable([Problem(Place(str(file), 1, 1), "there is no such file; check the spelling of the path")])
    added = load_plugins().importers
    if not is_design_file(file, added):
        endings = " or ".join((*DESIGN_FILES, *PLOTTED_FILES, *(one.suffix for one in added)))
        raise Unusable([Problem(Place(str(file), 1, 1), f"this is no design file; name one that ends in {endings}")])
    return added


def drawn(done: int, total: int) -> None:
    """Show on the terminal how much of a design file is read."""
    filled = _WIDTH * done // max(total, 1)
    sys.stderr.write(f"\r[{'=' * filled}{' ' * (_WIDTH - filled)}] {done:,} of {total:,} parts")
    if done >= total:
        sys.stderr.write("\r\x1b[K")
    sys.stderr.flush()


def _quietly(done: int, total: int) -> None:
    """Show nothing, where nobody watches."""


def _put(target: Path, text: str, seen: bytes | None) -> None:
    """Write the project file, a new one or in place of the one that was `seen`. Raises `Unusable`."""
    from precheck.files.atomic import put, put_in_place_of

    try:
        if seen is None:
            put(target, [text.encode()])
            return
        written = put_in_place_of(target, seen, text.encode())
    except OSError as error:
        what = f"cannot be written ({error.strerror}); name another file"
        raise Unusable([Problem(Place(str(target), 1, 1), what)]) from None
    if not written:
        raise Unusable(
            [Problem(Place(str(target), 1, 1), "changed in the meantime and is left as it is; import again")]
        )
