"""A second process that watches over the run where plugins of others are installed: one of them may end it, or hang.

What ends a process can be caught in no other way. The run goes on in a copy of this process, which says at its end with which
status; one that ends before has decided nothing, whatever status a plugin gave it. Where there are only plugins of ours, or
where a process cannot be copied (Windows), the run goes on in this one.
"""

from __future__ import annotations

import os
import select
import signal
import sys
import traceback
from collections.abc import Callable
from time import monotonic
from typing import NoReturn

import click

from precheck.files.inert import inert
from precheck.files.installed import registered

OURS = ("precheck_plugins", "precheck_rulesets")
GROUPS = ("precheck.plugins", "precheck.commands")
PATIENCE = 3  # times what a check may take, after which it is taken for one that does not let itself be broken off
_POLL = 0.25  # seconds


def guarded(run: Callable[[], None]) -> None:
    """Call `run`, which ends by SystemExit or returns, watched over by this process where strangers' plugins are installed."""
    if not hasattr(os, "fork") or not _asks_for_plugins() or not _strangers():
        run()
        return
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _watched(run, writing)
    os.close(writing)
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # a terminal tells the copy too, which knows what to do
    signal.signal(signal.SIGTERM, lambda *_: os.kill(child, signal.SIGTERM))
    sys.exit(_Watchman(child, reading).status())


def _asks_for_plugins() -> bool:
    asked = sys.argv[1:]
    return bool(asked) and not {"--help", "-h", "--version"} & set(asked)


def _strangers() -> bool:
    return any(entry.package not in OURS for entry in registered(*GROUPS))


def _watched(run: Callable[[], None], writing: int) -> NoReturn:
    from precheck.rules.time_limit import WATCHER

    WATCHER.set(writing)
    _keep_output_for_us()
    code = _code_of(run)
    os.write(writing, f"\0{code}\n".encode())
    os._exit(code)  # a thread that a plugin left running is left behind


def _keep_output_for_us() -> None:
    """Let what is written past Python, as by a program that a plugin starts, go where all goes that a plugin prints."""
    ours = sys.stdout
    ours.flush()
    lines = 1 if ours.isatty() else -1
    sys.stdout = os.fdopen(os.dup(ours.fileno()), "w", lines, encoding=ours.encoding, errors=ours.errors)
    sys.__stdout__ = sys.stdout  # type: ignore[misc]  # whose width is asked for
    os.dup2(sys.stderr.fileno(), ours.fileno())


def _code_of(run: Callable[[], None]) -> int:
    """Return the status with which `run` ends, all that it printed being written."""
    try:
        run()
        code: object = 0
    except SystemExit as ended:
        code = ended.code or 0
    except BaseException:  # a fault of ours, which the copy tells as any program does
        traceback.print_exc()
        code = 1
    try:
        for stream in (sys.stdout, sys.stderr):
            stream.flush()
    except OSError as error:
        click.echo(f"the output:1:1: cannot be used ({error.strerror}); name another", err=True)
        return 2
    return code if isinstance(code, int) else 1


class _Watchman:
    """Listens to the copy: whose code it runs, and with which status it has ended."""

    def __init__(self, child: int, reading: int) -> None:
        self.child, self.reading = child, reading
        self.running, self.since = "", monotonic()
        self.code: int | None = None
        self.ended = False
        self.rest = b""

    def status(self) -> int:
        """Return the status of the run, once the copy has ended."""
        while self.code is None and not self._gone():
            self._listen()
            if self.running and monotonic() - self.since > self._longest():
                os.kill(self.child, signal.SIGKILL)
                self._gone(wait=True)
                return self._broken_off(f"{self.running} does not let itself be broken off, so the run ends here")
        if self.code is None:
            self._listen()
        if self.code is not None:
            self._gone(wait=True)  # which is at once, for it has nothing more to do
            return self.code
        by = self.running or "something, such as a plugin's command,"
        return self._broken_off(f"{by} ended the run before its end, so nothing is decided")

    def _longest(self) -> float:
        from precheck.rules import time_limit

        return PATIENCE * time_limit.LONGEST

    def _broken_off(self, what: str) -> int:
        from precheck.rules.time_limit import EXIT_BROKEN_OFF

        click.echo(inert(what), err=True)
        return EXIT_BROKEN_OFF

    def _gone(self, wait: bool = False) -> bool:
        """Return whether the copy has ended, having waited for it where `wait` says so."""
        self.ended = self.ended or os.waitpid(self.child, 0 if wait else os.WNOHANG)[0] != 0
        return self.ended

    def _listen(self) -> None:
        """Take in what the copy tells, waiting a moment for it."""
        if not select.select([self.reading], [], [], _POLL)[0]:
            return
        *lines, self.rest = (self.rest + os.read(self.reading, 65536)).split(b"\n")
        for line in lines:
            if line.startswith(b"\0"):
                self.code = int(line[1:])
            else:
                self.running, self.since = line.decode(errors="replace"), monotonic()
