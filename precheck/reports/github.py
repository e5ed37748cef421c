"""The report as workflow commands of GitHub Actions: each finding becomes a note at its line of the project file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from precheck.checks import Outcome
from precheck.files.inert import inert, shown_name
from precheck.files.source import Place, Problem
from precheck.reports import words
from precheck.reports.opening import excluded, verdict_line, works_told
from precheck.reports.uri import plain_path
from precheck.review.finding import Finding, Review

_COMMANDS = {Outcome.ERROR: "error", Outcome.FAIL: "error", Outcome.NOT_SHOWN: "error", Outcome.WARN: "warning"}


def render(reviews: list[Review]) -> str:
    """Return the commands of all projects."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> str:
    """Return the commands of one project, and its verdict as plain lines of the log."""
    noted = [command for finding in review.findings for command in _commands(finding)]
    noted += [_command("warning", t.record.place, "accepted finding", str(t)) for t in review.record_notices]
    file = shown_name(review.project.place.file)
    lines = [f"{file}: {verdict_line(review)}", f"Code: {words.code_line(review)}"]
    lines += [f"work: {one.name}: {one.counted}" for one in works_told(review)]
    lines += [f"not in this job: {told}" for told in excluded(review)]
    lines += [partial] if (partial := words.code_warning(review)) else []
    lines += [f"not checked: {line}" for line in review.not_checked]
    return "".join(f"{line}\n" for line in (*noted, *map(_unread_as_command, lines)))


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return a command for each problem of a file that cannot be used."""
    return "".join(f"{_command('error', p.place, 'cannot be used', p.what)}\n" for p in problems)


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield all commands, then the reminder."""
    yield from pieces
    yield f"{words.REMINDER}\n"


def _commands(finding: Finding) -> Iterator[str]:
    if finding.accepted:
        told = f"{words.message(finding)}; {words.accepted_line(finding)}"
        yield _command("notice", finding.place, f"{finding.rule.name} (accepted)", told)
    elif command := _COMMANDS.get(finding.outcome):
        title = f"{finding.rule.name} ({finding.outcome.word})"
        yield _command(command, finding.place, title, words.full_message(finding))


def _command(name: str, place: Place, title: str, text: str) -> str:
    where = f"file={_property(plain_path(place.file))},line={place.line},col={place.column},title={_property(title)}"
    return f"::{name} {where}::{_data(text)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def _unread_as_command(line: str) -> str:
    """Return a line of the log that cannot be taken for a command, whatever a project is called."""
    return inert(" ".join(line.split()).replace("::", ": :"))
