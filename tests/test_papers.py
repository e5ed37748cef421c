"""The papers: numbers agree with the report, the letter refuses what is unanswered, the lists hold this project's values."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from precheck.checks import Outcome
from precheck.checks.evidence import evidence_of
from precheck.cli import cli
from precheck.files.record import read_record
from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.reports import FORMATS, renderer
from precheck.reports.papers import corrections, field, inspections, notes, response
from precheck.reports.worklist import items_of
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.runs.desk import Desk, Run
from precheck.testing import code, plugins

MILL_LANE = (Path(__file__).parent / "data" / "mill-lane.yaml").read_text(encoding="utf-8")
EXAMPLES = Path(__file__).parents[1] / "examples" / "alder-court"
TOPICS = ["stairs", "escape"]
SILL = ("sill height: 45 in", "sill height: 40 in")


def reviewed(*edits: tuple[str, str], topics: list[str] = TOPICS, name: str = "p.yaml") -> Review:
    text = MILL_LANE
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    return review(project_from(read_text(text, name)), code("irc-2021"), plugins(), topics)


def test_the_correction_list_is_by_sheet_and_keeps_the_numbers_of_the_report() -> None:
    found = reviewed()
    paper = corrections.render(found)
    first, second = paper.index("## Sheet A1, Plans"), paper.index("## Sheet A2, Sections")
    sill = next(i for i in items_of(found) if i.findings[0].rule.name == "escape.sill")
    riser = next(i for i in items_of(found) if i.findings[0].rule.name == "stairs.riser-height")
    assert first < paper.index(f"- **{sill.number}.** **window W1**: Sill height") < second
    assert paper.index(f"- **{riser.number}.** **flight 1 of stair S1**") > second
    assert len(re.findall(r"^- \*\*\d+\.\*\*", paper, re.MULTILINE)) == len(items_of(found))


@pytest.mark.parametrize("form", [form for form in FORMATS if form not in ("text", "pdf")])
def test_every_format_tells_a_comparison_in_the_same_sentence(form: str) -> None:
    found = reviewed()
    sentence = "Sill height: 45 in, 44 in maximum (1 in too high)"
    assert sentence in " ".join(renderer("text")(found).split())
    assert sentence in renderer(form)([found])
    assert sentence in corrections.render(found)


def test_a_correction_states_value_limit_section_and_remedy() -> None:
    line = next(line for line in corrections.render(reviewed()).splitlines() if "45 in" in line)
    for wanted in ("45 in, 44 in maximum (1 in too high)", "R310.2.3", "Revise: lower the sill by 1 in"):
        assert wanted in line


def test_a_part_without_a_sheet_is_listed_as_such() -> None:
    paper = corrections.render(reviewed(("    sheets: [A2]\n", "")))
    assert paper.index("## No sheet named") < paper.index("**flight 1 of stair S1**")


def test_a_project_that_is_ready_has_no_corrections() -> None:
    paper = corrections.render(review(project_from(read_text("project: x", "p")), code("irc-2021"), plugins(), TOPICS))
    assert "Nothing to fix or add." in paper


def answered(old: Review, **changes: dict[str, str]) -> str:
    lines = ["answers:"]
    for item in response.comments_of(old):
        given = {"changed": "Revised as asked", "sheet": "A1", **changes.get(f"c{item.number}", {})}
        lines.append(f"  - comment: {item.number}")
        lines += [f"    {key}: {value}" for key, value in given.items() if value]
    return "\n".join(lines) + "\n"


def read(text: str, tmp_path: Path) -> response.Answers:
    (tmp_path / "answers.yaml").write_text(text, encoding="utf-8")
    return response.read_answers(tmp_path / "answers.yaml")


@pytest.fixture
def old() -> Review:
    return reviewed(topics=["escape"])


def number_of(review: Review, rule: str) -> int:
    return next(i.number for i in response.comments_of(review) if any(f.rule.name == rule for f in i.findings))


@pytest.fixture
def new() -> Review:
    edits = (
        SILL,
        ("19 in x 44 in", "24 in x 44 in"),
        ("opens to: yard", "sill above grade: 40 in\n    path width: 4 ft\n    opens to: yard"),
    )
    return reviewed(*edits, topics=["escape"])


def test_the_letter_answers_every_comment_with_change_sheet_and_cloud(old: Review, new: Review, tmp_path: Path) -> None:
    sill = number_of(old, "escape.sill")
    answers = answered(old, **{f"c{sill}": {"changed": "Sill lowered to 40 in", "sheet": "A1", "cloud": "2"}})
    letter = response.render(old, new, read(answers, tmp_path))
    assert letter.count("## Comment ") == len(response.comments_of(old)) > 1
    part = letter[letter.index(f"## Comment {sill}\n") :].split("\n## ")[0]
    for wanted in ("45 in, 44 in maximum", "What changed: Sill lowered to 40 in", "Sheet: A1, cloud 2"):
        assert wanted in part


@pytest.mark.parametrize(
    ("changes", "told"), [({"changed": "", "sheet": ""}, "is not answered"), ({"sheet": ""}, "names no sheet")]
)
def test_the_letter_refuses_a_comment_that_is_not_answered(
    old: Review, new: Review, tmp_path: Path, changes: dict[str, str], told: str
) -> None:
    sill = number_of(old, "escape.sill")
    with pytest.raises(Unusable, match=rf"comment {sill} \(window W1\) {told}"):
        response.render(old, new, read(answered(old, **{f"c{sill}": changes}), tmp_path))


def test_the_letter_refuses_a_comment_that_is_left_out_one_that_is_not_there_and_one_answered_twice(
    old: Review, new: Review, tmp_path: Path
) -> None:
    first = response.comments_of(old)[0].number
    text = answered(old).replace(f"comment: {first}\n", "comment: 99\n", 1)
    text += "  - comment: 99\n    changed: again\n    sheet: A1\n"
    with pytest.raises(Unusable) as refused:
        response.render(old, new, read(text, tmp_path))
    told = str(refused.value)
    assert f"comment {first} (" in told
    assert "there is no comment 99" in told
    assert "comment 99 is answered twice, first in line 2" in told
    assert all("answers.yaml:" in line for line in told.splitlines())


def test_a_comment_that_still_stands_is_refused_unless_something_is_requested(
    old: Review, new: Review, tmp_path: Path
) -> None:
    sill = number_of(old, "escape.sill")
    with pytest.raises(
        Unusable, match=rf"comment {sill} \(window W1\) still stands in the new revision \(escape.sill\)"
    ):
        response.render(old, old, read(answered(old), tmp_path))
    requests = {
        f"c{i.number}": {"changed": "", "sheet": "", "request": "A ruling, please"} for i in response.comments_of(old)
    }
    assert "Request: A ruling, please" in response.render(old, old, read(answered(old, **requests), tmp_path))


def test_the_blank_answers_file_can_be_read_and_is_refused_as_it_is(old: Review, new: Review, tmp_path: Path) -> None:
    answers = read(response.blank(old), tmp_path)
    assert [a.comment for a in answers.answers] == [i.number for i in response.comments_of(old)]
    with pytest.raises(Unusable, match="is not answered"):
        response.render(old, new, answers)


def test_the_field_sheet_asks_of_what_stands_and_not_of_what_is_new() -> None:
    text = """
project: p
spaces: [{id: k, phase: existing, use: bedroom}, {id: n, phase: new, use: bedroom}]
windows:
  - {id: E, phase: altered, space: k, operation: casement}
  - {id: N, phase: new, space: n, operation: casement}
"""
    found = review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins(), ["escape"])
    paper = field.render(found)
    assert "- [ ] net clear opening: ____________ (width x height, such as 24 in x 36 in). Why: " in paper or (
        "- [ ] sill height: " in paper
    )
    assert "window N" not in paper
    assert "Photograph window E" in paper


def test_the_field_sheet_lists_what_a_converted_garage_always_needs() -> None:
    assert "header over the vehicle opening" in field.render(reviewed())
    assert "header over the vehicle opening" not in field.render(reviewed(("    was: garage\n", "")))


def test_the_field_sheet_measures_a_garage_once_however_many_rooms_it_becomes() -> None:
    text = """
project: p
spaces:
  - {id: a, phase: altered, use: office, was: garage}
  - {id: b, phase: altered, use: bathroom, was: garage}
"""
    paper = field.render(review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins(), ["escape"]))
    assert paper.count("header over the vehicle opening") == 1
    assert "## garage: space a, space b\n" in paper


def test_the_field_sheet_asks_nothing_of_a_carport_that_is_not_there_yet() -> None:
    carport = "spaces: [{id: c, name: New carport, phase: %s, use: carport}]\nproject: p\n"
    for phase, asked in (("new", False), ("altered", True)):
        found = review(project_from(read_text(carport % phase, "p.yaml")), code("irc-2021"), plugins(), ["escape"])
        assert ("posts: size, spacing, bases" in field.render(found)) is asked


def test_the_field_sheet_has_close_existing_values_confirmed() -> None:
    paper = field.render(reviewed(("  - id: W1\n    phase: new", "  - id: W1\n    phase: existing")))
    assert "- [ ] Confirm on site: sill height: 45 in as stated, 44 in maximum" in paper


def test_the_inspection_list_is_in_order_of_the_stages_and_holds_limits_and_drawn_values() -> None:
    found = reviewed(topics=["stairs", "escape", "doors", "separation"])
    paper = inspections.render(found)
    stages = re.findall(r"^## (\w+) inspection", paper, re.MULTILINE)
    order = [stage.capitalize() for stage in inspections.ON_SITE]
    assert stages == sorted(stages, key=order.index)
    assert "44 in maximum; drawn: 45 in (1 in too high). FIX THIS FIRST" in paper
    assert not [line for line in paper.splitlines() if "window W2" in line]


LOT_LINE = """
project: p
dwelling: {sprinklered: no}
spaces: [{id: a, phase: new, use: living room}]
lot lines: [{id: L, side: side}]
setbacks: [{id: B, phase: new, of: a, line: L, distance: DISTANCE, overhang: 0 in, wall rating: 1 h, rated from both sides: yes}]
"""


def test_the_inspection_list_holds_the_rating_of_a_wall_and_no_distance_that_the_drawings_settle() -> None:
    def listed(text: str) -> str:
        return inspections.render(
            review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins(), ["fire-separation"])
        )

    far, near = LOT_LINE.replace("DISTANCE", "12 ft"), LOT_LINE.replace("DISTANCE", "4 ft")
    assert "drawn: 12'-0\"" not in listed(far)
    assert "drawn: 4'-0\"" not in listed(near)
    assert "60 min minimum; drawn: 1 h" in listed(near)
    unrated = near.replace("wall rating: 1 h", "wall rating: 30 min")
    assert "5 ft minimum; drawn: 4'-0\" (12 in too close). FIX THIS FIRST" in listed(unrated)


def test_the_inspection_list_names_no_wind_speed() -> None:
    found = Desk(Run(topics=("bracing",))).review(str(EXAMPLES / "corrected.yaml"))
    assert any(f.rule.name == "bracing.panel-nails" and "mph" in str(evidence_of(f.check)) for f in found.findings)
    assert "mph" not in inspections.render(found)


def test_the_inspection_list_says_of_a_thing_that_is_not_there_that_it_is_to_be_corrected() -> None:
    text = """
project: p
spaces: [{id: a, phase: new, use: living room}]
doors: [{id: D, phase: new, between: [a, outside], operation: side-hinged, glazed: yes, safety glazing: no}]
"""
    found = review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins(), ["glazing"])
    assert "door D: Safety glazing in the door: required; drawn: none. FIX THIS FIRST" in inspections.render(found)


def test_a_comment_on_one_part_is_met_though_another_part_still_lacks_what_the_same_check_needs() -> None:
    old = reviewed(topics=["light-and-air"])
    new = reviewed(("    construction: glass\n", "    construction: glass\n    glazed area: 12 sq ft\n    openable area: 6 sq ft\n"),
                   topics=["light-and-air"])  # fmt: skip
    comments = {item.label: item for item in response.comments_of(old)}
    still = {item.label for item in response.comments_of(new) if item.outcome is Outcome.NOT_SHOWN}
    assert {"door D1", "window W1"} <= set(comments)
    assert "door D1" not in still
    assert "window W1" in still
    answers = "answers:\n" + "".join(
        f"  - {{comment: {item.number}, {'changed: shown now, sheet: A1' if label == 'door D1' else 'request: see letter'}}}\n"
        for label, item in comments.items()
    )
    letter = response.render(old, new, read_record(response.Answers, read_text(answers, "a.yaml")))
    assert "What changed: shown now" in letter


FLOOD = """
project: p
lot: {flood hazard area: yes}
stories: [{id: ground, level: ground}]
spaces:
  - {id: den, phase: new, use: family room, story: ground}
  - {id: bed, phase: new, use: office, story: ground}
"""


def test_what_several_parts_wait_for_is_one_line_of_the_inspection_list() -> None:
    paper = inspections.render(review(project_from(read_text(FLOOD, "p.yaml")), code("irc-2021"), plugins(), ["flood"]))
    lines = [line for line in paper.splitlines() if "design flood level of lot" in line]
    assert len(lines) == 1
    assert lines[0].startswith("- [ ] design flood level of lot")


def test_values_of_one_part_for_one_limit_are_one_line_of_the_inspection_list() -> None:
    found = reviewed(topics=["stairs"])
    lines = [
        re.sub(r"; drawn.*", "", line) for line in inspections.render(found).splitlines() if line.startswith("- [ ]")
    ]
    assert len(set(lines)) == len(lines)


def test_every_paper_ends_with_the_reminder_and_makes_names_plain() -> None:
    name = "*a* <b> [c](d) `e` | # f"
    found = reviewed(("name: New bedroom", f'name: "{name}"'), ("14 Mill Lane, garage to bedroom", f'"{name}"'))
    for paper in (corrections, field, inspections):
        text = paper.render(found)
        assert "The local building department has the final say" in text
        assert r"\*a\* \<b\> \[c\](d) \`e\` \| \# f" in text


def papers(*arguments: str) -> Result:
    return CliRunner().invoke(cli, ["papers", *arguments])


def test_the_commands_write_the_papers(tmp_path: Path) -> None:
    project, paper = tmp_path / "p.yaml", tmp_path / "out.md"
    project.write_text(MILL_LANE, encoding="utf-8")
    for name, title in (
        ("corrections", "Correction list"),
        ("field-verify", "Field verify"),
        ("inspections", "Inspection list"),
    ):
        result = papers(name, str(project), "--output", str(paper))
        assert result.exit_code == 0, result.output
        assert paper.read_text(encoding="utf-8").startswith(f"# {title}")
    assert papers("response", str(project), str(project)).exit_code == 2
    assert papers("response", str(project), str(project), "--blank").output.startswith("# What each comment")


def test_items_of_the_letter_are_corrections_and_what_is_not_shown(old: Review) -> None:
    assert {i.outcome for i in response.comments_of(old)} == {Outcome.FAIL, Outcome.NOT_SHOWN}


def test_notes_to_copy_name_what_the_work_takes_and_nothing_that_stands() -> None:
    text = """\
project: P
jurisdiction: irc-2021
applied on: 2026-03-02
spaces:
  - {id: old, phase: existing, use: bedroom}
  - {id: den, phase: altered, use: bedroom, was: garage}
"""
    paper = notes.render(review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins()))
    assert "Each bedroom has a smoke alarm of its own." in paper
    assert "space den" in paper
    assert "space old" not in paper
    assert "(R314.3" in paper
