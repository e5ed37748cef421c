"""Editions, adoptions and amendments."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from precheck.files.source import Unusable
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library
from precheck.units import Length, Ratio, Slope
from precheck.units.kinds import PlainNumber

TALLEST = "stairs.riser-height.maximum"
HEAD = "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: Ordinance 1\n"


@pytest.fixture(scope="module")
def built_in() -> Library:
    return Library(load_plugins().rulesets)


def adopt(folder: Path, text: str, place: str = "ash-village", name: str = "Ash Village", on: date | None = None):
    path = folder / "jurisdictions" / place / "2026-01-01.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return Library((folder, *load_plugins().rulesets)).adopt(name, on)


def refused(folder: Path, text: str, **options) -> str:
    with pytest.raises(Unusable) as error:
        adopt(folder, text, **options)
    return str(error.value)


@pytest.mark.parametrize(
    ("name", "on", "value", "acts"),
    [
        ("irc-2021", date(2026, 3, 2), "7 3/4 in", ["set", "unchanged"]),
        ("Tamarack County", date(2025, 12, 31), "7 3/4 in", ["set", "unchanged"]),
        ("Tamarack County", date(2026, 1, 1), "8 1/4 in", ["set", "unchanged", "amended"]),
        ("tamarack-county", None, "8 1/4 in", ["set", "unchanged", "amended"]),
        ("City of Linden Ford", date(2026, 3, 2), "8 in", ["set", "unchanged", "amended", "amended"]),
    ],
)
def test_the_date_of_application_picks_the_value_in_effect(built_in, name, on, value, acts):
    limit = built_in.adopt(name, on).limits[TALLEST]
    assert limit.value == Length.parse(value)
    assert [event.act for event in limit.history] == acts


def test_every_event_says_where_it_is_written(built_in):
    limit = built_in.adopt("City of Linden Ford", date(2026, 3, 2)).limits[TALLEST]
    files = [event.place.file.split("rulesets/")[-1] for event in limit.history]
    assert files == ["codes/irc/stairs.yaml", "codes/irc/stairs.yaml", "jurisdictions/tamarack-county/2025-07-01.yaml",
                     "jurisdictions/city-of-linden-ford/2026-02-01.yaml"]  # fmt: skip
    assert all(event.place.line > 1 for event in limit.history)


def test_a_deleted_limit_stays_in_the_table_void_and_an_added_one_is_there(built_in):
    code = built_in.adopt("Tamarack County")
    assert code.limits["separation.door-closing.self-latching"].value is None
    assert "Ordinance 2025-09" in (code.limits["separation.door-closing.self-latching"].why_void or "")
    assert code.limits["stairs.storage-loft.load-sign"].history[0].act == "added"


def test_a_design_criterion_is_set_by_the_jurisdiction(built_in):
    assert built_in.adopt("Tamarack County").limits["criteria.frost-depth"].value == Length.parse("36 in")
    assert built_in.adopt("irc-2021").limits["criteria.frost-depth"].value != Length.parse("36 in")


def test_before_the_first_adoption_there_is_no_code(built_in):
    with pytest.raises(Unusable, match="has no adoption in force on 2024-01-01; its first is of 2025-07-01"):
        built_in.adopt("Tamarack County", date(2024, 1, 1))


def test_the_later_of_two_adoptions_counts_from_its_date_on(tmp_path: Path):
    adopt(tmp_path, HEAD)
    later = tmp_path / "jurisdictions" / "ash-village" / "2027-01-01.yaml"
    later.write_text(HEAD.replace("irc-2021", "irc-2024").replace("2026-01-01", "2027-01-01"), encoding="utf-8")
    library = Library((tmp_path, *load_plugins().rulesets))
    assert library.adopt("Ash Village", date(2026, 12, 31)).edition == "irc-2021"
    assert library.adopt("Ash Village", date(2027, 1, 1)).edition == "irc-2024"


@pytest.mark.parametrize(
    ("amendment", "line", "says"),
    [
        (
            "amend: stairs.riser-hight.maximum\n    was: 7 3/4 in\n    to: 8 in",
            6,
            "did you mean `stairs.riser-height.maximum`?",
        ),
        (
            f"amend: {TALLEST}\n    was: 7 1/2 in\n    to: 8 in",
            7,
            "`was: 7 1/2 in` does not match: the value in effect is 7 3/4 in",
        ),
        (f"amend: {TALLEST}\n    to: 8 in", 6, "`was` is not given; write `was: 7 3/4 in`"),
        (f"amend: {TALLEST}\n    was: 7 3/4 in", 6, "`to` is not given"),
        (f"amend: {TALLEST}\n    was: 7 3/4 in\n    to: 8 sq ft", 8, "`8 sq ft` cannot replace `7 3/4 in`"),
        (f"amend: {TALLEST}\n    was: 7 3/4 in\n    to: 8 inn", 8, "`8 inn` is not a measure that is known here"),
        (f"amend: {TALLEST}\n    delete: {TALLEST}", 6, "an amendment does one thing"),
        ("delete: stairs.nothing", 6, "`stairs.nothing` is not in the code that is adopted"),
        (f"add: {TALLEST}\n    value: 8 in\n    measures: x", 6, "is in the adopted code already; amend it"),
        ("add: stairs.extra.thing", 6, "lacks its `value` or what it `measures`"),
        (f"amned: {TALLEST}", 6, "`amned` is not a key of an amendment; did you mean `amend`?"),
    ],
)
def test_a_wrong_amendment_is_refused_at_its_line(tmp_path: Path, amendment, line, says):
    told = refused(tmp_path, f"{HEAD}amendments:\n  - {amendment}\n    by: Ordinance 2\n")
    assert says in told
    assert f"2026-01-01.yaml:{line}:" in told


def test_a_value_may_be_written_otherwise_in_was_and_two_amendments_may_follow_each_other(tmp_path: Path):
    text = HEAD + (
        f"amendments:\n  - {{amend: {TALLEST}, was: 7.75 in, to: 8 in, by: O2}}\n"
        f"  - {{amend: {TALLEST}, was: 8 in, to: 8 1/4 in, by: O3}}\n"
    )
    assert adopt(tmp_path, text).limits[TALLEST].value == Length.parse("8.25 in")


@pytest.mark.parametrize(("was", "to"), [("1/150", "1/200"), ("150", "200"), ("1/150", "0.5 %")])
def test_a_part_may_be_amended_as_it_is_written_or_by_the_number_that_rulesets_of_before_gave(tmp_path, was, to):
    name = "attic-ventilation.net-free-area.share"
    found = adopt(tmp_path, f"{HEAD}amendments:\n  - {{amend: {name}, was: {was}, to: {to}, by: O2}}\n").limits[name]
    assert found.value == Ratio.parse("1/200") or found.value == Slope.parse("0.5 %")


@pytest.mark.parametrize(("was", "to"), [("L/360", "L/480"), ("360", "480"), ("L/360", "480")])
def test_a_deflection_is_amended_as_the_trade_writes_it_or_by_its_number(tmp_path, was, to):
    name = "framing.deflection.floor"
    found = adopt(tmp_path, f"{HEAD}amendments:\n  - {{amend: {name}, was: {was}, to: {to}, by: O2}}\n").limits[name]
    assert (found.value, str(found.value)) == (480, "L/480")


def test_a_share_and_a_factor_replace_each_other(tmp_path: Path):
    name = "retaining.design.safety"
    found = adopt(tmp_path, f"{HEAD}amendments:\n  - {{amend: {name}, was: 150 %, to: 2.0, by: O2}}\n").limits[name]
    assert found.value == PlainNumber.parse("2")


def test_all_wrong_amendments_are_told_in_one_run(tmp_path: Path):
    told = refused(tmp_path, HEAD + "amendments:\n  - {delete: a.b, by: O}\n  - {delete: c.d, by: O}\n")
    assert len(told.splitlines()) == 2


def test_a_misspelt_parent_and_a_circle_are_refused(tmp_path: Path):
    assert "did you mean `irc-2021`?" in refused(tmp_path, HEAD.replace("irc-2021", "irc-2O21"))
    told = refused(tmp_path, HEAD.replace("irc-2021", "Ash Village"))
    assert "the adoptions go in a circle: Ash Village adopts Ash Village" in told


def test_an_unknown_design_criterion_is_refused(tmp_path: Path):
    told = refused(tmp_path, HEAD + "design criteria: {frost deph: 36 in}\n")
    assert "did you mean `frost depth`?" in told


def test_an_adoption_can_be_given_as_a_file(tmp_path: Path):
    path = tmp_path / "ours.yaml"
    path.write_text(HEAD, encoding="utf-8")
    assert Library(load_plugins().rulesets).adopt(str(path)).name == "Ash Village"


def test_a_broken_topic_file_tells_all_its_problems(tmp_path: Path):
    path = tmp_path / "editions" / "mine" / "stairs.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(
        "edition: mine\ntopic: stairs\nlimits:\n  stairs.a:\n    x: {value: 7 inn, means: m, basis: read}\n"
        "    y: {valu: 7 in, means: m}\n    z: 7 in\n  stairs.b: 3\n",
        encoding="utf-8",
    )
    with pytest.raises(Unusable) as error:
        Library((tmp_path,)).adopt("mine")
    told = str(error.value)
    assert "`7 inn` is not a measure" in told
    assert "`stairs.a.z` is no mapping" in told
    assert "`stairs.b` holds no limits" in told


@pytest.mark.parametrize(
    ("folder", "named"),
    [
        (".venv/lib/python3.11/site-packages/precheck_rulesets", "rulesets"),
        ("our-plugin/rulesets", "our-plugin/rulesets"),
    ],
)
def test_a_ruleset_of_an_installed_package_is_called_by_its_own_path(tmp_path, monkeypatch, folder, named):
    topic = tmp_path / folder / "editions/irc-2021/demo.yaml"
    topic.parent.mkdir(parents=True)
    limit = "demo.height: {tallest: {value: 3 ft, section: R1, means: height}}"
    topic.write_text(f"edition: irc-2021\ntopic: demo\nlimits:\n  {limit}\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    code = Library([tmp_path / folder]).adopt("irc-2021")
    files = {event.place.file for limit in code.limits.values() for event in limit.history}
    assert files == {f"{named}/editions/irc-2021/demo.yaml"}


def test_each_line_of_what_is_not_checked_knows_its_topic_through_an_adoption(built_in):
    code = built_in.adopt("City of Linden Ford")
    assert len(code.not_checked) > 100
    found = [line.topic for line in code.not_checked if line.what.startswith("fire alarm systems instead")]
    assert found == ["alarms"]
