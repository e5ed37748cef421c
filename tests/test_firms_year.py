"""A firm's year as its commands go through it: adopt, amend, the state changes, an appeal, a new edition, a broken plugin."""

from __future__ import annotations

import contextlib
from pathlib import Path

import pytest
from click.testing import CliRunner
from firm import Firm

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.runs.desk import desk

pytestmark = pytest.mark.long

JOB = Path(__file__).parents[1] / "examples" / "alder-court" / "corrected.yaml"
GOOD = 'from precheck import hookimpl\n\n\n@hookimpl\ndef precheck_rules():\n    """Return none."""\n    return []\n'
STATE, COUNTY, CITY = "Ash State", "Ash County", "Ash City"
RISER = "stairs.riser-height.maximum"
CASE = """cases:
  - case: a riser of 7 9/16 in
    rule: stairs.riser-height
    given:
      spaces: [{id: hall}, {id: loft}]
      stairs: [{id: S1, phase: new, between: [hall, loft], total rise: 106 in, risers: 14}]
    expect: fail
"""
APPEAL = """accepted:
  - {rule: stairs.riser-height, part: flight 1 of stair ST1, value: 7 9/16 in, document: Appeal 4, by: Board, until: %s}
  - {rule: stairs.riser-height, part: flight 2 of stair ST1, value: 7 9/16 in, document: Appeal 4, by: Board, until: %s}
"""
OLD_PLAN = """project: Old plan %d
jurisdiction: Ash City
spaces: [{id: hall}, {id: loft}]
stairs: [{id: S%d, phase: new, between: [hall, loft], total rise: 112 in, risers: 14}]
"""


class Year(Firm):
    """The firm with its rulesets, its job and its days."""

    def adopted(self, place: str, adopts: str, day: str) -> Path:
        """Begin the ruleset of a place, and return its file."""
        given = ("--jurisdiction", place, "--adopts", adopts, "--in-force", day, "--by", "Ordinance 1", "--whole")
        status, said = self.told("ruleset", "new", *given, "--folder", "codes")
        assert status == 0, said
        return self.folder / "codes" / "jurisdictions" / place.lower().replace(" ", "-") / f"{day}.yaml"

    def verified(self, place: str) -> str:
        """Verify all files of a place, which must be right, and return what is said of them on one line."""
        status, said = self.told("ruleset", "verify", place, "--rulesets", "codes")
        assert status == 0, said
        return said

    def checked(self, day: str, *options: str, files: str = "job.yaml") -> tuple[int, str]:
        """Check the job, or other files, as of a day, and return the exit status and all that is said, on one line."""
        return self.told("check", files, "--rulesets", "codes", "--topic", "stairs", "--date", day, *options)

    def told(self, *arguments: str) -> tuple[int, str]:
        """Run a command in this process, which has read nothing before, and return its exit status and all it says."""
        desk.cache_clear()
        with contextlib.chdir(self.folder):
            found = CliRunner().invoke(cli, arguments)
        refused = str(found.exception) if isinstance(found.exception, Unusable) else ""
        return 2 if refused else found.exit_code, " ".join(f"{found.output}{refused}".split())


def amend(path: Path, *amendments: str, cases: str = "") -> None:
    """Add amendments to a ruleset that has none yet, or that ends in some."""
    head = path.read_text().partition("amendments: []")[0].rstrip().removesuffix("amendments:")
    head = head if "\namendments:" in head else f"{head}\namendments:"
    path.write_text(head + "".join(f"\n  - {{{one}}}" for one in amendments) + f"\n{cases}")


def test_a_firm_goes_through_a_year(tmp_path: Path) -> None:
    year = Year(tmp_path, GOOD)
    (tmp_path / "codes").mkdir()
    year.file("job.yaml", JOB.read_text().replace("jurisdiction: City of Linden Ford", "jurisdiction: Ash City"))
    state, city = three_layers(year)
    an_appeal(year)
    the_state_changes(year, state, city)
    the_state_locks(year, state, city)
    a_new_edition(year, state)
    a_plugin_breaks(year)
    old_plans(year)


def three_layers(year: Year) -> tuple[Path, Path]:
    """Adopt and amend in state, county and city; the job is right in the county, and a hair too steep in the city."""
    state, county = year.adopted(STATE, "irc-2021", "2026-01-01"), year.adopted(COUNTY, STATE, "2026-01-01")
    city = year.adopted(CITY, COUNTY, "2026-02-01")
    amend(state, f"amend: {RISER}, was: 7 3/4 in, to: 8 in, by: Act 1")
    amend(county, "amend: stairs.tread-depth.minimum, was: 10 in, to: 9 in, by: Ordinance 2")
    amend(city, f"amend: {RISER}, was: 8 in, to: 7 1/2 in, by: City Code 3", cases=CASE)
    assert "becomes 7 1/2 in; the parent says 8 in (Act 1)" in year.verified(CITY)
    assert year.checked("2026-03-02", "--ruleset", COUNTY)[0] == 0
    status, said = year.checked("2026-03-02")
    assert (status, "7 1/2 in maximum" in said) == (1, True), said
    return state, city


def an_appeal(year: Year) -> None:
    """The board accepts the stair until the end of June; then it is open again until the record is renewed."""
    year.file("accepted.yaml", APPEAL % (("2026-06-30",) * 2))
    assert year.checked("2026-06-30")[0] == 0
    status, said = year.checked("2026-07-15")
    assert (status, "ended on 2026-06-30" in said or "2026-06-30" in said) == (1, True), said
    year.file("accepted.yaml", APPEAL % (("2026-12-31",) * 2))


def the_state_changes(year: Year, state: Path, city: Path) -> None:
    """In July the state takes back what it gave: the city's file goes on to hold, is told, and is renewed in August."""
    amend(state, f"amend: {RISER}, was: 8 in, to: 7 3/4 in, by: Act 9, from: 2026-07-01")
    assert f"{RISER} was 8 in when this was written; Act 9 has made it 7 3/4 in from 2026-07-01 on" in year.verified(
        CITY
    )
    assert year.checked("2026-07-15")[0] == 0  # the appeal holds, and so does the city's riser that it is about
    _, said = year.told("limits", "--ruleset", CITY, "--rulesets", "codes", "--date", "2026-07-15", "--topic", "stairs")
    assert f"{RISER}: 7 1/2 in" in said
    newer = year.adopted(CITY, COUNTY, "2026-08-01")
    amend(newer, f"amend: {RISER}, was: 7 3/4 in, to: 7 1/2 in, by: City Code 4", cases=CASE)
    renewed = year.verified(str(newer))
    assert "the parent says 7 3/4 in (Act 9)" in renewed
    assert "when this was written" not in renewed


def the_state_locks(year: Year, state: Path, city: Path) -> None:
    """From October on no city may ask for lower risers: the city's does not hold, and the appeal is needed no more."""
    in_august = city.with_name("2026-08-01.yaml")
    in_august.write_text(in_august.read_text().replace("    expect: fail", "    expect: fail\n    on: 2026-09-30"))
    lock = f"lock: {RISER}, localities: may not require more, by: Act 12, from: 2026-10-01"
    amend(state, lock)
    assert f"`{RISER}`: what Ash City made of it (City Code 4) does not hold from 2026-10-01 on" in year.verified(CITY)
    (year.folder / "accepted.yaml").unlink()
    assert year.checked("2026-09-30")[0] == 1
    status, said = year.checked("2026-10-15")
    assert (status, "does not hold from 2026-10-01 on: Ash State locks" in said) == (0, True), said


def a_new_edition(year: Year, state: Path) -> None:
    """In 2027 the state adopts the next edition, and leaves the choice until the end of June."""
    newer = year.adopted(STATE, "irc-2024", "2027-01-01")
    state.write_text(state.read_text().replace("in force: 2026-01-01", "in force: 2026-01-01\nuntil: 2027-06-30"))
    year.verified(STATE)
    year.verified(CITY)
    status, said = year.checked("2027-02-01")  # where the state has not locked anything yet
    assert (status, "Ash State leaves the choice on 2027-02-01: applied is irc-2024" in said) == (1, True), said
    amend(newer, f"lock: {RISER}, localities: may not require more, by: Act 20")
    assert year.checked("2027-02-01")[0] == 0
    job = year.folder / "job.yaml"
    job.write_text(
        job.read_text().replace("jurisdiction: Ash City\n", "jurisdiction: Ash City\ncode edition: irc-2021\n")
    )
    status, said = year.checked("2027-06-30")
    assert (status, "Ash City < Ash County < Ash State < irc-2021" in said) == (0, True), said
    status, said = year.checked("2027-07-01")
    assert (status, "`Ash City` does not take irc-2021 on 2027-07-01, but irc-2024" in said) == (2, True), said
    _, compared = year.told("ruleset", "compare", f"{CITY}@2026-12-31", f"{CITY}@2027-07-01", "--rulesets", "codes")
    assert "To: Ash City < Ash County < Ash State < irc-2024" in compared


def a_plugin_breaks(year: Year) -> None:
    """The firm's own plugin no longer loads: no job is ready until it is mended or left out."""
    given = ("check", "job.yaml", "--rulesets", "codes", "--topic", "stairs", "--date", "2027-06-30")
    assert year.precheck(*given).returncode == 0
    (year.package / "__init__.py").write_text("import left_pad\n")
    broken = year.precheck(*given)
    assert (broken.returncode, "juniper" in broken.stdout, "NOT READY" in broken.stdout) == (3, True, True), (
        broken.stdout
    )
    assert year.precheck(*given, "--without", "juniper").returncode == 0


def old_plans(year: Year) -> None:
    """Two hundred old plans, each too steep, stay as they are; only what is new stops a job."""
    plans = year.folder / "old"
    plans.mkdir()
    for number in range(200):
        (plans / f"{number}.yaml").write_text(OLD_PLAN % (number, number))
    report = ("--report", "sarif", "--output", "baseline.sarif")
    assert year.checked("2026-03-02", *report, files="old/*.yaml")[0] == 1
    (plans / "new.yaml").write_text(OLD_PLAN % (999, 999))
    status, said = year.checked("2026-03-02", "--baseline", "baseline.sarif", files="old/*.yaml")
    assert status == 1
    new = {line.partition(".yaml:")[0] for line in said.split("new: ")[1:]}
    assert new == {"old/new"}, said
