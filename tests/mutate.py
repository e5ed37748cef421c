"""Make small mistakes in the rules and the limits, one at a time, and see which of them the tests beside them notice.

python tests/mutate.py [--code 200] [--limits 100] [--seed 1] [--topic TOPIC] [--also TESTS ...]

What a mistake is stands in `mistakes.py`. They are drawn from one topic after the other, and none is written into a file:
everything but the rules is read once, and for each mistake a process of its own, forked from there, takes the rules or the
limits with the mistake in them and runs the tests beside them up to the first that fails. What survives is printed with
its place; `--also` are tests that survivors are held to next. A mistake that changes nothing that can be observed stands in
`equal_mistakes.yaml` with the reason, and does not count; nor does one that makes a limit unreadable.
"""

from __future__ import annotations

import argparse
import gc
import os
import resource
import sys
import time
import warnings
from collections import defaultdict
from collections.abc import Callable, Container, Iterable, Iterator
from functools import cache
from importlib.machinery import SourceFileLoader
from pathlib import Path
from typing import Any

import hypothesis
import pytest
from mistakes import ROOT, Mistake, in_code, in_limits, limits_of, near, spread

from precheck import testing
from precheck.files.record import read_record
from precheck.files.source import Unusable, read_file
from precheck.rules.plugins import load_plugins, registered
from precheck.rulesets import Library, prepared

SECONDS = 300  # of computing, after which a mistake counts as noticed: it made something endless
NOTICED, SURVIVED, UNREADABLE = "noticed", "survives", "cannot be read"
CODES = {int(pytest.ExitCode.OK): SURVIVED, 99: UNREADABLE}


def prepare() -> None:
    """Read everything that no mistake is made in: the rulesets, the case files, and all modules but the rules."""
    os.chdir(ROOT)
    os.environ[prepared.VARIABLE] = "off"
    hypothesis.settings.register_profile("mistakes", database=None, derandomize=True)
    hypothesis.settings.load_profile("mistakes")
    library = Library(load_plugins(e.name for e in registered() if e.name != "rulesets").rulesets)
    testing.library = lambda: library
    for name in library.editions:
        testing.code(name)
    case_files()
    gc.freeze()


@cache
def case_files() -> dict[str, list[testing.CaseFile]]:
    """Return the case files of each folder of plugins, read once."""
    found = defaultdict(list)
    for path in sorted((ROOT / "plugins").rglob("cases/*.yaml")):
        found[path.relative_to(ROOT / "plugins").parts[0]].append(read_record(testing.CaseFile, read_file(path)))
    return found


def fate(mistake: Mistake | None, tests: tuple[str, ...]) -> str:
    """Return what becomes of `mistake`, or of no mistake at all, under `tests`."""
    child = os.fork()
    if child == 0:
        code = int(pytest.ExitCode.INTERNAL_ERROR)
        try:
            code = _run(mistake, tests)
        finally:
            os._exit(code)
    return CODES.get(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), NOTICED)


def _run(mistake: Mistake | None, tests: tuple[str, ...]) -> int:
    """Run `tests` in this process, with the mistake in what they read: the cases, then the tests under `tests`."""
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (1, 2):
        os.dup2(nowhere, stream)
    folders = [Path(test).name for test in tests if test.startswith("plugins/")]
    others = [e.name for e in registered() if e.value.rpartition(".")[2] not in folders]
    testing.plugins = cache(lambda: load_plugins(others))
    if mistake is not None and not (_put_in_code if mistake.path.suffix == ".py" else _put_in_limits)(mistake):
        return next(code for code, word in CODES.items() if word is UNREADABLE)
    if not _cases_hold(folders, near(mistake) if mistake is not None else set()):
        return int(pytest.ExitCode.TESTS_FAILED)
    further = [test for test in tests if not test.startswith("plugins/")]
    imported = "ignore::pytest.PytestAssertRewriteWarning"  # before pytest could rewrite what it imports
    return int(pytest.main(["-x", "-n", "0", "-p", "no:cacheprovider", "-W", imported, *further])) if further else 0


def _cases_hold(folders: Iterable[str], first: Container[str]) -> bool:
    """Return whether all cases of `folders` come to what they expect, those of the rules in `first` before the others."""
    files = [file for folder in folders for file in case_files()[folder]]
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            for file in sorted(files, key=lambda file: file.rule not in first):
                for case in file.cases:
                    for code in testing.codes_of(case):
                        testing.hold(file, case, code)
        except Exception:
            return False
    return True


def _put_in_code(mistake: Mistake) -> bool:
    """Let the module be made of the text with the mistake when it is imported."""
    text, right = mistake.made(), SourceFileLoader.get_code
    assert not any(name.startswith("precheck_plugins.") for name in sys.modules), "rules are imported by each child"

    def get_code(loader: SourceFileLoader, name: str) -> Any:
        if Path(loader.path).resolve() == ROOT / mistake.path:
            return compile(text, loader.path, "exec", dont_inherit=True)
        return right(loader, name)

    SourceFileLoader.get_code = get_code
    return True


def _put_in_limits(mistake: Mistake) -> bool:
    """Read the limits again with the mistake in them, and return whether they can be read."""
    text, right = mistake.made(), Path.read_text

    def read_text(path: Path, *how: Any, **named: Any) -> str:
        return text if path.resolve() == ROOT / mistake.path else right(path, *how, **named)

    Path.read_text = read_text
    library = testing.library()
    topics, read = library._topics_read, library._editions_read
    for path in [path for path in topics if path.resolve() == ROOT / mistake.path]:
        del topics[path]
    read.clear()
    testing.code.cache_clear()
    try:
        for name in library.editions:
            testing.code(name)
    except Unusable:
        return False
    return True


def tests_by_topic() -> dict[str, tuple[str, ...]]:
    """Return which tests stand beside the limits of each topic: those of the folders that have cases of its rules."""
    found: dict[str, set[str]] = defaultdict(set)
    for file in sorted((ROOT / "plugins").rglob("cases/*.yaml")):
        topic = file.read_text(encoding="utf-8").partition("rule: ")[2].partition(".")[0]
        found[topic].add(file.relative_to(ROOT / "plugins").parts[0])
    return {topic: tuple(test for one in sorted(folders) for test in beside(one)) for topic, folders in found.items()}


def beside(folder: str) -> tuple[str, ...]:
    """Return the tests of a folder of plugins: the cases in it, and what stands under its name in `tests`."""
    return (f"plugins/{folder}", *([f"tests/{folder}"] if (ROOT / "tests" / folder).is_dir() else []))


def equals() -> dict[tuple[str, ...], str]:
    """Return the mistakes that change nothing, each with the reason."""
    listed = read_file(ROOT / "tests" / "equal_mistakes.yaml")["mistakes"]
    return {(m["file"], m["within"], str(m["was"]), str(m["to"])): m["why"] for m in listed}


@cache
def passes(tests: tuple[str, ...]) -> bool:
    """Return whether `tests` pass without any mistake."""
    return fate(None, tests) == SURVIVED


def _tell(
    kind: str, drawn: Iterator[Mistake], count: int, beside: Callable[[str], tuple[str, ...]], also: tuple[str, ...]
) -> None:
    """Try `count` of the mistakes drawn, print what survives as soon as it does, and how many were noticed."""
    noticed, tried, equal, known, began = 0, 0, 0, equals(), time.monotonic()
    blind: set[str] = set()  # tests that fail without any mistake
    for mistake in drawn:
        if tried == count:
            break
        tests = beside(mistake.topic)
        if not passes(tests):
            blind.add(" ".join(tests))
            continue
        if mistake.key in known:
            equal += 1
            continue
        came_to = fate(mistake, tests)
        tried += came_to != UNREADABLE
        noticed += came_to == NOTICED
        if came_to == SURVIVED:
            held = also and passes(also) and fate(mistake, also) == NOTICED
            print(f"  {'noticed by the other tests' if held else SURVIVED}: {mistake.told}", flush=True)
    for tests_that_fail in sorted(blind):
        print(f"  not tried, for it fails without any mistake: {tests_that_fail}", flush=True)
    each = (time.monotonic() - began) / max(tried, 1)
    print(
        f"{kind}: {noticed} of {tried} noticed by the tests beside them ({each:.1f} s each; {equal} change nothing)",
        flush=True,
    )


def main() -> None:
    """Make the mistakes and tell how many were noticed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--code", type=int, default=200)
    parser.add_argument("--limits", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--topic", default="", help="a folder of plugins, or a topic of the rulesets")
    parser.add_argument("--also", nargs="*", default=[])
    asked = parser.parse_args()
    prepare()
    by_topic = tests_by_topic()
    folders = [p.name for p in sorted((ROOT / "plugins").iterdir()) if (p / "cases").is_dir()]
    code = (m for folder in folders if asked.topic in ("", folder) for m in in_code(folder))
    topics = [topic for topic in sorted(by_topic) if limits_of(topic).exists()]
    limits = (m for topic in topics if asked.topic in ("", topic) for m in in_limits(topic))
    also = tuple(asked.also)
    _tell("code", spread(code, asked.seed), asked.code, beside, also)
    _tell("limits", spread(limits, asked.seed), asked.limits, lambda topic: by_topic[topic], also)


if __name__ == "__main__":
    main()
