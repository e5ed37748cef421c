"""The page: one self-contained file that says everything, links both ways, draws to scale and lets no name break it."""

import re
import subprocess
import sys
from collections import Counter
from html import unescape
from html.parser import HTMLParser
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from precheck.checks import Outcome
from precheck.files.source import read_text
from precheck.project import Project, project_from, read_project
from precheck.reports.drawings import STYLE, Drawing, Source, all_drawings
from precheck.reports.groups import Group
from precheck.reports.html import render
from precheck.reports.opening import verdict_line
from precheck.reports.worklist import counts_of, items_of
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.runs.desk import Desk, Run
from precheck.survey import House
from precheck.testing import code, plugins

ALDER_COURT = Path(__file__).parents[1] / "examples" / "alder-court" / "proposed.yaml"
MILL_LANE = Path(__file__).parent / "data" / "mill-lane.yaml"
SCALE = {
    f"Printed at {name} in = 1 ft": 96 * paper / 12
    for name, paper in (  # pixels to the inch of house, at 96 to the inch of paper
        ("1", 1),
        ("3/4", 0.75),
        ("1/2", 0.5),
        ("3/8", 0.375),
        ("1/4", 0.25),
        ("3/16", 0.1875),
        ("1/8", 0.125),
    )
}
VOID = {"meta", "link", "br", "path", "circle"}
HOSTILE = [
    '"><script>alert(1)</script>',
    "</title></style><b>'\"&",
    "Über ドア باب дверь",
    "x" * 10_000,
    "]]> --> {{ 7*7 }} `a`",
]


class _Outline(HTMLParser):
    """Collects what the tests ask of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.headings: list[int] = []
        self.tags: list[str] = []
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.ids += [found["id"] or ""] if "id" in found else []
        self.links += [v or "" for k, v in attrs if k in ("href", "src")]
        self.headings += [int(tag[1])] if re.fullmatch("h[1-6]", tag) else []
        self.tags.append(tag)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, _: object) -> None:
        self.tags.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def reviewed(project: Project, ruleset: str = "irc-2021") -> Review:
    return review(project, code(ruleset), plugins())


@pytest.fixture(scope="module")
def mill_lane() -> Review:
    return reviewed(read_project(MILL_LANE))


@pytest.fixture(scope="module")
def page(mill_lane: Review) -> str:
    return render([mill_lane])


def drawing(found: Review, title: str) -> Drawing:
    return next(d for d in all_drawings(Source(House(found.project), items_of(found))) if d.title == title)


def test_the_page_is_well_formed_and_every_link_leads_somewhere_on_it(page: str) -> None:
    outline = _Outline(page)
    assert not outline.open
    assert len(set(outline.ids)) == len(outline.ids)
    assert {link.removeprefix("#") for link in outline.links} <= set(outline.ids)
    assert all(link.startswith("#") for link in outline.links)


def test_the_page_asks_the_network_for_nothing(page: str) -> None:
    without_names = page.replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.findall(r"url\(|@import|<(?:script|link|img|iframe)\b", without_names)


def test_headings_begin_with_one_of_the_first_rank_and_skip_no_rank(page: str) -> None:
    headings = _Outline(page).headings
    assert headings.count(1) == 1
    assert headings[0] == 1
    assert all(later <= earlier + 1 for earlier, later in pairwise(headings))


def test_an_item_states_value_limit_margin_remedy_and_where_the_limit_stands(page: str) -> None:
    item = next(a for a in re.findall(r"<article.*?</article>", page, re.S) if "Sill height" in a)
    for wanted in (
        "45 in",
        '<b class="one">44 in maximum</b>',
        "1 in too high",
        "lower the sill by 1 in",
        "irc/escape.yaml:",
    ):
        assert wanted in item
    assert re.search(r'<b>Limit from:</b> <span class="place">2021 R310.2.3, \S*irc/escape.yaml:\d+</span>', item)


def test_the_page_leads_with_the_works_the_plan_and_the_ten_things_to_do_first(mill_lane: Review, page: str) -> None:
    every = len(items_of(mill_lane))
    todo = page[page.index(f">What to do first (10 of {every})</h2>") : page.index("<article")]
    assert re.findall(r'<li class="[a-z-]+"><a href="#(item-\d+)"', todo) == [f"item-{n}" for n in range(1, 11)]
    works, plan = page.index(">The work, as read from the file<"), page.index("<figcaption><h3")
    assert works < plan < page.index(">What to do first (")
    assert "Plan, story ground" in page[plan : plan + 80]


def test_every_item_on_a_drawn_part_leads_to_it_and_the_part_leads_back(mill_lane: Review, page: str) -> None:
    for number in (i.number for i in items_of(mill_lane) if i.part is not None and i.part.id == "W1"):
        article = re.search(rf'<article class="[^"]*" id="item-{number}".*?</article>', page, re.S)
        assert article
        targets = re.findall(r'href="#((?:plan|elevation)[^"]+)"', article[0])
        assert len(targets) == 2
        assert all(re.search(rf'<g id="{target}" class="part', page) for target in targets)
        assert len(re.findall(rf'<a class="badge [^"]*" href="#item-{number}"', page)) == 2


def test_where_things_to_look_at_count_as_corrections_they_are_to_do_as_well(mill_lane: Review) -> None:
    page = render([review(mill_lane.project, mill_lane.code, plugins(), strict=True)])
    assert "Not ready to submit" in page
    looks = [item for item in items_of(mill_lane) if item.outcome is Outcome.WARN]
    assert looks
    assert all(f'id="item-{item.number}"' in page for item in looks)


def test_the_counts_agree_with_the_review(mill_lane: Review, page: str) -> None:
    counted = counts_of(items_of(mill_lane))[Group.FIX]
    assert f'<li class="fail">{counted} items to fix</li>' in page
    assert counted > 1


def test_what_was_not_checked_and_the_reminder_are_on_the_page(mill_lane: Review, page: str) -> None:
    assert "The local building department has the final say" in page
    assert page.count("<h2") >= 5
    for line in mill_lane.code.not_checked[:3]:
        assert line.what.split("`")[0] in page


def test_a_project_without_findings_says_what_that_means() -> None:
    empty = reviewed(project_from(read_text("project: Nothing here", "p.yaml")))
    text = render([review(empty.project, empty.code, plugins(), topics=["stairs"])])
    assert "Nothing to fix or add" in text
    assert "There is nothing to draw" in text


def test_several_projects_share_a_page_without_sharing_ids(mill_lane: Review) -> None:
    outline = _Outline(render([mill_lane, mill_lane]))
    assert len(set(outline.ids)) == len(outline.ids)
    assert {link.removeprefix("#") for link in outline.links} <= set(outline.ids)


def test_the_same_review_gives_the_same_bytes(mill_lane: Review, page: str) -> None:
    assert render([mill_lane]) == page


@pytest.mark.parametrize("name", HOSTILE)
def test_names_appear_as_text_and_break_nothing(name: str) -> None:
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    text = MILL_LANE.read_text(encoding="utf-8")
    for known in ("New bedroom", "14 Mill Lane, garage to bedroom", "Plans", "Make the attached garage a bedroom"):
        text = text.replace(known, f"@{known}@")
    text = re.sub(r"(name|title|project): @[^@]*@", lambda m: f'{m[1]}: "{quoted}"', text).replace("@", "")
    text = text.replace("W1", f'"{quoted}"')
    page = render([reviewed(project_from(read_text(text, "p.yaml")))])
    outline = _Outline(page)
    assert not outline.open
    assert "script" not in outline.tags
    assert {link.removeprefix("#") for link in outline.links} <= set(outline.ids)
    assert "49" not in re.sub(r"[^{}]*", "", page)
    plain = "".join(re.findall(r"<span class=\"clamp\">([^<]*)", page))
    assert f"window {name}" in unescape(plain)


def test_a_control_character_in_a_name_reaches_no_drawing() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace("name: New bedroom", r'name: "a\u0001b"')
    plan = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Plan, story ground")
    assert "\x01" not in plan.svg()
    assert "a\N{REPLACEMENT CHARACTER}b" in plan.svg()


def box_of(svg: str, kind: str) -> tuple[float, float]:
    data = re.search(rf'<path class="{kind}" d="([^"]+)"', svg)
    assert data
    numbers = [float(n) for n in re.findall(r"-?\d+\.\d+", data[1])]
    return max(numbers[::2]) - min(numbers[::2]), max(numbers[1::2]) - min(numbers[1::2])


def test_rooms_are_drawn_to_the_scale_that_the_plan_names(mill_lane: Review) -> None:
    plan = drawing(mill_lane, "Plan, story ground")
    pixels = SCALE[plan.scale]
    assert box_of(plan.svg(), "room") == pytest.approx((20 * 12 * pixels, 14 * 12 * pixels))


def test_a_stair_section_has_its_rise_and_run_to_scale(mill_lane: Review) -> None:
    section = drawing(mill_lane, "Section, stair S1")
    pixels = SCALE[section.scale]
    steps = re.findall(r'<path class="line heavy" d="([^"]+)"', section.svg())[1]
    numbers = [float(n) for n in re.findall(r"-?\d+\.\d+", steps)]
    assert numbers[0::2][-1] - numbers[0] == pytest.approx(12 * 9.5 * pixels, abs=0.02)
    assert numbers[1] - numbers[1::2][-1] == pytest.approx(106.75 * pixels, abs=0.02)
    assert len(numbers) // 2 == 1 + 13 + 12


def test_a_window_elevation_shows_the_clear_opening_at_its_height(mill_lane: Review) -> None:
    elevation = drawing(mill_lane, "Elevation from inside, window W1")
    pixels = SCALE[elevation.scale]
    assert box_of(elevation.svg(), "clear") == pytest.approx((19 * pixels, 44 * pixels))
    assert "sill 45 in" in elevation.svg()


def test_a_fixed_window_is_not_asked_for_a_clear_opening() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace("    operation: casement\n", "    operation: fixed\n", 1)
    text = text.replace("    net clear opening: 19 in x 44 in\n", "", 1).replace(
        "sill height: 45 in", "sill height: 12 in", 1
    )
    assert "operation: fixed" in text
    elevation = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Elevation from inside, window W1")
    assert "net clear opening none" in elevation.description
    assert [note for note in elevation.notes if "clear opening" in note] == []


def test_a_door_section_steps_down_as_far_as_the_levels_say_and_names_the_layers(mill_lane: Review) -> None:
    section = drawing(mill_lane, "Section, door D1")
    assert "step 10 7/8 in" in section.svg()
    for layer in ("3/8 in oak", "3/4 in plywood", "3/4 in sleepers", "slab"):
        assert layer in section.svg()


def test_a_drawing_that_lacks_geometry_says_what_to_add_and_where(mill_lane: Review, page: str) -> None:
    lacking = drawing(mill_lane, "Plan, story loft-level")
    assert not lacking.body
    assert lacking.to_add == (
        f"`rectangle` or `outline` of space loft (line {mill_lane.project.by_id['loft'].place.line})",
    )
    assert "To get more drawings" in page


def test_an_opening_that_is_not_placed_is_named_beneath_the_plan() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace("    middle: [0 ft, 7 ft]\n", "")
    plan = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Plan, story ground")
    assert any("want of `middle: [x, y]`: window W1 (marks " in note for note in plan.notes)


def test_a_member_is_drawn_with_its_true_depth_on_its_bearings_under_its_load(mill_lane: Review) -> None:
    member = drawing(mill_lane, "Floor joist from the side, member J1")
    pixels = SCALE[member.scale]
    assert box_of(member.svg(), "unit") == pytest.approx(
        ((13 * 12 + 7) * pixels, 5.5 * pixels)
    )  # a 2x6 is 5 1/2 in deep
    assert "attic with limited storage, live 20 psf, dead 10 psf" in member.svg()
    assert member.svg().count("on bearing wall") == 2


def test_vents_are_balanced_as_bars_whose_lengths_are_their_areas(mill_lane: Review) -> None:
    balance = drawing(mill_lane, "Balance of the vents, attic AT1")
    bars = re.findall(r'<path class="clear" d="M([\d.]+) [-\d.]+ L([\d.]+)', balance.svg())
    high, low, unknown = (float(right) - float(left) for left, right in bars)
    assert (high / low, high / unknown) == pytest.approx((2, 3))
    assert "high 360 sq in, low 180 sq in, height not given 120 sq in; together 660 sq in" in balance.description


def test_vents_without_their_area_are_not_drawn_but_asked_for() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace(", free area per foot: 9 sq in", "")
    balance = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Balance of the vents, attic AT1")
    assert not balance.body
    assert balance.to_add[0].startswith("`free area` (or what it comes of) of vent 2 of attic AT1")


def test_a_house_too_wide_for_the_sheet_lies_on_its_side_at_a_larger_scale() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace(
        "[34 ft, 0 ft], [34 ft, 22 ft]", "[66 ft, 0 ft], [66 ft, 22 ft]"
    )
    plan = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Plan, story ground")
    assert plan.wide
    assert 7.0 < plan.frame[2] / 96 <= 9.5


def test_a_room_too_small_for_its_name_gets_a_tag_that_is_told_beneath() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace(
        "name: Hall", "name: The long hall between the rooms at the back"
    )
    plan = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Plan, story ground")
    assert ">A</text>" in plan.svg()
    [told] = [note for note in plan.notes if note.startswith("A is The long hall between the rooms at the back, ")]
    assert re.search(r""", \d+'-[^x]*" x \d+'-[^x]*", hall""", told)


def test_a_plan_shows_room_sizes_plan_north_and_what_is_taken_out_dashed() -> None:
    plan = drawing(Desk(Run()).review(str(ALDER_COURT)), "Plan, story ground").svg()
    assert ">18&#x27;-0&quot; x 14&#x27;-0&quot;</text>" in plan
    assert plan.count(">N</text>") == 1
    assert re.search(r"<title>door D8.*?</title><path class=\"line dashed thin\"", plan)


def test_the_tag_of_a_room_is_never_the_id_of_a_part() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace(
        "name: Hall", "name: The long hall between the rooms at the back"
    )
    text = text.replace("\nspaces:\n", "\nspaces:\n  - {id: a, phase: existing, use: hall, story: ground}\n", 1)
    plan = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Plan, story ground")
    assert any(note.startswith("B is The long hall") for note in plan.notes)


def test_a_large_room_carries_its_long_name_on_two_lines() -> None:
    plan = drawing(Desk(Run()).review(str(ALDER_COURT)), "Plan, story ground")
    assert [f">{line}</text>" in plan.svg() for line in ("Garage, east", "bay")] == [True, True]
    assert [note.partition(",")[0] for note in plan.notes if " is " in note] == ["A is Suite hall", "B is Suite bath"]


def test_no_mark_lies_on_another_however_many_there_are() -> None:
    found = Desk(Run()).review(str(ALDER_COURT))
    for drawn in all_drawings(Source(House(found.project), items_of(found))):
        spots = [tuple(map(float, xy)) for xy in re.findall(r'<g transform="translate\((\S+) (\S+)\)">', drawn.body)]
        for one, other in combinations(spots, 2):
            assert max(abs(a - b) for a, b in zip(one, other, strict=True)) >= 26, drawn.title


def test_the_name_of_a_room_that_goes_round_a_corner_stands_within_it() -> None:
    text = """
project: p
stories: [{id: ground, level: ground}]
spaces:
  - id: el
    name: L
    story: ground
    outline: [[0 ft, 0 ft], [20 ft, 0 ft], [20 ft, 20 ft], [16 ft, 20 ft], [16 ft, 6 ft], [0 ft, 6 ft]]
"""
    plan = drawing(reviewed(project_from(read_text(text, "p.yaml"))), "Plan, story ground")
    spot = re.search(r'<text class="name" x="(\S+)" y="(\S+)"[^>]*>L<', plan.svg())
    assert spot
    pixels = SCALE[plan.scale]
    x, y = float(spot[1]) / pixels / 12, -float(spot[2]) / pixels / 12
    assert 0 < x < 20
    assert 0 < y < 6


def test_what_is_not_shown_stands_at_the_part_that_lacks_it_with_what_waits_for_it(
    mill_lane: Review, page: str
) -> None:
    item = next(i for i in items_of(mill_lane) if i.label == "door D1" and "glazed area" in i.wants)
    assert {w.text_for(item.label) for w in item.wanted} >= {"glazed area", "whether it is safety glazing"}
    article = re.search(rf'<article class="[^"]*" id="item-{item.number}".*?</article>', page, re.S)
    assert article
    assert "<li>glazed area</li>" in article[0]
    waiting = [f for f in mill_lane.findings if f.outcome is Outcome.NOT_SHOWN]
    assert {id(f) for f in waiting} == {
        id(f) for i in items_of(mill_lane) if i.outcome is Outcome.NOT_SHOWN for f in i.findings
    }


def luminance(color: str) -> float:
    full = color if len(color) == 7 else "#" + "".join(c * 2 for c in color[1:])
    parts = [int(full[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("kind", ["fail", "not-shown", "warn"])
def test_numbers_on_the_marks_stand_out_from_their_ground(kind: str) -> None:
    ground = re.search(rf"\.badge\.{kind}[^{{]*\.sign{{fill:(#\w+)", STYLE)
    ink = re.search(rf"\.badge\.{kind}[^{{]*\.number{{fill:(#\w+)", STYLE)
    assert ground
    assert ink
    high, low = sorted((luminance(ground[1]), luminance(ink[1])), reverse=True)
    assert (high + 0.05) / (low + 0.05) >= 4.5


def test_the_text_report_loads_neither_the_page_nor_the_drawings() -> None:
    told = (
        "import sys; from click.testing import CliRunner; from precheck.cli import cli; "
        f"CliRunner().invoke(cli, ['check', {str(MILL_LANE)!r}]); "
        "print([m for m in ('precheck.reports.html', 'precheck.reports.drawings', 'precheck.reports.pdf', 'typst') if m in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


def test_an_accepted_finding_is_listed_with_its_document_and_no_longer_to_do(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text(MILL_LANE.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "accepted.yaml").write_text(
        "accepted:\n  - {rule: escape.sill, part: W1, value: 45 in, document: Variance V-14, by: Building official}\n",
        encoding="utf-8",
    )
    found = Desk(Run()).review(str(tmp_path / "house.yaml"))
    page = render([found])
    accepted = page[page.index(">Accepted <") :]
    assert "Variance V-14, by Building official" in accepted
    assert "escape.sill" not in {item.findings[0].rule.name for item in items_of(found)}


def test_a_run_of_some_topics_is_ready_in_those_alone() -> None:
    project = read_project(MILL_LANE)
    ready = review(project, code("irc-2021"), plugins(), ["address"])
    assert ready.verdict == "ready"
    assert verdict_line(ready).startswith("READY in address only: ")
    assert "Ready in address only" in render([ready])
    assert "Ready to submit" not in render([ready])
    several = review(project, code("irc-2021"), plugins(), ["address", "ramps"])
    assert verdict_line(several).startswith("READY in address and ramps only: ")
    assert verdict_line(review(project, code("irc-2021"), plugins(), ["escape"])).startswith("NOT READY to submit: ")


def test_what_to_ask_and_to_review_is_counted_in_plain_english(mill_lane: Review) -> None:
    groups = Counter(item.group for item in items_of(mill_lane))
    asks, looks = groups[Group.ASK], groups[Group.REVIEW]
    assert asks > 1
    assert looks > 1
    said = " ".join(re.sub("<[^>]+>", "", render([mill_lane])).split())
    assert f"{asks} questions for the building department {looks} items to review" in said
