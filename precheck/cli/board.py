"""``precheck board``: describe the house on a page in the browser, see what stops it, and answer there."""

from __future__ import annotations

import errno
import gc
import webbrowser
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from precheck.cli.setup import code_options, say
from precheck.files.source import Place, Problem, Unusable
from precheck.reports.width import wrapped
from precheck.runs.desk import Desk, Run

if TYPE_CHECKING:
    from precheck.board.server import Served


@click.command(epilog="Example: precheck board house.yaml")
@click.argument("project", type=click.Path(dir_okay=False, path_type=Path), default="house.yaml")
@code_options
@click.option(
    "--port", type=click.IntRange(0, 65535), default=0, help="The port to listen on; a free one unless given."
)
@click.option(
    "--share", is_flag=True, help="Let a phone in the same network read the board; nothing can be changed there."
)
@click.option("--share-on", metavar="ADDRESS", help="The same, at this address of this computer, where it has several.")
@click.option("--no-browser", is_flag=True, help="Print the address, and open no browser.")
def command(
    project: Path,
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    port: int,
    share: bool,
    share_on: str | None,
    no_browser: bool,
) -> None:
    """Open PROJECT (house.yaml unless named) as a page in the browser: sketch the plan, see what stops the job, answer there.

    Every value that is accepted is in the file at once. A file that is not there yet is begun on the page. The page is for
    this computer only, unless it is shared for reading. Ctrl-C ends it, and so does closing the page for more than a minute.
    """
    from precheck.board.board import HouseBoard
    from precheck.board.server import Served

    if not project.parent.is_dir():
        raise Unusable([Problem(Place(str(project), 1, 1), "its folder is not there; make it first")])
    shared_on = _share_address(share, share_on)
    try:
        served = Served(HouseBoard(project, Desk(Run(ruleset, on.date() if on else None, folders))), port, shared_on)
    except OSError as error:
        raise click.ClickException(_not_listening(port, shared_on, error)) from None
    gc.collect()
    gc.freeze()  # what is loaded stays, and need not be walked over again after each value
    _tell_where(project, served)
    if not no_browser:
        webbrowser.open(served.address)
    _until_it_ends(served)
    say(f"Ended. Everything is in {project}." if project.exists() else "Ended. No file was begun.")


def _until_it_ends(served: Served) -> None:
    try:
        served.run()
    except KeyboardInterrupt:
        click.echo("")
    if served.is_left:
        say("The page was closed.")


def _tell_where(project: Path, served: Served) -> None:
    from precheck.board.share import EXPOSED

    say(f"{project}: open {served.address}")
    say("Anyone who knows this address, on this computer, can change the file. Ctrl-C ends it.")
    if served.shared is not None:
        say(f"To read on a phone in the same network: {served.shared.address}")
        say("\n".join(wrapped(EXPOSED)))


def _share_address(share: bool, share_on: str | None) -> str:
    from precheck.board.share import address_here, usable

    try:
        return usable(share_on) if share_on is not None else address_here() if share else ""
    except ValueError as error:
        raise click.ClickException(f"the board cannot be shared: {error}") from None


def _not_listening(port: int, shared_on: str, error: OSError) -> str:
    if shared_on and error.errno == errno.EADDRNOTAVAIL:
        return f"{shared_on} is no address of this computer; leave --share-on out, and --share finds one"
    return f"port {port} cannot be used ({error.strerror}); leave --port out for a free one"
