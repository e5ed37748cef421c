"""Every report and paper opens with the verdict and the works, asks for one thing once, and counts as it lists."""

import json
import re
from html import unescape
from pathlib import Path

import pytest
from click.testing import CliRunner

from precheck.cli import cli
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports import renderer
from precheck.reports.first_screen import SCREEN, first_screen
from precheck.reports.groups import Group
from precheck.reports.opening import verdict_line, works_told
from precheck.reports.papers import corrections, field, inspections
from precheck.reports.rank import rank_of
from precheck.reports.worklist import counts_of, items_of
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.runs.desk import Desk, Run
from precheck.testing import code, plugins

ROOT = Path(__file__).parents[1]
EXAMPLES = sorted(ROOT.glob("examples/*/*.yaml"))
EXAMPLES = [path for path in EXAMPLES if path.parent.name in ("alder-court", "sketch")]
HOUSE = """\
project: A job
spaces:
- {id: hall, phase: existing, use: hall}
- {id: suite, phase: altered, use: bedroom, was: garage}
"""


def reviewed(text: str) -> Review:
    return review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins())


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def found(request: pytest.FixtureRequest) -> Review:
    return Desk(Run()).review(str(request.param))


def told(form: str, found: Review) -> str:
    if form == "text":
        return str(renderer(form)(found))
    return str(renderer(form)([found]))


def headings(form: str, found: Review) -> dict[str, int]:
    """Return the counts that a report gives in its headings, by the key of their group."""
    shapes = {"text": r"^{}\s\((\d+)\)$", "markdown": r"^### {} \((\d+)\)$", "html": r'>{} <span class="count">(\d+)<'}
    text = told(form, found)
    counts = {}
    for group in Group:
        title = group.title.upper() if form == "text" else group.title
        counts[group.key] = sum(map(int, re.findall(shapes[form].format(re.escape(title)), text, re.M)))
    return counts


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_verdict_heading_and_section_count_alike(form: str, found: Review) -> None:
    counted = {group.key: count for group, count in counts_of(items_of(found)).items()}
    assert headings(form, found) == counted
    said = " ".join(re.sub("<[^>]+>", " ", unescape(told(form, found))).split())
    for group, count in counts_of(items_of(found)).items():
        assert group.counted(count) in said
    listed = json.loads(told("json", found))["to_do"]
    assert {key: sum(one["group"] == key for one in listed) for key in counted} == counted


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_each_section_lists_as_many_items_as_its_heading_says(form: str, found: Review) -> None:
    text = told(form, found)
    shapes = {"text": r"^ {0,2}\d+  ", "markdown": r"^\| \d+ \|", "html": "<article "}
    assert len(re.findall(shapes[form], text, re.M)) == len(items_of(found))


def test_the_first_screen_has_verdict_works_and_the_first_ten_things(found: Review) -> None:
    items = items_of(found)
    lines = list(first_screen(found, items))
    screen = lines[:SCREEN]
    assert max(map(len, lines)) <= 80
    assert verdict_line(found, items).split(":")[0] in screen[1]
    assert sum(re.match(r" {0,2}\d+ (?:fix|add|ask|review|error) ", line) is not None for line in screen) == min(
        10, len(items)
    )
    named = " ".join(screen)
    shown = sum(one.work in named for one in works_told(found))
    assert shown == len(works_told(found)) or "more, listed with --all" in named


def test_the_numbers_follow_what_stops_the_job_first(found: Review) -> None:
    items = items_of(found)
    ranks = [min(map(rank_of, item.findings)) for item in items]
    assert ranks == sorted(ranks)
    assert [item.number for item in items] == list(range(1, len(items) + 1))


def test_a_flood_hazard_area_is_asked_for_after_what_costs_more_to_redo() -> None:
    items = items_of(reviewed(HOUSE))
    asked = {finding.rule.name: item.number for item in items for finding in item.findings}
    assert asked["flood.hazard"] > max(asked["escape.opening"], asked["slabs.existing"], asked["energy.heat-source"])
    assert asked["zoning.use-and-parking"] > asked["escape.opening"]


EXCLUDING = (
    HOUSE + "not in this job:\n- {what: plumbing, why: the old bath stays}\n- {what: roof, why: nothing is cut}\n"
)


@pytest.mark.parametrize("form", ["text", "markdown", "html", "json", "github", "corrections", "field", "inspections"])
def test_the_works_and_what_is_not_in_the_job_are_on_every_report_and_paper(form: str) -> None:
    papers = {"corrections": corrections, "field": field, "inspections": inspections}
    excluding = reviewed(EXCLUDING)
    text = papers[form].render(excluding) if form in papers else told(form, excluding)
    plain = " ".join(unescape(text).split())
    assert "garage to room" in plain
    assert "plumbing" in plain
    assert "the old bath stays" in plain
    body = re.sub(r"<style>.*?</style>", "", plain)
    first_asked = min(
        at for word in ("Egress", "smoke alarms", "flood hazard area", "slab") if (at := body.find(word)) > 0
    )
    assert form == "github" or body.index("garage to room") < first_asked


def test_a_job_that_only_lacks_things_is_never_said_to_have_corrections() -> None:
    lacking = reviewed(HOUSE.replace("use: bedroom", "use: office"))
    assert counts_of(items_of(lacking))[Group.FIX] == 0
    text = told("text", lacking)
    assert "NOT READY to submit" in text
    assert "correction" not in text.lower()


RECEPTACLES = (
    HOUSE
    + "receptacles:\n"
    + "".join(f"- {{id: R{n}, phase: new, space: suite, at: [{n} ft, 0 ft], height: 16 in}}\n" for n in range(1, 13))
)


def test_what_all_parts_of_a_kind_lack_is_asked_once() -> None:
    items = [item for item in items_of(reviewed(RECEPTACLES)) if any("tamper" in want for want in item.wants)]
    assert [item.label for item in items] == ["all 12 new receptacles"]
    assert len(items[0].parts) == 12


def test_parts_of_a_kind_that_lack_the_same_are_asked_together_by_their_ids() -> None:
    some = RECEPTACLES.replace("height: 16 in}\n", "height: 16 in, tamper resistant: yes}\n", 4)
    items = [item for item in items_of(reviewed(some)) if any("tamper" in want for want in item.wants)]
    assert [item.label for item in items] == ["receptacles R5 to R12"]


def test_a_value_is_asked_once_wherever_it_is_needed() -> None:
    asked = [
        (part.id, want)
        for item in items_of(reviewed(HOUSE + "windows: [{id: W1, phase: new, space: suite}]\n"))
        if item.group is Group.ADD
        for want in item.wants
        for part in item.parts
    ]
    assert len(asked) > 10
    assert len(set(asked)) == len(asked)


def test_what_the_town_leaves_open_is_one_block_of_questions() -> None:
    text = told("text", reviewed(HOUSE + "windows: [{id: W1, phase: new, space: suite}]\n"))
    block = text[text.index("\nASK THE BUILDING DEPARTMENT (") :].split("\n\n")[0]
    assert "What minimum do you set for parking spaces on the lot?" in block
    assert "What is the climate zone at this address?" in block
    assert text.count("parking spaces on the lot?") == 1


@pytest.mark.long
def test_a_report_names_the_checks_that_wait_and_the_checks_that_are_met_only_when_all_is_wanted(
    tmp_path: Path,
) -> None:
    house = tmp_path / "house.yaml"
    house.write_text(f"jurisdiction: irc-2021\n{HOUSE}", encoding="utf-8")
    short = CliRunner().invoke(cli, ["check", str(house)]).output
    whole = CliRunner().invoke(cli, ["check", str(house), "--all"]).output
    assert "ceilings.height" not in short
    assert "ceilings.height" in whole
    found = Desk(Run()).review(str(house))
    for heading in ("WHAT THE WORK TAKES", "MET (", "NOT APPLICABLE (", f"NOT CHECKED ({len(found.not_checked)})"):
        assert f"\n{heading}" in whole
        assert f"\n{heading}" not in short
    for line in found.not_checked:
        assert " ".join(line.split()) in " ".join(whole.split())


def test_the_page_of_a_job_with_one_correction_is_short() -> None:
    text = (ROOT / "examples/alder-court/corrected.yaml").read_text(encoding="utf-8")
    raised = text.replace("what: guard, height: 36 in", "what: guard, height: 34 in", 1)
    assert raised != text
    one = review(project_from(read_text(raised, "p.yaml")), code("City of Linden Ford"), plugins())
    assert counts_of(items_of(one))[Group.FIX] == 1
    page = re.sub(r"<style.*?</style>", "", told("html", one), flags=re.S)
    assert len(unescape(re.sub("<[^>]+>", " ", page)).split()) < 6000
